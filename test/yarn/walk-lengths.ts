import { PIECE_POINTS, POINT_STRIDE, type YarnLay, type YarnThread } from '../../src/yarn/yarn-lay.ts';

/** Pieces of each length of yarn. */
export const lengthsOf = ({ lengthStart }: YarnThread): number[][] =>
  Array.from({ length: lengthStart.length - 1 }, (_, k) => Array.from({ length: lengthStart[k + 1] - lengthStart[k] }, (_piece, i) => lengthStart[k] + i));

/** Distance (mm) of two control points. */
export function distance({ points }: YarnLay, a: number, b: number): number {
  const [i, j] = [POINT_STRIDE * a, POINT_STRIDE * b];
  return Math.sqrt((points[i] - points[j]) ** 2 + (points[i + 1] - points[j + 1]) ** 2 + (points[i + 2] - points[j + 2]) ** 2);
}

/** First control point of a length of yarn, and the one after its last. */
export const pointsOf = (pieces: readonly number[]): readonly [number, number] => [PIECE_POINTS * pieces[0], PIECE_POINTS * ((pieces.at(-1) as number) + 1)];
