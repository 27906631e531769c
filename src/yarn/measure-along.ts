import { slopesInto } from './spline.ts';
import { PIECE_POINTS, POINT_STRIDE, type YarnLay } from './yarn-lay.ts';

/** Places of Gauss and Legendre's three-point rule on 0..1, and its weights (Abramowitz & Stegun, 25.4.30). */
const PLACES = [0.5 - 0.5 * Math.sqrt(0.6), 0.5, 0.5 + 0.5 * Math.sqrt(0.6)] as const, SHARES = [5 / 18, 8 / 18, 5 / 18] as const;

const SLOPES = PLACES.map((t) => {
  const slopes = new Float64Array(4);
  slopesInto(slopes, t);
  return slopes;
});

/** Length (mm) of the span of a line (POINT_STRIDE entries a control point) whose first control point is `first`, none of its points beyond `last`. */
export function spanLength(points: Float32Array | Float64Array, first: number, last: number): number {
  let sum = 0;
  for (let g = 0; g < 3; g++) {
    let x = 0, y = 0, z = 0;
    for (let k = 0; k < 4; k++) {
      const at = POINT_STRIDE * (first + k < last ? first + k : last), slope = SLOPES[g][k];
      x += slope * points[at]; y += slope * points[at + 1]; z += slope * points[at + 2];
    }
    sum += SHARES[g] * Math.sqrt(x * x + y * y + z * z);
  }
  return sum;
}

/**
 * Writes at every control point how much yarn there is from its length's first end to that point: so that its blend over a span grows as
 * the span does, the mean of the lengths up to the spans' ends on either side.
 */
export function measureAlong({ thread, points }: Pick<YarnLay, 'thread' | 'points'>): void {
  const { lengthStart } = thread;
  for (let k = 0; k + 1 < lengthStart.length; k++) {
    const from = PIECE_POINTS * lengthStart[k], last = PIECE_POINTS * lengthStart[k + 1] - 1;
    let length = 0;
    for (let point = from; point <= last; point++) {
      // A span runs from beside its second point to beside its third.
      points[POINT_STRIDE * point + 3] = length;
      if (point > from) length += spanLength(points, point - 1, last);
    }
  }
}

/** Yarn (mm) in every piece: from where it begins along its length to where the next one does. */
export function pieceLengths({ thread, points }: Pick<YarnLay, 'thread' | 'points'>): Float64Array {
  const lengths = new Float64Array(thread.pieceCount), { lengthStart } = thread;
  for (let k = 0; k + 1 < lengthStart.length; k++) {
    const last = PIECE_POINTS * lengthStart[k + 1] - 1;
    for (let piece = lengthStart[k]; piece < lengthStart[k + 1]; piece++) {
      for (let span = PIECE_POINTS * piece; span < PIECE_POINTS * (piece + 1); span++) lengths[piece] += spanLength(points, span, last);
    }
  }
  return lengths;
}
