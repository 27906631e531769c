import { createBlockSweeps } from './block-sweeps.ts';
import { createConjugateGradients } from './conjugate-gradients.ts';
import type { EnergyTerm } from './energy.ts';
import { createCoarseProduct, PARENTS } from './galerkin.ts';
import type { Interpolation } from './galerkin.ts';
import type { Preconditioner } from './preconditioner.ts';
import { createStiffnessFactor } from './stiffness-factor.ts';
import { createStiffnessMatrix } from './stiffness.ts';

export interface TwoLevelOptions {
  /** Added to each node's diagonal, N/mm. */
  readonly shift: number;
  /** As in `MinimiseOptions`. */
  readonly fixedAxis?: number;
}

/** Steps after which a solve ends as it stands: its preconditioner then says too little for more to pay. */
const MOST_SOLVE_STEPS = 40;

/**
 * A metric made from the terms' stiffness A at the present shape: one cycle over two levels (Brandt,
 * Math. Comp. 31 (1977) 333-390), a block Gauss-Seidel sweep up the nodes, the correction
 * P (P^T A P)^-1 P^T of what it leaves, and a sweep down, which together are symmetric and positive
 * definite. The sweeps see what happens from node to node, the coarse factor what happens over many: long
 * bends of a cloth that hardly resists them, where a metric of springs alone takes hundreds of steps.
 * `renew` must be called first.
 */
export function createTwoLevelMetric(nodeCount: number, terms: readonly EnergyTerm[], interpolation: Interpolation, options: TwoLevelOptions): Preconditioner {
  const { shift, fixedAxis = -1 } = options;
  const { nodes, weights, coarseCount } = interpolation;
  const fine = createStiffnessMatrix(nodeCount, terms.flatMap((term) => term.couplings?.() ?? []));
  const coarse = createCoarseProduct(fine, interpolation), factor = createStiffnessFactor(coarse.matrix), sweeps = createBlockSweeps(fine);
  const coarseVector = new Float64Array(3 * coarseCount), rest = new Float64Array(3 * nodeCount), between = new Float64Array(3 * nodeCount);

  function restrict(from: Float64Array): void {
    coarseVector.fill(0);
    for (let j = 0; j < nodeCount; j++) {
      const x = from[3 * j], y = from[3 * j + 1], z = from[3 * j + 2];
      for (let p = PARENTS * j; p < PARENTS * j + PARENTS; p++) {
        const w = weights[p], a = 3 * nodes[p];
        coarseVector[a] += w * x; coarseVector[a + 1] += w * y; coarseVector[a + 2] += w * z;
      }
    }
  }

  function prolong(to: Float64Array): void {
    for (let j = 0; j < nodeCount; j++) {
      let u = 0, v = 0, w = 0;
      for (let p = PARENTS * j; p < PARENTS * j + PARENTS; p++) {
        const weight = weights[p], a = 3 * nodes[p];
        u += weight * coarseVector[a]; v += weight * coarseVector[a + 1]; w += weight * coarseVector[a + 2];
      }
      to[3 * j] = u; to[3 * j + 1] = v; to[3 * j + 2] = w;
    }
  }

  /** In the comments b is the gradient, x the step so far, e the coarse correction. */
  function applyInto(step: Float64Array, gradient: Float64Array): void {
    rest.set(gradient);
    sweeps.sweepUp(step, rest);
    // Of b - A x remains -L^T x; `rest` is D x, which is b - L x as well.
    sweeps.upperInto(between, step);
    restrict(between);
    factor.solveInto(coarseVector, coarseVector);
    prolong(between);
    // (D + L^T) (x + e + its own move) = b - L (x + e).
    sweeps.takeLower(rest, between);
    sweeps.sweepDown(step, rest);
  }

  const solve = createConjugateGradients(3 * nodeCount, (out, x) => { sweeps.multiplyInto(out, x); }, applyInto);
  return {
    applyInto,
    solveInto(step, gradient, share) { solve(step, gradient, share, MOST_SOLVE_STEPS); },
    entryCount: factor.entryCount + sweeps.entryCount,
    renew(positions) {
      fine.clear(shift);
      for (const term of terms) term.addStiffness?.(positions, fine);
      if (fixedAxis >= 0) fine.fixAxis(fixedAxis);
      coarse.renew(shift);
      factor.refactor();
      sweeps.renew();
    },
  };
}
