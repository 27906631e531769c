import type { StitchGrid } from '../machine/grid.ts';
import type { PageState, Picked } from './page-state.ts';

/** A loop as a picked one. */
export function pickLoop({ pass, bed, needle, kind }: StitchGrid, loop: number): Picked {
  return { loop, pass: pass[loop], bed: bed[loop], needle: needle[loop], kind: kind[loop] };
}

/** Where a picked stitch was looked for when its number had gone to another. */
const found = new WeakMap<Picked, { readonly grid: StitchGrid; readonly loop: number }>();

/** The picked loop, -1 for none: of a sock that has been changed it is the one that was formed at the same place, whatever its number (without wraps there are fewer). */
export function pickedLoop({ picked, knitted }: Pick<PageState, 'picked' | 'knitted'>): number {
  if (picked == null || knitted === null) return -1;
  const { grid } = knitted;
  if (isPicked(grid, picked.loop, picked)) return picked.loop;
  const before = found.get(picked);
  if (before?.grid === grid) return before.loop;
  let loop = 0;
  while (loop < grid.loopCount && !isPicked(grid, loop, picked)) loop++;
  const first = loop < grid.loopCount ? loop : -1;
  found.set(picked, { grid, loop: first });
  return first;
}

function isPicked(grid: StitchGrid, loop: number, { pass, bed, needle, kind }: Picked): boolean {
  return loop < grid.loopCount && grid.pass[loop] === pass && grid.bed[loop] === bed && grid.needle[loop] === needle && grid.kind[loop] === kind;
}
