import { describe, expect, test } from 'vitest';
import { lengthFromShoeSize, nearestShoeSize, SHOE_SYSTEMS, shoeSizeFromLength } from '../../src/foot/shoe-size.ts';

describe.each([...SHOE_SYSTEMS])('%s', (system) => {
  test('size and length go back and forth, longer feet take larger sizes', () => {
    let before = -Infinity;
    for (let mm = 60; mm <= 400; mm += 7) {
      const size = shoeSizeFromLength(system, mm);
      expect(lengthFromShoeSize(system, size).lengthMm).toBeCloseTo(mm, 9);
      expect(size).toBeGreaterThan(before);
      before = size;
    }
  });

  test('the nearest sold size is within the tolerance of the foot', () => {
    for (let mm = 180; mm <= 320; mm += 0.7) {
      const { lengthMm, toleranceMm } = lengthFromShoeSize(system, nearestShoeSize(system, mm));
      expect(Math.abs(lengthMm - mm)).toBeLessThanOrEqual(toleranceMm + 1e-9);
    }
  });
});
