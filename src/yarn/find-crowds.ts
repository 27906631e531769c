import { LOOP } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { LayDesk } from './lay-desk.ts';
import { PART } from './yarn-lay.ts';

/** Loops beside, above and below a loop. */
function nextTo({ leftOf, rightOf, child, parents, parentStart }: StitchGrid, loop: number): number[] {
  return [leftOf[loop], rightOf[loop], child[loop], ...parents.subarray(parentStart[loop], parentStart[loop + 1])].filter((other) => other >= 0);
}

/** Whether a loop shares its room with more than its like: stacked on a needle, wrapped, at a mitre, at an edge that is closed. */
function crowdedLoops({ grid }: LayDesk): Uint8Array {
  const is = new Uint8Array(grid.loopCount);
  for (let loop = 0; loop < grid.loopCount; loop++) {
    const parents = grid.parents.subarray(grid.parentStart[loop], grid.parentStart[loop + 1]), host = grid.wrapHost[loop];
    const together = host >= 0 ? [loop, host, grid.yarnBefore[loop], grid.yarnAfter[loop]]
      : parents.length > 1 || grid.kind[loop] > LOOP.wrap ? [loop, ...parents] : [];
    for (const other of together) if (other >= 0) is[other] = 1;
  }
  for (const loop of grid.mitrePairs) is[loop] = 1;
  return is;
}

/** All pieces: 2 where yarn has to make room for other yarn, 1 beside it, 0 elsewhere. */
export function findCrowds(desk: LayDesk): Uint8Array {
  const { grid, thread } = desk, { loopPiece } = thread, is = crowdedLoops(desk), crowds = new Uint8Array(thread.pieceCount);
  const mark = (loop: number, rank: number): void => {
    const piece = loopPiece[loop];
    if (piece >= 0) crowds[piece] = Math.max(crowds[piece], rank);
  };
  for (let piece = 0; piece < thread.pieceCount; piece++) if (thread.part[piece] === PART.seam) for (const loop of [thread.loop[piece], thread.mate[piece]]) mark(loop, 2);
  for (let piece = 0; piece < thread.pieceCount; piece++) {
    const loop = thread.loop[piece];
    if (thread.part[piece] > PART.wrap) crowds[piece] = 2;
    if (is[loop] === 0) continue;
    mark(loop, 2);
    for (const other of nextTo(grid, loop)) {
      mark(other, 2);
      for (const beyond of nextTo(grid, other)) mark(beyond, 1);
    }
  }
  return crowds;
}
