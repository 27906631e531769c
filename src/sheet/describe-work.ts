import { sewnTailMm } from '../measure/estimate-yarn.ts';
import type { Plan } from '../plan/plan-types.ts';
import type { NeedleRef, Side, Step } from '../plan/step.ts';
import type { Words } from '../words/words.ts';
import { cutLength } from './cut-length.ts';
import type { KnitRecord } from './knit-record.ts';
import type { WorkItem } from './list-work.ts';
import type { NeedleNumbers } from './needle-label.ts';
import { labelNeedle } from './needle-label.ts';
import { splitRuns } from './split-runs.ts';

/** A stop of the work in words. */
export interface WorkWords {
  /** `Heel, turning down: pass 63 of 240`. */
  readonly title: string;
  /** What to do, in order; a handling takes a sentence or more. */
  readonly acts: readonly string[];
  readonly why: string;
  /** What to watch; empty where there is nothing. */
  readonly watch: string;
}

export interface WordOptions { readonly words: Words; readonly numbers: NeedleNumbers }

type Transfer = Extract<Step, { do: 'transfer' }>;

/** What the sentences are told with: how a needle is called, and which yarn was in the carriage before. */
interface Telling {
  readonly told: Words['passes'];
  readonly label: (at: NeedleRef) => string;
  readonly item: WorkItem;
  readonly plan: Pick<Plan, 'yarns' | 'heelWraps' | 'stitchesPerMm'>;
  readonly yarnBefore: number;
}

/** What to do at a stop, why, and what to watch. `record` is the sock's, or another program of the same plan with its trace (the mirrored one, say). */
export function describeWork(record: Pick<KnitRecord, 'plan' | 'program' | 'trace'>, item: WorkItem, { words, numbers }: WordOptions): WorkWords {
  const { plan, program, trace } = record, told = words.passes;
  const telling: Telling = {
    told, item, plan, label: ({ needle }) => labelNeedle(needle, program.needlesPerBed, numbers),
    yarnBefore: trace.passes[item.index - 1]?.yarn ?? item.yarn,
  };
  return { title: titleOf(telling, trace.passes.length - 1), acts: actsOf(telling, program.steps[trace.passes[0].step]), why: told.why[item.section], watch: watchOf(telling) };
}

function titleOf({ told, item }: Telling, last: number): string {
  switch (item.kind) {
    case 'cast-on': return told.castOn;
    case 'closing': return told.closing;
    case 'pass': return `${told.sections[item.section]}: ${told.passOf(item.index, last)}`;
  }
}

function actsOf(telling: Telling, castOn: Step): string[] {
  const { told: { act }, item } = telling;
  const before = lastYarnOnly(item.before).flatMap((step) => tellStep(telling, step));
  switch (item.kind) {
    case 'cast-on': return [...tellStep(telling, castOn), act.hang];
    case 'closing': return [...before, act.ends];
    case 'pass': return [
      ...before,
      act.cross(item.from, item.to, item.knitted, item.beds.length === 1 ? item.beds[0] : null),
      ...item.after.flatMap((step) => tellStep(telling, step)),
    ];
  }
}

/** Where one yarn is joined and at once another, only the second is. */
function lastYarnOnly(steps: readonly Step[]): Step[] {
  return steps.filter((step, i) => step.do !== 'yarn' || !steps.slice(i + 1).some((later) => later.do === 'yarn'));
}

function tellStep(telling: Telling, step: Step): string[] {
  const { told: { act }, item, label, plan } = telling;
  switch (step.do) {
    case 'cast-on': return [tellCastOn(telling, step)];
    case 'knit': return [];
    case 'hold': return [act.hold(label(step.at), step.at.bed)];
    case 'return': return [act.back(label(step.at), step.at.bed, hasWraps(plan, item))];
    case 'wrap': {
      const isCorner = !item.beds.includes(step.at.bed);
      return [(isCorner ? act.cornerWrap : act.wrap)(label(step.at), step.at.bed)];
    }
    case 'yarn': return [step.yarn === telling.yarnBefore ? act.sameYarn(item.from) : act.newYarn(plan.yarns[step.yarn]?.name ?? '', item.from)];
    case 'transfer': return tellTransfer(telling, step);
    case 'graft': {
      const ends = endsOf(step.pairs.map(([a]) => a)), mm = sewnTailMm(step.pairs.length / plan.stitchesPerMm);
      // From the yarn on.
      if (item.from === 'right') ends.reverse();
      return [act.graft(step.pairs.length, label(ends[0]), label(ends[1]), cutLength(mm, 'cm'), cutLength(mm, 'in'))];
    }
    case 'bind-off': {
      const ends = endsOf(step.needles);
      return [act.bindOff(step.needles.length, label(ends[0]), label(ends[1]), ends[0].bed)];
    }
    case 'take-off': return [act.takeOff(step.needles.length)];
    case 'seam': return [act.seam(step.toPass - step.fromPass)];
  }
}

function tellCastOn({ told: { act }, label }: Telling, { needles, isClosed, carriage }: Extract<Step, { do: 'cast-on' }>): string {
  const [first, last] = endsOf(needles);
  return isClosed ? act.castOnTube(needles.length, first.bed, label(first), label(needles[needles.length / 2 - 1]), label(last), carriage)
    : act.castOnRib(needles.length, label(first), label(last), first.bed, carriage);
}

function tellTransfer(telling: Telling, { moves, why }: Transfer): string[] {
  const { told: { act }, label, item } = telling, [first] = moves;
  const runs = (): string[] => splitRuns(moves).map(({ from: [a, b], to: [c, d] }) => act.run(label(a), label(b), a.bed, label(c), label(d), c.bed));
  switch (why) {
    case 'gather': return [act.weightsOff, act.gather(moves.length, first.from.bed, first.to.bed), act.weightsOn];
    case 'join': return [act.join(moves.length, first.from.bed, first.to.bed)];
    case 'turn': return [act.weightsOff, act.turn(moves.length / 2), ...runs(), act.weightsOnTube];
    case 'heel': {
      // Each side changes beds while the carriage is away.
      const end: Side = item.from === 'left' ? 'right' : 'left';
      return [item.section === 'foot' ? act.shiftFrom(end) : act.shiftTo(end), ...runs()];
    }
    case 'decrease': return tellDecrease(telling, moves);
    case 'other': return runs();
  }
}

/** Both moves of an end make one sentence, and ends that are alike on both beds are told once. */
function tellDecrease({ told: { act }, label, item }: Telling, moves: Transfer['moves']): string[] {
  const ends = new Map<string, { readonly side: Side; readonly labels: readonly [string, string, string]; beds: number }>();
  for (let i = 0; i + 1 < moves.length; i += 2) {
    const inner = moves[i], outer = moves[i + 1];
    const side: Side = inner.to.needle > inner.from.needle ? 'left' : 'right';
    const key = `${side} ${inner.from.needle}`, known = ends.get(key);
    if (known !== undefined) known.beds++;
    else ends.set(key, { side, labels: [label(outer.from), label(inner.from), label(inner.to)], beds: 1 });
  }
  const told = [...ends.values()].map(({ side, labels: [outer, second, third], beds }) => act.decrease(side, outer, second, third, beds > 1));
  return [...told, act.decreased(item.knitted, item.knitted)];
}

function watchOf({ told: { watch }, item, plan }: Telling): string {
  const transfer = item.before.find((step): step is Transfer => step.do === 'transfer');
  const said = [transfer === undefined ? '' : watchTransfer(watch, transfer.why)];
  if (item.before.some((step) => step.do === 'bind-off')) said.push(watch.bindOff);
  if (item.before.some((step) => step.do === 'graft')) said.push(watch.graft);
  if (item.after.some((step) => step.do === 'wrap' && !item.beds.includes(step.at.bed))) said.push(watch.corner);
  else said.push(watchSection(watch, item, hasWraps(plan, item)));
  if (item.before.some((step) => step.do === 'yarn')) said.push(watch.twoTails);
  return said.filter((words) => words !== '').join(' ');
}

function watchTransfer(watch: Words['passes']['watch'], why: Transfer['why']): string {
  switch (why) {
    case 'gather': return watch.gather;
    case 'turn': return watch.turn;
    case 'heel': return watch.shift;
    case 'decrease': return watch.decrease;
    case 'join': case 'other': return '';
  }
}

function watchSection(watch: Words['passes']['watch'], { section, place, kind, beds }: WorkItem, isWrapped: boolean): string {
  if (kind === 'cast-on') return watch.castOn;
  switch (section) {
    case 'leg': return beds.length === 2 ? watch.rib : watch.foot;
    case 'heel-in': return place === 1 ? watch.firstHeel : watch.heelIn;
    case 'toe-in': return place === 1 ? watch.firstToe : watch.heelIn;
    case 'heel-level': return watch.heelIn;
    case 'heel-out': case 'toe-out': return watch.heelOut(isWrapped);
    case 'foot': return place === 1 ? watch.firstFoot : watch.foot;
    case 'cast-on': case 'plain': case 'ankle': case 'toe': case 'closing': return '';
  }
}

/** A short-row toe has wraps in any case. */
const hasWraps = (plan: Pick<Plan, 'heelWraps'>, { section }: WorkItem): boolean => plan.heelWraps || section === 'toe-out';

const endsOf = (needles: readonly NeedleRef[]): [NeedleRef, NeedleRef] => [needles[0], needles[needles.length - 1]];
