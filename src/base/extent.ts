export interface Extent { readonly left: number; readonly top: number; readonly width: number; readonly height: number }

/** The upright box round points of a plane, two entries a point. */
export function extentOf(points: readonly number[]): Extent {
  let left = Infinity, top = Infinity, right = -Infinity, bottom = -Infinity;
  for (let i = 0; i < points.length; i += 2) {
    left = Math.min(left, points[i]);
    right = Math.max(right, points[i]);
    top = Math.min(top, points[i + 1]);
    bottom = Math.max(bottom, points[i + 1]);
  }
  return { left, top, width: right - left, height: bottom - top };
}
