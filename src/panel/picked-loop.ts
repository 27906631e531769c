import type { StitchGrid } from '../machine/grid.ts';
import type { PageState, Picked } from './page-state.ts';

/** A loop as a picked one. */
export function pickLoop({ pass, bed, needle }: StitchGrid, loop: number): Picked {
  return { loop, pass: pass[loop], bed: bed[loop], needle: needle[loop] };
}

/** The picked loop, -1 for none: a sock that has been changed so that another stitch has its number has none picked. */
export function pickedLoop({ picked, knitted }: Pick<PageState, 'picked' | 'knitted'>): number {
  if (picked == null || knitted === null) return -1;
  const { loop } = picked, { grid } = knitted;
  return loop < grid.loopCount && grid.pass[loop] === picked.pass && grid.bed[loop] === picked.bed && grid.needle[loop] === picked.needle ? loop : -1;
}
