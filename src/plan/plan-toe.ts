import { nearestMultiple } from '../base/round.ts';
import { formatNumber } from '../base/unit.ts';
import { DEFAULTS, LEAST_TIP } from './defaults.ts';
import type { Plan, ToeStep } from './plan-types.ts';
import type { SockFile, ToeRate } from './sock-file.ts';

/** A number and how it came about. */
export interface Worked { readonly value: number; readonly formula: string }

/** What a toe is worked out from. */
export interface ToeBasis {
  readonly bedStitches: number;
  readonly heelStitches: number;
  readonly turnDownWidth: number;
  readonly passesPerDecrease: number;
  readonly slant: number;
}

/** Stitches that a toe's edges move in steps of. */
const BED_STEP = 2;
/** The last decrease is followed by one round. */
const LAST_PASSES = 2;

/** The rates of a decreased toe; null where it has one rate throughout, and for a short-row toe. */
export function scheduleOf(file: SockFile): readonly ToeRate[] | null {
  const { kind = DEFAULTS.toeKind, schedule = [] } = file.toe ?? {};
  return kind === 'decreased' && schedule.length > 0 ? schedule : null;
}

/** Decreases of a schedule. */
export function countTimes(schedule: readonly ToeRate[]): number {
  return schedule.reduce((sum, rate) => sum + rate.times, 0);
}

/** Stitches a bed that are left after a schedule: a decrease at both ends takes two, one at the outer end only takes one. */
export function tipAfter(schedule: readonly ToeRate[], { bedStitches, slant }: Pick<ToeBasis, 'bedStitches' | 'slant'>): number {
  return bedStitches - 2 * countTimes(schedule) + slant;
}

/** Stitches a bed at the tip where the file gives none: what a schedule leaves, else as the heel's narrowest row. */
export function workTip(file: SockFile, basis: ToeBasis): Worked {
  const schedule = scheduleOf(file), { bedStitches, heelStitches, turnDownWidth, slant } = basis;
  if (schedule !== null) return { value: tipAfter(schedule, basis), formula: `${bedStitches} - 2 x ${countTimes(schedule)}${slant > 0 ? ` + ${slant} slant` : ''}` };
  const least = LEAST_TIP[file.toe?.kind ?? DEFAULTS.toeKind];
  if (heelStitches === bedStitches) return { value: Math.max(turnDownWidth, least), formula: `as the turn-down width, ${turnDownWidth}, at least ${least}` };
  // A heel on more stitches than a bed has a wider turn-down; the toe is still a bed's.
  const share = turnDownWidth * bedStitches / heelStitches;
  return {
    value: Math.max(nearestMultiple(share, BED_STEP), least),
    formula: `as the turn-down width for a bed: ${turnDownWidth} x ${bedStitches} / ${heelStitches} = ${formatNumber(share, 1)}, nearest even number, at least ${least}`,
  };
}

/** Decrease events of a toe, and its passes. */
export function workToe(file: SockFile, basis: ToeBasis, tip: number): { readonly decreases: Worked; readonly passes: Worked } {
  const { bedStitches, passesPerDecrease: k, slant } = basis, schedule = scheduleOf(file);
  if (file.toe?.kind === 'short-row') {
    return {
      decreases: { value: 0, formula: 'none in a short-row toe' },
      passes: { value: 2 * (bedStitches - tip), formula: `2 x (${bedStitches} - ${tip})` },
    };
  }
  if (schedule !== null) {
    const last = schedule[schedule.length - 1], passes = schedule.reduce((sum, rate) => sum + rate.passes * rate.times, 0) - last.passes + LAST_PASSES;
    return {
      decreases: { value: countTimes(schedule), formula: `${schedule.map((rate) => rate.times).join(' + ')} of the schedule` },
      passes: { value: passes, formula: `${schedule.map((rate, i) => `${rate.passes} x ${i < schedule.length - 1 ? rate.times : `(${rate.times} - 1)`}`).join(' + ')} + ${LAST_PASSES}` },
    };
  }
  const decreases = (bedStitches - tip + slant) / 2;
  return {
    decreases: { value: decreases, formula: `(${bedStitches} - ${tip}${slant > 0 ? ` + ${slant} slant` : ''}) / 2` },
    passes: { value: k * (decreases - 1) + LAST_PASSES, formula: `${k} x (${decreases} - 1) + ${LAST_PASSES}` },
  };
}

/**
 * The decreases of a toe, in order. Those on one side only come first: a foot's outline turns in at the
 * little toe, well before the great toe's side does, so the outer edge slants evenly from the ball to the
 * tip while the inner runs straight on, and then slants as much.
 */
export function planToeSteps(plan: Pick<Plan, 'toeKind' | 'toeDecreases' | 'toeSlantStitches' | 'passesPerDecrease'>, schedule: readonly ToeRate[] | null): ToeStep[] {
  if (plan.toeKind === 'short-row') return [];
  const rates = schedule ?? [{ passes: plan.passesPerDecrease, times: plan.toeDecreases }];
  const passes = rates.flatMap((rate) => Array<number>(rate.times).fill(rate.passes));
  return passes.map((count, i) => ({ ends: i < plan.toeSlantStitches ? 'outer' : 'both', passes: i === passes.length - 1 ? LAST_PASSES : count }));
}
