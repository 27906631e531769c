import { describe, expect, it } from 'vitest';
import { outlineToe, toeShapeOf } from '../../src/panel/toe-outline.ts';
import { firstRates, scheduleWords } from '../../src/panel/toe-schedule.ts';
import { planSock } from '../../src/plan/plan-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';

const sock = (toe: SockFile['toe']): SockFile => ({ gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, counts: { stitches: 64, footPasses: 110 }, heel: { turnDownWidth: 10 }, toe: toe ?? {} });

function outlineOf(file: SockFile): ReturnType<typeof outlineToe> {
  const { plan, problems } = planSock(file);
  if (plan === null) throw new Error(JSON.stringify(problems));
  return outlineToe(toeShapeOf(plan));
}

describe('the toe’s outline', () => {
  it.each([2, 4, 6])('at one rate of %i passes it narrows by the half angle that its counts give, and ends on the tip', (k) => {
    const { inner, outer } = outlineOf(sock({ passesPerDecrease: k }));
    const stitch = 100 / 30, row = 100 / 42;
    // Geometry: an edge runs in by a stitch every k passes, which are k / 2 rows; the last decrease has one round after it.
    const slopes = inner.slice(2, -1).map(([x, y], i) => (inner[i + 1][1] - y) / (x - inner[i + 1][0]));
    for (const slope of slopes) expect(slope).toBeCloseTo(stitch / (k / 2 * row), 9);
    expect(inner.at(-1)![1] - outer.at(-1)![1]).toBeCloseTo(10 * stitch, 9);
    // k (D - 1) + 2 passes, D = 11.
    expect(inner.at(-1)![0]).toBeCloseTo((k * 10 + 2) / 2 * row, 9);
  });

  it('without a slant both edges are alike; with one the little toe’s side has so many stitches more taken away', () => {
    const plain = outlineOf(sock({})), slanted = outlineOf(sock({ slantStitches: 6 }));
    expect(plain.inner.map(([x, y]) => [x, -y])).toEqual(plain.outer);
    const taken = ([first, ...rest]: typeof plain.inner): number => Math.abs((rest.at(-1)![1] - first[1]) * 30 / 100);
    expect(taken(slanted.outer) - taken(slanted.inner)).toBeCloseTo(6, 9);
  });

  it('a short-row toe is a trapezoid: as wide as a bed, as its tip, and H - T rows long', () => {
    const { inner, outer } = outlineOf(sock({ kind: 'short-row', tipStitches: 10 }));
    expect([inner[0][1] - outer[0][1], inner.at(-1)![1] - outer.at(-1)![1]].map((breadth) => breadth * 30 / 100)).toEqual([expect.closeTo(32, 9), expect.closeTo(10, 9)]);
    // README: the toe length at rest is its rows; 22 of them at 42 in 10 cm.
    expect(inner.at(-1)![0]).toBeCloseTo(22 * 100 / 42, 9);
    expect(inner.map(([x, y]) => [x, -y])).toEqual(outer);
  });

  it('a schedule that the panel starts from leaves the tip where it was and rounds the toe', () => {
    const rates = firstRates({ passesPerDecrease: 4, toeDecreases: 11 });
    expect(scheduleWords(rates)).toBe('every 4 passes 6 times, then every 2 passes 5 times');
    const even = outlineOf(sock({})), round = outlineOf(sock({ schedule: rates }));
    expect(round.inner.at(-1)![1]).toBeCloseTo(even.inner.at(-1)![1], 9);
    expect(round.inner.at(-1)![0]).toBeLessThan(even.inner.at(-1)![0]);
    expect(firstRates({ passesPerDecrease: 2, toeDecreases: 1 })).toEqual([{ passes: 2, times: 1 }]);
  });
});
