import type { MarkPath } from '../fabric/fabric.ts';

/** A marked path on a pose: three entries a point, mm; a closed path ends where it began. */
export function placePath(path: MarkPath, positions: Float64Array): Float64Array {
  const count = path.a.length;
  const points = new Float64Array(3 * (path.isClosed && count > 0 ? count + 1 : count));
  for (let i = 0; i < points.length / 3; i++) {
    const at = i % count;
    const t = path.t[at];
    for (let d = 0; d < 3; d++) {
      points[3 * i + d] = (1 - t) * positions[3 * path.a[at] + d] + t * positions[3 * path.b[at] + d];
    }
  }
  return points;
}

/** Length of a line of points, three entries each. */
export function lineLength(points: ArrayLike<number>): number {
  let length = 0;
  for (let i = 3; i + 2 < points.length; i += 3) length += pointDistance(points, i / 3 - 1, points, i / 3);
  return length;
}

/** Distance from point i of one list to point j of another. */
export function pointDistance(a: ArrayLike<number>, i: number, b: ArrayLike<number>, j: number): number {
  const x = b[3 * j] - a[3 * i];
  const y = b[3 * j + 1] - a[3 * i + 1];
  const z = b[3 * j + 2] - a[3 * i + 2];
  return Math.sqrt(x * x + y * y + z * z);
}

/** Mean of a line's pieces, each weighing its length: where the line would balance. */
export function lineCentre(points: Float64Array): [number, number, number] {
  const centre: [number, number, number] = [0, 0, 0];
  let total = 0;
  for (let i = 1; i < points.length / 3; i++) {
    const piece = pointDistance(points, i - 1, points, i);
    total += piece;
    for (let d = 0; d < 3; d++) centre[d] += (piece * (points[3 * i + d] + points[3 * i - 3 + d])) / 2;
  }
  if (total === 0) return [points[0], points[1], points[2]];
  return [centre[0] / total, centre[1] / total, centre[2] / total];
}

/** Drops points that lie within `toleranceMm` of the line that the kept ones draw (Douglas and Peucker 1973). */
export function simplifyLine(points: Float64Array, toleranceMm: number): Float64Array {
  const count = points.length / 3;
  if (count <= 2) return points;
  const isKept = new Uint8Array(count);
  isKept[0] = isKept[count - 1] = 1;
  const spans: [number, number][] = [[0, count - 1]];
  for (let span = spans.pop(); span; span = spans.pop()) {
    const far = farthestPoint(points, span[0], span[1]);
    if (far.distance <= toleranceMm) continue;
    isKept[far.index] = 1;
    spans.push([span[0], far.index], [far.index, span[1]]);
  }
  const kept: number[] = [];
  for (let i = 0; i < count; i++) if (isKept[i]) kept.push(points[3 * i], points[3 * i + 1], points[3 * i + 2]);
  return Float64Array.from(kept);
}

function farthestPoint(points: Float64Array, from: number, to: number): { index: number; distance: number } {
  const far = { index: from, distance: -1 };
  for (let i = from + 1; i < to; i++) {
    const distance = distanceToSegment(points, i, from, to);
    if (distance > far.distance) {
      far.index = i;
      far.distance = distance;
    }
  }
  return far;
}

function distanceToSegment(points: Float64Array, i: number, from: number, to: number): number {
  let along = 0;
  let square = 0;
  for (let d = 0; d < 3; d++) {
    const side = points[3 * to + d] - points[3 * from + d];
    along += side * (points[3 * i + d] - points[3 * from + d]);
    square += side * side;
  }
  const t = square > 0 ? Math.min(1, Math.max(0, along / square)) : 0;
  let distance = 0;
  for (let d = 0; d < 3; d++) {
    const foot = points[3 * from + d] + t * (points[3 * to + d] - points[3 * from + d]);
    distance += (points[3 * i + d] - foot) ** 2;
  }
  return Math.sqrt(distance);
}
