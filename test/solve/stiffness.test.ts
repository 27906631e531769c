import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/base/random.ts';
import {
  createBending, createDistanceContact, createPins, createQuadMembrane, createSingleLayer, createSlab, createTriangleMembrane,
  createTwoLevelMetric, minimise,
} from '../../src/solve/index.ts';
import type { EnergyTerm, Interpolation, MembraneLaw } from '../../src/solve/index.ts';
import { createCoarseProduct, PARENTS } from '../../src/solve/galerkin.ts';
import { createStiffnessMatrix } from '../../src/solve/stiffness.ts';
import type { StiffnessMatrix } from '../../src/solve/stiffness.ts';
import { makeBall } from './bodies.ts';
import { makeSheet, tubePositions } from './sheet.ts';

const LAW: MembraneLaw = {
  courseModulus: 0.035, waleModulus: 0.07, coupling: 0.3, shearModulus: 0.007, compression: 0.1, softness: 0.02, stiffening: 30, crushing: 1,
};
const sheet = makeSheet(8, 5, true, 3.3, 2.4), n = sheet.nodeCount;

/** Drawn wide and long, so that no element is in compression; then disturbed a little. */
function taut(): Float64Array {
  const random = createRandom(2);
  return tubePositions(sheet, 5.2, 2.9).map((v) => v + 0.02 * (random() - 0.5));
}

function triangles(): EnergyTerm {
  const quads = sheet.elements.corners, corners: number[] = [], rest: number[] = [], shares: number[] = [];
  for (let q = 0; q < quads.length; q += 4) {
    corners.push(quads[q], quads[q + 1], quads[q + 2], quads[q + 2], quads[q + 3], quads[q]);
    rest.push(0, 0, 3.3, 0, 3.3, 2.4, 3.3, 2.4, 0, 2.4, 0, 0);
    shares.push(1, 1);
  }
  return createTriangleMembrane({
    corners: Int32Array.from(corners), rest: Float64Array.from(rest), shares: Float64Array.from(shares), cellWidth: 3.3, cellHeight: 2.4,
  }, LAW);
}

/** A grid whose lines run straight, which bends resist exactly as the model says. */
function straight(): Float64Array {
  const x = new Float64Array(3 * n);
  for (let i = 0; i < n; i++) x.set([3.3 * (i % 8), 0, 2.4 * Math.floor(i / 8)], 3 * i);
  return x;
}

const flat = makeSheet(8, 5, false, 3.3, 2.4);

/** Terms at positions where what their stiffness leaves out is nothing, or next to it. */
const EXACT: Record<string, { term: EnergyTerm; x: Float64Array; share: number }> = {
  quads: { term: createQuadMembrane(sheet.elements, LAW), x: taut(), share: 0.02 },
  triangles: { term: triangles(), x: taut(), share: 0.02 },
  bending: { term: createBending(flat.bends(0.02)), x: straight(), share: 1e-4 },
  pins: { term: createPins({ nodes: Int32Array.of(0, 7, 12), places: new Float64Array(9), stiffness: 0.4 }), x: taut(), share: 1e-6 },
  slab: { term: createSlab({ axis: 1, least: new Float64Array(n).fill(-2), greatest: new Float64Array(n).fill(1.5), stiffness: 0.3 }), x: taut(), share: 1e-6 },
  layer: {
    // All short by so little that the slopes are nearly all of the Hessian.
    term: createSingleLayer({ corners: Int32Array.from([0, 1, 9, 9, 8, 0]), signedAreas: Float64Array.of(3.96, 3.96), axes: [0, 2], leastShare: 1.0001, stiffness: 0.02 }),
    x: straight(), share: 1e-3,
  },
  contact: {
    term: createDistanceContact({ field: makeBall([0, 0, 0], 500), clearances: new Float64Array(n).fill(0.01 - 494), stiffness: 0.3 }),
    x: tubePositions(sheet, 6, 1e-3), share: 0.02,
  },
};

function dense(matrix: StiffnessMatrix): number[][] {
  const size = 3 * matrix.nodeCount, out = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  for (let j = 0; j < matrix.nodeCount; j++) {
    for (let k = matrix.columnStart[j]; k < matrix.columnStart[j + 1]; k++) {
      for (let e = 0; e < 9; e++) {
        const row = 3 * matrix.rows[k] + Math.floor(e / 3), column = 3 * j + e % 3;
        out[row][column] = matrix.values[9 * k + e];
        out[column][row] = matrix.values[9 * k + e];
      }
    }
  }
  return out;
}

function stiffnessOf(term: EnergyTerm, x: Float64Array): StiffnessMatrix {
  const matrix = createStiffnessMatrix(n, [term.couplings?.() ?? { width: 1, nodes: new Int32Array(0) }]);
  matrix.clear(0);
  term.addStiffness?.(x, matrix);
  return matrix;
}

describe('stiffness', () => {
  // Calculus: a Hessian is what central differences of the gradient tend to.
  it.each(Object.keys(EXACT))('%s: agrees with central differences of the gradient', (name) => {
    const { term, x, share } = EXACT[name];
    const modelled = dense(stiffnessOf(term, x)), most = Math.max(...modelled.flat().map(Math.abs));
    expect(most).toBeGreaterThan(0);
    for (let j = 0; j < x.length; j++) {
      const at = x[j], h = 1e-5, above = new Float64Array(x.length), below = new Float64Array(x.length);
      x[j] = at + h;
      term.addGradient(x, above);
      x[j] = at - h;
      term.addGradient(x, below);
      x[j] = at;
      for (let i = 0; i < x.length; i++) expect(Math.abs((above[i] - below[i]) / (2 * h) - modelled[i][j])).toBeLessThan(share * most + 1e-9);
    }
  });

  // Algebra: a sum of squares is never negative. Crumpled cloth has a Hessian that is; its model must not be.
  it.each(['quads', 'triangles', 'bending'])('%s: is positive semidefinite on crumpled cloth', (name) => {
    const random = createRandom(8), { term } = EXACT[name];
    const x = tubePositions(sheet, 3, 1.8).map((v) => v + 2 * (random() - 0.5)), matrix = dense(stiffnessOf(term, x));
    for (let trial = 0; trial < 40; trial++) {
      const v = x.map(() => random() - 0.5);
      let product = 0, scale = 0;
      for (let i = 0; i < v.length; i++) for (let j = 0; j < v.length; j++) { product += v[i] * matrix[i][j] * v[j]; scale += Math.abs(matrix[i][j]); }
      expect(product).toBeGreaterThan(-1e-12 * scale);
    }
  });
});

/** Every coarse node stands for two rows of the sheet's columns, with a share of a neighbour for good measure. */
function halve(): Interpolation {
  const nodes = new Int32Array(PARENTS * n), weights = new Float64Array(PARENTS * n), coarseCount = 8 * 3;
  for (let v = 0; v < n; v++) {
    const row = Math.floor(v / 8) / 2, low = Math.floor(row);
    nodes.set([8 * low + v % 8, 8 * Math.min(2, low + 1) + v % 8, 0, 0], PARENTS * v);
    weights.set([1 - row + low, row - low, 0, 0], PARENTS * v);
  }
  return { coarseCount, nodes, weights };
}

describe('the coarse metric', () => {
  it('is P^T A P', () => {
    const { term, x } = EXACT['quads'], fine = stiffnessOf(term, x), interpolation = halve(), a = dense(fine);
    const product = createCoarseProduct(fine, interpolation);
    product.renew(0);
    const got = dense(product.matrix), size = 3 * interpolation.coarseCount;
    const p = a.map((_, i) => {
      const row = new Array<number>(size).fill(0), v = Math.floor(i / 3);
      for (let k = PARENTS * v; k < PARENTS * v + PARENTS; k++) row[3 * interpolation.nodes[k] + i % 3] += interpolation.weights[k];
      return row;
    });
    const ap = a.map((row) => p[0].map((_, c) => row.reduce((sum, value, k) => sum + value * p[k][c], 0)));
    for (let r = 0; r < size; r++) {
      for (let c = 0; c < size; c++) expect(got[r][c]).toBeCloseTo(p.reduce((sum, row, k) => sum + row[r] * ap[k][c], 0), 10);
    }
  });

  it('leads to the same minimum as no metric at all, in fewer steps', () => {
    const pins = createPins({ nodes: Int32Array.from({ length: 8 }, (_, i) => i), places: tubePositions(sheet, 5, 2.4).slice(0, 24), stiffness: 1 });
    const terms = [createQuadMembrane(sheet.elements, LAW), createBending(sheet.bends(0.02)), pins];
    const identity = { entryCount: 0, applyInto: (step: Float64Array, gradient: Float64Array) => { step.set(gradient); } };
    const start = taut(), plain = start.slice(), guided = start.slice();
    const long = minimise(plain, terms, identity, { tolerance: 1e-7, leastForce: 1e-3 });
    const short = minimise(guided, terms, createTwoLevelMetric(n, terms, halve(), { shift: 1e-6 }), { tolerance: 1e-7, leastForce: 1e-3 });
    expect([long.status, short.status]).toEqual(['converged', 'converged']);
    expect(short.iterations).toBeLessThan(long.iterations / 2);
    expect(short.energy).toBeCloseTo(long.energy, 9);
    for (let i = 0; i < plain.length; i++) expect(guided[i]).toBeCloseTo(plain[i], 3);
  });

  it('by Newton\'s steps as well, in fewer still', () => {
    const pins = createPins({ nodes: Int32Array.from({ length: 8 }, (_, i) => i), places: tubePositions(sheet, 5, 2.4).slice(0, 24), stiffness: 1 });
    const terms = [createQuadMembrane(sheet.elements, LAW), createBending(sheet.bends(0.02)), pins];
    const ends = [Infinity, 0].map((newtonAbove) => {
      const x = taut();
      return { x, ...minimise(x, terms, createTwoLevelMetric(n, terms, halve(), { shift: 1e-6 }), { tolerance: 1e-7, leastForce: 1e-3, newtonAbove }) };
    });
    expect(ends.map((end) => end.status)).toEqual(['converged', 'converged']);
    expect(ends[1].iterations).toBeLessThan(ends[0].iterations);
    expect(ends[1].energy).toBeCloseTo(ends[0].energy, 9);
    for (let i = 0; i < ends[0].x.length; i++) expect(ends[1].x[i]).toBeCloseTo(ends[0].x[i], 3);
  });

  // Algebra: (M a).b = a.(M b) and (M a).a > 0 is what conjugate gradients ask of a preconditioner; A x = b is checked by multiplying out.
  it('is symmetric and positive, and solves for its stiffness', () => {
    const terms = [createQuadMembrane(sheet.elements, LAW), createBending(sheet.bends(0.02))], metric = createTwoLevelMetric(n, terms, halve(), { shift: 1e-4 });
    const fine = createStiffnessMatrix(n, terms.flatMap((term) => term.couplings?.() ?? [])), random = createRandom(4), x = taut();
    fine.clear(1e-4);
    for (const term of terms) term.addStiffness?.(x, fine);
    metric.renew?.(x);
    const [a, b] = [0, 1].map(() => new Float64Array(3 * n).map(() => random() - 0.5)), [ma, mb, solved] = [0, 1, 2].map(() => new Float64Array(3 * n));
    const product = (p: Float64Array, q: Float64Array): number => p.reduce((sum, value, i) => sum + value * q[i], 0);
    metric.applyInto(ma, a);
    metric.applyInto(mb, b);
    expect(product(ma, b) / product(a, mb)).toBeCloseTo(1, 9);
    expect(product(ma, a)).toBeGreaterThan(0);
    metric.solveInto?.(solved, b, 1e-9);
    const back = dense(fine).map((row) => row.reduce((sum, value, k) => sum + value * solved[k], 0));
    for (let i = 0; i < b.length; i++) expect(back[i]).toBeCloseTo(b[i], 7);
  });

  it('leaves coordinates along a fixed axis where they are', () => {
    const terms = [createQuadMembrane(sheet.elements, LAW), createBending(sheet.bends(0.02))], x = taut(), before = x.slice();
    const result = minimise(x, terms, createTwoLevelMetric(n, terms, halve(), { shift: 1e-6, fixedAxis: 1 }), { fixedAxis: 1, tolerance: 1e-5, leastForce: 1e-3 });
    expect(result.status).toBe('converged');
    for (let i = 1; i < x.length; i += 3) expect(x[i]).toBe(before[i]);
    expect(x).not.toEqual(before);
  });
});
