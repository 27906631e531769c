import { cos, sin } from '../base/portable-math.ts';
import type { Body } from './round-cones.ts';

export type Point = readonly [number, number, number];

/** Rays of a section: the polygon through the ends of 96 is short of a circle by 0.02 %. */
const RAYS = 96;
const MOST_STEPS = 200;
const NEAR_MM = 1e-6;

/**
 * Where a ray from outside meets the level `level` of a body, as the way from `from` along the unit
 * vector `way`, mm; `reach` if it does not before that. Sphere tracing: no step is longer than the
 * distance, which is never overstated.
 */
export function traceRay(body: Body, from: Point, way: Point, reach: number, level: number): number {
  const normal = new Float64Array(3);
  let t = 0;
  for (let step = 0; step < MOST_STEPS && t < reach; step++) {
    const d = body.distanceAt(from[0] + t * way[0], from[1] + t * way[1], from[2] + t * way[2], normal) - level;
    if (d < NEAR_MM) return t;
    t += d;
  }
  return Math.min(t, reach);
}

/**
 * Girth of a body in a plane as a tape measures it: length of the convex hull of the section. The
 * plane runs through `centre`, a point inside, along the unit vectors `u` and `v`; `reach` is a
 * radius that the section does not exceed.
 */
export function tapeGirth(body: Body, centre: Point, u: Point, v: Point, reach: number, rays = RAYS): number {
  const points: [number, number][] = [];
  for (let k = 0; k < rays; k++) {
    const c = cos(2 * Math.PI * k / rays), s = sin(2 * Math.PI * k / rays);
    const out: Point = [c * u[0] + s * v[0], c * u[1] + s * v[1], c * u[2] + s * v[2]];
    const from: Point = [centre[0] + reach * out[0], centre[1] + reach * out[1], centre[2] + reach * out[2]];
    const radius = reach - traceRay(body, from, [-out[0], -out[1], -out[2]], reach, 0);
    points.push([radius * c, radius * s]);
  }
  return hullLength(points);
}

/** Length round the convex hull of points in the plane (Andrew's monotone chain). */
export function hullLength(points: readonly [number, number][]): number {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  let length = 0;
  for (const order of [sorted, [...sorted].reverse()]) {
    const chain: [number, number][] = [];
    for (const p of order) {
      while (chain.length >= 2 && turn(chain[chain.length - 2], chain[chain.length - 1], p) <= 0) chain.pop();
      chain.push(p);
    }
    for (let k = 1; k < chain.length; k++) length += Math.sqrt((chain[k][0] - chain[k - 1][0]) ** 2 + (chain[k][1] - chain[k - 1][1]) ** 2);
  }
  return length;
}

function turn(a: readonly [number, number], b: readonly [number, number], c: readonly [number, number]): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}
