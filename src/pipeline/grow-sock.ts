import { buildPartFabric } from '../fabric/build-part-fabric.ts';
import { gridAtPass } from '../machine/grid-at-pass.ts';
import type { PieceOnBeds } from '../shape/beds-pose.ts';
import { hangUp, relaxHeldInSteps, setUpBeds } from '../shape/index.ts';
import { hangBetweenInto, pinInto, prepareGrowth } from './hang-at.ts';
import type { Growth, Keyframe, KeyQuality } from './hang-at.ts';
import { createKeyframeBook } from './keyframe-book.ts';
import type { KeyframeBook } from './keyframe-book.ts';
import type { KnittedSock } from './result.ts';

/** Residual at which a keyframe is near enough to rest. `measured`: at a tenth of it loops lie some 0.1 mm elsewhere, for two to five times the steps. */
const NEAR_REST = 1e-2;
/** Passes between the first keyframes, but at the ends of sections. `chosen by eye`. */
const FIRST_GAP = 24;
/** Keyframes are halved until shapes in between are so near to those at rest, 95 of 100 loops, mm. */
const CLOSE_MM = 1;
/** Of keyframes whose middle is not known, mm for each pass between them. `measured`: what halving finds at first, at most. */
const UNKNOWN_MM = 0.6;
/** A keyframe so many passes away is wanted half as much as one beside the pass that is looked at. */
const NEARNESS = 12;
/** Keyframes at most; a sock has three to four hundred passes. */
const MOST_KEYFRAMES = 160;

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
  const stops = findStops(sock), gaps = createGapBook(book);
  return {
    next: ({ pass, isResting }) => {
      const byNearness = (a: number, b: number): number => Math.abs(a - pass) - Math.abs(b - pass);
      const lacks = (quality: KeyQuality) => (stop: number): boolean => !hasKey(book, stop, quality);
      if (lacks(0)(pass)) return { pass, quality: 0 };
      const hung = stops.filter(lacks(0)).sort(byNearness)[0];
      if (hung !== undefined) return { pass: hung, quality: 0 };
      if (isResting && lacks(2)(pass)) return { pass, quality: 2 };
      const wanted = stops.filter(lacks(1)).sort(byNearness)[0] ?? (book.keyframes.length < MOST_KEYFRAMES ? gaps.widest(pass) : null);
      return wanted === null ? null : { pass: wanted, quality: 1 };
    },
    *make({ pass, quality }) {
      const pair = book.around(pass), piece = pieceAt(sock, pass);
      const keyframe = quality === 0 ? hangKeyframe(growth, piece, pass) : yield* relaxKeyframe(growth, piece, { pass, quality }, nearPair(pair, pass));
      if (quality > 0) gaps.learn(keyframe, growth);
      book.add(keyframe);
      return keyframe;
    },
    progress: () => (book.keyframes.length >= MOST_KEYFRAMES ? 1 : gaps.progress(growth.lastPass)),
  };
}

function hasKey(book: KeyframeBook, pass: number, quality: KeyQuality): boolean {
  const pair = book.around(pass);
  return pair !== null && pair[0] === pair[1] && pair[0].quality >= quality;
}

/** The first and last pass of each section, and some between. */
function findStops({ trace: { passes } }: KnittedSock): number[] {
  const ends = passes.flatMap(({ section }, pass) => {
    const isFirst = pass === 0 || passes[pass - 1].section !== section, isLast = passes[pass + 1]?.section !== section;
    return isFirst || isLast ? [pass] : [];
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

function hangKeyframe(growth: Growth, piece: PieceOnBeds, pass: number): Keyframe {
  const { start, claw } = hangUp(piece), positions = Float32Array.from(start);
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
function nearPair(pair: readonly [Keyframe, Keyframe] | null, pass: number): readonly [Keyframe, Keyframe] | null {
  if (pair === null || pair.some(({ quality }) => quality === 0)) return null;
  const [before, after] = pair;
  return after.pass - before.pass <= FIRST_GAP && before.pass <= pass ? pair : null;
}

/** How far shapes between two neighbouring keyframes may be from those at rest. */
interface GapBook {
  /** The middle of the gap most worth halving for someone who looks at a pass; null when all are close. */
  widest(lookedAt: number): number | null;
  /** A keyframe is about to be added: how far was what stood in for it? */
  learn(keyframe: Keyframe, growth: Growth): void;
  progress(lastPass: number): number;
}

function createGapBook({ keyframes, around }: KeyframeBook): GapBook {
  /** By the pass after which a gap begins: expected distance of its middle, mm. */
  const expected = new Map<number, number>();
  const farness = (k: number): number => {
    const gap = keyframes[k + 1].pass - keyframes[k].pass;
    return gap < 2 ? 0 : expected.get(keyframes[k].pass) ?? UNKNOWN_MM * gap;
  };
  return {
    widest: (lookedAt) => {
      let best: number | null = null, most = 0;
      for (let k = 0; k + 1 < keyframes.length; k++) {
        const [a, b] = [keyframes[k].pass, keyframes[k + 1].pass], far = farness(k);
        if (far <= CLOSE_MM) continue;
        const away = Math.max(0, a - lookedAt, lookedAt - b), worth = far / (1 + away / NEARNESS);
        if (worth > most) { most = worth; best = (a + b) >> 1; }
      }
      return best;
    },
    learn: (keyframe, growth) => {
      const pair = around(keyframe.pass);
      if (pair === null || pair[0] === pair[1] || pair.some(({ quality }) => quality === 0)) return;
      const stand = new Float64Array(keyframe.positions.length);
      hangBetweenInto(stand, growth, pair[0], pair[1], keyframe.pass);
      // What is straight in between bends: half the gap is off by a quarter.
      const off = quantile(distances(stand, keyframe.positions), 0.95) / 4;
      expected.set(pair[0].pass, off);
      expected.set(keyframe.pass, off);
    },
    progress: (lastPass) => {
      let close = 0;
      for (let k = 0; k + 1 < keyframes.length; k++) {
        const isHung = keyframes[k].quality > 0 && keyframes[k + 1].quality > 0;
        if (isHung && farness(k) <= CLOSE_MM) close += keyframes[k + 1].pass - keyframes[k].pass;
      }
      return lastPass === 0 ? 1 : close / lastPass;
    },
  };
}

function distances(a: Float64Array, b: Float32Array): Float64Array {
  return Float64Array.from({ length: b.length / 3 }, (_, v) => Math.sqrt((a[3 * v] - b[3 * v]) ** 2 + (a[3 * v + 1] - b[3 * v + 1]) ** 2 + (a[3 * v + 2] - b[3 * v + 2]) ** 2));
}

function quantile(values: Float64Array, share: number): number {
  return values.sort()[Math.floor(share * (values.length - 1))] ?? 0;
}
