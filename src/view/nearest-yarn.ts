import { blendInto, weightsInto } from '../yarn/spline.ts';
import { lastPointOf, PIECE_POINTS, POINT_STRIDE, type YarnLay } from '../yarn/yarn-lay.ts';

/** Straight pieces that stand for a span of the centre line. */
const STEPS = 2;

/** A ray in the fabric's own space, its direction of length 1; what has a smaller y than `lowestY` is not there. */
export interface YarnRay { readonly origin: ArrayLike<number>; readonly direction: ArrayLike<number>; readonly lowestY: number }

const WEIGHTS = Array.from({ length: STEPS }, (_, step) => {
  const weights = new Float64Array(4);
  weightsInto(weights, step / STEPS);
  return weights;
});

/** Distance along the ray at which it enters the round yarn about the line from a to b (three entries each), Infinity where it does not, or where that is cut away. */
function enterSegment({ origin: o, direction: d, lowestY }: YarnRay, a: Float64Array, b: Float64Array, radius: number): number {
  const ex = b[0] - a[0], ey = b[1] - a[1], ez = b[2] - a[2], wx = a[0] - o[0], wy = a[1] - o[1], wz = a[2] - o[2];
  const ee = ex * ex + ey * ey + ez * ez, ed = ex * d[0] + ey * d[1] + ez * d[2], wd = wx * d[0] + wy * d[1] + wz * d[2], we = wx * ex + wy * ey + wz * ez;
  const det = ee - ed * ed, share = det > 1e-9 ? Math.min(1, Math.max(0, (ed * wd - we) / det)) : 0;
  const x = wx + share * ex, y = wy + share * ey, z = wz + share * ez, along = x * d[0] + y * d[1] + z * d[2];
  const gap = x * x + y * y + z * z - along * along, inside = radius * radius - gap;
  if (inside < 0) return Infinity;
  const depth = along - Math.sqrt(inside);
  return depth > 0 && o[1] + depth * d[1] >= lowestY ? depth : Infinity;
}

/**
 * The piece whose yarn a ray meets first, of those whose middles lie within `reachMm` of a place on it (three entries, mm); -1 where it
 * runs through between them.
 */
export function firstYarn(lay: Pick<YarnLay, 'thread' | 'points' | 'diameterMm'>, ray: YarnRay, near: ArrayLike<number>, reachMm: number): number {
  const { thread, points, diameterMm } = lay, from = new Float64Array(POINT_STRIDE), to = new Float64Array(POINT_STRIDE);
  let best = -1, least = Infinity;
  for (let piece = 0; piece < thread.pieceCount; piece++) {
    const middle = POINT_STRIDE * (PIECE_POINTS * piece + PIECE_POINTS / 2);
    if ((points[middle] - near[0]) ** 2 + (points[middle + 1] - near[1]) ** 2 + (points[middle + 2] - near[2]) ** 2 > reachMm * reachMm) continue;
    const last = lastPointOf(thread, piece), radius = diameterMm[thread.yarn[piece]] / 2;
    blendInto(from, lay, PIECE_POINTS * piece, last, WEIGHTS[0]);
    for (let k = 1; k <= STEPS * PIECE_POINTS; k++) {
      blendInto(to, lay, PIECE_POINTS * piece + Math.floor(k / STEPS), last, WEIGHTS[k % STEPS]);
      const depth = enterSegment(ray, from, to, radius);
      if (depth < least) [best, least] = [piece, depth];
      from.set(to);
    }
  }
  return best;
}
