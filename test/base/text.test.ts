import { describe, expect, test } from 'vitest';
import { LONGEST_SUMMARY, makeProblem, shorten, summarise } from '../../src/base/make-problem.ts';
import { editDistance, nearestName } from '../../src/base/nearest-name.ts';
import { utf8Length } from '../../src/base/text-size.ts';
import { formatCount, formatNumber, inchToMm, mmToInch, per10cmToPerInch, per10cmToPerMm, perInchToPer10cm } from '../../src/base/unit.ts';

describe('units', () => {
  // 1 inch = 25.4 mm: international yard and pound agreement, 1959.
  test('gauges and lengths cross over', () => {
    expect(inchToMm(10)).toBeCloseTo(254, 12);
    expect(mmToInch(25.4)).toBeCloseTo(1, 12);
    expect(perInchToPer10cm(8)).toBeCloseTo(31.496, 3);
    expect(per10cmToPerInch(perInchToPer10cm(8))).toBeCloseTo(8, 12);
    expect(per10cmToPerMm(30)).toBe(0.3);
  });

  test.each([[66.4, 1, '66.4'], [66, 1, '66'], [-0.04, 1, '0'], [10.6667, 2, '10.67']])('%d with %d decimals reads %s', (x, digits, text) => {
    expect(formatNumber(x, digits)).toBe(text);
  });

  test.each([[8440, '8,440'], [240, '240'], [5000000, '5,000,000']])('%d reads %s', (x, text) => {
    expect(formatCount(x)).toBe(text);
  });
});

describe('summaries', () => {
  const ring: Record<string, unknown> = {};
  ring.ring = ring;
  let deep: unknown = 1;
  for (let i = 0; i < 200_000; i++) deep = [deep];

  test.each([
    ['a long text', 'x'.repeat(1e6)], ['a ring', ring], ['a deep list', deep], ['a wide list', Array.from({ length: 1e5 }, (_, i) => i)],
    ['an object without prototype', Object.create(null) as unknown], ['a big integer', 10n ** 400n], ['a symbol', Symbol('x')],
    ['pairs of surrogates', '😀'.repeat(500)], ['a long key', { ['k'.repeat(1e5)]: 1 }],
  ])('%s takes at most 200 characters', (_name, value) => {
    const text = summarise(value);
    expect(text.length).toBeGreaterThan(0);
    expect(text.length).toBeLessThanOrEqual(200);
    expect(text).not.toMatch(/[\ud800-\udbff](?![\udc00-\udfff])/);
  });

  test.each([
    [null, 'null'], [30, '30'], ['30', '"30"'], [NaN, 'NaN'], [{ a: [1, { b: 2 }] }, '{"a": [1, {1 fields}]}'], [true, 'true'],
  ])('%o reads %s', (value, text) => {
    expect(summarise(value)).toBe(text);
  });

  test('a problem has its four keys', () => {
    expect(makeProblem('a.b', undefined, null, 'missing')).toEqual({ field: 'a.b', value: null, allowed: null, message: 'missing' });
    expect(makeProblem('f'.repeat(999), 1, null, '').field).toHaveLength(LONGEST_SUMMARY);
  });

  test('shorten leaves short texts alone', () => {
    expect(shorten('abc', 3)).toBe('abc');
    expect(shorten('abcd', 3)).toBe('ab…');
  });
});

describe('names', () => {
  // Textbook pairs of the edit distance; CA/ABC is the usual example of optimal string alignment.
  test.each([['kitten', 'sitting', 3], ['saturday', 'sunday', 3], ['ca', 'abc', 3], ['', 'abc', 3], ['lenght', 'length', 1]])('%s to %s takes %d', (a, b, steps) => {
    expect(editDistance(a, b)).toBe(steps);
    expect(editDistance(b, a)).toBe(steps);
  });

  test('the nearest name, or none', () => {
    const known = [{ name: 'lengthMm' }, { name: 'shoeSize' }, { name: 'leg' }];
    expect(nearestName('lenghtMm', known)).toEqual({ name: 'lengthMm' });
    expect(nearestName('SHOESIZE', known)).toEqual({ name: 'shoeSize' });
    expect(nearestName('colour', known)).toBeNull();
    expect(nearestName('x'.repeat(1e6), known)).toBeNull();
  });
});

test('bytes in UTF-8 agree with the platform', () => {
  for (const text of ['', 'abc', 'é', '€', '😀', 'a😀é€\u0000', 'x'.repeat(1000)]) {
    expect(utf8Length(text)).toBe(Buffer.byteLength(text, 'utf8'));
  }
  expect(utf8Length('x'.repeat(1000), 10)).toBeGreaterThan(10);
});
