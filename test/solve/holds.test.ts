import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/base/random.ts';
import { createDirectionHold } from '../../src/solve/direction-hold.ts';
import type { EnergyTerm } from '../../src/solve/energy.ts';
import { createGapContact } from '../../src/solve/gap-contact.ts';
import { createStiffnessMatrix } from '../../src/solve/stiffness.ts';

const NODES = 6;
const s = Math.SQRT1_2;
const TERMS: Record<string, EnergyTerm> = {
  'direction hold': createDirectionHold({
    nodes: Int32Array.of(0, 3, 5), directions: Float64Array.of(0, 0, 1, s, 0, -s, 0.6, 0.8, 0), offsets: Float64Array.of(1, -2, 0.5), stiffness: 0.7,
  }),
  'gap contact': createGapContact({
    first: Int32Array.of(0, 2, 4, 1), second: Int32Array.of(1, 3, 5, 4), direction: [0, 0.8, -0.6], clearances: Float64Array.of(1, 0.4, 2, 3), stiffness: 0.3,
  }),
};

function places(seed: number): Float64Array {
  const random = createRandom(seed);
  return Float64Array.from({ length: 3 * NODES }, () => 4 * (random() - 0.5));
}

describe.each(Object.entries(TERMS))('%s', (_, term) => {
  it('has the gradient of its energy', () => {
    const x = places(1), g = new Float64Array(x.length), h = 1e-5;
    term.addGradient(x, g);
    for (let i = 0; i < x.length; i++) {
      const ahead = x.slice(), behind = x.slice();
      ahead[i] += h;
      behind[i] -= h;
      const difference = (term.addGradient(ahead, new Float64Array(x.length)) - term.addGradient(behind, new Float64Array(x.length))) / (2 * h);
      expect(difference).toBeCloseTo(g[i], 8);
    }
  });

  // Both energies are quadratic where they act, so the Hessian is exact.
  it('has the stiffness of its gradient', () => {
    const x = places(1), h = 1e-5, matrix = createStiffnessMatrix(NODES, term.couplings === undefined ? [] : [term.couplings()]);
    matrix.clear(0);
    term.addStiffness?.(x, matrix);
    for (let i = 0; i < x.length; i++) {
      const ahead = x.slice(), behind = x.slice(), plus = new Float64Array(x.length), minus = new Float64Array(x.length);
      ahead[i] += h;
      behind[i] -= h;
      term.addGradient(ahead, plus);
      term.addGradient(behind, minus);
      const column = Math.floor(i / 3);
      for (let k = matrix.columnStart[column]; k < matrix.columnStart[column + 1]; k++) {
        const row = matrix.rows[k];
        for (let axis = 0; axis < 3; axis++) {
          expect(matrix.values[9 * k + 3 * axis + i % 3]).toBeCloseTo((plus[3 * row + axis] - minus[3 * row + axis]) / (2 * h), 6);
        }
      }
    }
  });
});

it('a gap contact pulls on nothing that keeps its order, and has no net force', () => {
  const contact = createGapContact({ first: Int32Array.of(0), second: Int32Array.of(1), direction: [0, 1, 0], clearances: Float64Array.of(1), stiffness: 2 });
  const g = new Float64Array(6);
  expect(contact.addGradient(Float64Array.of(0, 0, 0, 5, 1.5, 5), g)).toBe(0);
  expect(g.every((f) => f === 0)).toBe(true);
  // Half a millimetre short: 2 N/mm x 0.5 mm each way, k s^2 / 2 of energy.
  expect(contact.addGradient(Float64Array.of(0, 0, 0, 5, 0.5, 5), g)).toBeCloseTo(0.25, 12);
  expect(Array.from(g)).toEqual([0, 1, 0, 0, -1, 0]);
});
