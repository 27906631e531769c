import { createMatrixBuilder } from '../../src/solve/sparse-matrix.ts';
import type { EnergyTerm } from '../../src/solve/energy.ts';
import type { Preconditioner } from '../../src/solve/index.ts';

/** A metric and the terms it wants to be minimised with. */
export interface PlainMetric { readonly terms: readonly EnergyTerm[]; readonly metric: Preconditioner }

/**
 * Plain L-BFGS: the identity, scaled by s.y / y.y of the last step (Nocedal & Wright, Numerical
 * Optimization, 2nd ed., eq. 7.20). It learns s and y by looking on: the last point evaluated before
 * a direction is asked for is the one moved to.
 */
export function scaledIdentity(terms: readonly EnergyTerm[], length: number, firstScale: number): PlainMetric {
  const point = new Float64Array(length), gradient = new Float64Array(length);
  const lastPoint = new Float64Array(length), lastGradient = new Float64Array(length);
  let asked = 0, scale = firstScale;
  const onlooker: EnergyTerm = {
    addGradient(x, g) {
      point.set(x);
      gradient.set(g);
      return 0;
    },
  };
  return {
    terms: [...terms, onlooker],
    metric: {
      entryCount: 0,
      applyInto(step, from) {
        let sy = 0, yy = 0;
        for (let i = 0; asked > 0 && i < length; i++) {
          const y = gradient[i] - lastGradient[i];
          sy += y * (point[i] - lastPoint[i]);
          yy += y * y;
        }
        if (sy > 0) scale = sy / yy;
        asked++;
        lastPoint.set(point);
        lastGradient.set(gradient);
        for (let i = 0; i < length; i++) step[i] = scale * from[i];
      },
    },
  };
}

/** L-BFGS with the diagonal of the terms' metric. */
export function diagonalMetric(terms: readonly EnergyTerm[], nodeCount: number, shift: number): PlainMetric {
  const builder = createMatrixBuilder(nodeCount, shift);
  for (const term of terms) term.addMetric?.(builder, [0, 1, 2]);
  const { columnStart, values } = builder.build();
  return {
    terms,
    metric: {
      entryCount: nodeCount,
      applyInto(step, from) {
        for (let i = 0; i < step.length; i++) step[i] = from[i] / values[columnStart[Math.floor(i / 3)]];
      },
    },
  };
}
