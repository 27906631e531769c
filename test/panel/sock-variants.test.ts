import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/base/random.ts';
import { suggestVariants, turnedDownTo } from '../../src/main/sock-variants.ts';
import { planSock } from '../../src/plan/plan-sock.ts';
import type { Plan } from '../../src/plan/plan-types.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { randomSockFile } from '../plan/random-sock-file.ts';

function randomSocks(count: number): { readonly file: SockFile; readonly plan: Plan }[] {
  const random = createRandom(41), socks: { readonly file: SockFile; readonly plan: Plan }[] = [];
  while (socks.length < count) {
    const file = randomSockFile(random), { plan } = planSock(file);
    if (plan !== null) socks.push({ file, plan });
  }
  return socks;
}

const COUNTS = ['stitches', 'heelStitches', 'legPasses', 'anklePasses', 'heelPasses', 'footPasses', 'toePasses', 'toeTipStitches'] as const;

describe('second socks at one press', () => {
  it('of a plain sock: the other toe, a deeper and a shallower heel, other shapings, a tighter hand; all can be knitted', () => {
    const file: SockFile = { gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, foot: { lengthMm: 262, ballGirthMm: 246 } }, { plan } = planSock(file);
    const variants = suggestVariants(file, plan!).map((variant) => ({ ...variant, plan: planSock(variant.file).plan }));
    // 68 stitches: a heel of 34 is turned down to the even number nearest to a third, 12 (11.33).
    expect(variants.map(({ plan }) => [plan?.toeKind, plan?.turnDownWidth])).toEqual([
      ['short-row', 12], ['decreased', 10], ['decreased', 14], ...Array.from({ length: 7 }, () => ['decreased', 12]),
    ]);
    expect(variants.map(({ file: { name } }) => name)).toEqual([
      'Sock, short-row toe', 'Sock, turned down to 10', 'Sock, turned down to 14',
      'Sock, plateau', 'Sock, heel on 38', 'Sock, rounder toe', 'Sock, slanted toe', 'Sock, foot swollen', 'Sock, one stitch tighter, counted anew', 'Sock, one stitch tighter, same counts',
    ]);
  });

  it('a shaping is offered where it is not yet there, and changes that alone', () => {
    for (const { file, plan } of randomSocks(60)) {
      const of = (start: string): Plan | null => {
        const variant = suggestVariants(file, plan).find(({ label }) => label.startsWith(start));
        return variant === undefined ? null : planSock(variant.file).plan;
      };
      const flat = of('A plateau'), broad = of('A broader'), round = of('A rounder'), slanted = of('A toe slanted');
      if (flat !== null) expect([plan.plateauPasses, flat.plateauPasses, flat.heelStitches, flat.turnDownWidth]).toEqual([0, 4, plan.heelStitches, plan.turnDownWidth]);
      if (broad !== null) expect([broad.heelStitches, broad.stitches, broad.toeTipStitches]).toEqual([plan.heelStitches + 4, plan.stitches, plan.toeTipStitches]);
      // As many decreases as before, over fewer passes, leave the same tip.
      if (round !== null) {
        expect([round.toeDecreases, round.toeTipStitches]).toEqual([plan.toeDecreases, plan.toeTipStitches]);
        expect(round.toePasses).toBeLessThanOrEqual(plan.toePasses);
      }
      if (slanted !== null) expect([slanted.toeSlantStitches, slanted.toeTipStitches]).toEqual([4, plan.toeTipStitches]);
    }
  });

  it('there and back: the other toe of the other toe is the first one', () => {
    for (const { file, plan } of randomSocks(60)) {
      const other = suggestVariants(file, plan)[0], otherPlan = planSock(other.file).plan;
      expect(other.file.toe?.kind).not.toBe(plan.toeKind);
      if (otherPlan !== null) expect(suggestVariants(other.file, otherPlan)[0].file.toe?.kind).toBe(plan.toeKind);
    }
  });

  it('no turn-down is offered that the heel does not have', () => {
    for (const { file, plan } of randomSocks(100)) {
      for (const { label, file: { heel } } of suggestVariants(file, plan).filter(({ label }) => label.startsWith('Heel'))) {
        expect(heel?.turnDownWidth, label).toBeGreaterThanOrEqual(2);
        expect(heel?.turnDownWidth, label).toBeLessThanOrEqual(plan.heelStitches - 2);
      }
      const narrow = turnedDownTo(file, plan, 2), narrowed = planSock(narrow).plan;
      expect(narrow).toEqual({ ...file, heel: { ...file.heel, turnDownWidth: 2 }, toe: { ...file.toe, tipStitches: plan.toeTipStitches }, name: expect.stringContaining('2') as string });
      if (narrowed !== null) expect([narrowed.toeTipStitches, narrowed.toePasses]).toEqual([plan.toeTipStitches, plan.toePasses]);
    }
  });

  it('a swollen foot takes the same sock: every count stays, every girth that is known grows alike', () => {
    const gauge = { stitchesPer10cm: 30, rowsPer10cm: 42 }, onSwollen = (file: SockFile): SockFile | undefined => (
      suggestVariants(file, planSock(file).plan!).find(({ label }) => label.includes('swollen'))?.file
    );
    const foot = { lengthMm: 262, ballGirthMm: 246, ankleGirthMm: 230 }, swollen = onSwollen({ gauge, foot });
    // 246 and 230 and a twentieth each.
    expect(swollen?.foot).toEqual({ lengthMm: 262, ballGirthMm: 258.3, ankleGirthMm: 241.5 });
    const [before, after] = [planSock({ gauge, foot }).plan!, planSock(swollen!).plan!];
    for (const count of COUNTS) expect(after[count], count).toBe(before[count]);
    expect(onSwollen({ gauge, counts: { stitches: 64, footPasses: 120 } })).toBeUndefined();
  });

  it('the same counts, knitted tighter, keep every count, and the cloth comes out smaller', () => {
    for (const { file, plan } of randomSocks(60)) {
      const tighter = planSock(suggestVariants(file, plan).at(-1)!.file).plan;
      for (const count of COUNTS) expect(tighter?.[count], count).toBe(plan[count]);
      expect(tighter!.stitchesPerMm).toBeCloseTo(plan.stitchesPerMm + 0.01, 9);
      expect(tighter!.rowsPerMm).toBeGreaterThan(plan.rowsPerMm);
    }
  });
});
