import type { MarkPath } from '../fabric/fabric.ts';

/** A marked line's points on a pose: three entries each, mm; a closed line ends where it began. */
export function placeMark({ a, b, t, isClosed }: MarkPath, positions: Float64Array): Float64Array {
  const count = a.length, points = new Float64Array(3 * (count + (isClosed ? 1 : 0)));
  for (let i = 0; i < points.length / 3; i++) {
    const k = i % count;
    for (let axis = 0; axis < 3; axis++) points[3 * i + axis] = (1 - t[k]) * positions[3 * a[k] + axis] + t[k] * positions[3 * b[k] + axis];
  }
  return points;
}
