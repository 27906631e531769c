import { createPreconditioner, minimise } from '../../src/solve/index.ts';
import type { EnergyTerm, MembraneLaw, MinimiseOptions, MinimiseResult } from '../../src/solve/index.ts';

/** Linear material, where closed forms need one: no softening, stiffening or coupling. */
export const LINEAR: MembraneLaw = {
  courseModulus: 0.025, waleModulus: 0.05, coupling: 0, shearModulus: 0.01, compression: 1, softness: 0.01, stiffening: 0, crushing: 0,
};

/** Minimises in place the sum of all terms; those of `metric` make the initial metric. */
export function relax(
  x: Float64Array, metric: readonly EnergyTerm[], others: readonly EnergyTerm[], tolerance = 1e-5, options: MinimiseOptions = {},
): MinimiseResult {
  const parts = metric.map((term) => ({ term, factor: 1 }));
  const preconditioner = createPreconditioner(x.length / 3, [{ axes: [0, 1, 2], parts }], 1e-6);
  return minimise(x, [...metric, ...others], preconditioner, { tolerance, leastForce: 1e-5, ...options });
}

/** Length of a sheet's row walked round, mm. */
export function roundGirth(x: Float64Array, row: number, columns: number): number {
  let sum = 0;
  for (let c = 0; c < columns; c++) {
    const i = 3 * (row * columns + c), j = 3 * (row * columns + (c + 1) % columns);
    sum += Math.hypot(x[i] - x[j], x[i + 1] - x[j + 1], x[i + 2] - x[j + 2]);
  }
  return sum;
}

/** No energy, only a metric: a diagonal for terms that are stiff and have none. */
export function makeNodeMetric(nodeCount: number, weight: number): EnergyTerm {
  return {
    addGradient: () => 0,
    addMetric: (sink) => { for (let n = 0; n < nodeCount; n++) sink.addDiagonal(n, weight); },
  };
}
