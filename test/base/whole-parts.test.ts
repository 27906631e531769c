import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/base/random.ts';
import { sumOf, wholeParts } from '../../src/base/whole-parts.ts';

describe('the yarns of a sock', () => {
  it.each([
    // 30.9 is 31, where the parts by themselves are 18, 5 and 7.
    [[18.3, 5.3, 7.3], [19, 5, 7]], [[0.5, 0.5], [1, 0]], [[2.6, 2.6], [3, 2]], [[12], [12]], [[], []],
  ])('%j are listed as %j', (parts, whole) => {
    expect(wholeParts(parts)).toEqual(whole);
  });

  it('come to what all of them are, each within one of its own', () => {
    const random = createRandom(7);
    for (let i = 0; i < 300; i++) {
      const parts = Array.from({ length: 1 + (i % 6) }, () => 60 * random()), whole = wholeParts(parts);
      expect(sumOf(whole)).toBe(Math.round(sumOf(parts)));
      for (const [at, part] of parts.entries()) expect(Math.abs(whole[at] - part)).toBeLessThan(1);
    }
  });
});
