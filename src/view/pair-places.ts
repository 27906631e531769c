import type { Vector } from './frame-camera.ts';

/** Room between two socks side by side, mm; chosen by eye. */
export const PAIR_GAP_MM = 36;

/** How far each of two socks is shifted, mm. */
export interface PairPlaces { readonly first: Vector; readonly second: Vector }

/** Middle of the points' extent in x and y. */
function middleOf(points: Float64Array): readonly [number, number] {
  let x0 = Infinity, x1 = -Infinity, y0 = Infinity, y1 = -Infinity;
  for (let i = 0; i < points.length; i += 3) {
    x0 = Math.min(x0, points[i]); x1 = Math.max(x1, points[i]);
    y0 = Math.min(y0, points[i + 1]); y1 = Math.max(y1, points[i + 1]);
  }
  return [(x0 + x1) / 2, (y0 + y1) / 2];
}

/** Farthest reach of the points from a middle along a level direction. */
function reachOf(points: Float64Array, [x, y]: readonly [number, number], alongX: number, alongY: number): number {
  let reach = 0;
  for (let i = 0; i < points.length; i += 3) reach = Math.max(reach, (points[i] - x) * alongX + (points[i + 1] - y) * alongY);
  return reach;
}

/**
 * Places for two socks seen side by side by an eye whose right is the level unit vector `right`: the
 * second to the right of the first, each turned as it was about its own middle, heights kept. The line
 * between them goes through the first one's own middle, so that a camera turning about it sees both
 * turn in their places. Points three entries each, at least one each.
 */
export function placePair(first: Float64Array, second: Float64Array, right: Vector): PairPlaces {
  const a = middleOf(first), b = middleOf(second);
  const toRight = reachOf(first, a, right[0], right[1]) + PAIR_GAP_MM / 2, toLeft = reachOf(second, b, -right[0], -right[1]) + PAIR_GAP_MM / 2;
  return {
    first: [-toRight * right[0], -toRight * right[1], 0],
    second: [a[0] - b[0] + toLeft * right[0], a[1] - b[1] + toLeft * right[1], 0],
  };
}
