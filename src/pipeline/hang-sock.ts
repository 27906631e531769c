import type { GrowingFabric } from '../fabric/growing-fabric.ts';
import { sortByPass } from '../fabric/growing-fabric.ts';
import { LOOP } from '../machine/codes.ts';
import { findNeedles, needleStatesAt } from './find-holding.ts';
import { hangBetweenInto, prepareGrowth } from './hang-at.ts';
import type { Growth, Keyframe, KeyQuality } from './hang-at.ts';
import { createKeyframeBook } from './keyframe-book.ts';
import type { KeyframeBook } from './keyframe-book.ts';
import type { Holding, KnittedSock } from './result.ts';

/** A sock as far as it is knitted after a pass, hanging from the machine. */
export interface HungSock {
  readonly pass: number;
  /** Vertices of the whole sock's fabric that exist: its first ones. */
  readonly vertexCount: number;
  /** Their places, three entries a vertex, mm, axes as in the pose on the beds. */
  readonly positions: Float64Array;
  /** Needles that carry a loop at some pass of a flat leg, or at some pass after it, so that they stand still from pass to pass; and the weights. */
  readonly holding: Holding;
  /** Whether this is the shape at rest; else it lies between those of other passes, or is on its way to rest. */
  readonly isRelaxed: boolean;
  /** Whether it is only hung up by rule: no shape near it has been near rest yet. */
  readonly isRough: boolean;
}

/** Hangs a sock up as it is after any pass. */
export interface SockHanger {
  readonly growth: Growth;
  readonly book: KeyframeBook;
  /** The sock's cloth in the order in which it comes to be. */
  readonly cloth: GrowingFabric;
  /** The keyframes between which a pass lies: those that have been near rest, if any are. Null where none are at hand yet. */
  pairAt(pass: number): readonly [Keyframe, Keyframe] | null;
  /** Null where no keyframes are at hand yet. Passes beyond the last are the last. */
  hangAt(pass: number): HungSock | null;
}

/** Of a flat leg all its rows lie on both beds side by side, twice as broad as the tube. */
const FLAT_SECTIONS: readonly string[] = ['cast-on', 'leg', 'plain'];
/** Passes by which alike keyframes may be farther apart than the nearest ones. `chosen by eye`. */
const MUCH_LONGER = 12;

export function createSockHanger(sock: KnittedSock): SockHanger {
  const growth = prepareGrowth(sock), book = createKeyframeBook(), { plan, grid, fabric, trace } = sock, { needlePitchMm } = plan;
  const flat = trace.passes.filter(({ section }) => FLAT_SECTIONS.includes(section)).length, isFlat = plan.legKind === 'flat-rib';
  // Turning the work halves the breadth: the machine stands still before it and after it.
  const needlesBefore = findNeedles(sock, 0, isFlat ? flat - 1 : growth.lastPass), needlesAfter = isFlat ? findNeedles(sock, flat, growth.lastPass) : needlesBefore;
  let edgeCount = 0;
  while (grid.kind[fabric.vertexLoop[edgeCount]] === LOOP.castOn) edgeCount++;
  const within = (pass: number): number => Math.min(growth.lastPass, Math.max(0, Math.round(pass)));
  const pairAt: SockHanger['pairAt'] = (pass) => findPair(book, within(pass), 1) ?? findPair(book, within(pass), 0);
  return {
    growth, book, cloth: sortByPass(fabric, growth.lastPass), pairAt,
    hangAt: (wanted) => {
      const pass = within(wanted), pair = pairAt(pass);
      if (pair === null) return null;
      const [before, after] = pair, vertexCount = growth.vertexCounts[pass], positions = new Float64Array(3 * vertexCount);
      const shown = pass < flat ? needlesBefore : needlesAfter;
      hangBetweenInto(positions, growth, before, after, pass);
      return {
        pass, vertexCount, positions, isRelaxed: before === after && before.quality === 2, isRough: before.quality === 0 || after.quality === 0,
        holding: {
          needlePitchMm, needles: shown.places, states: needleStatesAt(sock, shown, pass),
          edge: positions.slice(0, 3 * edgeCount), claw: hangClaw(before, after, pass, positions),
        },
      };
    },
  };
}

/** Rather two keyframes that are alike, so that the same bed is ahead in both, than the nearest two, unless these are much nearer. */
export function findPair(book: KeyframeBook, pass: number, least: KeyQuality): readonly [Keyframe, Keyframe] | null {
  const alike = book.around(pass, least, true), nearest = book.around(pass, least, false);
  const lengthOf = ([before, after]: readonly [Keyframe, Keyframe]): number => after.pass - before.pass;
  return alike === null || nearest !== null && lengthOf(alike) > lengthOf(nearest) + MUCH_LONGER ? nearest : alike;
}

/** The heel's weight, between its places of two keyframes; at a pass that has a heel on the way only the later one may know it. */
function hangClaw(before: Keyframe, after: Keyframe, pass: number, positions: Float64Array): Holding['claw'] {
  const a = middleOf(before.claw, positions), b = middleOf(after.claw, positions);
  if (a === null || b === null) return before === after || pass < after.pass && pass > before.pass ? a ?? b : null;
  const s = before === after ? 1 : (pass - before.pass) / (after.pass - before.pass);
  return [a[0] + s * (b[0] - a[0]), a[1] + s * (b[1] - a[1]), a[2] + s * (b[2] - a[2])];
}

/** Of those that exist by now. */
function middleOf(vertices: Int32Array, positions: Float64Array): Holding['claw'] {
  const sum: [number, number, number] = [0, 0, 0];
  let count = 0;
  for (const v of vertices) {
    if (3 * v >= positions.length) continue;
    for (let axis = 0; axis < 3; axis++) sum[axis] += positions[3 * v + axis];
    count++;
  }
  return count === 0 ? null : [sum[0] / count, sum[1] / count, sum[2] / count];
}
