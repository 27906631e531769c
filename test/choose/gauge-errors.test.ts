import { describe, expect, test } from 'vitest';
import { averageSwatches, findShrinkage, readSpread } from '../../src/choose/average-swatches.ts';
import { readTolerance } from '../../src/choose/read-tolerance.ts';
import { makePlan } from '../measure/make-plan.ts';

/** 72 stitches at 30 x 42 in 10 cm, heel of 36 turned down to 12, 50 rounds of foot, 23 of toe, 40 rows of leg. */
const PLAN = makePlan();
const row = (tolerance: ReturnType<typeof readTolerance>, measure: string) => tolerance.rows.find((one) => one.measure === measure)!;

describe('an error of the gauge', () => {
  /** Closed form: c counts at a gauge of g in 10 cm are 100 c / g mm. */
  test('of half a stitch widens or narrows by counts over gauge, and leaves lengths', () => {
    const tolerance = readTolerance(PLAN);
    expect(tolerance.error).toEqual({ stitchesPer10cm: 0.5, rowsPer10cm: 1 });
    const girth = row(tolerance, 'footGirthMm');
    expect(girth.plannedMm).toBeCloseTo(240, 9);
    expect(girth.fewerStitchesMm).toBeCloseTo(7200 / 29.5 - 240, 9);
    expect(girth.moreStitchesMm).toBeCloseTo(7200 / 30.5 - 240, 9);
    expect([girth.fewerRowsMm, girth.moreRowsMm]).toEqual([0, 0]);
  });

  test('of a row lengthens or shortens foot, heel and leg', () => {
    const tolerance = readTolerance(PLAN);
    for (const [measure, rows] of [['footLengthMm', 24 + 50 + 23], ['heelDepthMm', 24], ['legLengthMm', 40]] as const) {
      const one = row(tolerance, measure);
      expect(one.fewerRowsMm, measure).toBeCloseTo(100 * rows / 41 - 100 * rows / 42, 9);
      expect(one.moreRowsMm, measure).toBeCloseTo(100 * rows / 43 - 100 * rows / 42, 9);
      expect([one.fewerStitchesMm, one.moreStitchesMm], measure).toEqual([0, 0]);
    }
  });

  test('moves the line over the heel both ways, as its mitres slant', () => {
    const line = (s: number, r: number): number => 48 * 100 / s + 2 * Math.sqrt((12 * 100 / s) ** 2 + (24 * 100 / r) ** 2);
    const one = row(readTolerance(PLAN), 'heelDiagonalMm');
    expect(one.plannedMm).toBeCloseTo(line(30, 42), 9);
    expect(one.fewerStitchesMm).toBeCloseTo(line(29.5, 42) - line(30, 42), 9);
    expect(one.moreRowsMm).toBeCloseTo(line(30, 43) - line(30, 42), 9);
  });
});

describe('swatches', () => {
  /** By hand: 29, 30 and 31 stitches in 10 cm have a mean of 30, a deviation of 1, and an error of 1 / sqrt 3; 40, 42 and 44 rows 42, 2 and 2 / sqrt 3. */
  const SWATCHES = [
    { stitches: 29, widthMm: 100, rows: 40, heightMm: 100, washed: true },
    { stitches: 15, widthMm: 50, rows: 63, heightMm: 150, washed: true },
    { stitches: 46.5, widthMm: 150, rows: 22, heightMm: 50, washed: true },
    { stitches: 28, widthMm: 100, rows: 45, heightMm: 100 },
    { stitches: 29, widthMm: 100, rows: 45, heightMm: 100, washed: false },
  ];

  test('are averaged by state, with their spread', () => {
    const washed = averageSwatches(SWATCHES, 'washed')!;
    expect(washed.count).toBe(3);
    expect(washed.stitchesPer10cm.mean).toBeCloseTo(30, 12);
    expect(washed.stitchesPer10cm.sd).toBeCloseTo(1, 12);
    expect(washed.stitchesPer10cm.standardError).toBeCloseTo(1 / Math.sqrt(3), 12);
    expect(washed.rowsPer10cm.mean).toBeCloseTo(42, 12);
    expect(washed.rowsPer10cm.sd).toBeCloseTo(2, 12);
    expect(averageSwatches(SWATCHES, 'unwashed')!.stitchesPer10cm.mean).toBeCloseTo(28.5, 12);
  });

  test('tell how the cloth changes in the wash: 28.5 stitches become 30 in 10 cm, 45 rows 42', () => {
    const { widthPercent, lengthPercent } = findShrinkage(SWATCHES)!;
    expect(widthPercent).toBeCloseTo(-5, 10);
    expect(lengthPercent).toBeCloseTo(100 * 45 / 42 - 100, 10);
    expect(findShrinkage(SWATCHES.slice(0, 3))).toBeNull();
  });

  test('tell what their spread does to the sock, as a tolerance does', () => {
    const spread = readSpread(PLAN, averageSwatches(SWATCHES, 'washed')!)!;
    expect(row(spread, 'footGirthMm').fewerStitchesMm).toBeCloseTo(7200 / (30 - 1 / Math.sqrt(3)) - 240, 9);
    expect(row(spread, 'footLengthMm').moreRowsMm).toBeCloseTo(9700 / (42 + 2 / Math.sqrt(3)) - 9700 / 42, 9);
  });

  test('of one alone have a mean and no spread; of none there is nothing', () => {
    const one = averageSwatches(SWATCHES.slice(0, 1), 'washed')!;
    expect(one).toMatchObject({ count: 1, stitchesPer10cm: { mean: 29, sd: null, standardError: null } });
    expect(readSpread(PLAN, one)).toBeNull();
    expect(averageSwatches([], 'washed')).toBeNull();
    expect(averageSwatches(SWATCHES.slice(3), 'washed')).toBeNull();
  });
});
