import type { DistanceField } from '../../src/solve/index.ts';

type Point = readonly [number, number, number];

/** A ball about a centre. */
export function makeBall(centre: Point, radius: number): DistanceField {
  return makeCapsule(centre, centre, radius);
}

/** All points within `radius` of the line from one end to the other. */
export function makeCapsule(from: Point, to: Point, radius: number): DistanceField {
  const along = [to[0] - from[0], to[1] - from[1], to[2] - from[2]];
  const lengthSquared = along[0] ** 2 + along[1] ** 2 + along[2] ** 2;
  return {
    distanceAt(x, y, z, normal) {
      const p = [x - from[0], y - from[1], z - from[2]];
      const dot = p[0] * along[0] + p[1] * along[1] + p[2] * along[2];
      const t = lengthSquared > 0 ? Math.min(1, Math.max(0, dot / lengthSquared)) : 0;
      for (let axis = 0; axis < 3; axis++) p[axis] -= t * along[axis];
      const far = Math.sqrt(p[0] ** 2 + p[1] ** 2 + p[2] ** 2);
      for (let axis = 0; axis < 3; axis++) normal[axis] = p[axis] / far;
      return far - radius;
    },
  };
}
