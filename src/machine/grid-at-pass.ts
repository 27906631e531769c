import type { NeedleRef, Program } from '../plan/step.ts';
import type { StitchGrid } from './grid.ts';
import { knitProgram } from './knit-program.ts';
import type { Trace } from './trace.ts';

/** A piece as it hangs on the machine after a pass. */
export interface PieceOnNeedles {
  /** The loops formed so far; their numbers are those of the whole piece. */
  readonly grid: StitchGrid;
  /** The needle that each loop of `grid.live` hangs on; null for one taken off. */
  readonly liveNeedles: readonly (NeedleRef | null)[];
}

/**
 * What is on the machine after pass `pass` (0: the cast-on) of a knitted program and the wraps laid
 * after it; nothing is joined or sewn yet. `whole` is the grid of the whole program, from which the
 * loops take what is decided later only: which side of a rib faces out.
 * @throws RangeError for a pass that the program has not.
 */
export function gridAtPass(program: Program, whole: StitchGrid, trace: Trace, pass: number): PieceOnNeedles {
  const record = trace.passes[pass];
  if (record === undefined) throw new RangeError(`grid-at-pass: the program has no pass ${pass}`);
  let end = record.step + 1;
  while (program.steps[end]?.do === 'wrap') end++;
  const { grid: prefix, liveNeedles } = knitProgram({ ...program, steps: program.steps.slice(0, end) }, { isUnfinished: true });
  if (prefix === null) throw new Error(`grid-at-pass: the first ${end} steps cannot be knitted, though the whole program was`);
  return { grid: cutGrid(whole, prefix), liveNeedles };
}

/** The first loops of the whole grid, with the links and live loops of the part. */
function cutGrid(whole: StitchGrid, part: StitchGrid): StitchGrid {
  const n = part.loopCount;
  const within = (links: Int32Array): Int32Array => links.slice(0, n).map((loop) => (loop < n ? loop : -1));
  const child = within(whole.child);
  return {
    ...part,
    isPurl: whole.isPurl.slice(0, n),
    selvedge: whole.selvedge.slice(0, n),
    // A loop leans only once it is knitted where it was moved to.
    lean: whole.lean.slice(0, n).map((lean, i) => (child[i] < 0 ? 0 : lean)),
    parents: whole.parents.slice(0, whole.parentStart[n]),
    parentStart: whole.parentStart.slice(0, n + 1),
    child,
    leftOf: within(whole.leftOf),
    rightOf: within(whole.rightOf),
  };
}
