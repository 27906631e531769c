import { makeProblem } from '../base/make-problem.ts';
import type { Problem } from '../base/problem.ts';
import { runToEnd } from '../base/run-to-end.ts';
import { checkSock } from '../plan/check-sock.ts';
import type { Plan } from '../plan/plan-types.ts';
import { planSock } from '../plan/plan-sock.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { withField } from '../plan/with-field.ts';
import type { Advice, AdvisedChange, AdvisedSock, WeighedSock } from './advice.ts';
import { reasonFor } from './advice-words.ts';
import type { FootToFit } from './foot-to-fit.ts';
import { footToFit } from './foot-to-fit.ts';
import { knitCost } from './knit-cost.ts';
import type { Choice, ScoredChoice } from './search-choices.ts';
import { CHOICE_FIELDS, searchStitches, stitchesToTry } from './search-choices.ts';
import { weighFit } from './weigh-fit.ts';

export interface AdviseOptions {
  /** Counts that the file fixes by hand (`counts`) stay; default true. What it says of heel and toe is always open to advice, but for a toe with rates or a slant of its own. */
  readonly keepsCounts?: boolean;
}

const MOST_ADVISED = 3;
/** Share of the work that lies in the search. */
const SEARCH_SHARE = 0.8;

/** Two heels are told apart from this on: turn-downs, and passes of plateau, by a ninth of the heel's stitches, and by four at least. */
const APART = { share: 1 / 9, least: 4 } as const;

/**
 * Are two choices different socks to wearer and knitter? Other stitches round, another share of them
 * in the heel, or a heel that is turned down otherwise: not the same heel with a round or a stitch more.
 */
export function isDistinct(a: Choice, b: Choice): boolean {
  const apart = Math.max(APART.least, APART.share * Math.min(a.heelStitches, b.heelStitches));
  return a.stitches !== b.stitches || a.heelStitches !== b.heelStitches
    || Math.abs(a.turnDownWidth - b.turnDownWidth) >= apart
    || Math.abs(a.plateauPasses - b.plateauPasses) >= apart;
}

/** Advice in one go: see `adviseInSteps`. */
export function adviseSock(file: SockFile, options: AdviseOptions = {}): Advice {
  return runToEnd(adviseInSteps(file, options));
}

/**
 * "Make it fit", backwards from the foot to the counts: all choices of stitches round, heel, toe and
 * foot passes that the machine can knit and that keep both sides equal are weighed by counts and gauge
 * (`weighFit`), and the best that differ are knitted for what they take. Yields how much is done,
 * 0..1; who has had enough stops asking.
 */
export function* adviseInSteps(file: SockFile, options: AdviseOptions = {}): Generator<number, Advice> {
  const form = checkSock(file), foot = form.file === null ? null : footToFit(form.file);
  const none = (problems: readonly Problem[], tried = 0): Advice => ({ present: null, best: [], tried, problems });
  if (form.file === null) return none(form.problems);
  if (foot === null) return none([makeProblem('foot.lengthMm', undefined, null, 'Advice is for a foot: give its length, or its girth at the ball, or both.')]);
  const open = options.keepsCounts === false ? dropCounts(file) : file;
  const girths = stitchesToTry({ file: open, foot }), found: ScoredChoice[] = [];
  let tried = 0;
  for (const [i, stitches] of girths.entries()) {
    const search = searchStitches({ file: open, foot }, stitches);
    found.push(...search.found);
    tried += search.tried;
    yield SEARCH_SHARE * (i + 1) / girths.length;
  }
  const planned = planSock(file);
  const present = planned.plan === null ? null : weigh(planned.plan, foot);
  // Every sock needs more needles than there are, say: then the present one does too, and says so.
  if (found.length === 0) return { ...none(planned.problems, tried), present };
  const best: AdvisedSock[] = [];
  const picks = pickDistinct(found);
  for (const [i, { choice }] of picks.entries()) {
    best.push(adviseOne({ file: open, present, foot, first: best.at(0) ?? null }, choice));
    yield SEARCH_SHARE + (1 - SEARCH_SHARE) * (i + 1) / picks.length;
  }
  return { present, best, tried, problems: [] };
}

/** Without the counts that follow from the foot, as far as the file tells of it. */
function dropCounts(file: SockFile): SockFile {
  const { ballGirthMm, lengthMm, shoeSize } = file.foot ?? {};
  const free = ballGirthMm === undefined ? file : withField(file, 'counts.stitches', undefined);
  return lengthMm === undefined && shoeSize === undefined ? free : withField(free, 'counts.footPasses', undefined);
}

/** The best, then the best of those that differ from it, and so on; of equals the one found first. */
function pickDistinct(found: readonly ScoredChoice[]): readonly ScoredChoice[] {
  const picked: ScoredChoice[] = [];
  for (const one of [...found].sort((a, b) => a.score - b.score)) {
    if (picked.length === MOST_ADVISED) break;
    if (picked.every(({ choice }) => isDistinct(choice, one.choice))) picked.push(one);
  }
  return picked;
}

function weigh(plan: Plan, foot: FootToFit): WeighedSock {
  return { plan, ...weighFit(plan, foot), ...knitCost(plan) };
}

interface Adviser {
  readonly file: SockFile;
  readonly present: WeighedSock | null;
  readonly foot: FootToFit;
  readonly first: AdvisedSock | null;
}

function adviseOne({ file, present, foot, first }: Adviser, choice: Choice): AdvisedSock {
  const advised = settle(file, choice), { plan } = planSock(advised);
  if (plan === null) throw new Error(`advise-sock: ${JSON.stringify(choice)} was tried and cannot be planned`);
  const weighed = weigh(plan, foot), changes = listChanges(present?.plan ?? null, plan);
  return { ...weighed, file: advised, changes, reason: reasonFor({ present, weighed, first, foot, kept: keptCounts(file) }) };
}

function keptCounts({ counts }: SockFile): readonly string[] {
  return [...(counts?.stitches === undefined ? [] : ['stitches round']), ...(counts?.footPasses === undefined ? [] : ['foot passes'])];
}

/** The file with as few fields written as lead to the choice: what follows by itself is not fixed. */
function settle(file: SockFile, choice: Choice): SockFile {
  let settled = file;
  for (const [name, field] of CHOICE_FIELDS) {
    const wanted = choice[name];
    if (wanted !== null && planSock(settled).plan?.[name] !== wanted) settled = withField(settled, field, wanted);
  }
  return settled;
}

function listChanges(present: Plan | null, advised: Plan): AdvisedChange[] {
  return CHOICE_FIELDS.flatMap(([name, field]) => {
    const from = present?.[name] ?? null, to = advised[name];
    // A heel on half of other stitches has not been chosen anew; a short-row toe has no rate.
    const isNone = name === 'heelStitches' ? isHalf(advised) && (present === null || isHalf(present)) : name === 'passesPerDecrease' && advised.toeKind !== 'decreased';
    return from === to || isNone ? [] : [{ field, from, to }];
  });
}

const isHalf = ({ heelStitches, stitches }: Plan): boolean => 2 * heelStitches === stitches;
