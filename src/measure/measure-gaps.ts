import type { Body } from '../foot/round-cones.ts';

/**
 * How far each vertex stands off a body beyond its clearance, mm; 0 where the cloth lies on it.
 * @param positions three entries a vertex, mm
 * @param clearanceMm distance of cloth that lies on the body: half its thickness
 */
export function measureGaps(positions: Float64Array, body: Body, clearanceMm: number): Float64Array {
  const normal = new Float64Array(3);
  return Float64Array.from({ length: positions.length / 3 }, (_, v) => (
    Math.max(0, body.distanceAt(positions[3 * v], positions[3 * v + 1], positions[3 * v + 2], normal) - clearanceMm)
  ));
}
