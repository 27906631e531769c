import { expect, it } from 'vitest';
import { arrayBytes, exponent, median } from './timing.ts';

it('the exponent of an exact power law is that power', () => {
  expect(exponent([2000, 9000, 30_000, 200_000].map((x) => [x, 3e-4 * x ** 1.7] as const))).toBeCloseTo(1.7, 10);
  expect(exponent([[1, 5], [10, 5], [100, 5]])).toBeCloseTo(0, 10);
});

it('the median is the middle, or the mean of the two middles', () => {
  expect(median([9, 1, 5])).toBe(5);
  expect(median([9, 1, 5, 7])).toBe(6);
});

it('array bytes count each buffer once, wherever it hangs', () => {
  const shared = new Float64Array(10);
  expect(arrayBytes({ a: shared, b: [{ c: shared.subarray(2, 4) }, new Uint8Array(3)], d: 'text', e: null })).toBe(83);
});
