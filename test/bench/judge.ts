import { measurePose } from '../../src/measure/measure-pose.ts';
import type { Measures } from '../../src/measure/measures.ts';
import type { Fabric } from '../../src/fabric/fabric.ts';

/** How near is near enough, relatively. */
const NEAR = 0.01;
/** It has to stay as near for so many looks in a row: what swings passes by many places. */
const LOOKS = 5;
/** The next look comes when the clock has grown by this share. */
const PACE = 1.06;

/** What a solver is held against: the same energy's own minimum. */
export interface Goal {
  readonly fabric: Fabric;
  readonly measures: Measures;
  readonly energy: number;
  readonly energyOf: (positions: Float64Array) => number;
}

export interface Verdict {
  /** Milliseconds from the start of the set-up to the first of the looks that all found it near; null: never. */
  readonly dimensionsMs: number | null;
  readonly bothMs: number | null;
  /** Of these, until the first step. */
  readonly setUpMs: number;
  /** Where it stood at the last look: worst of the key dimensions, energy; relative errors. */
  readonly dimensionError: number;
  readonly energyError: number;
  readonly steps: number;
  readonly end: 'arrived' | 'out of time' | 'blew up' | 'ended by itself';
}

/** A stopwatch that stands still while it looks. */
export interface Judge {
  /** Ends the set-up. */
  begin(): void;
  /** Counts a step; true when it is time to look. */
  isDue(): boolean;
  /** Looks; true when the run is over. */
  look(positions: Float64Array): boolean;
  verdict(): Verdict;
}

/** Starts the clock. `capMs`: how long a solver may try. */
export function createJudge(goal: Goal, capMs: number): Judge {
  const begun = performance.now();
  let paused = 0, setUpMs = 0, due = 0, steps = 0;
  let end: Verdict['end'] = 'ended by itself';
  let dimensionError = Infinity, energyError = Infinity;
  const dimensions = createStreak(), both = createStreak();
  const elapsed = (): number => performance.now() - begun - paused;

  return {
    begin() { setUpMs = elapsed(); },
    isDue() {
      steps++;
      return elapsed() >= due;
    },
    look(positions) {
      const at = elapsed(), from = performance.now();
      energyError = Math.abs(goal.energyOf(positions) / goal.energy - 1);
      const isFinite = Number.isFinite(energyError);
      if (isFinite) dimensionError = worstError(measurePose(goal.fabric, positions).measures, goal.measures);
      dimensions.note(at, dimensionError <= NEAR);
      both.note(at, dimensionError <= NEAR && energyError <= NEAR);
      due = setUpMs + (at - setUpMs) * PACE;
      paused += performance.now() - from;
      if (!isFinite) end = 'blew up';
      else if (both.isSure()) end = 'arrived';
      else if (at > capMs) end = 'out of time';
      else return false;
      return true;
    },
    verdict: () => ({ dimensionsMs: dimensions.ms(), bothMs: both.ms(), setUpMs, dimensionError, energyError, steps, end }),
  };
}

/** When a run of looks that all found it near began. */
function createStreak(): { note(at: number, isNear: boolean): void; isSure(): boolean; ms(): number | null } {
  let first = 0, count = 0;
  return {
    note(at, isNear) {
      if (isNear && count === 0) first = at;
      count = isNear ? count + 1 : 0;
    },
    isSure: () => count >= LOOKS,
    ms: () => (count >= LOOKS ? first : null),
  };
}

/** Worst relative difference of two socks' measures. */
export function worstError(measures: Measures, wanted: Measures): number {
  let worst = 0;
  for (const key of Object.keys(wanted) as (keyof Measures)[]) {
    const a = measures[key], b = wanted[key];
    if (a !== null && b !== null) worst = Math.max(worst, Math.abs(a / b - 1));
  }
  return worst;
}
