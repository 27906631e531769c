import { buildPartFabric } from '../fabric/build-part-fabric.ts';
import { gridAtPass } from '../machine/grid-at-pass.ts';
import type { PieceOnBeds } from '../shape/beds-pose.ts';
import { hangUp, relaxHeldInSteps, setUpBeds } from '../shape/index.ts';
import { hangBetweenInto, pinInto, prepareGrowth } from './hang-at.ts';
import type { Growth, Keyframe, KeyQuality } from './hang-at.ts';
import { findPair } from './hang-sock.ts';
import { createKeyframeBook } from './keyframe-book.ts';
import type { KeyframeBook } from './keyframe-book.ts';
import type { KnittedSock } from './result.ts';

/** Residual at which a keyframe is near enough to rest. `measured`: at a third of it loops lie no nearer to where they come to rest on the whole, for twice the time; at three times it tubes are some millimetres off. */
const NEAR_REST = 3e-3;
/** Passes between the first keyframes, but at the ends of sections. `chosen by eye`. */
const FIRST_GAP = 24;
/** How much farther down cloth hangs at rest than where it is hung up. `measured`: 1.2 to 1.3 all along two socks. */
const SAG = 1.25;
/** Keyframes are halved until shapes in between are so near to those at rest, 95 of 100 loops, mm. */
const CLOSE_MM = 1;
/** Of keyframes whose middle is not known, mm for each pass between them. `measured`: what halving finds at first, at most. */
const UNKNOWN_MM = 0.25;
/** A keyframe so many passes away is wanted half as much as one beside the pass that is looked at. */
const NEARNESS = 12;
/** Keyframes at most; a sock has three to four hundred passes. */
const MOST_KEYFRAMES = 200;

/** Where someone looks: that pass and its neighbours come first; if the eye rests there, the shape at rest of that very pass. */
export interface Attention { readonly pass: number; readonly isResting: boolean }

/** Makes the keyframes of a sock's growth one by one. */
export interface Grower {
  /** What is most wanted next; null when nothing is left to do. */
  next(attention: Attention): KeyTask | null;
  /** Makes it and adds it to the book; yields often. */
  make(task: KeyTask): Generator<void, Keyframe>;
  /** Share of the passes over which shapes are near enough, 0 to 1. */
  progress(): number;
}

export interface KeyTask { readonly pass: number; readonly quality: KeyQuality }

export function startGrower(sock: KnittedSock): Grower { return createGrower(sock, prepareGrowth(sock), createKeyframeBook()); }

export function createGrower(sock: KnittedSock, growth: Growth, book: KeyframeBook): Grower {
  const stops = findStops(sock), pairs = stops.map((stop) => (stop + 1 <= growth.lastPass ? stop + 1 : stop - 1)), gaps = createGapBook(book);
  return {
    next: ({ pass, isResting }) => {
      const nearest = (passes: readonly number[]): number | undefined => [...passes].sort((a, b) => Math.abs(a - pass) - Math.abs(b - pass))[0];
      const lacks = (quality: KeyQuality) => (stop: number): boolean => !hasKey(book, stop, quality);
      if (findPair(book, pass, 0) === null) return { pass, quality: 0 };
      // The first pass that is looked at is seen near rest before all others are hung up.
      if (book.keyframes.length === 1 && lacks(1)(pass)) return { pass, quality: isResting ? 2 : 1 };
      const hung = nearest(stops.filter(lacks(0)));
      if (hung !== undefined) return { pass: hung, quality: 0 };
      if (isResting && lacks(2)(pass)) return { pass, quality: 2 };
      const rough = [...stops, ...book.keyframes.map((keyframe) => keyframe.pass)].filter(lacks(1));
      const wanted = nearest(rough) ?? nearest(pairs.filter(lacks(1))) ?? (book.keyframes.length < MOST_KEYFRAMES ? gaps.widest(pass) : null);
      return wanted === null ? null : { pass: wanted, quality: 1 };
    },
    *make({ pass, quality }) {
      const piece = pieceAt(sock, pass);
      const keyframe = quality === 0 ? hangKeyframe(growth, piece, pass) : yield* relaxKeyframe(growth, piece, { pass, quality }, nearPair(book, pass));
      if (quality > 0) gaps.learn(keyframe, growth);
      book.add(keyframe);
      return keyframe;
    },
    progress: () => (book.keyframes.length >= MOST_KEYFRAMES ? 1 : gaps.progress(growth.lastPass)),
  };
}

function hasKey(book: KeyframeBook, pass: number, quality: KeyQuality): boolean {
  const pair = book.around(pass, quality, false);
  return pair !== null && pair[0] === pair[1];
}

/** The first two and the last two passes of each section, and some between. */
function findStops({ trace: { passes } }: KnittedSock): number[] {
  const ends = passes.flatMap(({ section }, pass) => {
    const isEnd = [1, 2, -1, -2].some((step) => passes[pass + step]?.section !== section);
    return isEnd ? [pass] : [];
  });
  return ends.flatMap((end, k) => {
    const next = ends[k + 1] ?? end, steps = Math.max(1, Math.ceil((next - end) / FIRST_GAP));
    return Array.from({ length: steps }, (_, i) => Math.round(end + i * (next - end) / steps));
  });
}

function pieceAt({ program, grid: whole, trace, fabric, plan: { needlesPerBed, needlePitchMm, firmness } }: KnittedSock, pass: number): PieceOnBeds {
  const { grid, liveNeedles } = gridAtPass(program, whole, trace, pass);
  return { fabric: buildPartFabric(grid, fabric), grid, liveNeedles, needlesPerBed, needlePitchMm, firmness };
}

/** The cloth as it is hung up by rule, stretched as the weights do on the whole. */
function hangKeyframe(growth: Growth, piece: PieceOnBeds, pass: number): Keyframe {
  const { start, claw } = hangUp(piece), positions = Float32Array.from(start, (place, i) => (i % 3 === 2 ? SAG * place : place));
  pinInto(positions, growth, pass);
  return { pass, positions, claw, quality: 0 };
}

/** From the shape between its neighbours where both have been at rest, else as it is hung up. */
function* relaxKeyframe(growth: Growth, piece: PieceOnBeds, { pass, quality }: KeyTask, near: readonly [Keyframe, Keyframe] | null): Generator<void, Keyframe> {
  const setUp = setUpBeds(piece), start = new Float64Array(3 * growth.vertexCounts[pass]);
  if (near !== null) hangBetweenInto(start, growth, near[0], near[1], pass);
  const pose = yield* relaxHeldInSteps(piece.fabric, 'beds', setUp, { ...(near === null ? {} : { start }), ...(quality === 2 ? {} : { tolerance: NEAR_REST }) });
  const positions = Float32Array.from(pose.positions);
  pinInto(positions, growth, pass);
  return { pass, positions, claw: setUp.claw, quality };
}

/** Two keyframes near enough to rest and to each other that a shape between them is a good start. */
function nearPair(book: KeyframeBook, pass: number): readonly [Keyframe, Keyframe] | null {
  const pair = findPair(book, pass, 1);
  return pair !== null && pair[1].pass - pair[0].pass <= FIRST_GAP + 2 ? pair : null;
}

/** How far shapes between two neighbouring keyframes may be from those at rest. */
interface GapBook {
  /** The middle of the gap most worth halving for someone who looks at a pass; null when all are close. */
  widest(lookedAt: number): number | null;
  /** A keyframe is about to be added: how far was what stood in for it? */
  learn(keyframe: Keyframe, growth: Growth): void;
  progress(lastPass: number): number;
}

/** A gap between neighbours that are alike: from pass to pass, and how far off its middle may be, mm. */
interface Gap { readonly from: number; readonly to: number; readonly far: number }

function createGapBook(book: KeyframeBook): GapBook {
  /** By the pass after which a gap begins: expected distance of its middle, mm. */
  const expected = new Map<number, number>();
  const gaps = (): Gap[] => [0, 1].flatMap((side) => {
    const own = book.keyframes.filter(({ pass, quality }) => quality > 0 && pass % 2 === side);
    return own.slice(1).map(({ pass: to }, k) => {
      const from = own[k].pass;
      return { from, to, far: to - from < 4 ? 0 : expected.get(from) ?? UNKNOWN_MM * (to - from) };
    });
  });
  return {
    widest: (lookedAt) => {
      let best: number | null = null, most = 0;
      for (const { from, to, far } of gaps()) {
        const worth = far <= CLOSE_MM ? 0 : far / (1 + Math.max(0, from - lookedAt, lookedAt - to) / NEARNESS);
        if (worth > most) { most = worth; best = from + 2 * Math.round((to - from) / 4); }
      }
      return best;
    },
    learn: (keyframe, growth) => {
      const pair = book.around(keyframe.pass, 1, true);
      if (pair === null || pair[0] === pair[1]) return;
      const stand = new Float64Array(keyframe.positions.length);
      hangBetweenInto(stand, growth, pair[0], pair[1], keyframe.pass);
      // What is straight in between bends: half the gap is off by a quarter.
      const off = quantile(distances(stand, keyframe.positions), 0.95) / 4;
      expected.set(pair[0].pass, off);
      expected.set(keyframe.pass, off);
    },
    progress: (lastPass) => {
      const all = gaps().reduce((sum, { from, to, far }) => sum + (far <= CLOSE_MM ? to - from : 0), 0);
      // One chain ends at the last pass, the other at the one before; they begin at 0 and 1.
      return all / Math.max(1, 2 * lastPass - 2);
    },
  };
}

function distances(a: Float64Array, b: Float32Array): Float64Array {
  return Float64Array.from({ length: b.length / 3 }, (_, v) => Math.sqrt((a[3 * v] - b[3 * v]) ** 2 + (a[3 * v + 1] - b[3 * v + 1]) ** 2 + (a[3 * v + 2] - b[3 * v + 2]) ** 2));
}

function quantile(values: Float64Array, share: number): number {
  return values.sort()[Math.floor(share * (values.length - 1))] ?? 0;
}
