import { LOOP } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import { PART, type YarnThread } from './yarn-lay.ts';

/** What of a fabric is threaded. */
export interface ThreadOptions {
  /** Only what is there after this pass, on the machine: no seam and no closing. Null or missing threads the finished piece. */
  readonly upToPass?: number | null;
}

const PART_OF_KIND: Readonly<Record<number, number>> = {
  [LOOP.castOn]: PART.loop, [LOOP.knit]: PART.loop, [LOOP.wrap]: PART.wrap, [LOOP.graft]: PART.graft, [LOOP.bindOff]: PART.bindOff,
};

interface Pieces { readonly part: number[]; readonly loop: number[]; readonly mate: number[] }

function addPiece(pieces: Pieces, part: number, loop: number, mate = -1): void {
  pieces.part.push(part);
  pieces.loop.push(loop);
  pieces.mate.push(mate);
}

/** Last loop of the length of yarn that a loop belongs to. */
function endOfLength(grid: StitchGrid, loop: number): number {
  let last = loop;
  while (grid.yarnAfter[last] >= 0) last = grid.yarnAfter[last];
  return last;
}

/**
 * Follows every length of yarn from its tail through all its loops to its other tail. The seam is sewn with the
 * yarn that hangs beside it where the work was turned: from the last of its rows back to the cast-on.
 */
export function threadYarn(grid: StitchGrid, { upToPass = null }: ThreadOptions = {}): YarnThread {
  const pieces: Pieces = { part: [], loop: [], mate: [] }, lengthStart = [0], loopPiece = new Int32Array(grid.loopCount).fill(-1);
  const { seamPairs } = grid, sewnFrom = upToPass === null && seamPairs.length > 0 ? endOfLength(grid, seamPairs[seamPairs.length - 1]) : -1;
  const isThere = (loop: number): boolean => upToPass === null || (grid.pass[loop] <= upToPass && grid.kind[loop] <= LOOP.wrap);
  for (let first = 0; first < grid.loopCount; first++) {
    if (grid.yarnBefore[first] >= 0 || !isThere(first)) continue;
    addPiece(pieces, PART.tail, first);
    let last = first;
    for (let loop = first; loop >= 0 && isThere(loop); loop = grid.yarnAfter[loop]) {
      loopPiece[loop] = pieces.part.length;
      addPiece(pieces, PART_OF_KIND[grid.kind[loop]], loop);
      last = loop;
    }
    if (last === sewnFrom) for (let i = seamPairs.length - 2; i >= 0; i -= 2) addPiece(pieces, PART.seam, seamPairs[i], seamPairs[i + 1]);
    addPiece(pieces, PART.tail, last);
    lengthStart.push(pieces.part.length);
  }
  const loop = Int32Array.from(pieces.loop), yarn = new Uint8Array(loop.length);
  // A seam has the yarn that sews it, not that of the rows it sews.
  for (let k = 0; k + 1 < lengthStart.length; k++) yarn.fill(grid.yarn[loop[lengthStart[k]]], lengthStart[k], lengthStart[k + 1]);
  return {
    pieceCount: loop.length, part: Uint8Array.from(pieces.part), loop, mate: Int32Array.from(pieces.mate),
    yarn, lengthStart: Int32Array.from(lengthStart), loopPiece,
  };
}
