/** How high the foot's arch stands. */
export const ARCH_KINDS = ['low', 'usual', 'high'] as const;
export type ArchKind = (typeof ARCH_KINDS)[number];

/** Outline of the toes taken together: longest in the middle, all alike, or falling off from the great toe. */
export const TOE_OUTLINES = ['pointed', 'square', 'sloping'] as const;
export type ToeOutline = (typeof TOE_OUTLINES)[number];

export const FOOT_SIDES = ['left', 'right'] as const;
export type FootSide = (typeof FOOT_SIDES)[number];
