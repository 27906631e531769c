import type { Body } from '../../src/foot/round-cones.ts';

export type Vector = readonly [number, number, number];

/**
 * Convex girth of a body's section by Cauchy's formula (any text on convex geometry): the length round a
 * convex set is the integral over all directions of its support function. The section is read off a grid
 * of points, each moved along the gradient onto the surface.
 */
export function girthByCauchy(body: Body, centre: Vector, u: Vector, v: Vector, reach: number, step = 1): number {
  const directions = 180, support = new Float64Array(directions).fill(-Infinity), normal = new Float64Array(3);
  const cosines = Array.from(support, (_, k) => Math.cos(2 * Math.PI * k / directions)), sines = Array.from(support, (_, k) => Math.sin(2 * Math.PI * k / directions));
  for (let a = -reach; a <= reach; a += step) {
    for (let b = -reach; b <= reach; b += step) {
      const d = body.distanceAt(centre[0] + a * u[0] + b * v[0], centre[1] + a * u[1] + b * v[1], centre[2] + a * u[2] + b * v[2], normal);
      if (d > 0 || d < -3 * step) continue;
      // Along its gradient the surface lies -d farther out.
      const ga = normal[0] * u[0] + normal[1] * u[1] + normal[2] * u[2], gb = normal[0] * v[0] + normal[1] * v[1] + normal[2] * v[2];
      const scale = -d / Math.max(0.2, ga * ga + gb * gb), atA = a + scale * ga, atB = b + scale * gb;
      for (let k = 0; k < directions; k++) support[k] = Math.max(support[k], atA * cosines[k] + atB * sines[k]);
    }
  }
  return support.reduce((sum, h) => sum + h, 0) * 2 * Math.PI / directions;
}

/** Farthest place of a body along an axis, of the points where rays level with the axis meet it, mm: rays `step` apart within `reach` of `middle`, followed in steps of the distance. */
export function farthestByRays(body: Body, axis: 0 | 1 | 2, sign: 1 | -1, middle: Vector, reach: Vector, step = 1): number {
  const [first, second] = ([0, 1, 2] as const).filter((one) => one !== axis);
  let farthest = -Infinity;
  for (let a = -reach[first]; a <= reach[first]; a += step) {
    for (let b = -reach[second]; b <= reach[second]; b += step) {
      const p = [...middle];
      p[first] += a;
      p[second] += b;
      p[axis] += sign * reach[axis];
      farthest = Math.max(farthest, followRay(body, p, axis, sign, farthest));
    }
  }
  return sign * farthest;
}

/** Where a ray meets the body; given up once it has gone back behind `farthest`. */
function followRay(body: Body, p: number[], axis: number, sign: number, farthest: number): number {
  const normal = new Float64Array(3);
  for (let k = 0; k < 300 && sign * p[axis] > farthest; k++) {
    const d = body.distanceAt(p[0], p[1], p[2], normal);
    if (d < 1e-4) return sign * p[axis];
    p[axis] -= sign * d;
  }
  return -Infinity;
}
