import { PIECE_POINTS, POINT_STRIDE, type YarnLay, lastPointOf } from './yarn-lay.ts';

/** Weights of the four control points of a span of a uniform cubic B-spline at place t, 0..1 (de Boor C., A Practical Guide to Splines, 1978). */
export function weightsInto(out: Float64Array, t: number): void {
  const s = 1 - t;
  out[0] = (s * s * s) / 6;
  out[1] = (3 * t * t * t - 6 * t * t + 4) / 6;
  out[2] = (3 * s * s * s - 6 * s * s + 4) / 6;
  out[3] = (t * t * t) / 6;
}

/** Weights of the derivative by t. */
export function slopesInto(out: Float64Array, t: number): void {
  const s = 1 - t;
  out[0] = (-s * s) / 2;
  out[1] = (3 * t * t - 4 * t) / 2;
  out[2] = (4 * s - 3 * s * s) / 2;
  out[3] = (t * t) / 2;
}

/** Adds up control points of a span into x, y, z and mm along the yarn (POINT_STRIDE entries of `out`). */
export function blendInto(out: Float64Array, { points }: Pick<YarnLay, 'points'>, first: number, last: number, weights: Float64Array): void {
  out.fill(0);
  for (let k = 0; k < 4; k++) {
    const at = POINT_STRIDE * Math.min(first + k, last);
    for (let d = 0; d < POINT_STRIDE; d++) out[d] += weights[k] * points[at + d];
  }
}

/**
 * The centre line of pieces `from` up to `to`, which are of one length: `steps` straight pieces a span, points in
 * yarn order, three entries each (mm). Ends where piece `to` begins, or at the yarn's end.
 */
export function centreLine(lay: YarnLay, from: number, to: number, steps: number): Float64Array {
  const spans = (to - from) * PIECE_POINTS, out = new Float64Array(3 * (spans * steps + 1));
  const weights = new Float64Array(4), point = new Float64Array(POINT_STRIDE), last = lastPointOf(lay.thread, from);
  for (let i = 0; i <= spans * steps; i++) {
    const span = Math.min(Math.floor(i / steps), spans - 1);
    weightsInto(weights, i / steps - span);
    blendInto(point, lay, PIECE_POINTS * from + span, last, weights);
    out.set(point.subarray(0, 3), 3 * i);
  }
  return out;
}
