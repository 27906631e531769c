import type { EnergyTerm } from './energy.ts';
import { createCoarseProduct, PARENTS } from './galerkin.ts';
import type { Interpolation } from './galerkin.ts';
import type { Preconditioner } from './preconditioner.ts';
import { createStiffnessFactor } from './stiffness-factor.ts';
import { createStiffnessMatrix } from './stiffness.ts';

/** Both parts move a node, so their sum goes too far. `measured`: fewest evaluations of 0.5, 0.7 and 1. */
const STEP_SHARE = 0.5;

export interface TwoLevelOptions {
  /** Added to each node's diagonal, N/mm. */
  readonly shift: number;
  /** As in `MinimiseOptions`. */
  readonly fixedAxis?: number;
}

/**
 * A metric made from the terms' stiffness at the present shape: D^-1 + P (P^T A P)^-1 P^T, D the
 * diagonal blocks of A (additive two-level preconditioner; Bramble, Pasciak & Xu, Math. Comp. 55
 * (1990) 1-22). The blocks see what happens from node to node, the coarse factor what happens over
 * many: long bends of a cloth that hardly resists them, where a metric of springs alone takes
 * hundreds of steps. `renew` must be called first.
 */
export function createTwoLevelMetric(nodeCount: number, terms: readonly EnergyTerm[], interpolation: Interpolation, options: TwoLevelOptions): Preconditioner {
  const { shift, fixedAxis = -1 } = options;
  const { nodes, weights, coarseCount } = interpolation;
  const fine = createStiffnessMatrix(nodeCount, terms.flatMap((term) => term.couplings?.() ?? []));
  const coarse = createCoarseProduct(fine, interpolation);
  const factor = createStiffnessFactor(coarse.matrix);
  const inverse = new Float64Array(9 * nodeCount);
  const coarseVector = new Float64Array(3 * coarseCount);

  function restrict(gradient: Float64Array): void {
    coarseVector.fill(0);
    for (let j = 0; j < nodeCount; j++) {
      const x = gradient[3 * j], y = gradient[3 * j + 1], z = gradient[3 * j + 2];
      for (let p = PARENTS * j; p < PARENTS * j + PARENTS; p++) {
        const w = weights[p], a = 3 * nodes[p];
        coarseVector[a] += w * x; coarseVector[a + 1] += w * y; coarseVector[a + 2] += w * z;
      }
    }
  }

  function applyInto(step: Float64Array, gradient: Float64Array): void {
    restrict(gradient);
    factor.solveInto(coarseVector, coarseVector);
    for (let j = 0; j < nodeCount; j++) {
      const d = 9 * j, x = gradient[3 * j], y = gradient[3 * j + 1], z = gradient[3 * j + 2];
      let u = inverse[d] * x + inverse[d + 1] * y + inverse[d + 2] * z;
      let v = inverse[d + 3] * x + inverse[d + 4] * y + inverse[d + 5] * z;
      let w = inverse[d + 6] * x + inverse[d + 7] * y + inverse[d + 8] * z;
      for (let p = PARENTS * j; p < PARENTS * j + PARENTS; p++) {
        const weight = weights[p], a = 3 * nodes[p];
        u += weight * coarseVector[a]; v += weight * coarseVector[a + 1]; w += weight * coarseVector[a + 2];
      }
      step[3 * j] = STEP_SHARE * u; step[3 * j + 1] = STEP_SHARE * v; step[3 * j + 2] = STEP_SHARE * w;
    }
  }

  return {
    applyInto,
    entryCount: factor.entryCount + inverse.length,
    renew(positions) {
      fine.clear(shift);
      for (const term of terms) term.addStiffness?.(positions, fine);
      if (fixedAxis >= 0) fine.fixAxis(fixedAxis);
      coarse.renew(shift);
      factor.refactor();
      for (let j = 0; j < nodeCount; j++) invertInto(inverse, 9 * j, fine.values, 9 * fine.columnStart[j]);
    },
  };
}

/** Inverse of a symmetric positive definite 3 x 3 block. */
function invertInto(out: Float64Array, o: number, from: Float64Array, i: number): void {
  const a = from[i], b = from[i + 1], c = from[i + 2], d = from[i + 4], e = from[i + 5], f = from[i + 8];
  const p = d * f - e * e, q = c * e - b * f, r = b * e - c * d;
  const scale = 1 / (a * p + b * q + c * r);
  out[o] = p * scale;
  out[o + 1] = out[o + 3] = q * scale;
  out[o + 2] = out[o + 6] = r * scale;
  out[o + 4] = (a * f - c * c) * scale;
  out[o + 5] = out[o + 7] = (b * c - a * e) * scale;
  out[o + 8] = (a * d - b * b) * scale;
}
