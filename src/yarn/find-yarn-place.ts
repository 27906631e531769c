import { lastPointOf, PIECE_POINTS, POINT_STRIDE, type YarnLay, type YarnThread } from './yarn-lay.ts';

/** Where along its yarn a loop is. */
export interface YarnPlace {
  /** Which of the unbroken lengths of yarn, from 0 in the order of knitting, and how many there are. */
  readonly length: number;
  readonly lengths: number;
  /** Yarn from the cut end at which its length begins to where the loop begins, mm. */
  readonly fromEndMm: number;
  /** Yarn in the loop itself, mm. */
  readonly loopMm: number;
  /** Yarn in the whole length, tails included, mm. */
  readonly lengthMm: number;
}

/** Number of the length of yarn that a piece belongs to. */
function lengthOfPiece({ lengthStart }: YarnThread, piece: number): number {
  let length = 0;
  while (lengthStart[length + 1] <= piece) length++;
  return length;
}

/** Where a loop of the grid lies along its length of yarn, as the yarn is laid; null for a loop that is not there. */
export function findYarnPlace(lay: YarnLay, loop: number): YarnPlace | null {
  const { thread } = lay, piece = thread.loopPiece[loop] ?? -1;
  if (piece < 0) return null;
  const last = lastPointOf(thread, piece);
  // A span begins beside its second point, which measureAlong gives the length up to there.
  const measuredTo = (next: number): number => lay.points[POINT_STRIDE * Math.min(PIECE_POINTS * next + 1, last) + 3];
  const fromEndMm = measuredTo(piece);
  return {
    length: lengthOfPiece(thread, piece), lengths: thread.lengthStart.length - 1,
    fromEndMm, loopMm: measuredTo(piece + 1) - fromEndMm, lengthMm: lay.points[POINT_STRIDE * last + 3],
  };
}
