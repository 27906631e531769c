import type { SectionName } from '../plan/step.ts';

/** Parts of a sock, as a heading calls them. */
const sections: Readonly<Record<SectionName, string>> = {
  'cast-on': 'Cast-on', leg: 'Leg', plain: 'Plain rows', ankle: 'Ankle', 'heel-in': 'Heel, turning down', 'heel-level': 'Heel, level',
  'heel-out': 'Heel, turning out', foot: 'Foot', toe: 'Toe', 'toe-in': 'Toe, turning down', 'toe-out': 'Toe, turning out', closing: 'Closing',
};

/** What is done at the machine, pass by pass. */
export const PASSES_EN = {
  sections,
  bed: { front: 'front bed', back: 'back bed' },
  side: { left: 'left', right: 'right' },
  passOf: (pass: number, passes: number) => `pass ${pass} of ${passes}`,
  castOn: 'Cast on',
  closing: 'Close the toe',
  crossing: (from: string, to: string, bed: string, stitches: number) => `Carriage from ${from} to ${to}: the ${bed} knits ${stitches}`,
  bothBeds: 'both beds',
};
