import { describe, expect, test } from 'vitest';
import { createRandom, randomPick, randomWhole } from '../../src/base/random.ts';

describe('createRandom', () => {
  test('the same seed gives the same stream, another seed another', () => {
    const draw = (seed: number): number[] => Array.from({ length: 50 }, createRandom(seed));
    expect(draw(7)).toEqual(draw(7));
    expect(draw(7)).not.toEqual(draw(8));
  });

  // Chi-squared tables: with 99 degrees of freedom 99.9 % of uniform streams stay below 148.2, and 0.1 % below 61.1.
  test.each([1, 2, 12345])('seed %d is uniform over 100 bins', (seed) => {
    const random = createRandom(seed);
    const bins = new Int32Array(100);
    const draws = 100_000;
    for (let i = 0; i < draws; i++) bins[Math.floor(random() * 100)]++;
    const chi = bins.reduce((sum, count) => sum + (count - draws / 100) ** 2 / (draws / 100), 0);
    expect(chi).toBeLessThan(148.2);
    expect(chi).toBeGreaterThan(61.1);
  });

  // Uncorrelated neighbours: the lag-one correlation of n uniform draws has a standard error of 1 / sqrt(n).
  test('neighbours are uncorrelated', () => {
    const random = createRandom(3);
    const draws = Array.from({ length: 40_000 }, () => random() - 0.5);
    let products = 0;
    for (let i = 1; i < draws.length; i++) products += draws[i] * draws[i - 1];
    expect(Math.abs((products / draws.length) * 12)).toBeLessThan(4 / Math.sqrt(draws.length));
  });
});

test('whole numbers and picks reach both ends and nothing beyond', () => {
  const random = createRandom(5);
  const seen = new Set(Array.from({ length: 500 }, () => randomWhole(random, 2, 5)));
  expect([...seen].sort()).toEqual([2, 3, 4, 5]);
  const picked = new Set(Array.from({ length: 200 }, () => randomPick(random, ['a', 'b', 'c'])));
  expect([...picked].sort()).toEqual(['a', 'b', 'c']);
});
