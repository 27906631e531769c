import { CholeskyDecomposition, EigenvalueDecomposition, LuDecomposition, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { createRandom, randomWhole } from '../../src/base/random.ts';
import { createCholeskySolver } from '../../src/solve/cholesky-solve.ts';
import { analyseCholesky } from '../../src/solve/cholesky-symbolic.ts';
import { factorise } from '../../src/solve/cholesky.ts';
import { createPreconditioner, createQuadMembrane } from '../../src/solve/index.ts';
import { orderForFill } from '../../src/solve/fill-order.ts';
import { createMatrixBuilder } from '../../src/solve/sparse-matrix.ts';
import type { SparseMatrix } from '../../src/solve/sparse-matrix.ts';
import { LINEAR } from '../solve/relax.ts';
import { makeSheet } from '../solve/sheet.ts';

/** A random sum of squares over up to five nodes each, with no mesh behind it. */
function randomMatrix(size: number, seed: number): SparseMatrix {
  const random = createRandom(seed), builder = createMatrixBuilder(size, 0.05);
  const nodes = new Int32Array(5), form = new Float64Array(5);
  for (let k = 0; k < 2 * size; k++) {
    const count = randomWhole(random, 1, 5);
    for (let p = 0; p < count; p++) {
      nodes[p] = randomWhole(random, 0, size - 1);
      form[p] = random() - 0.5;
    }
    builder.addSquare(random(), nodes, form, 0, count);
  }
  return builder.build();
}

function toDense({ size, columnStart, rows, values }: SparseMatrix): Matrix {
  const dense = Matrix.zeros(size, size);
  for (let j = 0; j < size; j++) {
    for (let p = columnStart[j]; p < columnStart[j + 1]; p++) {
      dense.set(rows[p], j, values[p]);
      dense.set(j, rows[p], values[p]);
    }
  }
  return dense;
}

function expectSame(got: Float64Array, wanted: Matrix): void {
  const scale = wanted.max() - wanted.min();
  for (let i = 0; i < got.length; i++) expect(Math.abs(got[i] - wanted.get(Math.floor(i / 3), i % 3))).toBeLessThan(1e-9 * scale);
}

const rightSide = (size: number): Float64Array => {
  const random = createRandom(3);
  return new Float64Array(3 * size).map(() => random() - 0.5);
};
const asMatrix = (b: Float64Array): Matrix => Matrix.from1DArray(b.length / 3, 3, [...b]);

// ml-matrix, a general library of dense linear algebra (development dependency).
describe('sparse Cholesky against a general library', () => {
  it.each([[7, 1], [60, 2], [200, 3]])('solves a random system of %d unknowns as its Cholesky and LU do', (size, seed) => {
    const matrix = randomMatrix(size, seed), b = rightSide(size), x = new Float64Array(b.length);
    createCholeskySolver(factorise(matrix, analyseCholesky(matrix, orderForFill(matrix)))).solveInto(x, b, [0, 1, 2]);
    const dense = toDense(matrix);
    expectSame(x, new CholeskyDecomposition(dense).solve(asMatrix(b)));
    expectSame(x, new LuDecomposition(dense).solve(asMatrix(b)));
  });

  it('applies the inverse of a membrane\'s metric', () => {
    const sheet = makeSheet(12, 9, true, 3, 2.5), membrane = createQuadMembrane(sheet.elements, LINEAR);
    const builder = createMatrixBuilder(sheet.nodeCount, 1e-3);
    membrane.addMetric?.(builder, [0, 1, 2]);
    const b = rightSide(sheet.nodeCount), x = new Float64Array(b.length);
    createPreconditioner(sheet.nodeCount, [{ axes: [0, 1, 2], parts: [{ term: membrane, factor: 1 }] }], 1e-3).applyInto(x, b);
    expectSame(x, new CholeskyDecomposition(toDense(builder.build())).solve(asMatrix(b)));
  });

  it('has its least eigenvalue, by inverse iteration', () => {
    const matrix = randomMatrix(60, 5), solver = createCholeskySolver(factorise(matrix, analyseCholesky(matrix, orderForFill(matrix))));
    const x = rightSide(60);
    let eigenvalue = 0;
    for (let k = 0; k < 3000; k++) {
      let before = 0, after = 0;
      for (let i = 0; i < x.length; i += 3) before += x[i] ** 2;
      solver.solveInto(x, x, [0]);
      for (let i = 0; i < x.length; i += 3) after += x[i] ** 2;
      eigenvalue = Math.sqrt(before / after);
      for (let i = 0; i < x.length; i += 3) x[i] /= Math.sqrt(after);
    }
    const wanted = Math.min(...new EigenvalueDecomposition(toDense(matrix), { assumeSymmetric: true }).realEigenvalues);
    expect(Math.abs(eigenvalue / wanted - 1)).toBeLessThan(1e-9);
  });
});
