import { LOOP, NEEDLE } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { LoopStays } from '../machine/loop-stays.ts';
import type { Trace } from '../machine/trace.ts';

/** A needle before a pass, and what the pass makes on it. Loops are those of the grid. */
export interface FormNeedle {
  /** BED code. */
  readonly bed: number;
  /** 1-based. */
  readonly needle: number;
  /** NEEDLE code during the pass. */
  readonly state: number;
  /** Stitches that hang on it before the carriage moves. */
  readonly loops: readonly number[];
  /** Wraps that lie round it before. */
  readonly wraps: readonly number[];
  /** The loop that the pass forms; -1 for none. */
  readonly made: number;
  /** Wraps laid round it after the pass. */
  readonly laid: readonly number[];
}

export interface KnittedPass { readonly grid: StitchGrid; readonly trace: Trace; readonly stays: LoopStays; readonly pass: number }

/** Where a loop hangs while the carriage crosses in a pass: the BED code and the needle; null before it is made and when it is off. */
function hangsAt({ stays }: Pick<KnittedPass, 'stays'>, loop: number, pass: number): { readonly bed: number; readonly needle: number } | null {
  if (stays.goneAt[loop] < pass) return null;
  let found: { readonly bed: number; readonly needle: number } | null = null;
  for (let k = stays.start[loop]; k < stays.start[loop + 1]; k++) if (stays.pass[k] <= pass) found = { bed: stays.bed[k], needle: stays.needle[k] };
  return found;
}

/** All needles that carry loops as the carriage crosses in a pass, or are beside such: by their number, the front bed's first where both have one. */
export function readFormNeedles(what: KnittedPass, beds: readonly number[]): FormNeedle[] {
  const { grid, trace, pass } = what, record = trace.passes[pass], end = trace.passes[pass + 1]?.firstLoop ?? grid.loopCount;
  const hung = new Map<string, number[]>(), wraps = new Map<string, number[]>(), laid = new Map<string, number[]>(), made = new Map<string, number>();
  const add = (map: Map<string, number[]>, key: string, loop: number): void => { map.set(key, [...map.get(key) ?? [], loop]); };
  for (let loop = 0; loop < record.firstLoop; loop++) {
    const isWrap = grid.kind[loop] === LOOP.wrap, at = hangsAt(what, isWrap ? grid.wrapHost[loop] : loop, pass);
    if (at !== null) add(isWrap ? wraps : hung, `${at.bed} ${at.needle}`, loop);
  }
  for (let loop = record.firstLoop; loop < end; loop++) {
    const key = `${grid.bed[loop]} ${grid.needle[loop]}`;
    if (loop < record.endLoop) made.set(key, loop);
    else if (grid.kind[loop] === LOOP.wrap) add(laid, key, loop);
  }
  const needles: FormNeedle[] = [];
  for (let needle = 1; needle <= trace.needlesPerBed; needle++) {
    for (const bed of beds) {
      const key = `${bed} ${needle}`, loops = hung.get(key) ?? [];
      if (loops.length === 0) continue;
      const state = trace.needleStates[(2 * pass + bed) * trace.needlesPerBed + needle - 1];
      needles.push({ bed, needle, state, loops, wraps: wraps.get(key) ?? [], made: made.get(key) ?? -1, laid: laid.get(key) ?? [] });
    }
  }
  return needles;
}

/** Beds whose needles knit in a pass. */
export function bedsOfPass({ grid, trace, pass }: Pick<KnittedPass, 'grid' | 'trace' | 'pass'>): number[] {
  const { firstLoop, endLoop } = trace.passes[pass];
  return [...new Set(grid.bed.subarray(firstLoop, endLoop))].sort();
}

/** Of a pass the needle that tells most: one that is wrapped, comes back to work or carries more than one loop, else the middle one of those that knit. */
export function tellingNeedle(needles: readonly FormNeedle[]): number {
  const wrapped = needles.findIndex(({ laid }) => laid.length > 0), stacked = needles.findIndex(({ made, loops, wraps }) => made >= 0 && loops.length + wraps.length > 1);
  if (wrapped >= 0) return wrapped;
  if (stacked >= 0) return stacked;
  const knitting = needles.flatMap(({ state, made }, i) => (state === NEEDLE.working && made >= 0 ? [i] : []));
  return knitting[knitting.length >> 1] ?? 0;
}

/** So many neighbours round one of them, fewer where there are no more. */
export function windowRound(needles: readonly FormNeedle[], at: number, count: number): readonly FormNeedle[] {
  const first = Math.max(0, Math.min(needles.length - count, at - (count >> 1)));
  return needles.slice(first, first + count);
}
