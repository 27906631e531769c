import { describe, expect, it } from 'vitest';
import type { ComparedRow } from '../../src/choose/comparison.ts';
import { comparedNumber, comparisonText, differenceWords, isSame, otherName, shareOf } from '../../src/panel/compared-words.ts';

const row = (unit: ComparedRow['unit'], first: number | null, second: number | null): ComparedRow => (
  { name: 'x', label: 'Something', unit, first, second, difference: first === null || second === null ? null : second - first }
);

describe('a compared number', () => {
  it.each([
    ['mm', 262, 'cm', '26.2'], ['mm', 262, 'in', '10.31'], ['mm', -4, 'cm', '−0.4'], ['deg', 111.6, 'cm', '112°'],
    ['stitches', 72, 'cm', '72'], ['g', 31.4, 'cm', '31'], ['m', null, 'cm', '–'], ['mm', -0.2, 'cm', '0.0'],
  ] as const)('%s of %s in %s is %s', (unit, value, lengthUnit, words) => {
    expect(comparedNumber(value, unit, lengthUnit)).toBe(words);
  });
});

it('a kept sock is told from the one on the panel while both have one name', () => {
  expect([otherName('Plain', 'Plain'), otherName('Plain, short-row toe', 'Plain'), otherName('Plain', undefined)]).toEqual(['Plain, as kept', 'Plain, short-row toe', 'Plain']);
});

describe('a difference', () => {
  it.each([
    [row('mm', 250, 258), 'cm', '+0.8'], [row('mm', 258, 250), 'cm', '−0.8'], [row('mm', 250, 250.3), 'cm', ''],
    [row('mm', 250, 250.3), 'in', '+0.01'], [row('passes', 42, 44), 'in', '+2'], [row('deg', 110, 104), 'cm', '−6°'], [row('mm', null, 250), 'cm', '–'],
    // 52.4 and 51.4 are shown as 5.2 and 5.1; 30.6 and 31.4 g both as 31.
    [row('mm', 52.4, 51.4), 'cm', '−0.1'], [row('g', 30.6, 31.4), 'cm', ''], [row('%', -3.4, 2.4), 'cm', '+5'],
  ] as const)('of %o in %s is “%s”', (compared, unit, words) => {
    expect(differenceWords(compared, unit)).toBe(words);
  });

  it('is none where the figures shown are the same, in the unit that is shown', () => {
    expect(isSame(row('mm', 250, 250.3), 'cm')).toBe(true);
    expect(isSame(row('mm', 250, 250.3), 'in')).toBe(false);
    expect(isSame(row('mm', null, null), 'cm')).toBe(true);
    expect(isSame(row('mm', null, 1), 'cm')).toBe(false);
  });

  it('is weighed by its share of the larger number', () => {
    expect([row('mm', 100, 80), row('mm', 80, 100), row('passes', 0, 4), row('m', 0, 0), row('m', null, 3)].map(shareOf)).toEqual([0.2, 0.2, 1, 0, 0]);
  });
});

it('the table goes out as text, in the page’s unit, with a sign or a nought on each line', () => {
  expect(comparisonText(['Plain', 'Deep'], [row('mm', 250, 258), row('stitches', 64, 64), row('m', 134, 130)], 'in')).toMatchInlineSnapshot(`
    "	Plain	Deep	difference
    Something, in	9.84	10.16	+0.32
    Something, stitches	64	64	0
    Something, m	134	130	−4
    "
  `);
});
