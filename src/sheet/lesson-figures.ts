import { measureRest } from '../measure/measure-rest.ts';
import { buildProgram } from '../plan/build-program.ts';
import type { Plan } from '../plan/plan-types.ts';
import type { FigureName } from './lesson.ts';

/** Each figure from the plan, its program and its measures: a lesson's numbers are the simulator's. */
const FIGURES: Readonly<Record<FigureName, (plan: Plan) => number>> = {
  stitches: (plan) => plan.stitches,
  H: (plan) => plan.heelStitches,
  W: (plan) => plan.turnDownWidth,
  n: (plan) => plan.heelStitches - plan.turnDownWidth,
  held: (plan) => (plan.heelStitches - plan.turnDownWidth) / 2,
  plateau: (plan) => plan.plateauPasses,
  'heel-passes': (plan) => plan.heelPasses,
  'heel-rows': (plan) => (measureRest(plan).heelDepthMm ?? NaN) * plan.rowsPerMm,
  'heel-depth': (plan) => measureRest(plan).heelDepthMm ?? NaN,
  wraps: countHeelWraps,
  T: (plan) => plan.toeTipStitches,
  'toe-passes': (plan) => plan.toePasses,
  'toe-rows': (plan) => (measureRest(plan).toeLengthMm ?? NaN) * plan.rowsPerMm,
  'foot-length': (plan) => measureRest(plan).footLengthMm ?? NaN,
  passes: (plan) => plan.legPasses + plan.plainPasses + plan.anklePasses + plan.heelPasses + plan.footPasses + plan.toePasses,
};
export const FIGURE_NAMES = Object.keys(FIGURES) as readonly FigureName[];

/** The value of a figure, whole: counts, rows, and millimetres (`heel-depth`, `foot-length`). */
export function findFigure(plan: Plan, name: FigureName): number {
  return Math.round(FIGURES[name](plan));
}

/** Wraps of the turning down alone: those at the heel's corners are laid in the same heel, on the bed that rests. */
function countHeelWraps(plan: Plan): number {
  let isHeel = false, wraps = 0;
  for (const step of buildProgram(plan).steps) {
    if (step.do === 'knit') isHeel = step.section === 'heel-in';
    if (step.do === 'wrap' && isHeel && step.at.bed === plan.heelBed) wraps += 1;
  }
  return wraps;
}
