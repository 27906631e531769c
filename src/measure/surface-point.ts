import type { Surface } from './surface.ts';

/** A point on a surface: weights of a triangle's three corners, adding up to 1. */
export interface SurfacePoint {
  readonly triangle: number;
  readonly weights: readonly [number, number, number];
}

export function pointOnSurface(surface: Surface, point: SurfacePoint): [number, number, number] {
  const out: [number, number, number] = [0, 0, 0];
  for (let k = 0; k < 3; k++) {
    const at = 3 * surface.triangles[3 * point.triangle + k];
    for (let d = 0; d < 3; d++) out[d] += point.weights[k] * surface.positions[at + d];
  }
  return out;
}

/** A point of the surface itself. */
export function atCorner(surface: Surface, point: number): SurfacePoint {
  const triangle = surface.fans[surface.fanStart[point]];
  const corner = [0, 1, 2].find((k) => surface.triangles[3 * triangle + k] === point);
  return { triangle, weights: [Number(corner === 0), Number(corner === 1), Number(corner === 2)] };
}

/**
 * The place (1 - t) a + t b between two vertices of the fabric that share an edge or a cell, or are
 * one; null where the surface holds no such pair. Across a cell the way bends at its centre.
 */
export function findOnSurface(surface: Surface, a: number, b: number, t: number): SurfacePoint | null {
  const from = surface.pointVertex.indexOf(a);
  const to = surface.pointVertex.indexOf(b);
  if (from === -1 || to === -1) return null;
  if (from === to) return atCorner(surface, from);
  const { fans, fanStart, triangles, pointVertex } = surface;
  let viaCentre: SurfacePoint | null = null;
  for (let i = fanStart[from]; i < fanStart[from + 1]; i++) {
    const triangle = fans[i];
    const corners = [triangles[3 * triangle], triangles[3 * triangle + 1], triangles[3 * triangle + 2]];
    if (corners.includes(to)) return weigh(triangle, corners, from, 1 - t, to, t);
    const centre = corners[2];
    if (pointVertex[centre] !== -1) continue;
    const far = [...fans.subarray(fanStart[centre], fanStart[centre + 1])].find((other) => (
      triangles[3 * other] === to || triangles[3 * other + 1] === to
    ));
    if (far === undefined) continue;
    viaCentre = t <= 0.5
      ? weigh(triangle, corners, from, 1 - 2 * t, centre, 2 * t)
      : weigh(far, [...triangles.subarray(3 * far, 3 * far + 3)], to, 2 * t - 1, centre, 2 - 2 * t);
  }
  return viaCentre;
}

function weigh(triangle: number, corners: readonly number[], p: number, wp: number, q: number, wq: number): SurfacePoint {
  const weight = (k: number): number => (corners[k] === p ? wp : corners[k] === q ? wq : 0);
  return { triangle, weights: [weight(0), weight(1), weight(2)] };
}
