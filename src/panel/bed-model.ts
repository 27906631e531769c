import { BED, LOOP, NEEDLE } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { Trace } from '../machine/trace.ts';
import type { NeedleRef, Program, Side, Step } from '../plan/step.ts';
import type { WorkItem } from '../sheet/list-work.ts';
import { type LiveLoops, readLiveLoops } from './live-loops.ts';

/** A needle as it stands at the end of a stop, and what was done to it there. */
export interface BedNeedle extends NeedleRef {
  /** NEEDLE code. */
  readonly state: number;
  /** Loop of the grid that hangs on it; -1 on an empty needle. */
  readonly loop: number;
  readonly stitches: number;
  readonly wraps: number;
  readonly isKnitted: boolean;
  readonly isNowHeld: boolean;
  readonly isReturned: boolean;
  readonly isWrapped: boolean;
}

export interface BedMove { readonly from: NeedleRef; readonly to: NeedleRef }

/** The beds from above at one stop of the work: after its pass and its wraps; at the closing before anything of it is done. */
export interface BedScene {
  readonly stop: number;
  readonly first: number;
  readonly last: number;
  /** Front bed, then back bed, each from `first` to `last`. */
  readonly needles: readonly BedNeedle[];
  /** Loops moved before the pass, in order. */
  readonly moves: readonly BedMove[];
  /** Pairs to be grafted, and needles to be bound off in order; empty but at the closing. */
  readonly grafts: readonly (readonly [NeedleRef, NeedleRef])[];
  readonly bindOff: readonly NeedleRef[];
  /** Where the carriage came from and stands now: the same where no pass is knitted. */
  readonly from: Side;
  readonly to: Side;
  readonly beds: WorkItem['beds'];
  readonly yarn: number;
  /** The yarn's way in this stop: needles in the order in which they got a loop or a wrap. */
  readonly course: readonly NeedleRef[];
  /** So many of `course` are loops; the rest are wraps. */
  readonly knittedCount: number;
  /** Where a course goes round from one bed to the other: the sides of a tube. */
  readonly sideLinks: readonly (readonly [NeedleRef, NeedleRef])[];
}

/** Needles from `first` to `last` of both beds. */
export interface NeedleSpan { readonly first: number; readonly last: number }

export interface BedBook {
  readonly items: readonly WorkItem[];
  sceneAt(stop: number): BedScene;
}

/** Empty needles shown beyond the outermost that are used. */
const BEYOND = 2;

interface Knitting { readonly program: Program; readonly trace: Trace; readonly grid: StitchGrid }

/** Scenes of all stops of a sock. `items` as listWork gives them: the last one is the closing. */
export function createBedBook({ program, trace, grid }: Knitting, items: readonly WorkItem[]): BedBook {
  const live = readLiveLoops(program, trace, grid), spans = findSpans(items, trace);
  return { items, sceneAt: (stop) => readScene({ items, trace, grid, live }, stop, spans[stop]) };
}

interface Reading { readonly items: readonly WorkItem[]; readonly trace: Trace; readonly grid: StitchGrid; readonly live: LiveLoops }

function readScene(reading: Reading, stop: number, span: NeedleSpan): BedScene {
  const { items, trace } = reading, item = items[stop], course = courseOf(reading, stop);
  const refsOf = (what: 'hold' | 'return' | 'wrap', steps: readonly Step[]): Set<string> =>
    new Set(steps.flatMap((step) => (step.do === what ? [keyOf(step.at)] : [])));
  const held = refsOf('hold', item.before), returned = refsOf('return', item.before), wrapped = refsOf('wrap', item.after);
  const knitted = new Set(course.slice(0, item.knitted).map(keyOf));
  const pass = Math.min(stop, trace.passes.length - 1), needles: BedNeedle[] = [];
  for (const bed of ['front', 'back'] as const) {
    for (let needle = span.first; needle <= span.last; needle++) {
      const entry = (2 * pass + BED[bed]) * trace.needlesPerBed + needle - 1, key = keyOf({ bed, needle });
      needles.push({
        bed, needle, state: trace.needleStates[entry], loop: reading.live.stitch[entry], stitches: reading.live.stitches[entry], wraps: reading.live.wraps[entry],
        isKnitted: knitted.has(key), isNowHeld: held.has(key), isReturned: returned.has(key), isWrapped: wrapped.has(key),
      });
    }
  }
  return {
    stop, ...span, needles, moves: movesOf(item), from: item.from, to: item.to, beds: item.beds, yarn: item.yarn, course,
    knittedCount: item.knitted, sideLinks: item.kind !== 'closing' && item.beds.length === 2 ? [] : linkSides(needles, reading.grid),
    grafts: item.before.flatMap((step) => (step.do === 'graft' ? step.pairs : [])),
    bindOff: item.before.flatMap((step) => (step.do === 'bind-off' ? step.needles : [])),
  };
}

/** Stitches beside each other along a course that hang on different beds. */
function linkSides(needles: readonly BedNeedle[], { rightOf }: StitchGrid): (readonly [NeedleRef, NeedleRef])[] {
  const byLoop = new Map(needles.map((at) => [at.loop, at]));
  return needles.flatMap((at) => {
    const other = at.loop < 0 ? undefined : byLoop.get(rightOf[at.loop]);
    return other === undefined || other.bed === at.bed || other.loop < 0 ? [] : [[at, other] as const];
  });
}

const keyOf = ({ bed, needle }: NeedleRef): string => `${bed} ${needle}`;
const movesOf = ({ before }: WorkItem): BedMove[] => before.flatMap((step) => (step.do === 'transfer' ? step.moves : []));

/** Knitted loops in order, then wraps. */
function courseOf({ items, trace, grid }: Reading, stop: number): NeedleRef[] {
  if (items[stop].kind === 'closing') return [];
  const { firstLoop } = trace.passes[stop], end = trace.passes[stop + 1]?.firstLoop ?? grid.loopCount, course: NeedleRef[] = [];
  for (let loop = firstLoop; loop < end; loop++) {
    const kind = grid.kind[loop];
    if (kind !== LOOP.graft && kind !== LOOP.bindOff) course.push({ bed: grid.bed[loop] === BED.front ? 'front' : 'back', needle: grid.needle[loop] });
  }
  return course;
}

/** The needles to show at each stop: those in use, of all stops up to the turning of the work and of all after it, so that the drawing stands still while a part is knitted. */
function findSpans(items: readonly WorkItem[], trace: Trace): NeedleSpan[] {
  const turn = items.findIndex(({ before }) => before.some((step) => step.do === 'transfer' && step.why === 'turn'));
  const cut = turn < 0 ? 0 : turn + 1;
  const early = widest(items.slice(0, cut), trace), late = widest(items.slice(cut), trace);
  return items.map((_, stop) => (stop < cut ? early : late));
}

function widest(items: readonly WorkItem[], trace: Trace): NeedleSpan {
  const { needlesPerBed, needleStates } = trace;
  let first = needlesPerBed, last = 1;
  const take = (needle: number): void => {
    first = Math.min(first, needle);
    last = Math.max(last, needle);
  };
  for (const item of items) {
    for (const { from, to } of movesOf(item)) {
      take(from.needle);
      take(to.needle);
    }
    if (item.kind === 'closing') continue;
    const start = 2 * item.index * needlesPerBed;
    for (let i = 0; i < 2 * needlesPerBed; i++) if (needleStates[start + i] !== NEEDLE.empty) take((i % needlesPerBed) + 1);
  }
  return { first: Math.max(1, first - BEYOND), last: Math.min(needlesPerBed, last + BEYOND) };
}
