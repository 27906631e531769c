import { describe, expect, it } from 'vitest';
import { asin, atan2, cos, exp, log, sin } from '../../src/base/portable-math.ts';
import { createRandom } from '../../src/base/random.ts';

// Outside truth: the engine's own functions, which are right to within a unit or so in the last place.
const random = createRandom(12);
const numbers = (count: number, from: number, to: number): number[] => Array.from({ length: count }, () => from + (to - from) * random());

describe('portable functions agree with the engine to a few units in the last place', () => {
  it.each([
    ['sin', sin, Math.sin, numbers(2000, -20, 20)], ['cos', cos, Math.cos, numbers(2000, -20, 20)],
    ['asin', asin, Math.asin, [...numbers(2000, -1, 1), -1, 0, 1]],
    ['exp', exp, Math.exp, [...numbers(2000, -60, 60), 0, -699]], ['log', log, Math.log, [...numbers(2000, 1e-6, 50), 1, 1e-300, 1e300]],
  ] as const)('%s', (_, ours, theirs, places) => {
    for (const x of places) expect(Math.abs(ours(x) - theirs(x))).toBeLessThanOrEqual(1e-15 * Math.max(1, Math.abs(theirs(x))));
  });

  it('atan2', () => {
    for (const x of [...numbers(60, -3, 3), 0]) {
      for (const y of [...numbers(60, -3, 3), 0]) expect(Math.abs(atan2(y, x) - Math.atan2(y, x))).toBeLessThanOrEqual(2e-15);
    }
    expect(exp(-800)).toBe(0);
    expect(atan2(0, -1)).toBe(Math.PI);
  });
});
