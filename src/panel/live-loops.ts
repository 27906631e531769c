import { BED, LOOP } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { Trace } from '../machine/trace.ts';
import type { NeedleRef, Program } from '../plan/step.ts';

/** What hangs on every needle after every stop of the work, its wraps included. Entry [(pass * 2 + bed) * needlesPerBed + needle - 1]. */
export interface LiveLoops {
  /** The stitch that hung there first, a loop of the grid; -1 on an empty needle. */
  readonly stitch: Int32Array;
  /** Stitches on it: more than one where loops were moved there and are not knitted yet. */
  readonly stitches: Uint8Array;
  readonly wraps: Uint8Array;
}

interface Hung { stitch: number; stitches: number; wraps: number }

/** Follows the loops from needle to needle through the whole program. Time and room: passes times needles. */
export function readLiveLoops({ steps }: Program, trace: Trace, grid: StitchGrid): LiveLoops {
  const { passes, needlesPerBed } = trace, width = 2 * needlesPerBed;
  const hung: Hung[] = Array.from({ length: width }, () => ({ stitch: -1, stitches: 0, wraps: 0 }));
  const placeOf = ({ bed, needle }: NeedleRef): number => BED[bed] * needlesPerBed + needle - 1;
  const stitch = new Int32Array(passes.length * width), stitches = new Uint8Array(passes.length * width), wraps = new Uint8Array(passes.length * width);
  let next = 0;
  passes.forEach((record, pass) => {
    for (; next < record.step; next++) {
      const step = steps[next];
      if (step.do === 'transfer') for (const { from, to } of step.moves) moveLoops(hung[placeOf(from)], hung[placeOf(to)]);
    }
    next = record.step + 1;
    const end = passes[pass + 1]?.firstLoop ?? grid.loopCount;
    for (let loop = record.firstLoop; loop < end; loop++) {
      const here = hung[grid.bed[loop] * needlesPerBed + grid.needle[loop] - 1];
      if (grid.kind[loop] === LOOP.wrap) here.wraps++;
      else if (loop < record.endLoop) Object.assign(here, { stitch: loop, stitches: 1, wraps: 0 });
    }
    hung.forEach((here, i) => {
      const entry = pass * width + i;
      stitch[entry] = here.stitch;
      stitches[entry] = here.stitches;
      wraps[entry] = here.wraps;
    });
  });
  return { stitch, stitches, wraps };
}

function moveLoops(from: Hung, to: Hung): void {
  if (to.stitches === 0) to.stitch = from.stitch;
  to.stitches += from.stitches;
  to.wraps += from.wraps;
  Object.assign(from, { stitch: -1, stitches: 0, wraps: 0 });
}
