/** Size of an end mark against the line's width. */
const MARK_SIZE = 2.3;

/** Three entries a segment each: its start and end, and (millimetres walked at start and end, size). */
export interface LineSegments { readonly from: Float32Array; readonly to: Float32Array; readonly span: Float32Array }

function distance(p: Float64Array, a: number, b: number): number {
  return Math.sqrt((p[a] - p[b]) ** 2 + (p[a + 1] - p[b + 1]) ** 2 + (p[a + 2] - p[b + 2]) ** 2);
}

/** Whether a line's last point comes back to its first within a hundredth of a millimetre. */
function isClosed(points: Float64Array): boolean {
  return points.length > 9 && distance(points, 0, points.length - 3) < 0.01;
}

/** A polyline (three entries a point, at least two points) as segments, with a segment of no length and greater size as a mark at each open end. */
export function lineSegments(points: Float64Array): LineSegments {
  const segments = points.length / 3 - 1, marks = isClosed(points) ? 0 : 2;
  const count = segments + marks;
  const from = new Float32Array(3 * count), to = new Float32Array(3 * count), span = new Float32Array(3 * count);
  let walked = 0;
  for (let i = 0; i < segments; i++) {
    const next = walked + distance(points, 3 * i, 3 * i + 3);
    from.set(points.subarray(3 * i, 3 * i + 3), 3 * i);
    to.set(points.subarray(3 * i + 3, 3 * i + 6), 3 * i);
    span.set([walked, next, 1], 3 * i);
    walked = next;
  }
  for (let m = 0; m < marks; m++) {
    const end = m === 0 ? 0 : 3 * segments, at = 3 * (segments + m);
    from.set(points.subarray(end, end + 3), at);
    to.set(points.subarray(end, end + 3), at);
    span.set([0, 0, MARK_SIZE], at);
  }
  return { from, to, span };
}

/** The point half way along a polyline, and the end of its segment: six numbers. */
export function middleOfLine(points: Float64Array): Float64Array {
  const out = new Float64Array(6);
  let rest = 0;
  for (let i = 0; i + 3 < points.length; i += 3) rest += distance(points, i, i + 3) / 2;
  for (let i = 0; i + 3 < points.length; i += 3) {
    const length = distance(points, i, i + 3), isLast = i + 6 >= points.length;
    if ((rest > length || length === 0) && !isLast) { rest -= length; continue; }
    const t = length > 0 ? Math.min(1, rest / length) : 0;
    for (let d = 0; d < 3; d++) {
      out[d] = points[i + d] + t * (points[i + 3 + d] - points[i + d]);
      out[3 + d] = points[i + 3 + d];
    }
    break;
  }
  return out;
}
