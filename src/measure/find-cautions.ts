import type { Problem } from '../base/problem.ts';
import { legGirthAt, turnHeight } from '../foot/leg-girth.ts';
import type { Plan, PlannedFoot } from '../plan/plan-types.ts';
import { measureRest } from './measure-rest.ts';

/** Girths of a body that a sock file may give besides the planned foot's; `SockFile.foot` fits. */
export interface BodyGirths {
  /** Round heel tip and instep. */
  readonly heelDiagonalMm?: number;
  /** Least girth above the ankle bones. */
  readonly ankleGirthMm?: number;
}

/**
 * How far plain knitting may be asked to stretch round a leg before we speak up: by half its own
 * width. Chosen by eye: trade's rule for fit is 10 %, for rib up to 25 % (common practice), and at
 * 17 % strain plain cloth is already 3 to 8 times as stiff as at rest (published ranges), so half
 * again is far outside either. A rib first unfolds to the width of plain knitting of as many
 * stitches and goes on from there, so it is held to the same girth.
 */
const LEG_STRETCH_LIMIT = 0.5;

/**
 * Stretch of the shortest line over the heel at which we speak up. Chosen by eye: with the usual
 * ease of -10 % a mean foot asks for 27 % at 30 x 42 stitches, one in twenty asks for 35 %
 * (heel-ankle over ball circumference 1.363 and 1.447, survey data; line over tube 1.19, geometry).
 */
const HEEL_STRETCH_LIMIT = 0.3;

/** Stretch of the foot at which we speak up, and slack at which its cloth lies in folds; chosen by eye about the trade's 0 to 25 %. */
const FOOT_STRETCH_LIMIT = 0.3;
const FOOT_SLACK_LIMIT = 0.05;

/** Share of the wanted length by which counts fixed by hand may miss it before we speak up; chosen by eye, about 5 mm. */
const LENGTH_MISS_LIMIT = 0.02;

/**
 * How far apart, mm, the ends of the two beds may stand beside a wide heel before we speak up. Chosen by
 * eye: a loop drawn straight reaches half its own length, some 7 mm at 30 stitches and 42 rows in 10 cm
 * (Munden's loop of 13.5 mm), and takes about as much from the loops beside it.
 */
const REACH_LIMIT_MM = 15;

const ASK = 'With swollen or numb legs or feet, diabetes or poor circulation, ask a clinician before wearing a tight top.';

/**
 * What a knitter should know before she starts: nothing here keeps the sock from being knitted.
 * Speaks only of measures that are given. Says how far cloth must stretch, never what pressure that
 * makes: no yarn's stiffness is known here.
 */
export function findCautions(plan: Plan, foot: PlannedFoot, body: BodyGirths = {}): Problem[] {
  return [
    cautionSize(foot), cautionTop(plan, foot), cautionAnkle(plan, body), cautionHeel(plan, body),
    ...cautionFoot(plan, foot), cautionLength(plan, foot), cautionWideHeel(plan), cautionClosing(plan),
  ].filter((caution) => caution !== null);
}

function cautionSize({ lengthMm, lengthToleranceMm }: PlannedFoot): Problem | null {
  if (lengthToleranceMm === 0 || lengthMm === null) return null;
  return {
    field: 'foot.shoeSize', value: `${lengthMm.toFixed(0)} mm`, allowed: 'a measured foot.lengthMm',
    message: `A shoe size tells a foot's length to about ${lengthToleranceMm.toFixed(0)} mm either way, and makers differ by more: measure the foot if you can.`,
  };
}

/** Where the leg ends, between ankle and calf; nothing is said of a calf that is not given. */
function cautionTop(plan: Plan, { calfGirthMm, measures }: PlannedFoot): Problem | null {
  if (calfGirthMm === null) return null;
  const leg = { lengthMm: measures.lengthMm.valueMm, ankleGirthMm: measures.ankleGirthMm.valueMm, calfGirthMm };
  const rows = plan.plainPasses + (plan.anklePasses + (plan.legKind === 'tube' ? plan.legPasses : 2 * plan.legPasses)) / 2;
  const girthMm = legGirthAt(leg, turnHeight(leg) + rows / plan.rowsPerMm);
  return cautionLeg(plan, 'foot.calfGirthMm', girthMm, 'The top of the leg', 'a leg', plan.legKind === 'flat-rib');
}

/** The narrowest girth above the heel lies in the plain tube of the ankle, whatever the leg is. */
function cautionAnkle(plan: Plan, { ankleGirthMm }: BodyGirths): Problem | null {
  if (ankleGirthMm === undefined) return null;
  return cautionLeg(plan, 'foot.ankleGirthMm', ankleGirthMm, 'The ankle', 'an ankle', false);
}

function cautionLeg(plan: Plan, field: string, bodyMm: number, part: string, what: string, isRib: boolean): Problem | null {
  const plainMm = plan.stitches / plan.stitchesPerMm;
  const restMm = plainMm * (isRib ? plan.ribWidthFactor : 1);
  const mostMm = plainMm * (1 + LEG_STRETCH_LIMIT);
  if (bodyMm <= mostMm) return null;
  const cloth = isRib ? 'This rib' : 'Plain knitting';
  return {
    field, value: `${bodyMm.toFixed(0)} mm`, allowed: `at most ${Math.floor(mostMm).toFixed(0)} mm for ${String(plan.stitches)} stitches`,
    message: `${part} is ${restMm.toFixed(0)} mm round at rest and must stretch by ${percent(bodyMm / restMm - 1)} for ${what} of ${bodyMm.toFixed(0)} mm. `
      + `${cloth} is likely to sit tight when stretched by more than ${percent(mostMm / restMm - 1)}: take more stitches or a shorter leg. ${ASK}`,
  };
}

function cautionHeel(plan: Plan, { heelDiagonalMm }: BodyGirths): Problem | null {
  const restMm = measureRest(plan).heelTipGirthMm;
  if (heelDiagonalMm === undefined || restMm === null) return null;
  const mostMm = restMm * (1 + HEEL_STRETCH_LIMIT);
  if (heelDiagonalMm <= mostMm) return null;
  return {
    field: 'foot.heelDiagonalMm', value: `${heelDiagonalMm.toFixed(0)} mm`, allowed: `at most ${Math.floor(mostMm).toFixed(0)} mm for this heel`,
    message: `The shortest line over instep and heel is ${restMm.toFixed(0)} mm at rest and must stretch by ${percent(heelDiagonalMm / restMm - 1)} `
      + `over a heel of ${heelDiagonalMm.toFixed(0)} mm: a smaller turn-down or plateau passes make the heel deeper, more stitches make it wider.`,
  };
}

function cautionFoot(plan: Plan, { ballGirthMm }: PlannedFoot): Problem[] {
  if (ballGirthMm === null) return [];
  const restMm = plan.stitches / plan.stitchesPerMm;
  const stretch = ballGirthMm / restMm - 1;
  if (stretch <= FOOT_STRETCH_LIMIT && stretch >= -FOOT_SLACK_LIMIT) return [];
  const range = `${Math.ceil(restMm * (1 - FOOT_SLACK_LIMIT)).toFixed(0)} to ${Math.floor(restMm * (1 + FOOT_STRETCH_LIMIT)).toFixed(0)} mm for ${String(plan.stitches)} stitches`;
  const message = stretch > 0
    ? `The foot is ${restMm.toFixed(0)} mm round at rest and must stretch by ${percent(stretch)} over a ball of ${ballGirthMm.toFixed(0)} mm.`
    : `The foot is ${restMm.toFixed(0)} mm round, ${percent(-stretch)} more than the ball: it may lie in folds inside a shoe.`;
  return [{ field: 'foot.ballGirthMm', value: `${ballGirthMm.toFixed(0)} mm`, allowed: range, message }];
}

/** At a wide heel's corners the heel's bed has needles beyond the instep's end, over which neighbours must reach while they hang there. */
function cautionWideHeel(plan: Plan): Problem | null {
  const needles = plan.heelStitches - plan.bedStitches, apartMm = needles * plan.needlePitchMm;
  if (apartMm <= REACH_LIMIT_MM) return null;
  const most = plan.bedStitches + 2 * Math.floor(REACH_LIMIT_MM / plan.needlePitchMm / 2);
  return {
    field: 'heel.stitches', value: String(plan.heelStitches), allowed: `at most ${String(most)} to stay within ${String(REACH_LIMIT_MM)} mm`,
    message: `While the heel is turned, its bed reaches ${String(needles)} needles, ${apartMm.toFixed(0)} mm, beyond the instep's end on each side: `
      + 'the two stitches that meet at each corner must reach that far, and a strand as long stays between them. Ease the loops over one by one with the weight off, '
      + 'draw the strand in afterwards, or move fewer stitches.',
  };
}

function cautionLength(plan: Plan, { wantedLengthMm }: PlannedFoot): Problem | null {
  const restMm = measureRest(plan).footLengthMm;
  if (wantedLengthMm === null || restMm === null) return null;
  const miss = restMm - wantedLengthMm;
  if (Math.abs(miss) <= Math.max(LENGTH_MISS_LIMIT * wantedLengthMm, 1 / plan.rowsPerMm)) return null;
  return {
    field: 'counts.footPasses', value: String(plan.footPasses), allowed: `about ${wantedLengthMm.toFixed(0)} mm of foot`,
    message: `The foot comes out ${restMm.toFixed(0)} mm long, ${Math.abs(miss).toFixed(0)} mm ${miss > 0 ? 'longer' : 'shorter'} than wanted.`,
  };
}

function cautionClosing({ closing }: Plan): Problem | null {
  if (closing !== 'bind-off') return null;
  return {
    field: 'toe.closing', value: 'bind-off', allowed: 'graft, where a ridge would press',
    message: 'A bound-off toe leaves a small ridge over the toes; a graft leaves none. For numb or swollen feet choose the graft.',
  };
}

const percent = (share: number): string => `${(100 * share).toFixed(0)} %`;
