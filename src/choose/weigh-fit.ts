import { measureRest } from '../measure/measure-rest.ts';
import type { Plan } from '../plan/plan-types.ts';
import type { Misfit } from './advice.ts';
import type { FootToFit } from './foot-to-fit.ts';

/**
 * A misfit that counts 1 in the score: (got - wanted) / wanted, or for the last four a departure from
 * common practice as told in `score...` below. The score is the sum of (misfit / this)^2, and the yarn.
 */
export const COUNTS_ONE = {
  /** A little less than the step from the trade's ease for plain knitting, 10 %, to that for stranded, 5 % (common practice). */
  footGirth: 0.04,
  /** That step itself: what a foot's girth must not miss, a heel, which is worn folded, may by a little more. */
  heelLine: 0.05,
  /** The cloth beside the short base spreads too: a heel turned down to a fifth, not a third, still sits (chosen by eye). */
  heelBreadth: 0.45,
  /** About 5 mm, at which we speak up as well (`find-cautions.ts`). */
  footLength: 0.02,
  /** A tip a third narrower or wider is a matter of looks more than of comfort (chosen by eye). */
  toeBreadth: 0.3,
  /** About 8 mm (chosen by eye). */
  toeLength: 0.15,
  /** Passes of plateau over the heel's stitches, 3 of 36: each widens the slit beside the short base (chosen by eye). */
  plateau: 1 / 12,
  /** A turn-down below this share of the heel is pointed, and its passes are fiddly: how far below (chosen by eye). */
  narrowTurnDown: 1 / 12,
  /** Passes between decreases, against every second round, as a share (chosen by eye). */
  toeRate: 1,
  /** Share of the stitches that the heel has beyond a half, 3 of 72: they have to be moved there and back, which turning further down spares (chosen by eye). */
  heelShare: 0.04,
} as const;

/** A turn-down of less than this share of the heel is avoided; a third is usual (common practice), half of that chosen by eye. */
const NARROW_SHARE = 1 / 6;

/** So much the yarn of heel, foot and toe counts, over that of a plain tube of the wanted size: it breaks ties. Passes need no term: every row of length takes two, whatever it is. */
const YARN_WEIGHT = 0.05;

/**
 * Short base over heel breadth, before the ease: what turning down to a third comes to on the mean
 * foot (survey: ball 252.0 and 228.1 mm, heel breadth 72.5 and 67.2 mm, men and women; a sixth of
 * the girth over the breadth).
 */
const BASE_OVER_HEEL_BREADTH = (252.0 / 72.5 + 228.1 / 67.2) / 12;

/**
 * What the toes ask of the sock: breadth of its tip over half of the foot's girth, and length of its
 * toe over the foot's. Sloping is common practice (a tip of a third; some fifth of the foot); the
 * others are narrower and longer, or wider and shorter (chosen by eye).
 */
const TOE_SHARES = {
  pointed: { breadth: 0.25, length: 0.22 },
  sloping: { breadth: 1 / 3, length: 0.2 },
  square: { breadth: 0.42, length: 0.17 },
} as const;

const USUAL_RATE = 4;

/** What would suit the foot best, along the unstretched cloth. Girth, heel line and breadths are all wanted with the same ease: so the heel stretches over its diagonal as the foot does round the ball. */
function wantedOf(foot: FootToFit): Readonly<Record<Misfit['what'], number>> {
  const { girthFactor, lengthFactor, lengthMm, ballGirthMm, toes } = foot;
  return {
    'foot-girth': girthFactor * ballGirthMm,
    'heel-line': girthFactor * foot.heelDiagonalMm,
    'heel-breadth': girthFactor * BASE_OVER_HEEL_BREADTH * foot.heelBreadthMm,
    'foot-length': lengthFactor * lengthMm,
    'toe-breadth': girthFactor * TOE_SHARES[toes].breadth * ballGirthMm / 2,
    'toe-length': lengthFactor * TOE_SHARES[toes].length * lengthMm,
  };
}

const square = (x: number): number => x * x;
const off = (got: number, wanted: number, one: number): number => square((got - wanted) / wanted / one);

/** The part of the score that heel and stitches round decide. */
export function scoreHeel(plan: Plan, foot: FootToFit): number {
  const wanted = wantedOf(foot), { heelStitches, turnDownWidth, plateauPasses, stitches } = plan;
  const lineMm = measureRest(plan).heelDiagonalMm ?? 0;
  return off(lineMm, wanted['heel-line'], COUNTS_ONE.heelLine)
    + off(turnDownWidth / plan.stitchesPerMm, wanted['heel-breadth'], COUNTS_ONE.heelBreadth)
    + square(plateauPasses / heelStitches / COUNTS_ONE.plateau)
    + square(Math.max(0, NARROW_SHARE - turnDownWidth / heelStitches) / COUNTS_ONE.narrowTurnDown)
    + square((heelStitches / stitches - 1 / 2) / COUNTS_ONE.heelShare)
    + yarn((heelStitches - turnDownWidth) * (heelStitches + turnDownWidth) + plateauPasses * turnDownWidth, plan, foot);
}

/** The part that the toe decides. */
export function scoreToe(plan: Plan, foot: FootToFit): number {
  const wanted = wantedOf(foot), { stitches, toeTipStitches, toePasses } = plan;
  const isDecreased = plan.toeKind === 'decreased';
  return off(toeTipStitches / plan.stitchesPerMm, wanted['toe-breadth'], COUNTS_ONE.toeBreadth)
    + off(measureRest(plan).toeLengthMm ?? 0, wanted['toe-length'], COUNTS_ONE.toeLength)
    + (isDecreased ? square((plan.passesPerDecrease - USUAL_RATE) / USUAL_RATE / COUNTS_ONE.toeRate) : 0)
    + yarn(toePasses * (stitches / 2 + toeTipStitches) / 2, plan, foot);
}

/** The part that the foot's girth, its whole length (heel and toe included) and its plain passes decide. */
export function tubeScorer(plan: Plan, foot: FootToFit): (lengthMm: number, footPasses: number) => number {
  const wanted = wantedOf(foot), lengthWanted = wanted['foot-length'];
  const girth = off(plan.stitches / plan.stitchesPerMm, wanted['foot-girth'], COUNTS_ONE.footGirth), yarnOfPass = yarn(plan.stitches / 2, plan, foot);
  return (lengthMm, footPasses) => girth + off(lengthMm, lengthWanted, COUNTS_ONE.footLength) + footPasses * yarnOfPass;
}

/** Loops, over those of a tube of the wanted girth and length. */
function yarn(loops: number, plan: Plan, foot: FootToFit): number {
  const wanted = wantedOf(foot);
  return YARN_WEIGHT * loops / (wanted['foot-girth'] * plan.stitchesPerMm * wanted['foot-length'] * plan.rowsPerMm);
}

/** How a sock fits a foot by counts and gauge alone: the score (lower is better) and what it rests on. */
export function weighFit(plan: Plan, foot: FootToFit): { readonly score: number; readonly misfits: readonly Misfit[] } {
  const rest = measureRest(plan), wanted = wantedOf(foot), lengthMm = rest.footLengthMm ?? 0;
  const score = scoreHeel(plan, foot) + scoreToe(plan, foot) + tubeScorer(plan, foot)(lengthMm, plan.footPasses);
  const misfit = (what: Misfit['what'], gotMm: number, ease: number): Misfit => (
    { what, wantedMm: wanted[what], gotMm, stretchPercent: 100 * (wanted[what] / ease / gotMm - 1) }
  );
  const { girthFactor, lengthFactor } = foot;
  return {
    score,
    misfits: [
      misfit('foot-girth', rest.footGirthMm ?? 0, girthFactor),
      misfit('heel-line', rest.heelDiagonalMm ?? 0, girthFactor),
      misfit('heel-breadth', plan.turnDownWidth / plan.stitchesPerMm, girthFactor),
      misfit('foot-length', lengthMm, lengthFactor),
      misfit('toe-breadth', rest.toeTipWidthMm ?? 0, girthFactor),
      misfit('toe-length', rest.toeLengthMm ?? 0, lengthFactor),
    ],
  };
}
