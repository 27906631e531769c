import type { EnergyTerm } from './energy.ts';
import { STRIDE } from './energy.ts';

/** A body that nothing may enter, by its distance. */
export interface DistanceField {
  /** Signed distance of the point from the body, mm, negative inside; its gradient, a unit vector, goes into `normal` (three entries). */
  distanceAt(x: number, y: number, z: number, normal: Float64Array): number;
}

export interface DistanceContact {
  readonly field: DistanceField;
  /** Distance that each node keeps from the body, mm. */
  readonly clearances: Float64Array;
  /** Stiffness of each node against coming nearer, N/mm. */
  readonly stiffness: number;
}

/** Soft contact without friction: energy stiffness / 2 d^2 for a node that is d nearer to the body than its clearance. */
export function createDistanceContact({ field, clearances, stiffness }: DistanceContact): EnergyTerm {
  const normal = new Float64Array(STRIDE);

  function addGradient(x: Float64Array, g: Float64Array): number {
    let energy = 0;
    for (let n = 0; n < clearances.length; n++) {
      const i = n * STRIDE;
      const short = clearances[n] - field.distanceAt(x[i], x[i + 1], x[i + 2], normal);
      if (!(short > 0)) continue;
      energy += 0.5 * stiffness * short * short;
      for (let axis = 0; axis < STRIDE; axis++) g[i + axis] -= stiffness * short * normal[axis];
    }
    return energy;
  }

  return { addGradient };
}
