import { buildFabric, stitchSizeOf } from '../fabric/build-fabric.ts';
import type { Fabric } from '../fabric/fabric.ts';
import { knitProgram } from '../machine/knit-program.ts';
import { buildProgram } from '../plan/build-program.ts';
import type { Plan } from '../plan/plan-types.ts';
import { coarsenPlan } from './coarsen-plan.ts';

/** The cloth of the same sock with larger stitches, knitted by the same machine; null where the sock has too few loops to need one. */
export function knitCoarse(plan: Plan, loops: number): Fabric | null {
  const coarse = coarsenPlan(plan, loops);
  if (coarse === null) return null;
  const { grid, fault } = knitProgram(buildProgram(coarse));
  if (fault !== null) throw new Error(`machine: a coarse sock cannot be knitted: pass ${fault.pass}: ${fault.reason}`);
  return buildFabric(grid, stitchSizeOf(coarse));
}
