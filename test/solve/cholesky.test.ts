import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/base/random.ts';
import { createCholeskySolver } from '../../src/solve/cholesky-solve.ts';
import { analyseCholesky } from '../../src/solve/cholesky-symbolic.ts';
import { factorise } from '../../src/solve/cholesky.ts';
import { orderForFill } from '../../src/solve/fill-order.ts';
import { createMatrixBuilder, multiplyInto } from '../../src/solve/sparse-matrix.ts';
import type { SparseMatrix } from '../../src/solve/sparse-matrix.ts';

/** Laplacian of a grid joined round, with some long links and second differences. */
function gridMatrix(columns: number, rows: number, seed: number): SparseMatrix {
  const random = createRandom(seed);
  const builder = createMatrixBuilder(columns * rows, 0.01);
  const nodes = new Int32Array(3), first = Float64Array.of(-1, 1), second = Float64Array.of(1, -2, 1);
  for (let i = 0; i < columns * rows; i++) {
    const right = i - i % columns + (i + 1) % columns, up = i + columns;
    nodes.set([i, right]);
    builder.addSquare(0.5 + random(), nodes, first, 0, 2);
    if (up >= columns * rows) continue;
    nodes.set([i, up]);
    builder.addSquare(0.5 + random(), nodes, first, 0, 2);
    if (up + columns >= columns * rows) continue;
    nodes.set([i, up, up + columns]);
    builder.addSquare(random(), nodes, second, 0, 3);
  }
  return builder.build();
}

function solveSparse(matrix: SparseMatrix, b: Float64Array, axes: readonly number[]): Float64Array {
  const x = b.slice();
  createCholeskySolver(factorise(matrix, analyseCholesky(matrix, orderForFill(matrix)))).solveInto(x, x, axes);
  return x;
}

describe('sparse Cholesky', () => {
  it.each([[1, 1], [3, 2], [12, 9], [30, 40]])('solves %d x %d grids: A x gives b back', (columns, rows) => {
    const matrix = gridMatrix(columns, rows, 5), random = createRandom(9);
    const b = new Float64Array(3 * matrix.size).map(() => random() - 0.5), back = new Float64Array(b.length);
    multiplyInto(back, matrix, solveSparse(matrix, b, [0, 1, 2]), 3);
    for (let i = 0; i < b.length; i++) expect(back[i]).toBeCloseTo(b[i], 9);
  });

  it('solves chosen coordinates only, to the same values', () => {
    const matrix = gridMatrix(12, 9, 1), random = createRandom(2);
    const b = new Float64Array(3 * matrix.size).map(() => random() - 0.5);
    const all = solveSparse(matrix, b, [0, 1, 2]), some = solveSparse(matrix, b, [0, 2]);
    for (let i = 0; i < b.length; i++) expect(some[i]).toBeCloseTo(i % 3 === 1 ? b[i] : all[i], 12);
  });

  it('orders every node once, and for far less fill than the natural order', () => {
    const matrix = gridMatrix(40, 60, 3);
    const order = orderForFill(matrix);
    expect([...order].sort((a, b) => a - b)).toEqual(Array.from({ length: matrix.size }, (_, i) => i));
    const natural = analyseCholesky(matrix, Int32Array.from({ length: matrix.size }, (_, i) => i));
    expect(analyseCholesky(matrix, order).valueCount).toBeLessThan(natural.valueCount / 2);
  });

  it('takes parts that do not hang together', () => {
    const builder = createMatrixBuilder(100, 1);
    const pair = new Int32Array(2), ends = Float64Array.of(-1, 1);
    for (let i = 0; i < 100; i += 2) {
      pair.set([i, i + 1]);
      builder.addSquare(1, pair, ends, 0, 2);
    }
    const x = solveSparse(builder.build(), new Float64Array(300).fill(1), [0, 1, 2]);
    for (const value of x) expect(value).toBeCloseTo(1, 12);
  });

  it('refuses a matrix that is not positive definite', () => {
    const builder = createMatrixBuilder(3, 1);
    builder.addDiagonal(1, -2);
    expect(() => solveSparse(builder.build(), new Float64Array(9), [0])).toThrow('positive definite');
  });

  it('sums entries that meet, in any order of coming', () => {
    const builder = createMatrixBuilder(2, 0);
    builder.addSquare(2, Int32Array.of(1, 0), Float64Array.of(3, -1), 0, 2);
    builder.addDiagonal(0, 5);
    const matrix = builder.build();
    expect([...matrix.columnStart]).toEqual([0, 2, 3]);
    expect([...matrix.rows]).toEqual([0, 1, 1]);
    expect([...matrix.values]).toEqual([7, -6, 18]);
  });
});
