import type { NeedleRef, Program, Step } from '../plan/step.ts';
import type { Fault } from './fault.ts';
import { Refusal } from './fault.ts';
import type { StitchGrid } from './grid.ts';
import { Machine } from './machine.ts';
import type { Trace } from './trace.ts';

export interface KnitOptions {
  /** Accept loops that are still live when the steps end: a piece seen while it is on the needles. */
  readonly isUnfinished?: boolean;
}

export type Knitting =
  | {
    readonly fault: null;
    readonly grid: StitchGrid;
    readonly trace: Trace;
    /** The needle that each loop of `grid.live` hangs on; null for one taken off. */
    readonly liveNeedles: readonly (NeedleRef | null)[];
  }
  | { readonly fault: Fault; readonly grid: null; readonly trace: null; readonly liveNeedles: null };

function runStep(machine: Machine, step: Step, index: number): void {
  switch (step.do) {
    case 'cast-on': return machine.castOn(step, index);
    case 'knit': return machine.knit(step, index);
    case 'hold': return machine.hold(step.at);
    case 'return': return machine.returnToWork(step.at);
    case 'wrap': return machine.wrap(step.at);
    case 'transfer': return machine.transfer(step.moves, step.why);
    case 'yarn': return machine.changeYarn(step.yarn);
    case 'graft': return machine.graft(step.pairs, step.yarn);
    case 'bind-off': return machine.bindOff(step.needles, step.yarn);
    case 'take-off': return machine.takeOff(step.needles);
    case 'seam': return machine.seam(step.fromPass, step.toPass);
  }
}

/**
 * Executes a program needle by needle. Knows no sock: any list of steps will do. A step that a
 * machine cannot do comes back as a fault with its pass, bed, needle and reason.
 */
export function knitProgram(program: Program, options: KnitOptions = {}): Knitting {
  const machine = new Machine(program.needlesPerBed, program.yarnCount);
  let step = 0;
  try {
    for (; step < program.steps.length; step++) runStep(machine, program.steps[step], step);
    if (!options.isUnfinished) machine.assertNothingLive();
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return {
      grid: null, trace: null, liveNeedles: null,
      fault: { step, pass: machine.passCount, bed: error.bed, needle: error.needle, reason: error.message },
    };
  }
  return { fault: null, ...machine.finish() };
}
