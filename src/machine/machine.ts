import type { Bed } from '../plan/sock-file.ts';
import type { NeedleRef, SectionName, Side, Step } from '../plan/step.ts';
import { LOOP, NEEDLE } from './codes.ts';
import { Refusal } from './fault.ts';
import type { StitchGrid } from './grid.ts';
import { LoopBook, OPEN_HIGH, OPEN_LOW } from './loop-book.ts';
import { NeedleBeds } from './needle-beds.ts';
import type { PassRecord, Trace } from './trace.ts';

type CastOn = Extract<Step, { do: 'cast-on' }>;
type Knit = Extract<Step, { do: 'knit' }>;
type Transfer = Extract<Step, { do: 'transfer' }>;

const otherSide = (side: Side): Side => (side === 'left' ? 'right' : 'left');

/** Towards high needles (1) or low ones at the i-th loop of a cast-on, which is no pass and may go round a corner. */
function castOnDirection(step: CastOn, i: number): number {
  const [before, here, after] = [step.needles[i - 1], step.needles[i], step.needles[i + 1]];
  if (here === undefined) return 1;
  if (after !== undefined && after.needle !== here.needle) return Math.sign(after.needle - here.needle);
  return before === undefined ? 1 : Math.sign(here.needle - before.needle) || 1;
}

/** The machine while it works: beds, carriage, yarn, and the loops it has formed. */
export class Machine {
  readonly #beds: NeedleBeds;
  readonly #book = new LoopBook();
  readonly #yarnCount: number;
  #carriage: Side | null = null;
  #yarn: number | null = null;
  #section: SectionName = 'cast-on';
  /** Last loop along the yarn; last cast-on or knitted loop, with the carriage's direction there. */
  #lastOfYarn = -1;
  #last = -1;
  #lastDirection = 0;
  #isYarnBroken = false;
  /** Beds of the pass that is just done. */
  #lastBeds: readonly Bed[] = [];
  readonly #passes: PassRecord[] = [];
  readonly #snapshots: Uint8Array[] = [];
  readonly #takenOff: number[] = [];
  #wraps = 0;
  #cornerWraps = 0;
  #transfers = 0;
  #decreases = 0;

  constructor(needlesPerBed: number, yarnCount: number) {
    this.#beds = new NeedleBeds(needlesPerBed);
    this.#yarnCount = yarnCount;
  }

  /** Passes knitted so far; the cast-on is none. */
  get passCount(): number {
    return Math.max(0, this.#passes.length - 1);
  }

  castOn(step: CastOn, index: number): void {
    if (this.#passes.length > 0) throw new Refusal('the piece is cast on already', null, null);
    this.#useYarn(step.yarn);
    this.#carriage = step.carriage;
    const beds = [...new Set(step.needles.map((at) => at.bed))];
    const isRib = beds.length > 1 && !step.isClosed;
    const made: number[] = [];
    const first = this.#book.count;
    for (const [i, at] of step.needles.entries()) {
      if (this.#beds.loops(at).length > 0) throw new Refusal('the needle carries a loop already', at.bed, at.needle);
      const id = this.#form(at, LOOP.castOn, 0, 'cast-on', [], isRib, castOnDirection(step, i));
      this.#beds.hang(at, [id], false);
      made.push(id);
    }
    const firstLoop = made[0];
    if (firstLoop === undefined) throw new Refusal('a cast-on needs a needle', null, null);
    this.#lastBeds = beds;
    if (step.isClosed) this.#book.ringPair.push(this.#last, firstLoop);
    else this.#markRowEnds(step.needles, made);
    this.#record(index, 'cast-on', step.carriage, made.length, first);
  }

  knit(step: Knit, index: number): void {
    if (this.#carriage === null) throw new Refusal('there is no cast-on', null, null);
    if (step.from !== this.#carriage) {
      throw new Refusal(`the carriage stands on the ${this.#carriage}, so the pass cannot start from the ${step.from}`, null, null);
    }
    const direction = step.from === 'left' ? 1 : -1;
    const row = step.beds
      .flatMap((bed) => this.#beds.needlesIn(bed, NEEDLE.working).map((needle): NeedleRef => ({ bed, needle })))
      .sort((a, b) => direction * (a.needle - b.needle));
    if (row.length === 0) throw new Refusal('no needle of the bed works', step.beds[0] ?? null, null);
    const isRib = new Set(row.map((at) => at.bed)).size > 1;
    const first = this.#book.count;
    const pass = this.passCount + 1;
    this.#section = step.section;
    const made: number[] = [];
    for (const at of row) {
      const id = this.#form(at, LOOP.knit, pass, step.section, this.#beds.empty(at), isRib, direction);
      this.#beds.hang(at, [id], false);
      made.push(id);
    }
    this.#lastBeds = step.beds;
    this.#markRowEnds(row, made);
    this.#carriage = otherSide(step.from);
    this.#record(index, step.section, step.from, made.length, first);
  }

  hold(at: NeedleRef): void {
    if (this.#beds.state(at) !== NEEDLE.working) throw new Refusal('only a working needle can be put in hold', at.bed, at.needle);
    if (this.#beds.needlesIn(at.bed, NEEDLE.working).length === 1) {
      throw new Refusal('the hold would leave no needle of the bed in work', at.bed, at.needle);
    }
    for (const needle of [at.needle - 1, at.needle + 1]) {
      const outer = { bed: at.bed, needle };
      const isHeld = needle >= 1 && needle <= this.#beds.needlesPerBed && this.#beds.state(outer) === NEEDLE.held;
      if (isHeld) this.#book.mitrePairs.push(this.#loopOn(outer), this.#loopOn(at));
    }
    this.#beds.setState(at, NEEDLE.held);
  }

  returnToWork(at: NeedleRef): void {
    if (this.#beds.state(at) !== NEEDLE.held) throw new Refusal('the needle is not in hold', at.bed, at.needle);
    this.#beds.setState(at, NEEDLE.working);
  }

  /** A needle can be wrapped where it rests beside the yarn: held, on the last pass's bed, next to its end; or the end needle of a resting bed. */
  wrap(at: NeedleRef): void {
    const side = this.#carriage;
    if (side === null || this.#last < 0) throw new Refusal('there is no yarn to wrap with', at.bed, at.needle);
    if (this.#beds.loops(at).length === 0) throw new Refusal('the needle is empty', at.bed, at.needle);
    const isResting = !this.#lastBeds.includes(at.bed);
    const end = isResting ? this.#beds.endNeedle(at.bed, side) : this.#nearestHeld(at.bed, side);
    if (end !== at.needle) {
      throw new Refusal(`on the ${side}, where the yarn is, ${end === null ? 'no needle' : `needle ${end}`} can be wrapped`, at.bed, at.needle);
    }
    const host = this.#loopOn(at);
    const id = this.#book.add({
      kind: LOOP.wrap, pass: this.passCount, bed: at.bed, needle: at.needle, yarn: this.#yarnInUse(),
      section: this.#section, wrapHost: host,
    });
    this.#threadYarn(id);
    // It lies on the far side of the held loop.
    if (side === 'left') this.#beds.loops(at).unshift(id);
    else this.#beds.loops(at).push(id);
    if (isResting) this.#cornerWraps++;
    else this.#wraps++;
  }

  transfer(moves: Transfer['moves'], why: Transfer['why']): void {
    for (const { from, to } of moves) {
      this.#beds.index(to);
      if (from.bed === to.bed && from.needle === to.needle) throw new Refusal('the loop is there already', to.bed, to.needle);
      const loops = this.#beds.empty(from);
      if (why === 'decrease' && this.#beds.loops(to).length > 0) this.#decreases++;
      if (from.bed === to.bed) for (const id of loops) this.#book.noteMove(id, to.bed, to.needle - from.needle);
      this.#beds.hang(to, loops, from.bed === to.bed && from.needle < to.needle);
      this.#transfers++;
    }
    const first = moves[0];
    if (why === 'gather' && first !== undefined) this.#book.gatherRibs(first.to.bed);
  }

  changeYarn(yarn: number): void {
    this.#useYarn(yarn);
  }

  graft(pairs: Extract<Step, { do: 'graft' }>['pairs'], yarn: number): void {
    this.#useYarn(yarn);
    for (const [a, b] of pairs) {
      const [loopA, loopB] = [this.#loopOn(a), this.#loopOn(b)];
      this.#closeLoop(a, LOOP.graft, [...this.#beds.empty(a), ...this.#beds.empty(b)]);
      this.#book.joinPairs.push(loopA, loopB);
    }
  }

  bindOff(needles: readonly NeedleRef[], yarn: number): void {
    if (yarn !== this.#yarn) this.#useYarn(yarn);
    let chain = -1;
    for (const at of needles) {
      const stack = this.#beds.empty(at);
      const stitches = stack.filter((id) => this.#book.kindOf(id) !== LOOP.wrap);
      const [a, b] = stitches;
      if (a !== undefined && b !== undefined) this.#book.joinPairs.push(a, b);
      chain = this.#closeLoop(at, LOOP.bindOff, chain < 0 ? stack : [...stack, chain]);
    }
  }

  takeOff(needles: readonly NeedleRef[]): void {
    for (const at of needles) this.#takenOff.push(...this.#beds.empty(at));
  }

  seam(fromPass: number, toPass: number): void {
    for (let pass = fromPass; pass <= toPass; pass++) {
      const record = this.#passes[pass];
      if (record === undefined) throw new Refusal(`there is no pass ${pass} to seam`, null, null);
      const first = record.firstLoop;
      let last = record.endLoop - 1;
      while (this.#book.kindOf(last) === LOOP.wrap) last--;
      if (this.#book.openSides(first) === 0 || this.#book.openSides(last) === 0 || first === last) {
        const { bed, needle } = this.#book.needleOf(first);
        throw new Refusal(`pass ${pass} has no two open edges to sew`, bed, needle);
      }
      this.#book.seamPairs.push(first, last);
    }
  }

  assertNothingLive(): void {
    const [at] = this.#beds.carrying();
    if (at !== undefined) throw new Refusal('loops are left live at the end', at.bed, at.needle);
    const [loop] = this.#takenOff;
    if (loop !== undefined) {
      const { bed, needle } = this.#book.needleOf(loop);
      throw new Refusal('loops taken off are left live at the end', bed, needle);
    }
  }

  finish(): { grid: StitchGrid; trace: Trace; liveNeedles: readonly (NeedleRef | null)[] } {
    const onNeedles = this.#beds.carrying().flatMap((at) => this.#beds.loops(at).map((loop) => ({ loop, at })));
    const live = [...onNeedles.map(({ loop }) => loop), ...this.#takenOff];
    const needleStates = new Uint8Array(this.#snapshots.length * 2 * this.#beds.needlesPerBed);
    this.#snapshots.forEach((s, i) => { needleStates.set(s, i * s.length); });
    return {
      grid: this.#book.toGrid(live),
      liveNeedles: [...onNeedles.map(({ at }) => at), ...this.#takenOff.map(() => null)],
      trace: {
        passes: this.#passes, needlesPerBed: this.#beds.needlesPerBed, needleStates,
        wraps: this.#wraps, cornerWraps: this.#cornerWraps, transfers: this.#transfers, decreases: this.#decreases,
        loops: this.#passes.reduce((sum, p) => sum + p.knitted, 0),
      },
    };
  }

  /** Forms a stitch and ties it to its neighbours along yarn and course. */
  #form(at: NeedleRef, kind: number, pass: number, section: SectionName, parents: readonly number[], isRib: boolean, direction: number): number {
    const isBeside = !this.#isYarnBroken || this.#isBesideLast(at);
    const id = this.#book.add({
      kind, pass, bed: at.bed, needle: at.needle, yarn: this.#yarnInUse(), section, parents, isRib,
    });
    if (this.#last >= 0 && isBeside && !parents.includes(this.#last)) {
      this.#book.linkCourse(this.#last, id, this.#lastDirection, direction);
    }
    this.#threadYarn(id);
    this.#last = id;
    this.#lastDirection = direction;
    return id;
  }

  /** After a break the course goes on only where the new yarn starts beside the old one's last loop. */
  #isBesideLast(at: NeedleRef): boolean {
    if (this.#last < 0) return false;
    return this.#beds.carrying().some((other) =>
      other.needle === at.needle && this.#beds.loops(other).includes(this.#last));
  }

  #closeLoop(at: NeedleRef, kind: number, parents: readonly number[]): number {
    const id = this.#book.add({
      kind, pass: this.passCount, bed: at.bed, needle: at.needle, yarn: this.#yarnInUse(), section: 'closing', parents,
    });
    this.#threadYarn(id);
    return id;
  }

  #threadYarn(id: number): void {
    if (this.#lastOfYarn >= 0) this.#book.linkYarn(this.#lastOfYarn, id);
    this.#lastOfYarn = id;
    this.#isYarnBroken = false;
  }

  #useYarn(yarn: number): void {
    if (!Number.isInteger(yarn) || yarn < 0 || yarn >= this.#yarnCount) {
      throw new Refusal(`there is no yarn number ${yarn}`, null, null);
    }
    this.#yarn = yarn;
    this.#lastOfYarn = -1;
    this.#isYarnBroken = true;
  }

  #yarnInUse(): number {
    if (this.#yarn === null) throw new Refusal('there is no yarn in the carriage', null, null);
    return this.#yarn;
  }

  /** The stitch on a needle, wraps apart. */
  #loopOn(at: NeedleRef): number {
    const loop = this.#beds.loops(at).find((id) => this.#book.kindOf(id) !== LOOP.wrap);
    if (loop === undefined) throw new Refusal('the needle is empty', at.bed, at.needle);
    return loop;
  }

  #nearestHeld(bed: Bed, side: Side): number | null {
    const working = this.#beds.needlesIn(bed, NEEDLE.working);
    const held = this.#beds.needlesIn(bed, NEEDLE.held);
    if (side === 'left') return held.filter((n) => n < (working[0] ?? 0)).at(-1) ?? null;
    return held.find((n) => n > (working.at(-1) ?? Infinity)) ?? null;
  }

  /** An end of a row is a selvedge where no other live loop lies beyond it, on this bed or round the edge on the other. */
  #markRowEnds(row: readonly NeedleRef[], made: readonly number[]): void {
    const beds = new Set(row.map((at) => at.bed));
    const inRow = new Set(row.map((at) => this.#beds.index(at)));
    const others = this.#beds.carrying().filter((at) => !inRow.has(this.#beds.index(at)));
    if (beds.size === 1 && others.some((at) => !beds.has(at.bed))) return;
    const ends = [[row[0], made[0], row.at(-1)], [row.at(-1), made.at(-1), row[0]]] as const;
    for (const [at, loop, opposite] of ends) {
      if (at === undefined || loop === undefined || opposite === undefined) continue;
      const isLow = at.needle < opposite.needle || row.length === 1;
      if (isLow && !others.some((o) => o.needle < at.needle)) this.#book.markOpen(loop, OPEN_LOW);
      if ((!isLow || row.length === 1) && !others.some((o) => o.needle > at.needle)) this.#book.markOpen(loop, OPEN_HIGH);
    }
  }

  #record(step: number, section: SectionName, from: Side, knitted: number, firstLoop: number): void {
    this.#passes.push({
      pass: this.#passes.length, section, step, from, yarn: this.#yarnInUse(), knitted,
      firstLoop, endLoop: this.#book.count,
    });
    this.#snapshots.push(this.#beds.states.slice());
  }
}
