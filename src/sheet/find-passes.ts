import { NEEDLE } from '../machine/codes.ts';
import type { Trace } from '../machine/trace.ts';
import type { Side } from '../plan/step.ts';

/** A needle that was not looked at. */
export const UNSEEN = 255;

/** What a knitter sees on her beds. */
export interface Seen {
  /** NEEDLE codes of both beds, front first, left to right; UNSEEN where she did not look. */
  readonly states: Uint8Array;
  /** Where the carriage stands; null if that is not said. */
  readonly carriage: Side | null;
  /** Passes that her own counter shows; null if that is not said. */
  readonly counter: number | null;
}

/** A moment of the work held against what is seen. */
export interface PassMatch {
  readonly pass: number;
  /** `done`: the pass is knitted. `ready`: needles are set for it, and the carriage has not moved. */
  readonly moment: 'done' | 'ready';
  /** Places in `states` that disagree. */
  readonly differ: readonly number[];
  readonly isOtherSide: boolean;
}

const otherSide = (side: Side): Side => (side === 'left' ? 'right' : 'left');

/** Needles, and the carriage as one more, that disagree. */
export const countDiffering = ({ differ, isOtherSide }: PassMatch): number => differ.length + (isOtherSide ? 1 : 0);

/**
 * Every moment of the work, those first that agree best with what is seen; among equals the nearest to the
 * counter, else to pass `near`. Needles set for a pass are a moment of their own only where its hand work changes a state.
 */
export function findPasses(trace: Trace, seen: Seen, near: number): PassMatch[] {
  const { passes, needlesPerBed, needleStates } = trace, width = 2 * needlesPerBed, matches: PassMatch[] = [];
  if (seen.states.length !== width) throw new Error(`find-passes: ${seen.states.length} needles seen on beds of ${width}`);
  let before: readonly number[] | null = null;
  for (const { pass, from } of passes) {
    const states = needleStates.subarray(pass * width, (pass + 1) * width);
    const differ: number[] = [];
    for (let i = 0; i < width; i++) if (seen.states[i] !== UNSEEN && seen.states[i] !== states[i]) differ.push(i);
    const to = pass === 0 ? from : otherSide(from);
    if (before !== null && before.some((state, i) => state !== states[i])) matches.push({ pass, moment: 'ready', differ, isOtherSide: seen.carriage !== null && seen.carriage !== from });
    matches.push({ pass, moment: 'done', differ, isOtherSide: seen.carriage !== null && seen.carriage !== to });
    before = [...states];
  }
  const wanted = seen.counter ?? near;
  const away = ({ pass, moment }: PassMatch): number => Math.abs((moment === 'ready' ? pass - 1 : pass) - wanted);
  return matches.sort((a, b) => countDiffering(a) - countDiffering(b) || away(a) - away(b) || a.pass - b.pass);
}

/** Passes in runs of equal distance: 3, 5, 7, 20 are 3 to 7 by twos, and 20. */
export interface PassRun { readonly first: number; readonly last: number; readonly by: number }

export function gatherPasses(passes: readonly number[]): PassRun[] {
  const sorted = [...new Set(passes)].sort((a, b) => a - b), runs: { first: number; last: number; by: number }[] = [];
  for (const pass of sorted) {
    const run = runs.at(-1), step = run === undefined ? 0 : pass - run.last;
    if (run !== undefined && step <= 2 && (run.first === run.last || step === run.by)) {
      run.by = step;
      run.last = pass;
    } else runs.push({ first: pass, last: pass, by: 1 });
  }
  return runs;
}

/** Nothing looked at yet. */
export const unseenBeds = (needlesPerBed: number): Uint8Array => new Uint8Array(2 * needlesPerBed).fill(UNSEEN);

/** A tap on a drawn needle: works, held, empty, works again. */
export function nextState(state: number): number {
  if (state === NEEDLE.working) return NEEDLE.held;
  return state === NEEDLE.held ? NEEDLE.empty : NEEDLE.working;
}
