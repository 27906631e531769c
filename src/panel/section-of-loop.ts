import { SECTION } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { SectionName } from '../plan/step.ts';

const NAMES = Object.keys(SECTION) as SectionName[];

export function sectionOfLoop({ section }: StitchGrid, loop: number): SectionName {
  return NAMES.find((name) => SECTION[name] === section[loop]) ?? 'closing';
}
