import type { Fabric, MarkPath } from '../fabric/fabric.ts';

/**
 * Lengths by which a shape is judged to have come to rest, mm: throat to heel, cuff to toe tip, the
 * middle round of the foot, the diagonal over the heel. None for cloth without marks.
 */
export function keyLengths(fabric: Fabric): (positions: Float64Array) => readonly number[] {
  const { marks } = fabric;
  if (marks === null) return () => [];
  const round = marks.footRounds.at(Math.floor(marks.footRounds.length / 2));
  return (positions) => [
    distance(marks.instepAtHeel, marks.baseMiddle, positions),
    distance(marks.cuff, marks.toeTip, positions),
    round === undefined ? 0 : lengthOf(round, positions),
    lengthOf(marks.heelDiagonal, positions),
  ];
}

/** Between the first points of two lines; 0 where one has none. */
function distance(from: MarkPath, to: MarkPath, positions: Float64Array): number {
  return from.a.length === 0 || to.a.length === 0 ? 0 : between(from, 0, to, 0, positions);
}

function lengthOf(path: MarkPath, positions: Float64Array): number {
  let sum = 0;
  const count = path.a.length;
  for (let k = path.isClosed ? 0 : 1; k < count; k++) sum += between(path, (k + count - 1) % count, path, k, positions);
  return sum;
}

function between(p: MarkPath, i: number, q: MarkPath, j: number, positions: Float64Array): number {
  let sum = 0;
  for (let axis = 0; axis < 3; axis++) sum += (coordinate(p, i, axis, positions) - coordinate(q, j, axis, positions)) ** 2;
  return Math.sqrt(sum);
}

function coordinate({ a, b, t }: MarkPath, k: number, axis: number, positions: Float64Array): number {
  return (1 - t[k]) * positions[3 * a[k] + axis] + t[k] * positions[3 * b[k] + axis];
}
