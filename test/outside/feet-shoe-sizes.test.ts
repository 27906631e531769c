import { describe, expect, test } from 'vitest';
import type { ShoeSystem } from '../../src/foot/shoe-size.ts';
import { lastFromShoeSize, lengthFromShoeSize, SHOE_SYSTEMS, shoeSizeFromLength } from '../../src/foot/shoe-size.ts';

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

// Status: published. One size more is one step: Paris point 2/3 cm and barleycorn 1/3 inch (ISO/TS 19407), 1 mm (ISO 9407).
test.each<[ShoeSystem, number]>([
  ['continental', 20 / 3], ['uk', 25.4 / 3], ['us-men', 25.4 / 3], ['us-women', 25.4 / 3], ['mondopoint', 1],
])('one %s size is %d mm, on the foot and on the last', (system, mm) => {
  for (const size of [1, 5.5, 12, 40]) {
    expect(lengthFromShoeSize(system, size + 1).lengthMm - lengthFromShoeSize(system, size).lengthMm).toBeCloseTo(mm, 9);
    const last = lastFromShoeSize(system, size);
    if (last !== null) expect(lastFromShoeSize(system, size + 1)! - last).toBeCloseTo(mm, 9);
  }
});

// Status: common practice, no source. On the last's length: continental 1.5 x cm; UK 3 x in - 25; US men 3 x in - 24;
// US women 3 x in - 22.5 (one custom: - 23).
describe('shoe size to the last by the trade rules', () => {
  test.each<[ShoeSystem, number, number]>([
    // Size, and the last in mm worked by hand from the rule.
    ['continental', 42, 280.0], // 42 / 1.5 = 28 cm
    ['uk', 8, 279.4], // 33 / 3 = 11 in
    ['us-men', 9, 279.4],
    ['us-women', 7.5, 254.0], // 30 / 3 = 10 in
  ])('%s %d is built on a last of %d mm', (system, size, mm) => {
    expect(lastFromShoeSize(system, size)).toBeCloseTo(mm, 1);
  });

  test('mondopoint sizes are feet, not lasts', () => {
    expect(lastFromShoeSize('mondopoint', 265)).toBeNull();
  });

  // Common practice: a last is about 13 to 17 mm longer than its foot. So the two customs are one custom, but for rounding.
  test('a last is 12 to 17 mm longer than the foot of the same size', () => {
    for (const system of SHOE_SYSTEMS.filter((one) => one !== 'mondopoint')) {
      const longer = lastFromShoeSize(system, 7)! - lengthFromShoeSize(system, 7).lengthMm;
      expect(longer).toBeGreaterThan(12);
      expect(longer).toBeLessThan(17.5);
    }
  });

  // The one custom that puts US women's sizes at 3 x in - 23 is half a size off ours: within what a size leaves open.
  test('customs for US women differ by half a size', () => {
    const inches = 10.25, ours = 3 * inches - 22.5, other = 3 * inches - 23;
    expect(lastFromShoeSize('us-women', ours)).toBeCloseTo(inches * 25.4, 9);
    expect(Math.abs(lastFromShoeSize('us-women', other)! - inches * 25.4)).toBeLessThanOrEqual(lengthFromShoeSize('us-women', other).toleranceMm + 1e-9);
  });
});

// Status: common practice; makers differ by half a size and more. The scales agree with each other to a size on one foot of 26 cm:
// continental 41, UK 7.7, US men 8.7, US women 9.7 by the rules above.
test('one foot in all scales', () => {
  const sizes = SHOE_SYSTEMS.map((system) => Number(shoeSizeFromLength(system, 260).toFixed(1)));
  expect(Object.fromEntries(SHOE_SYSTEMS.map((system, i) => [system, sizes[i]]))).toEqual({ continental: 41, uk: 7.7, 'us-men': 8.7, 'us-women': 9.7, mondopoint: 260 });
});
