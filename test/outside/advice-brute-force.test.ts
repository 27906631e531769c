import { describe, expect, test } from 'vitest';
import { adviseSock } from '../../src/choose/advise-sock.ts';
import { measureRest } from '../../src/measure/measure-rest.ts';
import type { Plan } from '../../src/plan/plan-types.ts';
import { planSock } from '../../src/plan/plan-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { readFeet } from '../data/read-feet.ts';
import type { SurveyedFoot } from '../data/read-feet.ts';

/**
 * 1,500 measured feet: Gordon C. C. et al., 2012 Anthropometric Survey of U.S. Army Personnel,
 * NATICK/TR-15/007, 2014 (test/data/README.md), by heel-ankle over ball circumference.
 */
const FEET = [...readFeet()].sort((a, b) => a.heelDiagonalMm / a.ballGirthMm - b.heelDiagonalMm / b.ballGirthMm);
const SAMPLE_EVERY = 75;

const fileOf = (foot: SurveyedFoot, stitchesPer10cm: number, rowsPer10cm: number): SockFile => ({
  gauge: { stitchesPer10cm, rowsPer10cm },
  foot: { lengthMm: foot.lengthMm, ballGirthMm: foot.ballGirthMm, heelDiagonalMm: foot.heelDiagonalMm, heelBreadthMm: foot.heelBreadthMm },
});

/** The score as weigh-fit.ts documents it, written out once more: usual ease, sloping toes, decreased toe. */
function scoreOf(plan: Plan, { lengthMm, ballGirthMm, heelDiagonalMm, heelBreadthMm }: SurveyedFoot): number {
  const rest = measureRest(plan), a = 1 / plan.stitchesPerMm, { stitches, heelStitches: h, turnDownWidth: w, plateauPasses: p, toeTipStitches: t } = plan;
  const term = (got: number, wanted: number, one: number): number => ((got - wanted) / wanted / one) ** 2;
  const thirdOfHeel = (252.0 / 72.5 + 228.1 / 67.2) / 2 / 6;
  const heelLoops = (h - w) * (h + w) + p * w, toeLoops = plan.toePasses * (stitches / 2 + t) / 2, footLoops = plan.footPasses * stitches / 2;
  const tubeLoops = 0.9 * ballGirthMm / a * lengthMm * plan.rowsPerMm;
  return term(stitches * a, 0.9 * ballGirthMm, 0.04)
    + term(rest.heelDiagonalMm!, 0.9 * heelDiagonalMm, 0.05)
    + term(w * a, 0.9 * thirdOfHeel * heelBreadthMm, 0.45)
    + term(rest.footLengthMm!, lengthMm, 0.02)
    + term(t * a, 0.9 * ballGirthMm / 6, 0.3)
    + term(rest.toeLengthMm!, lengthMm / 5, 0.15)
    + (12 * p / h) ** 2 + (12 * Math.max(0, 1 / 6 - w / h)) ** 2 + ((plan.passesPerDecrease - 4) / 4) ** 2 + ((h / stitches - 0.5) / 0.04) ** 2
    + 0.05 * (heelLoops + toeLoops + footLoops) / tubeLoops;
}

/** Nearest even number, ties to the smaller. */
const nearestEven = (x: number): number => 2 * Math.ceil(x / 2 - 0.5);

/** Every sock of the small grid: all girths within a tenth, heels on 8, 9 and 10 sixteenths of the stitches, all even turn-downs and tips to two thirds of heel and bed, plateaus to a third, three rates, and five foot lengths about the wanted one. */
function* everySock(file: SockFile, foot: SurveyedFoot): Generator<Plan> {
  const { stitches: usual } = planSock(file).plan!, { stitchesPer10cm } = file.gauge;
  const most = Math.floor(0.1 * 0.9 * foot.ballGirthMm * stitchesPer10cm / 400) || 1;
  for (let n = usual - 4 * most; n <= usual + 4 * most; n += 4) {
    for (const h of [n / 2, nearestEven(9 * n / 16), nearestEven(10 * n / 16)]) yield* everyHeel({ gauge: file.gauge, counts: { stitches: n, footPasses: 2 } }, foot, h);
  }
}

function* everyHeel(file: SockFile, foot: SurveyedFoot, h: number): Generator<Plan> {
  for (let w = 2; w <= 2 * h / 3; w += 2) {
    for (let p = 0; p <= h / 3; p += 2) yield* everyToe({ ...file, heel: { stitches: h, turnDownWidth: w, plateauPasses: p } }, foot);
  }
}

function* everyToe(file: SockFile, foot: SurveyedFoot): Generator<Plan> {
  for (let t = 4; t <= file.counts!.stitches! / 3; t += 2) {
    for (const k of [2, 4, 6]) yield* everyFoot({ ...file, toe: { tipStitches: t, passesPerDecrease: k } }, foot);
  }
}

function* everyFoot(file: SockFile, { lengthMm }: SurveyedFoot): Generator<Plan> {
  const { plan } = planSock(file);
  if (plan === null) return;
  const nearest = 2 * Math.round(lengthMm * plan.rowsPerMm - plan.heelPasses / 2 - plan.toePasses / 2);
  for (let passes = Math.max(2, nearest - 4); passes <= nearest + 4; passes += 2) yield { ...plan, footPasses: passes };
}

describe('advice against every sock of the small grid', () => {
  test.each(FEET.filter((_, i) => i % SAMPLE_EVERY === 37).map((foot) => [foot] as const))('%j', (foot) => {
    const file = fileOf(foot, 16, 22);
    const { best, problems } = adviseSock(file);
    expect(problems).toEqual([]);
    expect(best).toHaveLength(3);
    let least = Infinity, leastOther = Infinity;
    const [{ plan: first }] = best;
    for (const plan of everySock(file, foot)) {
      const score = scoreOf(plan, foot);
      least = Math.min(least, score);
      const isOther = plan.stitches !== first.stitches || plan.heelStitches !== first.heelStitches || Math.abs(plan.turnDownWidth - first.turnDownWidth) >= 4 || Math.abs(plan.plateauPasses - first.plateauPasses) >= 4;
      if (isOther) leastOther = Math.min(leastOther, score);
    }
    expect(best[0].score).toBeCloseTo(least, 9);
    expect(best[1].score).toBeCloseTo(leastOther, 9);
    for (const { plan, score } of best) expect(scoreOf(plan, foot)).toBeCloseTo(score, 9);
  });
});

/** The survey's own figures: the ratio is 1.287 at the 5th percentile and 1.447 at the 95th. */
describe('advice for a high instep', () => {
  const at = (share: number): SurveyedFoot => FEET[Math.round(share * (FEET.length - 1))];

  test('the sample has the survey\'s ratios', () => {
    for (const [share, ratio] of [[0.05, 1.287], [0.95, 1.447]]) expect(at(share).heelDiagonalMm / at(share).ballGirthMm).toBeCloseTo(ratio, 2);
  });

  /** One mean length and girth, so that nothing but the instep differs. */
  test.each([[30, 42], [31.5, 39.4], [40, 56], [52, 74]])('at %d x %d turns down further at the 95th percentile than at the 5th', (stitches, rows) => {
    const turnDown = (share: number): { width: number; depthMm: number; reason: string } => {
      const { heelDiagonalMm, ballGirthMm } = at(share);
      const [{ plan, reason }] = adviseSock(fileOf({ ...at(share), lengthMm: 262, ballGirthMm: 246, heelDiagonalMm: 246 * heelDiagonalMm / ballGirthMm }, stitches, rows)).best;
      return { width: plan.turnDownWidth / plan.heelStitches, depthMm: measureRest(plan).heelDepthMm!, reason };
    };
    const [low, high] = [turnDown(0.05), turnDown(0.95)];
    expect(high.width).toBeLessThan(low.width);
    expect(high.depthMm).toBeGreaterThan(low.depthMm + 5);
    expect(high.reason).toContain('Your instep is high');
    expect(low.reason).toContain('Your instep is low');
  });
});
