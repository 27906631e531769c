import type { NeedleRef } from '../plan/step.ts';

/** Moves that follow each other: needle by needle from the first to the last of `from`, each to the next of `to`. */
export interface MoveRun { readonly from: readonly [NeedleRef, NeedleRef]; readonly to: readonly [NeedleRef, NeedleRef] }

interface Move { readonly from: NeedleRef; readonly to: NeedleRef }

/** Cuts a list of moves into runs in which both needles go on by one at each move. */
export function splitRuns(moves: readonly Move[]): MoveRun[] {
  const runs: Move[][] = [];
  for (const move of moves) {
    const run = runs.at(-1);
    if (run !== undefined && goesOn(run, move)) run.push(move);
    else runs.push([move]);
  }
  return runs.map((run) => {
    const first = run[0], last = run[run.length - 1];
    return { from: [first.from, last.from], to: [first.to, last.to] };
  });
}

function goesOn(run: readonly Move[], { from, to }: Move): boolean {
  const last = run[run.length - 1], before = run.at(-2);
  const steps = [from.needle - last.from.needle, to.needle - last.to.needle];
  if (from.bed !== last.from.bed || to.bed !== last.to.bed || steps.some((step) => Math.abs(step) !== 1)) return false;
  return before === undefined || (steps[0] === last.from.needle - before.from.needle && steps[1] === last.to.needle - before.to.needle);
}
