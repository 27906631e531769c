import type { Plan, ToeStep } from './plan-types.ts';
import type { Bed } from './sock-file.ts';
import type { NeedleRef, Program, SectionName, Side, Step } from './step.ts';
import { createYarnRota, type YarnRota } from './yarn-rota.ts';

/** A program under construction: its steps, and where carriage and yarn are. */
interface Bench {
  readonly steps: Step[];
  carriage: Side;
  readonly rota: YarnRota;
}

/** Needles first..last of a bed, counted from its left end. */
interface Span { readonly first: number; readonly last: number }

interface Turning {
  readonly bed: Bed;
  readonly span: Span;
  /** Needles of the bed at rest. */
  readonly restSpan: Span;
  readonly width: number;
  readonly plateauPasses: number;
  readonly hasWraps: boolean;
  readonly hasCornerWraps: boolean;
  readonly sections: { readonly down: SectionName; readonly level: SectionName; readonly out: SectionName };
}

export const otherBed = (bed: Bed): Bed => (bed === 'front' ? 'back' : 'front');
const otherSide = (side: Side): Side => (side === 'left' ? 'right' : 'left');
const at = (bed: Bed, needle: number): NeedleRef => ({ bed, needle });
const needlesOf = (span: Span): number[] =>
  Array.from({ length: span.last - span.first + 1 }, (_, i) => span.first + i);

function knit(bench: Bench, beds: readonly Bed[], section: SectionName): void {
  const yarn = bench.rota.nextPass(section);
  if (yarn !== null) bench.steps.push({ do: 'yarn', yarn });
  bench.steps.push({ do: 'knit', beds, from: bench.carriage, section });
  bench.carriage = otherSide(bench.carriage);
}

/** Tube passes, instep bed first. */
function knitTube(bench: Bench, heelBed: Bed, passes: number, section: SectionName): void {
  for (let p = 0; p < passes; p++) {
    knit(bench, [p % 2 === 0 ? otherBed(heelBed) : heelBed], section);
  }
}

/** Cast-on, rib, all loops to the gathering bed, plain rows, and the outer quarters turned onto the other bed. */
function knitFlatLeg(bench: Bench, plan: Plan, span: Span): void {
  const n = plan.stitches;
  const gather = plan.gatherBed;
  const turned = otherBed(gather);
  const bedAt = (i: number): Bed => (i % 2 === 1 ? gather : turned);
  const row = Array.from({ length: n }, (_, i) => at(bedAt(i + 1), span.first + i));
  bench.steps.push({
    do: 'cast-on',
    needles: bench.carriage === 'left' ? [...row].reverse() : row,
    isClosed: false, carriage: bench.carriage, yarn: bench.rota.current(), section: 'cast-on',
  });
  for (let p = 0; p < plan.legPasses; p++) knit(bench, [gather, turned], 'leg');
  bench.steps.push({
    do: 'transfer', why: 'gather',
    moves: row.filter((r) => r.bed === turned).map((r) => ({ from: r, to: at(gather, r.needle) })),
  });
  for (let p = 0; p < plan.plainPasses; p++) knit(bench, [gather], 'plain');

  const quarter = n / 4;
  const stitch = (i: number): NeedleRef => at(gather, span.first - 1 + i);
  const onTurned = (needle: number): NeedleRef => at(turned, span.first - 1 + needle);
  const moves: { from: NeedleRef; to: NeedleRef }[] = [];
  for (let i = 1; i <= quarter; i++) moves.push({ from: stitch(i), to: onTurned(n / 2 + 1 - i) });
  for (let i = 3 * quarter + 1; i <= n; i++) moves.push({ from: stitch(i), to: onTurned((3 * n) / 2 + 1 - i) });
  bench.steps.push({ do: 'transfer', why: 'turn', moves });
  // The yarn hangs at the centre back, a quarter from the bed's end.
  bench.steps.push({ do: 'yarn', yarn: bench.rota.current() });
}

function castOnTube(bench: Bench, heelBed: Bed, span: Span): void {
  const needles = needlesOf(span);
  const instep = needles.map((i) => at(otherBed(heelBed), i));
  const heel = needles.map((i) => at(heelBed, i));
  bench.steps.push({
    do: 'cast-on',
    needles: bench.carriage === 'left' ? [...instep, ...[...heel].reverse()] : [...[...instep].reverse(), ...heel],
    isClosed: true, carriage: bench.carriage, yarn: bench.rota.current(), section: 'cast-on',
  });
}

/** Short rows down to `width` and out again: the heel, and the short-row toe. */
function knitTurning(bench: Bench, turning: Turning): void {
  const { bed, span, restSpan, sections } = turning;
  const held: Record<Side, number[]> = { left: [], right: [] };
  const turns = span.last - span.first + 1 - turning.width;
  for (let p = 1; p <= turns; p++) {
    const away = otherSide(bench.carriage);
    const needle = away === 'right' ? span.last - held.right.length : span.first + held.left.length;
    held[away].push(needle);
    bench.steps.push({ do: 'hold', at: at(bed, needle) });
    knit(bench, [bed], sections.down);
    if (turning.hasWraps) bench.steps.push({ do: 'wrap', at: at(bed, needle) });
  }
  for (let p = 0; p < turning.plateauPasses; p++) knit(bench, [bed], sections.level);
  for (let p = 1; p <= turns; p++) {
    const away = otherSide(bench.carriage);
    const needle = held[away].pop();
    if (needle === undefined) throw new Error(`build-program: no held needle left on the ${away} for turning-out pass ${p}`);
    bench.steps.push({ do: 'return', at: at(bed, needle) });
    knit(bench, [bed], sections.out);
    if (turning.hasCornerWraps && p >= turns - 1) {
      bench.steps.push({ do: 'wrap', at: at(otherBed(bed), bench.carriage === 'right' ? restSpan.last : restSpan.first) });
    }
  }
}

/**
 * The tube's round before a heel on more than half of the stitches (`to` the heel bed), or the first after it
 * (`from` there). At each end, while the carriage is away, the outermost instep stitches change beds: the j-th
 * from the end stands on the j-th needle beyond the heel bed's. The side moved second is knitted once more in
 * the first round and once less in the other.
 */
function knitShiftRound(bench: Bench, plan: Plan, tube: Span, section: SectionName, way: 'to' | 'from'): void {
  const instep = otherBed(plan.heelBed), moved = needlesOf({ first: 0, last: beyondOf(plan) - 1 });
  for (const bed of [instep, plan.heelBed]) {
    const isLeft = bench.carriage === 'right';
    const pairs = moved.map((j) => [
      at(instep, isLeft ? tube.first + j : tube.last - j), at(plan.heelBed, isLeft ? tube.first - 1 - j : tube.last + 1 + j),
    ] as const);
    // Back come the outermost first.
    const moves = way === 'to' ? pairs.map(([from, to]) => ({ from, to })) : pairs.reverse().map(([to, from]) => ({ from, to }));
    if (moves.length > 0) bench.steps.push({ do: 'transfer', why: 'heel', moves });
    knit(bench, [bed], section);
  }
}

/** Stitches of the heel beyond a bed's, at each end. */
const beyondOf = (plan: Plan): number => (plan.heelStitches - plan.bedStitches) / 2;

/** The heel itself: on its bed and on the needles beyond, with wraps. */
function knitHeel(bench: Bench, plan: Plan, tube: Span): void {
  const beyond = beyondOf(plan);
  knitTurning(bench, {
    bed: plan.heelBed, span: { first: tube.first - beyond, last: tube.last + beyond }, restSpan: { first: tube.first + beyond, last: tube.last - beyond },
    width: plan.turnDownWidth, plateauPasses: plan.plateauPasses, hasWraps: plan.heelWraps, hasCornerWraps: true,
    sections: { down: 'heel-in', level: 'heel-level', out: 'heel-out' },
  });
}

/** The two outermost loops at one end of a bed, one needle inward each. */
function decreaseMoves(bed: Bed, span: Span, end: Side): { from: NeedleRef; to: NeedleRef }[] {
  const [outermost, inward] = end === 'left' ? [span.first, 1] : [span.last, -1];
  const move = (from: number) => ({ from: at(bed, from), to: at(bed, from + inward) });
  return [move(outermost + inward), move(outermost)];
}

function knitDecreasedToe(bench: Bench, plan: Plan, tube: Span): Span {
  let span = tube;
  for (const { ends, passes } of plan.toeSteps) {
    const sides = sidesOf(ends, plan.outerSide);
    bench.steps.push({
      do: 'transfer', why: 'decrease',
      moves: (['front', 'back'] as const).flatMap((bed) => sides.flatMap((side) => decreaseMoves(bed, span, side))),
    });
    span = { first: span.first + (sides.includes('left') ? 1 : 0), last: span.last - (sides.includes('right') ? 1 : 0) };
    knitTube(bench, plan.heelBed, passes, 'toe');
  }
  return span;
}

const sidesOf = (ends: ToeStep['ends'], outer: Side): readonly Side[] => (ends === 'both' ? ['left', 'right'] : [outer]);

function close(bench: Bench, plan: Plan, span: Span): void {
  const instep = otherBed(plan.heelBed);
  const needles = needlesOf(span);
  const yarn = bench.rota.current();
  if (plan.closing === 'graft') {
    bench.steps.push({ do: 'graft', pairs: needles.map((i) => [at(instep, i), at(plan.heelBed, i)] as const), yarn });
    return;
  }
  bench.steps.push({
    do: 'transfer', why: 'join',
    moves: needles.map((i) => ({ from: at(plan.heelBed, i), to: at(instep, i) })),
  });
  const inOrder = bench.carriage === 'left' ? needles : [...needles].reverse();
  bench.steps.push({ do: 'bind-off', needles: inOrder.map((i) => at(instep, i)), yarn });
}

/** Where a planned sock is cast on: in the middle of the bed, and the carriage on the side from which it is on the left when the tube begins. */
export function placeCastOn({ legKind, stitches, bedStitches, needlesPerBed, legPasses, plainPasses }: Plan): { readonly carriage: Side; readonly span: Span } {
  const breadth = legKind === 'flat-rib' ? stitches : bedStitches, first = Math.floor((needlesPerBed - breadth) / 2) + 1;
  return { carriage: (legPasses + plainPasses) % 2 === 0 ? 'left' : 'right', span: { first, last: first + breadth - 1 } };
}

/** The machine steps that knit a planned sock, in order. */
export function buildProgram(plan: Plan): Program {
  const isFlat = plan.legKind === 'flat-rib';
  const { carriage, span: legSpan } = placeCastOn(plan);
  const tubeFirst = isFlat ? legSpan.first + plan.stitches / 4 : legSpan.first;
  const tube = { first: tubeFirst, last: tubeFirst + plan.bedStitches - 1 };

  const bench: Bench = { steps: [], carriage, rota: createYarnRota(plan.yarns) };
  if (isFlat) knitFlatLeg(bench, plan, legSpan);
  else castOnTube(bench, plan.heelBed, tube);
  // A tube leg may go over into the heel without an ankle.
  const lastSection = plan.anklePasses > 0 ? 'ankle' : 'leg', lastRound = (section: SectionName): number => (section === lastSection ? 2 : 0);
  if (!isFlat) knitTube(bench, plan.heelBed, plan.legPasses - lastRound('leg'), 'leg');
  knitTube(bench, plan.heelBed, plan.anklePasses - lastRound('ankle'), 'ankle');
  knitShiftRound(bench, plan, tube, lastSection, 'to');
  knitHeel(bench, plan, tube);
  knitShiftRound(bench, plan, tube, 'foot', 'from');
  knitTube(bench, plan.heelBed, plan.footPasses - 2, 'foot');
  if (plan.toeKind === 'decreased') {
    close(bench, plan, knitDecreasedToe(bench, plan, tube));
  } else {
    knitTurning(bench, {
      bed: plan.heelBed, span: tube, restSpan: tube, width: plan.toeTipStitches, plateauPasses: 0,
      hasWraps: true, hasCornerWraps: false,
      sections: { down: 'toe-in', level: 'toe-in', out: 'toe-out' },
    });
    close(bench, plan, tube);
  }
  if (isFlat) bench.steps.push({ do: 'seam', fromPass: 0, toPass: plan.legPasses + plan.plainPasses });
  return { needlesPerBed: plan.needlesPerBed, yarnCount: plan.yarns.length, steps: bench.steps };
}
