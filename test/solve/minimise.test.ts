import { describe, expect, it } from 'vitest';
import { createBending, createPins, createPreconditioner, createQuadMembrane, minimise } from '../../src/solve/index.ts';
import type { EnergyTerm, MembraneLaw, MinimiseOptions, MinimiseResult } from '../../src/solve/index.ts';
import { makeSheet, tubePositions } from './sheet.ts';

const LAW: MembraneLaw = {
  courseModulus: 0.025, waleModulus: 0.05, coupling: 0.3, shearModulus: 0.004, compression: 0.05, softness: 0.02, stiffening: 40, crushing: 0.5,
};
const sheet = makeSheet(24, 16, true, 3, 2.5);
const membrane = createQuadMembrane(sheet.elements, LAW), bending = createBending(sheet.bends(0.01));
const preconditioner = createPreconditioner(sheet.nodeCount, [{ axes: [0, 1, 2], parts: [{ term: membrane, factor: 1 }] }], 1e-6);

function relax(options: MinimiseOptions, terms: readonly EnergyTerm[] = [membrane, bending]): { x: Float64Array; result: MinimiseResult } {
  const x = tubePositions(sheet, 14, 2);
  return { x, result: minimise(x, terms, preconditioner, { leastForce: 1e-5, ...options }) };
}

describe('the minimiser', () => {
  it('finds the minimum of a quadratic energy', () => {
    const nodes = Int32Array.from({ length: sheet.nodeCount }, (_, i) => i);
    const places = tubePositions(sheet, 3, 7);
    const pins = createPins({ nodes, places, stiffness: 0.2 });
    const x = tubePositions(sheet, 14, 2);
    const result = minimise(x, [pins], createPreconditioner(sheet.nodeCount, [{ axes: [0, 1, 2], parts: [{ term: pins, factor: 0.3 }] }], 0), { tolerance: 1e-9 });
    expect(result.status).toBe('converged');
    expect(result.energy).toBeCloseTo(0, 12);
    for (let i = 0; i < x.length; i++) expect(x[i]).toBeCloseTo(places[i], 6);
  });

  it('never raises the energy', () => {
    const energies: number[] = [], waste = new Float64Array(3 * sheet.nodeCount);
    relax({
      progressEvery: 1,
      onProgress: (x) => energies.push([membrane, bending].reduce((sum, term) => sum + term.addGradient(x, waste), 0)),
    });
    expect(energies.length).toBeGreaterThan(10);
    for (let k = 1; k < energies.length; k++) expect(energies[k]).toBeLessThanOrEqual(energies[k - 1] * (1 + 1e-11));
  });

  it('gives the same bytes for the same input', () => {
    expect(relax({}).x).toEqual(relax({}).x);
  });

  it('says how it ended', () => {
    expect(relax({}).result.status).toBe('converged');
    const budget = relax({ maxIterations: 3 }).result;
    expect([budget.status, budget.iterations]).toEqual(['budget', 3]);
    let asked = 0;
    const cancelled = relax({ isCancelled: () => ++asked > 5 }).result;
    expect([cancelled.status, cancelled.iterations]).toEqual(['cancelled', 5]);
    const cliff: EnergyTerm = { addGradient: (_, g) => { g[0] += 1; return Infinity; } };
    expect(relax({}, [cliff]).result.status).toBe('stalled');
    const liar: EnergyTerm = { addGradient: (x, g) => { g[0] -= 1; return x[0]; } };
    expect(relax({}, [liar]).result.status).toBe('stalled');
    const broken: EnergyTerm = { addGradient: (_, g) => { g[0] = NaN; return NaN; } };
    expect(relax({}, [broken]).result.status).toBe('stalled');
  });

  it('moves no coordinate farther in a step than it may', () => {
    let before = tubePositions(sheet, 14, 2), longest = 0;
    relax({
      longestMove: 0.05, progressEvery: 1, maxIterations: 40,
      onProgress: (x) => {
        for (let i = 0; i < x.length; i++) longest = Math.max(longest, Math.abs(x[i] - before[i]));
        before = x.slice();
      },
    });
    expect(longest).toBeLessThanOrEqual(0.05 * (1 + 1e-9));
    expect(longest).toBeGreaterThan(0.04);
  });
});
