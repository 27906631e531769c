import { expect, test } from 'vitest';
import { STANDARD_SIZES } from '../../src/foot/standard-sizes.ts';
import { findContradictions } from '../../src/foot/sound-measures.ts';
import { readFeet } from '../data/read-feet.ts';

/** 1,500 measured feet: Gordon C. C. et al., NATICK/TR-15/007, 2014 (test/data/README.md). */
const FEET = readFeet();

function sizeOf(name: string): { readonly lengthMm: number; readonly ballGirthMm: number } {
  return STANDARD_SIZES.find((size) => size.name === name)!;
}

test('from infant to extra-large adult, each larger than the one before, with its source', () => {
  expect(STANDARD_SIZES.length).toBeGreaterThanOrEqual(12);
  STANDARD_SIZES.forEach((size, i) => {
    if (i > 0) expect(size.lengthMm).toBeGreaterThan(STANDARD_SIZES[i - 1].lengthMm);
    if (i > 0) expect(size.ballGirthMm).toBeGreaterThan(STANDARD_SIZES[i - 1].ballGirthMm);
    expect(size.source.startsWith('Estimate')).toBe(size.isEstimate);
    expect(findContradictions(size)).toEqual([]);
  });
});

// The sample's own percentiles: a quantile of 467 or 1,033 feet is uncertain by about 1 mm at the 5th percentile.
test.each<[string, string, number]>([
  ['Adult, extra-small', 'Female', 0.05], ['Adult, small', 'Female', 0.5], ['Adult, large', 'Male', 0.5], ['Adult, extra-large', 'Male', 0.95],
])('%s is as long as the sample\'s %s at %d, and as wide as feet of that length', (name, gender, share) => {
  const feet = FEET.filter((foot) => foot.gender === gender), { lengthMm, ballGirthMm } = sizeOf(name);
  const lengths = feet.map((foot) => foot.lengthMm).sort((a, b) => a - b);
  expect(Math.abs(lengths[Math.floor(share * lengths.length)] - lengthMm)).toBeLessThanOrEqual(3);
  const near = feet.filter((foot) => Math.abs(foot.lengthMm - lengthMm) <= 3).map((foot) => foot.ballGirthMm);
  expect(near.length).toBeGreaterThan(20);
  // Girths scatter by some 10 mm at a length: three standard errors of their mean.
  expect(Math.abs(near.reduce((sum, girth) => sum + girth, 0) / near.length - ballGirthMm)).toBeLessThan(3 * 10.4 / Math.sqrt(near.length));
});

// Published means that the children's line was not drawn through: Mickle K. J. et al., 3 to 5 years, 4.2 on average: 162 mm (36 boys)
// and 156 mm (52 girls), as the table of a review has it (Children 9 (2022) 750).
test('a child of 3 to 4 years has a foot as published', () => {
  expect(Math.abs(sizeOf('Child, 3 to 4 years').lengthMm - (36 * 162 + 52 * 156) / 88)).toBeLessThan(4);
});
