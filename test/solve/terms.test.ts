import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/base/random.ts';
import {
  createBending, createDistanceContact, createGravity, createPins, createPairContact, createPressure, createQuadMembrane, createScaledTerm, createSingleLayer,
  createSlab, createTriangleMembrane,
} from '../../src/solve/index.ts';
import type { EnergyTerm, MembraneLaw } from '../../src/solve/index.ts';
import { strainEnergy, strainForce } from '../../src/solve/membrane-law.ts';
import { makeBall, makeCapsule } from './bodies.ts';
import { closedTube, makeSheet, tubePositions } from './sheet.ts';

const LAW: MembraneLaw = {
  courseModulus: 0.025, waleModulus: 0.05, coupling: 0.3, shearModulus: 0.007, compression: 0.1, softness: 0.01, stiffening: 40, crushing: 10,
};

const sheet = makeSheet(8, 5, true, 3.3, 2.4);

function disturbed(seed: number, amount: number): Float64Array {
  const random = createRandom(seed);
  return tubePositions(sheet, 4.4, 2.4).map((v) => v + amount * (random() - 0.5));
}

/** Triangles of every quad, some turned, with a rest shape of their own. */
function triangles(law = LAW): EnergyTerm {
  const quads = sheet.elements.corners;
  const corners: number[] = [], rest: number[] = [], shares: number[] = [];
  for (let q = 0; q < quads.length; q += 4) {
    corners.push(quads[q], quads[q + 1], quads[q + 2], quads[q + 2], quads[q + 3], quads[q]);
    rest.push(0, 0, 3.1, 0.2, 3.3, 2.5, 3.3, 2.5, 0.1, 2.2, 0, 0);
    shares.push(1, 0.5);
  }
  return createTriangleMembrane({
    corners: Int32Array.from(corners), rest: Float64Array.from(rest), shares: Float64Array.from(shares), cellWidth: 3.3, cellHeight: 2.4,
  }, law);
}

const n = sheet.nodeCount;
const TERMS: Record<string, EnergyTerm> = {
  quads: createQuadMembrane(sheet.elements, LAW),
  triangles: triangles(),
  'blunt triangles': triangles({ ...LAW, bluntness: 0.2 }),
  bending: createBending(sheet.bends(0.02)),
  pressure: createPressure(closedTube(sheet), 0.01),
  slab: createSlab({ axis: 1, least: new Float64Array(n).fill(-2), greatest: new Float64Array(n).fill(1.5), stiffness: 0.3 }),
  layer: createSingleLayer({
    corners: Int32Array.from([0, 1, 9, 9, 8, 0, 3, 4, 12]), signedAreas: Float64Array.of(4, 4, -4), axes: [1, 2], leastShare: 3, stiffness: 0.02,
  }),
  pairs: createPairContact({
    upper: Int32Array.of(0, 1, 2), lower: Int32Array.of(16, 18, 17), upperBody: Int32Array.of(0, 1, 2, 3), lowerBody: Int32Array.of(16, 17, 20),
    clearances: Float64Array.of(4, 9, 1), stiffness: 0.1,
  }),
  scaled: createScaledTerm(createBending(sheet.bends(0.02)), 7, n),
  pins: createPins({ nodes: Int32Array.of(0, 7, 12), places: Float64Array.from([1, 2, 3, 4, 5, 6, 7, 8, 9]), stiffness: 0.4 }),
  ball: createDistanceContact({ field: makeBall([1, 0.5, 4], 4), clearances: new Float64Array(n).map((_, i) => 0.1 * i), stiffness: 0.3 }),
  capsule: createDistanceContact({ field: makeCapsule([0, 1, -2], [1, 0, 7], 3), clearances: new Float64Array(n).map((_, i) => 0.1 * i), stiffness: 0.3 }),
  gravity: createGravity(new Float64Array(n).map((_, i) => 0.01 * i), [0.6, 0, -0.8]),
};

describe('every term', () => {
  // Calculus: a gradient is what central differences of the energy tend to.
  it.each(Object.keys(TERMS))('%s: gradient agrees with central differences', (name) => {
    const term = TERMS[name];
    for (const amount of [0.3, 2.5]) {
      const x = disturbed(11, amount), g = new Float64Array(x.length), waste = new Float64Array(x.length);
      term.addGradient(x, g);
      const scale = Math.max(...g.map(Math.abs));
      expect(scale).toBeGreaterThan(0);
      for (let i = 0; i < x.length; i++) {
        const h = 1e-5, at = x[i];
        x[i] = at + h;
        const above = term.addGradient(x, waste);
        x[i] = at - h;
        const below = term.addGradient(x, waste);
        x[i] = at;
        expect(Math.abs((above - below) / (2 * h) - g[i])).toBeLessThan(1e-6 * scale + 1e-10);
      }
    }
  });

  it.each(['quads', 'triangles', 'bending', 'pressure', 'pairs'])('%s: no net force and no net turning moment', (name) => {
    const x = disturbed(5, 1), g = new Float64Array(x.length);
    TERMS[name].addGradient(x, g);
    const sum = new Float64Array(6);
    for (let i = 0; i < x.length; i += 3) {
      for (let a = 0; a < 3; a++) {
        const b = (a + 1) % 3, c = (a + 2) % 3;
        sum[a] += g[i + a];
        sum[3 + a] += x[i + b] * g[i + c] - x[i + c] * g[i + b];
      }
    }
    for (const value of sum) expect(Math.abs(value)).toBeLessThan(1e-12);
  });

  // Statics: what pushes straight away from a point, or from a line, does not turn about it.
  it.each([['ball', [1, 0.5, 4], [[1, 0, 0], [0, 1, 0], [0, 0, 1]]], ['capsule', [0, 1, -2], [[1, -1, 9]]]] as const)('%s: no turning moment about its own axes', (name, centre, axes) => {
    const x = disturbed(5, 1), g = new Float64Array(x.length), moment = [0, 0, 0];
    expect(TERMS[name].addGradient(x, g)).toBeGreaterThan(0);
    for (let i = 0; i < x.length; i += 3) {
      for (let a = 0; a < 3; a++) {
        const b = (a + 1) % 3, c = (a + 2) % 3;
        moment[a] += (x[i + b] - centre[b]) * g[i + c] - (x[i + c] - centre[c]) * g[i + b];
      }
    }
    for (const axis of axes) expect(Math.abs(axis[0] * moment[0] + axis[1] * moment[1] + axis[2] * moment[2])).toBeLessThan(1e-12);
  });

  it('contact pushes away from the body, only what is nearer than its clearance', () => {
    const field = makeBall([0, 0, 0], 5), x = Float64Array.of(5.2, 0, 0, 0, -5.8, 0, 0, 0, 9), g = new Float64Array(9);
    const energy = createDistanceContact({ field, clearances: Float64Array.of(0.5, 1, 3), stiffness: 2 }).addGradient(x, g);
    // 0.3 and 0.2 too near: stiffness times that, energy its square; 9 is a clearance of 4.
    [-0.6, 0, 0, 0, 0.4, 0, 0, 0, 0].forEach((wanted, i) => { expect(g[i]).toBeCloseTo(wanted, 12); });
    expect(energy).toBeCloseTo(0.3 ** 2 + 0.2 ** 2, 12);
  });

  it('adds to the gradient it is given', () => {
    const x = disturbed(3, 1), once = new Float64Array(x.length), twice = new Float64Array(x.length);
    for (const term of Object.values(TERMS)) {
      term.addGradient(x, once);
      term.addGradient(x, twice);
      term.addGradient(x, twice);
    }
    for (let i = 0; i < x.length; i++) expect(twice[i]).toBeCloseTo(2 * once[i], 12);
  });
});

describe('the strain curve', () => {
  it('is smooth where its pieces meet, and softer in compression', () => {
    for (const at of [LAW.softness, -LAW.softness, 0]) {
      expect(strainEnergy(at + 1e-9, LAW)).toBeCloseTo(strainEnergy(at - 1e-9, LAW), 9);
      expect(strainForce(at + 1e-9, LAW)).toBeCloseTo(strainForce(at - 1e-9, LAW), 7);
    }
    expect(strainForce(0, LAW)).toBeCloseTo(0, 15);
    expect(-strainForce(-0.1, LAW) / strainForce(0.1, LAW)).toBeLessThan(0.2);
  });

  it('stiffens in tension as measured knits do: 3 to 8 times at 17 % strain (published range)', () => {
    const tangent = (e: number): number => (strainForce(e + 1e-6, LAW) - strainForce(e - 1e-6, LAW)) / 2e-6;
    expect(tangent(0.17) / tangent(0.011)).toBeGreaterThan(3);
    expect(tangent(0.17) / tangent(0.011)).toBeLessThan(8);
  });
});

it('a rectangle cut into corner triangles has the energy and forces of the quad kernel', () => {
  const x = disturbed(9, 1.5);
  const quads = sheet.elements.corners;
  const corners: number[] = [], rest: number[] = [];
  const place = [[0, 0], [3.3, 0], [3.3, 2.4], [0, 2.4]];
  for (let q = 0; q < quads.length; q += 4) {
    for (let c = 0; c < 4; c++) {
      for (const k of [c, (c + 1) % 4, (c + 3) % 4]) {
        corners.push(quads[q + k]);
        rest.push(...place[k]);
      }
    }
  }
  const cut = createTriangleMembrane({
    corners: Int32Array.from(corners), rest: Float64Array.from(rest), shares: new Float64Array(quads.length).fill(0.5), cellWidth: 3.3, cellHeight: 2.4,
  }, LAW);
  const g = new Float64Array(x.length), h = new Float64Array(x.length);
  expect(cut.addGradient(x, g)).toBeCloseTo(TERMS['quads'].addGradient(x, h), 12);
  for (let i = 0; i < g.length; i++) expect(g[i]).toBeCloseTo(h[i], 12);
  expect(cut.edgeForces?.().sum).toBeCloseTo(TERMS['quads'].edgeForces?.().sum ?? NaN, 0);
  expect(cut.edgeForces?.().count).toBeCloseTo(TERMS['quads'].edgeForces?.().count ?? NaN, 9);
});
