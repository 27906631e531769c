import { knitProgram } from '../machine/knit-program.ts';
import { estimateYarn } from '../measure/estimate-yarn.ts';
import { buildProgram } from '../plan/build-program.ts';
import type { Plan } from '../plan/plan-types.ts';

/** What one sock takes: passes of the carriage, and yarn, all of its yarns together. */
export interface KnitCost {
  readonly passes: number;
  readonly metres: number;
  readonly grams: number;
}

/** Knits a plan pass by pass, without its cloth, and adds up. Throws only when a planned sock cannot be knitted: our bug. */
export function knitCost(plan: Plan): KnitCost {
  const { fault, grid, trace } = knitProgram(buildProgram(plan));
  if (fault !== null) throw new Error(`machine: pass ${fault.pass}: ${fault.reason}`);
  const yarn = estimateYarn(plan, grid);
  return {
    // Entry 0 is the cast-on, which is no pass.
    passes: trace.passes.length - 1,
    metres: yarn.reduce((sum, { metres }) => sum + metres, 0),
    grams: yarn.reduce((sum, { grams }) => sum + grams, 0),
  };
}
