import { knitProgram } from '../machine/knit-program.ts';
import { estimateYarn } from '../measure/estimate-yarn.ts';
import { buildProgram } from '../plan/build-program.ts';
import type { Plan } from '../plan/plan-types.ts';
import { planSock } from '../plan/plan-sock.ts';
import type { KnitPlace } from './knit-place.ts';
import { firstPlaces } from './longest-leg.ts';

/** Whether a place is so far on that the leg can grow no more: a pass after its last one is knitted. */
export const isLegKnitted = ({ legPasses }: Pick<Plan, 'legPasses'>, { stop }: Pick<KnitPlace, 'stop'>): boolean => stop - 1 > legPasses;

/**
 * Metres that a pair still takes from its place on, the second sock included; by yarn, one that comes in at several
 * places at its first. Tails of a length count where it begins. None for a file that cannot be knitted.
 */
export function findYarnLeft({ file, sock, stop }: KnitPlace): number[] {
  const { plan } = planSock(file);
  if (plan === null) return [];
  const { grid, trace } = knitProgram(buildProgram(plan)), firsts = firstPlaces(plan.yarns), metres = firsts.map(() => 0);
  if (grid === null) return [];
  const add = (from: number): void => { estimateYarn(plan, grid, from).forEach((use, yarn) => { metres[firsts[yarn]] += use.metres; }); };
  // After the last pass there is the closing, and after that nothing.
  if (stop <= trace.passes.length) add(stop);
  if (sock === 1) add(0);
  return metres;
}
