import type { Bed } from '../plan/sock-file.ts';
import type { NeedleRef, SectionName } from '../plan/step.ts';
import { BED, LOOP, SECTION } from './codes.ts';
import type { StitchGrid } from './grid.ts';

/** Code for a loop whose outside is not known until its row is gathered on one bed. */
const FACE_OPEN = 2;

/** Bits of a loop's open sides, by needle order. */
export const OPEN_LOW = 1;
export const OPEN_HIGH = 2;

const NO_LOOPS: readonly number[] = [];

export interface NewLoop {
  readonly kind: number;
  readonly pass: number;
  readonly bed: Bed;
  readonly needle: number;
  readonly yarn: number;
  readonly section: SectionName;
  /** In needle order, low first. */
  readonly parents?: readonly number[];
  readonly isRib?: boolean;
  readonly wrapHost?: number;
}

/**
 * Every loop as it is formed, in machine terms (low and high needles); `toGrid` turns that into
 * left and right as seen from outside, which is known only once a rib has been gathered.
 */
export class LoopBook {
  // One list a property: a sock's loops as objects take three times as long to make and to read.
  readonly #kind: number[] = [];
  readonly #pass: number[] = [];
  readonly #bed: number[] = [];
  readonly #needle: number[] = [];
  readonly #yarn: number[] = [];
  readonly #section: number[] = [];
  readonly #isRib: number[] = [];
  readonly #wrapHost: number[] = [];
  readonly #parentStart: number[] = [0];
  readonly #parents: number[] = [];
  readonly #face: number[] = [];
  readonly #child: number[] = [];
  readonly #before: number[] = [];
  readonly #after: number[] = [];
  readonly #open: number[] = [];
  readonly #moved: number[] = [];
  /** Course neighbours, four entries each: from, to, direction of the carriage at `from` and at `to` (1: towards high needles). */
  readonly #courses: number[] = [];
  #ribs: number[] = [];
  readonly mitrePairs: number[] = [];
  readonly seamPairs: number[] = [];
  readonly joinPairs: number[] = [];
  readonly ringPair: number[] = [];

  get count(): number {
    return this.#kind.length;
  }

  kindOf(id: number): number {
    return this.#kind[id];
  }

  needleOf(id: number): NeedleRef {
    return { bed: this.#bed[id] === BED.front ? 'front' : 'back', needle: this.#needle[id] };
  }

  add(loop: NewLoop): number {
    const id = this.#kind.length;
    const parents = loop.parents ?? NO_LOOPS;
    this.#kind.push(loop.kind);
    this.#pass.push(loop.pass);
    this.#bed.push(BED[loop.bed]);
    this.#needle.push(loop.needle);
    this.#yarn.push(loop.yarn);
    this.#section.push(SECTION[loop.section]);
    this.#isRib.push(loop.isRib ? 1 : 0);
    this.#wrapHost.push(loop.wrapHost ?? -1);
    this.#face.push(loop.isRib ? FACE_OPEN : BED[loop.bed]);
    if (loop.isRib) this.#ribs.push(id);
    this.#child.push(-1);
    this.#before.push(-1);
    this.#after.push(-1);
    this.#open.push(0);
    this.#moved.push(0);
    for (const parent of parents) {
      this.#child[parent] = id;
      this.#parents.push(parent);
    }
    this.#parentStart.push(this.#parents.length);
    return id;
  }

  linkYarn(from: number, to: number): void {
    this.#after[from] = to;
    this.#before[to] = from;
  }

  linkCourse(from: number, to: number, directionFrom: number, directionTo: number): void {
    this.#courses.push(from, to, directionFrom, directionTo);
  }

  markOpen(loop: number, bits: number): void {
    this.#open[loop] = (this.#open[loop]) | bits;
  }

  openSides(loop: number): number {
    return this.#open[loop];
  }

  /** Moved along `bed`, to high needles positive; what is right as seen from outside goes by that bed: a loop may have come round the end of the other. */
  noteMove(loop: number, bed: Bed, needles: number): void {
    this.#moved[loop] = (this.#moved[loop]) + (bed === 'back' ? -needles : needles);
  }

  /** The rows knitted on both beds so far hang on `bed` now: their outside is that bed's. */
  gatherRibs(bed: Bed): void {
    for (const id of this.#ribs) this.#face[id] = BED[bed];
    this.#ribs = [];
  }

  toGrid(live: readonly number[]): StitchGrid {
    this.gatherRibs('front');
    return {
      loopCount: this.count,
      kind: new Uint8Array(this.#kind),
      pass: new Int32Array(this.#pass),
      bed: new Uint8Array(this.#bed),
      needle: new Int16Array(this.#needle),
      yarn: new Uint8Array(this.#yarn),
      section: new Uint8Array(this.#section),
      isRib: new Uint8Array(this.#isRib),
      child: new Int32Array(this.#child),
      yarnBefore: new Int32Array(this.#before),
      yarnAfter: new Int32Array(this.#after),
      wrapHost: new Int32Array(this.#wrapHost),
      ...this.#seenFromOutside(),
      ...this.#courseNeighbours(),
      mitrePairs: new Int32Array(this.mitrePairs),
      seamPairs: new Int32Array(this.seamPairs),
      joinPairs: new Int32Array(this.joinPairs),
      ringPair: new Int32Array(this.ringPair),
      live: new Int32Array(live),
    };
  }

  /** +1 where high needles lie to the right as seen from outside the fabric, else -1. */
  #sense(loop: number): number {
    return this.#face[loop] === BED.back ? -1 : 1;
  }

  #seenFromOutside(): Pick<StitchGrid, 'isPurl' | 'lean' | 'selvedge' | 'parentStart' | 'parents'> {
    const parentStart = new Int32Array(this.#parentStart);
    const parents = new Int32Array(this.#parents);
    const isPurl = new Uint8Array(this.count);
    const lean = new Int8Array(this.count);
    const selvedge = new Uint8Array(this.count);
    for (let id = 0; id < this.count; id++) {
      const isReversed = this.#sense(id) < 0;
      if ((this.#kind[id]) <= LOOP.knit && this.#bed[id] !== this.#face[id]) isPurl[id] = 1;
      lean[id] = this.#moved[id];
      const open = this.#open[id];
      selvedge[id] = isReversed ? ((open & OPEN_LOW) << 1) | ((open & OPEN_HIGH) >> 1) : open;
      if (isReversed) parents.subarray(parentStart[id], parentStart[id + 1]).reverse();
    }
    return { isPurl, lean, selvedge, parentStart, parents };
  }

  #courseNeighbours(): Pick<StitchGrid, 'leftOf' | 'rightOf'> {
    const leftOf = new Int32Array(this.count).fill(-1);
    const rightOf = new Int32Array(this.count).fill(-1);
    const links = this.#courses;
    for (let i = 0; i < links.length; i += 4) {
      const [from, to] = [links[i], links[i + 1]];
      if ((links[i + 2]) * this.#sense(from) > 0) rightOf[from] = to;
      else leftOf[from] = to;
      if ((links[i + 3]) * this.#sense(to) > 0) leftOf[to] = from;
      else rightOf[to] = from;
    }
    return { leftOf, rightOf };
  }
}
