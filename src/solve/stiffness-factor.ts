import { analyseCholesky, repeatPattern } from './cholesky-symbolic.ts';
import { createPlainSolver } from './cholesky-solve.ts';
import { factorise } from './cholesky.ts';
import { orderForFill } from './fill-order.ts';
import type { SparseMatrix } from './sparse-matrix.ts';
import type { StiffnessMatrix } from './stiffness.ts';

export interface StiffnessFactor {
  /** Factors the matrix as it now stands. Throws when it is not positive definite. */
  refactor(): void;
  /** x = A^-1 b of the last factor, three entries a node; `x` may be `b`. */
  solveInto(x: Float64Array, b: Float64Array): void;
  readonly entryCount: number;
}

/** Cholesky factors of one matrix of blocks; the elimination order is found once, over nodes. */
export function createStiffnessFactor(matrix: StiffnessMatrix): StiffnessFactor {
  const { nodeCount, columnStart, rows } = matrix;
  const graph: SparseMatrix = { size: nodeCount, columnStart, rows, values: new Float64Array(0) };
  const pattern = repeatPattern(analyseCholesky(graph, orderForFill(graph)), 3);
  const { scalar, source } = spreadBlocks(matrix);
  let solve: ((x: Float64Array, b: Float64Array) => void) | null = null;
  return {
    entryCount: pattern.valueCount,
    refactor() {
      for (let k = 0; k < source.length; k++) scalar.values[k] = matrix.values[source[k]];
      solve = createPlainSolver(factorise(scalar, pattern));
    },
    solveInto(x, b) {
      if (solve === null) throw new Error('there is no factor yet');
      solve(x, b);
    },
  };
}

/** The matrix entry by entry, and where in the blocks each entry stands. */
function spreadBlocks({ nodeCount, columnStart, rows }: StiffnessMatrix): { scalar: SparseMatrix; source: Int32Array } {
  const size = 3 * nodeCount, scalarStart = new Int32Array(size + 1);
  for (let j = 0; j < size; j++) scalarStart[j + 1] = scalarStart[j] + 3 * (columnStart[Math.floor(j / 3) + 1] - columnStart[Math.floor(j / 3)]) - j % 3;
  const count = scalarStart[size], scalarRows = new Int32Array(count), source = new Int32Array(count);
  let end = 0;
  for (let j = 0; j < size; j++) {
    const node = Math.floor(j / 3), c = j % 3;
    for (let k = columnStart[node]; k < columnStart[node + 1]; k++) {
      for (let r = k === columnStart[node] ? c : 0; r < 3; r++) {
        scalarRows[end] = 3 * rows[k] + r;
        source[end++] = 9 * k + 3 * r + c;
      }
    }
  }
  return { scalar: { size, columnStart: scalarStart, rows: scalarRows, values: new Float64Array(count) }, source };
}
