import { describe, expect, it } from 'vitest';
import { createBending, createPreconditioner, createPressure, createQuadMembrane, createTwoLevelMetric, minimise } from '../../src/solve/index.ts';
import type { MembraneLaw, Preconditioner } from '../../src/solve/index.ts';
import { PARENTS } from '../../src/solve/galerkin.ts';
import { closedTube, makeSheet, tubePositions } from './sheet.ts';

const sheet = makeSheet(12, 9, true, 3.3, 2.4), n = sheet.nodeCount;

function law(scale: number): MembraneLaw {
  return {
    courseModulus: 0.035 * scale, waleModulus: 0.07 * scale, coupling: 0.3, shearModulus: 0.005 * scale,
    compression: 0.01, softness: 0.04, stiffening: 30, crushing: 0.5,
  };
}

function problem(scale: number): { terms: Parameters<typeof minimise>[1]; metrics: Record<string, Preconditioner> } {
  const terms = [createQuadMembrane(sheet.elements, law(scale)), createBending(sheet.bends(0.02 * scale)), createPressure(closedTube(sheet), 1e-5 * scale)];
  // Every row hangs on the one node of the column; enough to have a coarse problem at all.
  const nodes = new Int32Array(PARENTS * n).map((_, p) => Math.floor(p / PARENTS) % 12), weights = new Float64Array(PARENTS * n).map((_, p) => (p % PARENTS === 0 ? 1 : 0));
  return {
    terms, metrics: {
      springs: createPreconditioner(n, [{ axes: [0, 1, 2], parts: terms.map((term) => ({ term, factor: 1 })) }], 1e-6),
      'two levels': createTwoLevelMetric(n, terms, { coarseCount: 12, nodes, weights }, { shift: 1e-6 }),
    },
  };
}

describe.each(['springs', 'two levels'])('whatever the moduli (%s)', (metric) => {
  it.each([0, 1e-9, 1, 1e9])('times %f: an outcome, and no position that is no number', (scale) => {
    const { terms, metrics } = problem(scale), x = tubePositions(sheet, 7, 2);
    const result = minimise(x, terms, metrics[metric], { maxIterations: 400, leastForce: 1e-7 * scale, longestMove: 3 });
    expect(['converged', 'budget', 'stalled']).toContain(result.status);
    expect(x.every(Number.isFinite)).toBe(true);
    if (scale === 0 || scale === 1) expect(result.status).toBe('converged');
  });

  it('a start that is no shape stalls at once and stays what it was', () => {
    const { terms, metrics } = problem(1), x = tubePositions(sheet, 7, 2);
    x[10] = NaN;
    const before = x.slice();
    expect(minimise(x, terms, metrics[metric])).toMatchObject({ status: 'stalled', iterations: 0 });
    expect(x).toEqual(before);
  });
});

it('stops when told to, with what it has', () => {
  const { terms, metrics } = problem(1), x = tubePositions(sheet, 7, 2);
  let asked = 0;
  const result = minimise(x, terms, metrics['springs'], { isCancelled: () => ++asked > 3 });
  expect(result).toMatchObject({ status: 'cancelled', iterations: 3 });
  expect(x.every(Number.isFinite)).toBe(true);
});

it('does not call lengths at rest that still move, however small the forces', () => {
  const { terms, metrics } = problem(1);
  const loose = (lengths: ((x: Float64Array) => number[]) | undefined): number => {
    const x = tubePositions(sheet, 7, 2);
    return minimise(x, terms, metrics['springs'], { tolerance: 0.5, ...(lengths === undefined ? {} : { lengths }) }).iterations;
  };
  expect(loose((x) => [Math.sqrt((x[0] - x[18]) ** 2 + (x[1] - x[19]) ** 2 + (x[2] - x[20]) ** 2)])).toBeGreaterThan(loose(undefined));
});
