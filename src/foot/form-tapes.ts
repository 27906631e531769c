import { cos, sin } from '../base/portable-math.ts';
import type { Body } from './round-cones.ts';
import { hullLength } from './trace-section.ts';
import type { Point } from './trace-section.ts';

/** A plane in which a tape lies: a point of it inside the form, and two unit vectors along it. */
export interface TapePlane { readonly centre: Point; readonly u: Point; readonly v: Point }

/** Rays of a section: the polygon through the ends of 96 is short of a circle by 0.02 %. */
export const TAPE_RAYS = 96;
const CLOSE_MM = 1e-4;
const MOST_STEPS = 25;
/** No step takes the surface for steeper along the ray than this sine of the angle between them. */
const LEAST_SLOPE = 0.25;
/** Radii of curvature that a search for the farthest point starts with and stays within, and the lean at which it ends. */
const FIRST_RADIUS_MM = 10, LEAST_RADIUS_MM = 2, MOST_RADIUS_MM = 60;
const LEVEL = 2e-3;
/** A ray ends at so many times the guessed radius at most. */
const FARTHEST = 8;

/**
 * Radii of a section about its centre, by Newton's method along each ray from the radii that stand in
 * `radii` (0: from the ray before). The section must be seen whole from its centre.
 */
export function traceRadiiInto(radii: Float64Array, body: Body, { centre, u, v }: TapePlane, guessMm: number): void {
  const normal = new Float64Array(3);
  let before = guessMm;
  for (let k = 0; k < radii.length; k++) {
    const [x, y, z] = rayOf(u, v, k, radii.length);
    let t = radii[k] > 0 ? radii[k] : before;
    for (let step = 0; step < MOST_STEPS; step++) {
      const d = body.distanceAt(centre[0] + t * x, centre[1] + t * y, centre[2] + t * z, normal);
      t = Math.min(FARTHEST * guessMm, Math.max(0, t - d / Math.max(LEAST_SLOPE, normal[0] * x + normal[1] * y + normal[2] * z)));
      if (Math.abs(d) < CLOSE_MM) break;
    }
    radii[k] = t;
    before = t;
  }
}

export function rayOf(u: Point, v: Point, k: number, rays: number): Point {
  const c = cos(2 * Math.PI * k / rays), s = sin(2 * Math.PI * k / rays);
  return [c * u[0] + s * v[0], c * u[1] + s * v[1], c * u[2] + s * v[2]];
}

/** What a tape reads round radii: the length of their convex hull. */
export function girthOfRadii(radii: Float64Array): number {
  return hullLength(Array.from(radii, (r, k) => [r * cos(2 * Math.PI * k / radii.length), r * sin(2 * Math.PI * k / radii.length)]));
}

/**
 * Farthest point of the form along a unit vector, near a point of the surface, and its way along the
 * vector from the origin, mm: against the gradient across the vector, by steps of Barzilai and Borwein
 * (IMA J. Numer. Anal. 8 (1988) 141-148), each followed back onto the surface along the vector.
 */
export function farthestAlong(body: Body, way: Point, near: Point): { readonly reachMm: number; readonly point: Point } {
  const normal = new Float64Array(3), p = [...near], move = [0, 0, 0], lean = [0, 0, 0];
  let radius = FIRST_RADIUS_MM;
  for (let step = 0; step < MOST_STEPS; step++) {
    const slope = ontoSurface(body, way, p, normal);
    let along = 0, across = 0;
    for (let axis = 0; axis < 3; axis++) {
      const now = normal[axis] - slope * way[axis];
      along += move[axis] * move[axis];
      across += move[axis] * (now - lean[axis]);
      lean[axis] = now;
    }
    if (lean[0] * lean[0] + lean[1] * lean[1] + lean[2] * lean[2] < LEVEL * LEVEL) break;
    if (along > 0) radius = across > 0 ? Math.min(MOST_RADIUS_MM, Math.max(LEAST_RADIUS_MM, along / across)) : MOST_RADIUS_MM;
    for (let axis = 0; axis < 3; axis++) {
      move[axis] = -radius * lean[axis];
      p[axis] += move[axis];
    }
  }
  return { reachMm: p[0] * way[0] + p[1] * way[1] + p[2] * way[2], point: [p[0], p[1], p[2]] };
}

/** Moves a point along a vector onto the surface; the slope of the surface's normal along it. */
function ontoSurface(body: Body, way: Point, p: number[], normal: Float64Array): number {
  for (let step = 0; ; step++) {
    const d = body.distanceAt(p[0], p[1], p[2], normal), slope = normal[0] * way[0] + normal[1] * way[1] + normal[2] * way[2];
    if (Math.abs(d) < CLOSE_MM || step >= MOST_STEPS) return slope;
    for (let axis = 0; axis < 3; axis++) p[axis] -= d / Math.max(LEAST_SLOPE, slope) * way[axis];
  }
}
