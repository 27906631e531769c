import { clamp, nearestMultiple } from '../base/round.ts';
import { HELD_AT_LEAST, LEAST_TIP, LEAST_TURN_DOWN } from '../plan/defaults.ts';
import type { Plan } from '../plan/plan-types.ts';
import { planSock } from '../plan/plan-sock.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { withField } from '../plan/with-field.ts';
import type { FootToFit } from './foot-to-fit.ts';
import { scoreHeel, scoreToe, tubeScorer } from './weigh-fit.ts';

/** The counts that advice decides. `null`: not decided, as the file has its own way (a toe schedule, say). */
export interface Choice {
  readonly stitches: number;
  readonly heelStitches: number;
  readonly turnDownWidth: number;
  readonly plateauPasses: number;
  readonly toeTipStitches: number | null;
  readonly passesPerDecrease: number | null;
  readonly footPasses: number;
}

export interface ScoredChoice { readonly choice: Choice; readonly score: number }

/** Girths tried lie this close to the wanted one, and there are at most so many either side of it. */
const GIRTH_REACH = 0.1;
const MOST_GIRTHS_ASIDE = 4;
/** Turn-down and tip are tried up to this share of a bed, plateaus up to this share of the heel's stitches. */
const WIDEST_SHARE = 2 / 3;
const LONGEST_PLATEAU_SHARE = 1 / 3;
/** Stitches of a bed for which every even number is tried; on more, the steps are larger. */
const FINE_BED = 72;
const RATES = [2, 4, 6] as const;

/** Part of a sock that is tried by itself: its score does not hang on the other parts, but for the length that they make up together. */
interface Part<C> { readonly choice: C; readonly score: number; readonly rows: number }
type HeelChoice = Pick<Choice, 'heelStitches' | 'turnDownWidth' | 'plateauPasses'>;
type ToeChoice = Pick<Choice, 'toeTipStitches' | 'passesPerDecrease'>;

export interface SearchedFile {
  /** The person's file; counts that it fixes are kept. */
  readonly file: SockFile;
  readonly foot: FootToFit;
}

/** Stitches round that are tried: those that the file fixes, or the nearest to the wanted girth and some either side. */
export function stitchesToTry({ file, foot }: SearchedFile): readonly number[] {
  const fixed = file.counts?.stitches;
  if (fixed !== undefined) return [fixed];
  const exact = foot.girthFactor * foot.ballGirthMm * file.gauge.stitchesPer10cm / 100;
  const step = 4 * Math.max(1, Math.floor(GIRTH_REACH * exact / (4 * MOST_GIRTHS_ASIDE)));
  const aside = clamp(Math.floor(GIRTH_REACH * exact / step), 1, MOST_GIRTHS_ASIDE);
  const nearest = nearestMultiple(exact, 4);
  return Array.from({ length: 2 * aside + 1 }, (_, i) => nearest + (i - aside) * step).filter((stitches) => stitches >= 8);
}

function evens(from: number, to: number, step: number): number[] {
  return Array.from({ length: Math.max(0, Math.floor((to - from) / step) + 1) }, (_, i) => from + i * step);
}

const stepOn = (bed: number): number => 2 * Math.ceil(bed / FINE_BED);

/** Shares of the stitches that the heel may be turned on: half is usual, the others are moved there and back (common practice). */
const HEEL_SHARES = [1 / 2, 9 / 16, 5 / 8] as const;

/** Stitches that the heel may be turned on. */
export function heelSharesToTry(stitches: number): readonly number[] {
  return [...new Set(HEEL_SHARES.map((share) => nearestMultiple(share * stitches, 2)))];
}

export function heelsToTry(stitches: number): readonly HeelChoice[] {
  return heelSharesToTry(stitches).flatMap((heelStitches) => {
    const step = stepOn(heelStitches), widest = Math.min(heelStitches - HELD_AT_LEAST, Math.floor(WIDEST_SHARE * heelStitches));
    return evens(LEAST_TURN_DOWN, widest, step).flatMap((turnDownWidth) => (
      evens(0, LONGEST_PLATEAU_SHARE * heelStitches, step).map((plateauPasses) => ({ heelStitches, turnDownWidth, plateauPasses }))
    ));
  });
}

/** A toe whose rates the file lists by itself is left alone. */
export function toesToTry(file: SockFile, stitches: number): readonly ToeChoice[] {
  if (file.toe?.schedule !== undefined || file.toe?.slantStitches !== undefined) return [{ toeTipStitches: null, passesPerDecrease: null }];
  const kind = file.toe?.kind ?? 'decreased', bed = stitches / 2;
  const tips = evens(LEAST_TIP[kind], Math.min(bed - HELD_AT_LEAST, Math.floor(WIDEST_SHARE * bed)), stepOn(bed));
  return tips.flatMap((toeTipStitches) => (kind === 'decreased' ? RATES : [null]).map((passesPerDecrease) => ({ toeTipStitches, passesPerDecrease })));
}

/** The file with a choice written out; what the choice leaves open stays as the file has it. */
export function writeChoice(file: SockFile, choice: Partial<Choice>): SockFile {
  return CHOICE_FIELDS.reduce((written, [name, field]) => {
    const value = choice[name];
    // The half is what a heel has by itself.
    const isOwn = value == null || (name === 'heelStitches' && value === (choice.stitches ?? 0) / 2);
    return isOwn ? written : withField(written, field, value);
  }, file);
}

/** In the order of working: each count follows from those before it, where the file does not say it. */
export const CHOICE_FIELDS = [
  ['stitches', 'counts.stitches'], ['heelStitches', 'heel.stitches'], ['turnDownWidth', 'heel.turnDownWidth'], ['plateauPasses', 'heel.plateauPasses'],
  ['toeTipStitches', 'toe.tipStitches'], ['passesPerDecrease', 'toe.passesPerDecrease'], ['footPasses', 'counts.footPasses'],
] as const satisfies readonly (readonly [keyof Choice, string])[];

/** Any foot that can be knitted: the length is weighed by itself. */
const SHORTEST_FOOT = 2;

/** The best sock for each heel at this many stitches round, in the order of trying. */
export function searchStitches({ file, foot }: SearchedFile, stitches: number): { readonly found: readonly ScoredChoice[]; readonly tried: number } {
  // Its counts need no foot, which takes longer to work out than they do.
  const { foot: _foot, ...bare } = withField(withField(file, 'heel.stitches', undefined), 'counts.stitches', stitches);
  const planOf = (choice: Partial<Choice>): Plan | null => planSock(writeChoice(bare, { stitches, footPasses: SHORTEST_FOOT, ...choice })).plan;
  const easyHeel = heelsToTry(stitches).at(0), easyToe = toesToTry(file, stitches).at(-1);
  const plain = planOf({ ...easyHeel, ...easyToe });
  if (plain === null) return { found: [], tried: 0 };
  const heels = heelsToTry(stitches).flatMap((choice) => partOf(choice, planOf({ ...easyToe, ...choice }), (plan) => scoreHeel(plan, foot), (plan) => plan.heelPasses / 2));
  const toes = toesToTry(file, stitches).flatMap((choice) => partOf(choice, planOf({ ...easyHeel, ...choice }), (plan) => scoreToe(plan, foot), (plan) => plan.toePasses / 2));
  const found: ScoredChoice[] = [], scoreTube = tubeScorer(plain, foot);
  let tried = 0;
  for (const heel of heels) {
    const socks = toes.flatMap((toe) => footPassesToTry({ file, foot }, plain, heel.rows + toe.rows).map((footPasses): ScoredChoice => ({
      score: heel.score + toe.score + scoreTube((heel.rows + toe.rows + footPasses / 2) / plain.rowsPerMm, footPasses),
      choice: { stitches, ...heel.choice, ...toe.choice, footPasses },
    })));
    tried += socks.length;
    const best = socks.reduce<ScoredChoice | null>((least, sock) => (least === null || sock.score < least.score ? sock : least), null);
    if (best !== null) found.push(best);
  }
  return { found, tried };
}

function partOf<C>(choice: C, plan: Plan | null, score: (plan: Plan) => number, rows: (plan: Plan) => number): Part<C>[] {
  return plan === null ? [] : [{ choice, score: score(plan), rows: rows(plan) }];
}

/** Passes of foot that the file fixes, or the two whole rounds about the length that is left. */
function footPassesToTry({ file, foot }: SearchedFile, { rowsPerMm }: Plan, otherRows: number): readonly number[] {
  const fixed = file.counts?.footPasses;
  if (fixed !== undefined) return [fixed];
  const rounds = Math.floor(foot.lengthFactor * foot.lengthMm * rowsPerMm - otherRows);
  return [2 * rounds, 2 * rounds + 2].filter((passes) => passes >= SHORTEST_FOOT);
}
