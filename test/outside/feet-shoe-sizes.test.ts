import { describe, expect, test } from 'vitest';
import type { ShoeSystem } from '../../src/foot/shoe-size.ts';
import { lengthFromShoeSize } from '../../src/foot/shoe-size.ts';

/**
 * Paris point 2/3 cm, barleycorn 1/3 inch: ISO/TS 19407 (footwear sizing, conversion). The offsets
 * on the foot's length: common practice, no source (makers differ by half a size and more):
 * continental 1.5 x cm + 2; UK 3 x in - 23; US men 3 x in - 22; US women 3 x in - 21.
 */
describe('shoe size to foot length by the trade rules', () => {
  test.each<[ShoeSystem, number, number]>([
    // Size, and the foot in mm worked by hand from the rule.
    ['us-women', 6.5, 232.83], // (6.5 + 21) / 3 = 9.1667 in: the 9.17 in of the common-practice sock
    ['us-women', 9, 254.0], // 30 / 3 = 10 in
    ['us-men', 8, 254.0],
    ['us-men', 11, 279.4], // 11 in
    ['uk', 7, 254.0],
    ['continental', 41, 260.0], // 39 / 1.5 = 26 cm
    ['continental', 38, 240.0],
    ['mondopoint', 265, 265.0], // ISO 9407: the size is the foot's length in mm
  ])('%s %d is a foot of %d mm', (system, size, mm) => {
    expect(lengthFromShoeSize(system, size).lengthMm).toBeCloseTo(mm, 1);
  });

  test.each<[ShoeSystem, number]>([
    // Half a Paris point and half a barleycorn either way.
    ['continental', 3.33], ['uk', 4.23], ['us-men', 4.23], ['us-women', 4.23],
  ])('%s leaves half a size open, %d mm', (system, mm) => {
    expect(lengthFromShoeSize(system, 6).toleranceMm).toBeCloseTo(mm, 2);
  });

  // The three barleycorn scales differ by their offsets only: UK + 1 = US men, US men + 1 = US women.
  test('a foot is one size apart from scale to scale', () => {
    expect(lengthFromShoeSize('uk', 7)).toEqual(lengthFromShoeSize('us-men', 8));
    expect(lengthFromShoeSize('us-men', 8)).toEqual(lengthFromShoeSize('us-women', 9));
  });
});
