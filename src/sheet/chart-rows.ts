import { SECTION } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { Trace } from '../machine/trace.ts';

const ROUNDS: readonly number[] = [SECTION.leg, SECTION.ankle, SECTION.foot, SECTION.toe];

/**
 * The course in which each pass stands, the cast-on in 0. The two passes of a round stand side by side; a row of the
 * flat leg, and each short row, has a course to itself. So has a pass that knits onto one of its round's, where
 * stitches were moved to the heel's bed between the two.
 */
export function placePasses(grid: StitchGrid, { passes }: Trace): Int32Array {
  const rowOf = new Int32Array(passes.length);
  let row = 0, open = -1;
  for (const { pass, firstLoop, knitted } of passes.slice(1)) {
    const bed = grid.bed[firstLoop], isHalfRound = ROUNDS.includes(grid.section[firstLoop]) && grid.isRib[firstLoop] === 0;
    const standsOnRow = (loop: number): boolean => {
      for (let i = grid.parentStart[loop]; i < grid.parentStart[loop + 1]; i++) if (rowOf[grid.pass[grid.parents[i]]] === row) return true;
      return false;
    };
    const isSecond = isHalfRound && open >= 0 && bed !== open;
    let stands = false;
    for (let loop = firstLoop; isSecond && loop < firstLoop + knitted && !stands; loop++) stands = standsOnRow(loop);
    if (!isSecond || stands) row++;
    rowOf[pass] = row;
    open = isHalfRound && !isSecond ? bed : -1;
  }
  return rowOf;
}
