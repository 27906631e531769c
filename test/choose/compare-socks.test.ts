import { describe, expect, test } from 'vitest';
import { compareSocks } from '../../src/choose/compare-socks.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import type { KnittedSock } from '../../src/pipeline/result.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';

const SMALL: SockFile = {
  gauge: { stitchesPer10cm: 20, rowsPer10cm: 28 }, leg: { kind: 'tube' }, counts: { stitches: 32, legPasses: 8, footPasses: 20 }, heel: { turnDownWidth: 6 }, toe: { tipStitches: 6 },
};

function knit(file: SockFile): KnittedSock {
  const { sock, problems } = knitSock(file);
  if (sock === null) throw new Error(JSON.stringify(problems));
  return sock;
}

const rowOf = (comparison: ReturnType<typeof compareSocks>, name: string) => comparison.rows.find((row) => row.name === name)!;

describe('two socks side by side', () => {
  const first = knit(SMALL);

  test('that are one and the same differ in nothing', () => {
    const { rows, remarks } = compareSocks(first, knit(SMALL));
    expect(remarks).toEqual([]);
    expect(rows.length).toBeGreaterThan(20);
    expect(new Set(rows.map(({ name }) => name)).size).toBe(rows.length);
    for (const { name, difference } of rows) expect(difference, name).toBe(0);
  });

  /** By hand: a turn-down of 2 in place of 6 is 4 rows of 100 / 28 mm deeper, and 8 passes more; the short base and half of both mitres as the table of measures says. */
  test('that differ in the turn-down differ in the heel', () => {
    const comparison = compareSocks(first, knit({ ...SMALL, heel: { turnDownWidth: 2 } }));
    expect(rowOf(comparison, 'turnDownWidth')).toMatchObject({ first: 6, second: 2, difference: -4, unit: 'stitches' });
    expect(rowOf(comparison, 'heelPasses').difference).toBe(8);
    expect(rowOf(comparison, 'passes').difference).toBe(8);
    expect(rowOf(comparison, 'rest.heelDepthMm').difference).toBeCloseTo(400 / 28, 9);
    const line = (w: number): number => 5 * (16 + w) + 2 * Math.sqrt((2.5 * (16 - w)) ** 2 + (100 / 28 * (16 - w)) ** 2);
    expect(rowOf(comparison, 'rest.heelDiagonalMm').difference).toBeCloseTo(line(2) - line(6), 9);
    expect(rowOf(comparison, 'rest.footGirthMm').difference).toBe(0);
    expect(rowOf(comparison, 'loops').difference).toBe((16 - 2) * (16 + 2) - (16 - 6) * (16 + 6));
  });

  test('compare in the poses that are given of both', () => {
    const second = knit({ ...SMALL, counts: { ...SMALL.counts, footPasses: 30 } });
    const pair = { first: poseSock(first, 'flat'), second: poseSock(second, 'flat') }, comparison = compareSocks(first, second, [pair]);
    for (const name of ['footLengthMm', 'heelDepthMm', 'legFootAngleDeg'] as const) {
      expect(rowOf(comparison, `flat.${name}`)).toMatchObject({ first: pair.first.measures[name], second: pair.second.measures[name] });
    }
    expect(rowOf(comparison, 'flat.widthMedianPercent').unit).toBe('%');
    // Five rounds more, by gauge and, within a few per cent, as it lies.
    expect(rowOf(comparison, 'rest.footLengthMm').difference).toBeCloseTo(500 / 28, 9);
    expect(Math.abs(rowOf(comparison, 'flat.footLengthMm').difference! - 500 / 28)).toBeLessThan(2);
    expect(() => compareSocks(first, second, [{ ...pair, second: { ...pair.second, pose: { ...pair.second.pose, name: 'tube' } } }])).toThrow();
  });
});

describe('two socks that have little in common', () => {
  const first = knit(SMALL);

  test.each<[string, SockFile, string]>([
    ['gauge', { ...SMALL, gauge: { stitchesPer10cm: 22, rowsPer10cm: 28 } }, 'gauge'],
    ['machine', { ...SMALL, machine: { needlesPerBed: 100 } }, 'machine'],
    ['rib', { ...SMALL, gauge: { ...SMALL.gauge, ribWidthFactor: 0.8 } }, 'gauge.ribWidthFactor'],
    ['cloth', { ...SMALL, cloth: { firmness: 'firm' } }, 'cloth.firmness'],
    ['foot', { ...SMALL, foot: { lengthMm: 220, ballGirthMm: 200 } }, 'foot'],
  ])('another %s is remarked, and they compare all the same', (_name, file, field) => {
    const { rows, remarks } = compareSocks(first, knit(file));
    expect(remarks.map((remark) => remark.field)).toEqual([field]);
    expect(Object.keys(remarks[0]).sort()).toEqual(['allowed', 'field', 'message', 'value']);
    for (const { difference } of rows) expect(difference === null || Number.isFinite(difference)).toBe(true);
  });

  test('another gauge differs in mm, not in counts', () => {
    const comparison = compareSocks(first, knit({ ...SMALL, gauge: { stitchesPer10cm: 16, rowsPer10cm: 28 } }));
    expect(rowOf(comparison, 'stitches').difference).toBe(0);
    expect(rowOf(comparison, 'rest.footGirthMm').difference).toBeCloseTo(3200 / 16 - 3200 / 20, 9);
    expect(rowOf(comparison, 'rest.throatToHeelMm')).toBeUndefined();
  });
});
