import { describe, expect, it } from 'vitest';
import { parseNumber } from '../../src/panel/number-row.ts';
import { snapToRange } from '../../src/panel/slider-hand.ts';
import { formatLength, gaugeScale, lengthScale, plainScale } from '../../src/panel/units.ts';
import { countIn } from '../../src/words/count-words.ts';

describe('units on the page', () => {
  // An inch is 25.4 mm exactly (International Yard and Pound Agreement, 1959).
  it.each([
    ['cm', 262, 26.2], ['in', 254, 10], ['in', 25.4, 1],
  ] as const)('lengths in %s: %d mm is shown as %d', (unit, mm, shown) => {
    expect(lengthScale(unit).toShown(mm)).toBe(shown);
    expect(lengthScale(unit).toFile(shown)).toBe(mm);
  });

  it('every step of an inch slider comes back as it was set', () => {
    const { toShown, toFile, step } = lengthScale('in');
    for (let i = 40; i < 400; i += 1) {
      const shown = Number((i * step).toFixed(2));
      expect(toShown(toFile(shown))).toBe(shown);
    }
  });

  it('8 stitches to the inch are 31.496 in 10 cm, and shown as 8 again', () => {
    const inch = gaugeScale('inch', 100);
    expect(inch.toFile(8)).toBe(31.496);
    expect(inch.toShown(31.496)).toBe(8);
  });

  it('36 stitches counted over a patch of 12 cm are 30 in 10 cm', () => {
    expect(gaugeScale('patch', 120).toFile(36)).toBe(30);
    expect(gaugeScale('patch', 120).toShown(30)).toBe(36);
  });

  it('lengths and counts are written out', () => {
    expect(formatLength(262, 'cm')).toBe('26.2 cm');
    expect(formatLength(262, 'in')).toBe('10.31 in');
    expect(countIn('en', 1, 'pass', 'passes')).toBe('1 pass');
    expect(countIn('en', 110, 'pass', 'passes')).toBe('110 passes');
    expect(plainScale('%', 1).toShown(-10)).toBe(-10);
  });
});

describe('what is typed', () => {
  it.each([['30', 30], [' 30,5 ', 30.5], ['-10', -10], ['.5', 0.5], ['12.', 12]])('%j is %d', (text, value) => {
    expect(parseNumber(text)).toBe(value);
  });
  it.each(['', 'abc', '3 0', '1e999', 'NaN', 'Infinity', '--3', '0x10', '1,000.5'])('%j is no number', (text) => {
    expect(parseNumber(text)).toBeNull();
  });
});

describe('a slider', () => {
  const range = { min: 2, max: 34, step: 2 };
  it.each([[11, 12], [12.9, 12], [-Infinity, 2], [Infinity, 34], [35.5, 34]])('brings %d to %d', (value, snapped) => {
    expect(snapToRange(value, range)).toBe(snapped);
  });
  it('leaves no stray decimals', () => {
    expect(snapToRange(0.30000000000000004, { min: 0, max: 1, step: 0.1 })).toBe(0.3);
  });
});
