import { Matrix4, type PerspectiveCamera } from 'three';

/** What is looked at: places of a cloth (three entries each, mm), where they stand, and the plane that cuts away what has a smaller y. */
export interface SeenPoints { readonly positions: Float64Array; readonly count: number; readonly matrixWorld: Matrix4; readonly cutY: number | null }

/**
 * Distance before the camera of the nearest of the points that are in the picture or within `marginMm` beside it: close by, one
 * stitch is larger than the picture. The nearest of all where none is there; null where none is before the camera.
 */
export function nearestDepth({ positions, count, matrixWorld, cutY }: SeenPoints, camera: PerspectiveCamera, marginMm: number): number | null {
  const m = new Matrix4().multiplyMatrices(camera.matrixWorldInverse, matrixWorld).elements, p = camera.projectionMatrix.elements;
  const tanX = 1 / p[0], tanY = 1 / p[5];
  let nearest = Infinity, beside = Infinity;
  for (let i = 0; i < 3 * count; i += 3) {
    const x = positions[i], y = positions[i + 1], z = positions[i + 2];
    const depth = -(m[2] * x + m[6] * y + m[10] * z + m[14]);
    if (depth >= beside && depth >= nearest) continue;
    if (depth < camera.near || (cutY !== null && y < cutY)) continue;
    const right = m[0] * x + m[4] * y + m[8] * z + m[12], up = m[1] * x + m[5] * y + m[9] * z + m[13];
    if (Math.abs(right) <= tanX * depth + marginMm && Math.abs(up) <= tanY * depth + marginMm) nearest = Math.min(nearest, depth);
    else beside = Math.min(beside, depth);
  }
  if (nearest < Infinity) return nearest;
  return beside < Infinity ? beside : null;
}

/** Pixels of the page that a length takes at a distance before the camera, in a picture so many pixels high. */
export function pixelsAt(lengthMm: number, depthMm: number, camera: PerspectiveCamera, height: number): number {
  return (0.5 * height * camera.projectionMatrix.elements[5] * lengthMm) / depthMm;
}
