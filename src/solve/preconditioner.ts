import { analyseCholesky } from './cholesky-symbolic.ts';
import type { CholeskyPattern } from './cholesky-symbolic.ts';
import { createCholeskySolver } from './cholesky-solve.ts';
import type { CholeskySolver } from './cholesky-solve.ts';
import { factorise } from './cholesky.ts';
import type { EnergyTerm, MetricSink } from './energy.ts';
import { orderForFill } from './fill-order.ts';
import { createMatrixBuilder } from './sparse-matrix.ts';

/** Coordinates that share one scalar metric, and what goes into it. */
export interface MetricGroup {
  /** 0 x, 1 y, 2 z. */
  readonly axes: readonly number[];
  /** Terms with the factor at which their metric counts. */
  readonly parts: readonly { readonly term: EnergyTerm; readonly factor: number }[];
}

export interface Preconditioner {
  /** step = M^-1 gradient. `step` may be `gradient`. */
  applyInto(step: Float64Array, gradient: Float64Array): void;
  /** Makes the metric anew from the energy's stiffness at these positions; one that is made once has none. */
  renew?(positions: Float64Array): void;
  /**
   * step = A^-1 gradient for the stiffness A of the last `renew`, to within `share` of the gradient's
   * size (preconditioned conjugate gradients); a metric that keeps no stiffness cannot.
   */
  solveInto?(step: Float64Array, gradient: Float64Array, share: number): void;
  /** Entries of all factors, for reports. */
  readonly entryCount: number;
}

/**
 * Factors the metrics of all groups. `shift` (N/mm) is added to each node, so that free bodies have
 * a metric too.
 */
export function createPreconditioner(nodeCount: number, groups: readonly MetricGroup[], shift: number): Preconditioner {
  const solvers: { solver: CholeskySolver; axes: readonly number[] }[] = [];
  let entryCount = 0;
  for (const group of groups) {
    const builder = createMatrixBuilder(nodeCount, shift);
    for (const { term, factor } of group.parts) term.addMetric?.(scaledSink(builder, factor), group.axes);
    const matrix = builder.build();
    const pattern: CholeskyPattern = analyseCholesky(matrix, orderForFill(matrix));
    entryCount += pattern.valueCount;
    solvers.push({ solver: createCholeskySolver(factorise(matrix, pattern)), axes: group.axes });
  }
  return {
    entryCount,
    applyInto(step, gradient) {
      for (const { solver, axes } of solvers) solver.solveInto(step, gradient, axes);
    },
  };
}

function scaledSink(sink: MetricSink, factor: number): MetricSink {
  return {
    addSquare: (weight, nodes, coefficients, from, count) => { sink.addSquare(weight * factor, nodes, coefficients, from, count); },
    addDiagonal: (node, weight) => { sink.addDiagonal(node, weight * factor); },
  };
}
