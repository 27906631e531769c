import type { SectionName } from '../plan/step.ts';

export const BED = { front: 0, back: 1 } as const;

/** Kinds of loop in a grid. Only `castOn` and `knit` are vertices of the fabric. */
export const LOOP = { castOn: 0, knit: 1, wrap: 2, graft: 3, bindOff: 4 } as const;

export const NEEDLE = { empty: 0, working: 1, held: 2 } as const;

export const SECTION = {
  'cast-on': 0, leg: 1, plain: 2, ankle: 3,
  'heel-in': 4, 'heel-level': 5, 'heel-out': 6,
  foot: 7, toe: 8, 'toe-in': 9, 'toe-out': 10, closing: 11,
} as const satisfies Record<SectionName, number>;
