import type { Bed } from '../plan/sock-file.ts';
import type { SectionName } from '../plan/step.ts';
import { BED, LOOP, SECTION } from './codes.ts';
import type { StitchGrid } from './grid.ts';

/** Code for a loop whose outside is not known until its row is gathered on one bed. */
const FACE_OPEN = 2;

/** Bits of a loop's open sides, by needle order. */
export const OPEN_LOW = 1;
export const OPEN_HIGH = 2;

export interface NewLoop {
  readonly kind: number;
  readonly pass: number;
  readonly bed: Bed;
  readonly needle: number;
  readonly yarn: number;
  readonly section: SectionName;
  /** In needle order, low first. */
  readonly parents: readonly number[];
  readonly isRib?: boolean;
  readonly wrapHost?: number;
}

/**
 * Every loop as it is formed, in machine terms (low and high needles); `toGrid` turns that into
 * left and right as seen from outside, which is known only once a rib has been gathered.
 */
export class LoopBook {
  readonly #loops: NewLoop[] = [];
  readonly #face: number[] = [];
  readonly #child: number[] = [];
  readonly #before: number[] = [];
  readonly #after: number[] = [];
  readonly #open: number[] = [];
  readonly #moved: number[] = [];
  /** Course neighbours: from, to, direction of the carriage at `from` and at `to` (1: towards high needles). */
  readonly #courses: [number, number, number, number][] = [];
  #ribs: number[] = [];
  readonly mitrePairs: number[] = [];
  readonly seamPairs: number[] = [];
  readonly joinPairs: number[] = [];
  readonly ringPair: number[] = [];

  get count(): number {
    return this.#loops.length;
  }

  loop(id: number): NewLoop {
    return this.#loops[id] as NewLoop;
  }

  add(loop: NewLoop): number {
    const id = this.#loops.length;
    this.#loops.push(loop);
    this.#face.push(loop.isRib ? FACE_OPEN : BED[loop.bed]);
    if (loop.isRib) this.#ribs.push(id);
    this.#child.push(-1);
    this.#before.push(-1);
    this.#after.push(-1);
    this.#open.push(0);
    this.#moved.push(0);
    for (const parent of loop.parents) this.#child[parent] = id;
    return id;
  }

  linkYarn(from: number, to: number): void {
    this.#after[from] = to;
    this.#before[to] = from;
  }

  linkCourse(from: number, to: number, directionFrom: number, directionTo: number): void {
    this.#courses.push([from, to, directionFrom, directionTo]);
  }

  markOpen(loop: number, bits: number): void {
    this.#open[loop] = (this.#open[loop] as number) | bits;
  }

  openSides(loop: number): number {
    return this.#open[loop] as number;
  }

  noteMove(loop: number, needles: number): void {
    this.#moved[loop] = (this.#moved[loop] as number) + needles;
  }

  /** The rows knitted on both beds so far hang on `bed` now: their outside is that bed's. */
  gatherRibs(bed: Bed): void {
    for (const id of this.#ribs) this.#face[id] = BED[bed];
    this.#ribs = [];
  }

  /** +1 where high needles lie to the right as seen from outside the fabric, else -1. */
  #sense(loop: number): number {
    return this.#face[loop] === BED.back ? -1 : 1;
  }

  #courseNeighbours(): { leftOf: Int32Array; rightOf: Int32Array } {
    const leftOf = new Int32Array(this.count).fill(-1);
    const rightOf = new Int32Array(this.count).fill(-1);
    for (const [from, to, directionFrom, directionTo] of this.#courses) {
      if (directionFrom * this.#sense(from) > 0) rightOf[from] = to;
      else leftOf[from] = to;
      if (directionTo * this.#sense(to) > 0) leftOf[to] = from;
      else rightOf[to] = from;
    }
    return { leftOf, rightOf };
  }

  #selvedge(id: number): number {
    const open = this.#open[id] as number;
    if (this.#sense(id) > 0) return open;
    return ((open & OPEN_LOW) !== 0 ? OPEN_HIGH : 0) | ((open & OPEN_HIGH) !== 0 ? OPEN_LOW : 0);
  }

  toGrid(live: readonly number[]): StitchGrid {
    this.gatherRibs('front');
    const loops = this.#loops;
    const parentStart = new Int32Array(loops.length + 1);
    const parents: number[] = [];
    loops.forEach((loop, id) => {
      const inOrder = this.#sense(id) > 0 ? loop.parents : [...loop.parents].reverse();
      parents.push(...inOrder);
      parentStart[id + 1] = parents.length;
    });
    return {
      loopCount: loops.length,
      kind: Uint8Array.from(loops, (l) => l.kind),
      pass: Int32Array.from(loops, (l) => l.pass),
      bed: Uint8Array.from(loops, (l) => BED[l.bed]),
      needle: Int16Array.from(loops, (l) => l.needle),
      yarn: Uint8Array.from(loops, (l) => l.yarn),
      section: Uint8Array.from(loops, (l) => SECTION[l.section]),
      isPurl: Uint8Array.from(loops, (l, id) => (l.kind <= LOOP.knit && BED[l.bed] !== this.#face[id] ? 1 : 0)),
      isRib: Uint8Array.from(loops, (l) => (l.isRib ? 1 : 0)),
      lean: Int8Array.from(this.#moved, (needles, id) => needles * this.#sense(id)),
      parentStart,
      parents: Int32Array.from(parents),
      child: Int32Array.from(this.#child),
      yarnBefore: Int32Array.from(this.#before),
      yarnAfter: Int32Array.from(this.#after),
      ...this.#courseNeighbours(),
      wrapHost: Int32Array.from(loops, (l) => l.wrapHost ?? -1),
      selvedge: Uint8Array.from(loops, (_, id) => this.#selvedge(id)),
      mitrePairs: Int32Array.from(this.mitrePairs),
      seamPairs: Int32Array.from(this.seamPairs),
      joinPairs: Int32Array.from(this.joinPairs),
      ringPair: Int32Array.from(this.ringPair),
      live: Int32Array.from(live),
    };
  }
}
