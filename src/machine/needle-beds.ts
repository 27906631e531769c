import type { Bed } from '../plan/sock-file.ts';
import type { NeedleRef, Side } from '../plan/step.ts';
import { BED, NEEDLE } from './codes.ts';
import { Refusal } from './fault.ts';

const BEDS: readonly Bed[] = ['front', 'back'];

/** The two beds: which needle works, holds or is empty, and the loops on each, low needle's side first. */
export class NeedleBeds {
  readonly needlesPerBed: number;
  /** NEEDLE codes, front bed first. */
  readonly states: Uint8Array;
  readonly #loops: number[][];

  constructor(needlesPerBed: number) {
    this.needlesPerBed = needlesPerBed;
    this.states = new Uint8Array(2 * needlesPerBed);
    this.#loops = Array.from({ length: 2 * needlesPerBed }, () => []);
  }

  /** Throws Refusal for a needle outside the bed. */
  index(at: NeedleRef): number {
    if (!Number.isInteger(at.needle) || at.needle < 1 || at.needle > this.needlesPerBed) {
      throw new Refusal(`the ${at.bed} bed has needles 1 to ${this.needlesPerBed}`, at.bed, at.needle);
    }
    return BED[at.bed] * this.needlesPerBed + at.needle - 1;
  }

  loops(at: NeedleRef): number[] {
    return this.#loops[this.index(at)];
  }

  state(at: NeedleRef): number {
    return this.states[this.index(at)];
  }

  setState(at: NeedleRef, state: number): void {
    this.states[this.index(at)] = state;
  }

  /** Takes all loops off a needle, which is then empty. Throws Refusal if it has none. */
  empty(at: NeedleRef): number[] {
    const loops = this.loops(at);
    if (loops.length === 0) throw new Refusal('the needle is empty', at.bed, at.needle);
    this.#loops[this.index(at)] = [];
    this.setState(at, NEEDLE.empty);
    return loops;
  }

  /** Hangs loops on a needle, beside those it has; `isBelow`: they come from a lower needle. */
  hang(at: NeedleRef, loops: readonly number[], isBelow: boolean): void {
    const there = this.loops(at);
    if (isBelow) there.unshift(...loops);
    else there.push(...loops);
    if (this.state(at) === NEEDLE.empty) this.setState(at, NEEDLE.working);
  }

  /** Needles of a bed in one of these states, left to right. */
  needlesIn(bed: Bed, ...states: readonly number[]): number[] {
    const start = BED[bed] * this.needlesPerBed;
    const found: number[] = [];
    for (let i = 0; i < this.needlesPerBed; i++) {
      if (states.includes(this.states[start + i])) found.push(i + 1);
    }
    return found;
  }

  /** The outermost needle of a bed that carries loops, on that side; null if the bed is empty. */
  endNeedle(bed: Bed, side: Side): number | null {
    const carrying = this.needlesIn(bed, NEEDLE.working, NEEDLE.held);
    return (side === 'left' ? carrying[0] : carrying.at(-1)) ?? null;
  }

  /** Needles that carry loops, with bed. */
  carrying(): NeedleRef[] {
    return BEDS.flatMap((bed) =>
      this.needlesIn(bed, NEEDLE.working, NEEDLE.held).map((needle) => ({ bed, needle })));
  }
}
