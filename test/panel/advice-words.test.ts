import { describe, expect, it } from 'vitest';
import { adviseSock } from '../../src/choose/advise-sock.ts';
import { measureRest } from '../../src/measure/measure-rest.ts';
import type { Plan } from '../../src/plan/plan-types.ts';
import { depthWords, fieldCount, fixedWords, weighedWords } from '../../src/panel/advice-words.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';

const gauge = { stitchesPer10cm: 29, rowsPer10cm: 41 };
const HIGH: SockFile = { gauge, foot: { lengthMm: 258, ballGirthMm: 242, heelDiagonalMm: 356 } };

describe('the words on advice', () => {
  it('send nobody from a sock that is about as good, and keep nobody at one that is not', () => {
    const advice = adviseSock(HIGH), [best] = advice.best;
    expect(weighedWords(advice)).toMatch(/weighed\.$/);
    const followed = adviseSock(best.file);
    expect(weighedWords(followed)).toMatch(/None suits the foot better than yours/);
    // The present sock and the best, half a point apart and a little less.
    const apart = (by: number): string => weighedWords({ ...advice, present: { ...advice.present!, score: best.score + by } });
    expect(apart(0.49)).toMatch(/already about as good/);
    expect(apart(0.5)).toMatch(/weighed\.$/);
  });

  it('a deeper heel is told with the figures that the table shows', () => {
    let told = 0;
    for (const rowsPer10cm of [37, 38, 39, 40, 41, 42, 43]) {
      const { present, best: [best] } = adviseSock({ ...HIGH, gauge: { stitchesPer10cm: 29, rowsPer10cm } });
      const depth = (plan: Plan): number => measureRest(plan).heelDepthMm!, from = depth(present!.plan);
      const [, mm] = /heel (\d+) mm deeper/.exec(best.reason) ?? [];
      if (mm === undefined) continue;
      told++;
      expect(depthWords(depth(best.plan), from, 'cm'), String(rowsPer10cm)).toContain(`(+${(Number(mm) / 10).toFixed(1)})`);
    }
    expect(told).toBeGreaterThan(3);
  });

  it('a heel on half of more stitches is told with the number that it has', () => {
    const { best } = adviseSock({ ...HIGH, counts: { stitches: 60 } }, { keepsCounts: false }), half = best.find(({ plan }) => plan.stitches === 64 && plan.heelStitches === 32);
    expect(half?.changes.map(({ field }) => field)).not.toContain('heel.stitches');
    expect(fieldCount('heel.stitches', half!.plan)).toBe(32);
    for (const { changes, plan } of best) for (const { field, to } of changes) expect(fieldCount(field, plan), field).toBe(to);
  });

  it.each([
    [54, null, 'cm', '5.4 cm'], [68.4, 54.1, 'cm', '6.8 cm (+1.4)'], [50, 54, 'cm', '5.0 cm (−0.4)'], [54.2, 53.8, 'cm', '5.4 cm'], [50.8, 25.4, 'in', '2.00 in (+1.00)'], [null, 50, 'cm', '–'],
  ] as const)('a depth of %s beside %s in %s is %s', (depth, present, unit, words) => {
    expect(depthWords(depth, present, unit)).toBe(words);
  });

  it.each([
    [{}, null], [{ legPasses: 40 }, null],
    [{ stitches: 64 }, '64 stitches round'], [{ stitches: 64, footPasses: 126 }, '64 stitches round and 126 foot passes'],
  ])('counts by hand, %j, may be given free: %s', (counts, words) => {
    expect(fixedWords({ ...HIGH, counts })).toBe(words === null ? null : `Also change what is fixed by hand: ${words}`);
  });

  it('a count that nothing on the foot could stand in for stays', () => {
    expect(fixedWords({ gauge, foot: { lengthMm: 258 }, counts: { stitches: 64 } })).toBeNull();
  });
});
