import type { EnergyTerm } from './energy.ts';
import { STRIDE } from './energy.ts';

/** Weights of nodes along a direction (a unit vector that points down): energy -sum of weight (down . x), weights in N. */
export function createGravity(weights: Float64Array, down: readonly [number, number, number]): EnergyTerm {
  const [dx, dy, dz] = down;

  function addGradient(x: Float64Array, g: Float64Array): number {
    let energy = 0;
    for (let n = 0; n < weights.length; n++) {
      const i = n * STRIDE, w = weights[n];
      energy -= w * (dx * x[i] + dy * x[i + 1] + dz * x[i + 2]);
      g[i] -= w * dx; g[i + 1] -= w * dy; g[i + 2] -= w * dz;
    }
    return energy;
  }

  return { addGradient };
}
