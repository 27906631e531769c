import { BED, NEEDLE } from '../machine/codes.ts';
import type { Trace } from '../machine/trace.ts';
import type { Bed } from '../plan/sock-file.ts';
import type { NeedleRef, Step } from '../plan/step.ts';
import type { WorkItem } from './list-work.ts';
import type { NeedleNumbers } from './needle-label.ts';
import { labelNeedle } from './needle-label.ts';

/** What the hands do to a needle at a stop, to be drawn. */
export type HandMove =
  | { readonly do: 'hold' | 'return' | 'wrap'; readonly at: NeedleRef }
  | { readonly do: 'transfer'; readonly from: NeedleRef; readonly to: NeedleRef };

function movesOf(step: Step): HandMove[] {
  switch (step.do) {
    case 'hold': case 'return': case 'wrap': return [{ do: step.do, at: step.at }];
    case 'transfer': return step.moves.map(({ from, to }) => ({ do: 'transfer', from, to }));
    default: return [];
  }
}

/** Needles moved at a stop, before the pass and after it, in order. */
export function listMoves({ before, after }: WorkItem): HandMove[] {
  return [...before, ...after].flatMap(movesOf);
}

/** NEEDLE codes of both beds, front first, as they are while the carriage crosses at this stop; after the last pass they stay. */
export function statesAt({ passes, needlesPerBed, needleStates }: Trace, stop: number): Uint8Array {
  const pass = Math.min(stop, passes.length - 1), width = 2 * needlesPerBed;
  return needleStates.subarray(pass * width, (pass + 1) * width);
}

/** Needles of a bed in one state, left to right, counted from 1. */
export function needlesIn(states: Uint8Array, bed: Bed, state: number): number[] {
  const perBed = states.length / 2, start = BED[bed] * perBed;
  return Array.from({ length: perBed }, (_, i) => i + 1).filter((needle) => states[start + needle - 1] === state);
}

/** Needles in words, runs of neighbours as one: `L12–L8, R3`. */
export function nameNeedles(needles: readonly number[], needlesPerBed: number, numbers: NeedleNumbers): string {
  const runs: [number, number][] = [];
  for (const needle of needles) {
    const last = runs.at(-1);
    if (last?.[1] === needle - 1) last[1] = needle;
    else runs.push([needle, needle]);
  }
  const name = (needle: number): string => labelNeedle(needle, needlesPerBed, numbers);
  return runs.map(([first, last]) => (first === last ? name(first) : `${name(first)}–${name(last)}`)).join(', ');
}

/** Held needles at a stop, bed by bed; beds without any are left out. */
export function listHeld(trace: Trace, stop: number): { readonly bed: Bed; readonly needles: readonly number[] }[] {
  const states = statesAt(trace, stop);
  return (['back', 'front'] as const).map((bed) => ({ bed, needles: needlesIn(states, bed, NEEDLE.held) })).filter(({ needles }) => needles.length > 0);
}
