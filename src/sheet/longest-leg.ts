import { makeProblem } from '../base/make-problem.ts';
import type { Problem } from '../base/problem.ts';
import { knitProgram } from '../machine/knit-program.ts';
import { estimateYarn } from '../measure/estimate-yarn.ts';
import { buildProgram } from '../plan/build-program.ts';
import type { Plan, PlannedYarn } from '../plan/plan-types.ts';
import { planSock } from '../plan/plan-sock.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { numberRuleAt } from '../plan/sock-schema.ts';
import { withField } from '../plan/with-field.ts';
import type { Words } from '../words/words.ts';

export interface YarnInHand {
  /** Metres of each of the plan's yarns, in its order; null: not weighed, and not judged. One that comes in at several places is weighed once, at its first. */
  readonly metres: readonly (number | null)[];
  /** 2 for a pair. */
  readonly socks: number;
  /** Share of the yarn in hand that is kept back. */
  readonly margin: number;
}

export interface LegFit {
  /** The field that sets the leg's length in this file. */
  readonly field: 'leg.lengthMm' | 'counts.legPasses';
  readonly value: number;
  readonly file: SockFile;
  readonly legPasses: number;
  readonly legMm: number;
  /** Metres that all socks take, by yarn; one that comes in at several places counts at its first. */
  readonly metres: readonly number[];
}

export type LongestLeg = { readonly fit: LegFit; readonly problems: readonly [] } | { readonly fit: null; readonly problems: readonly Problem[] };

/** For each yarn where it comes in first: the same name and colour are one yarn, as in the list of materials. */
export function firstPlaces(yarns: readonly Pick<PlannedYarn, 'name' | 'colour'>[]): number[] {
  return yarns.map(({ name, colour }) => yarns.findIndex((other) => other.name === name && other.colour === colour));
}

interface Need { readonly plan: Plan; readonly metres: readonly number[] }

/** Metres that one sock takes, by yarn; null where the file cannot be knitted. */
function findNeed(file: SockFile): Need | null {
  const { plan } = planSock(file);
  if (plan === null) return null;
  const { grid } = knitProgram(buildProgram(plan));
  if (grid === null) return null;
  const firsts = firstPlaces(plan.yarns), metres = firsts.map(() => 0);
  estimateYarn(plan, grid).forEach((use, yarn) => { metres[firsts[yarn]] += use.metres; });
  return { plan, metres };
}

const isEnough = ({ metres }: Need, { metres: inHand, socks, margin }: YarnInHand): boolean =>
  metres.every((need, yarn) => { const had = inHand[yarn] ?? null; return had === null || socks * need <= had * (1 - margin); });

/** A leg of stripes may take a little more of one yarn and less of another when it grows: so many steps beyond the first that fails are looked at. */
const STRIPE_STEPS = 8;

/**
 * The longest leg for which the yarn in hand lasts, heel, foot and toe included: found by bisection over whole
 * socks, planned and knitted. Its answer is as good as `estimateYarn`: weigh what the first sock took.
 */
export function findLongestLeg(file: SockFile, inHand: YarnInHand, words: Words): LongestLeg {
  const field = file.counts?.legPasses === undefined ? 'leg.lengthMm' : 'counts.legPasses', { min, max } = numberRuleAt(field);
  const step = field === 'counts.legPasses' && file.leg?.kind === 'tube' ? 2 : 1, told = words.stand.yarn;
  const at = (value: number): SockFile => withField(file, field, value);
  const lasts = (value: number): boolean => { const need = findNeed(at(value)); return need !== null && isEnough(need, inHand); };
  const present = findNeed(file);
  if (present === null) return { fit: null, problems: planSock(file).problems };
  const shortest = findShortest(at, present, min, step);
  const least = findNeed(at(shortest));
  if (least === null || !isEnough(least, inHand)) return { fit: null, problems: tooLittle(least ?? present, inHand, told.field, told.tooLittle) };
  let enough = shortest, tooLong = shortest + step * (Math.floor((max - shortest) / step) + 1);
  while (tooLong - enough > step) {
    const middle = enough + step * Math.floor((tooLong - enough) / step / 2);
    if (lasts(middle)) enough = middle; else tooLong = middle;
  }
  for (let i = STRIPE_STEPS; i > 0; i--) {
    const value = enough + i * step;
    if (present.plan.yarns.length < 2 || value > max || !lasts(value)) continue;
    enough = value;
    break;
  }
  const need = findNeed(at(enough));
  if (need === null) throw new Error(`longest-leg: ${field} ${enough} was knitted and is not any more`);
  const { plan, metres } = need;
  return { problems: [], fit: { field, value: enough, file: at(enough), legPasses: plan.legPasses, legMm: legLengthOf(plan), metres: metres.map((one) => one * inHand.socks) } };
}

/** Some legs must have a pass or two: the shortest that can be knitted. */
function findShortest(at: (value: number) => SockFile, present: Need, min: number, step: number): number {
  const rowMm = 1 / present.plan.rowsPerMm;
  for (let value = min; value <= min + 8 * Math.max(step, Math.ceil(rowMm)); value += step) if (planSock(at(value)).plan !== null) return value;
  return min;
}

/** Rows of the leg and its plain ones at the gauge. */
function legLengthOf({ legKind, legPasses, plainPasses, rowsPerMm }: Plan): number {
  return (legKind === 'tube' ? legPasses / 2 : legPasses + plainPasses) / rowsPerMm;
}

function tooLittle({ plan, metres }: Need, inHand: YarnInHand, field: (yarn: string) => string, told: (name: string, need: number) => string): Problem[] {
  return plan.yarns.flatMap(({ name }, yarn) => {
    const had = inHand.metres[yarn] ?? null, need = (metres[yarn] ?? 0) * inHand.socks / (1 - inHand.margin);
    return had === null || had >= need ? [] : [makeProblem(field(name), Math.round(had), null, told(name, Math.ceil(need)))];
  });
}
