import { describe, expect, test } from 'vitest';
import { clamp, nearestMultiple, roundTiesDown } from '../../src/base/round.ts';

describe('roundTiesDown', () => {
  test.each([
    [46.2, 46], [46.8, 47], [46.5, 46], [0.5, 0], [1.5, 1], [-0.5, -1], [-1.2, -1], [7, 7],
    // Ties that floating point misses by a hair, and a half that is none.
    [2.5 + 4e-10, 2], [0.1 + 0.2 + 0.2 + 1e-16, 0], [2.5 + 1e-6, 3],
  ])('%d rounds to %d', (x, expected) => {
    expect(roundTiesDown(x)).toBe(expected);
  });
});

describe('nearestMultiple', () => {
  test.each([
    [66, 4, 64], [66.0000001, 4, 68], [66 + 1e-10, 4, 64], [65.99, 4, 64], [70, 4, 68], [66.42, 4, 68],
    [10.667, 2, 10], [11, 2, 10], [11.01, 2, 12], [0, 4, 0],
  ])('of %d by %d is %d', (x, m, expected) => {
    expect(nearestMultiple(x, m)).toBe(expected);
  });

  // A tie worked out in floating point: 0.9 x 220 / 3 is 66 exactly on paper.
  test('sees a tie through the error of a product', () => {
    expect(nearestMultiple(0.9 * 220 * (1 / 3), 4)).toBe(64);
    expect(nearestMultiple(1.1 * 60, 4)).toBe(64);
  });
});

test('clamp keeps between its ends', () => {
  expect([clamp(-1, 0, 5), clamp(3, 0, 5), clamp(9, 0, 5)]).toEqual([0, 3, 5]);
});
