import { createRandom } from '../../src/base/random.ts';
import { knitProgram } from '../../src/machine/knit-program.ts';
import { buildProgram } from '../../src/plan/build-program.ts';
import type { Plan } from '../../src/plan/plan-types.ts';
import { planSock } from '../../src/plan/plan-sock.ts';
import { randomSockFile } from '../plan/random-sock-file.ts';

/** Plans of seeded random socks that can be knitted, of every leg, toe and closing, small enough to be many. */
export function randomPlans(seed: number, count: number): Plan[] {
  const random = createRandom(seed);
  const plans: Plan[] = [];
  while (plans.length < count) {
    const file = randomSockFile(random);
    const { plan } = planSock({ ...file, leg: { ...file.leg, lengthMm: Math.round(40 * random()) } });
    if (plan !== null && plan.stitches <= 60 && plan.footPasses <= 90) plans.push(plan);
  }
  return plans;
}

/** @throws Error naming the fault if a planned sock cannot be knitted. */
export function knitPlan(plan: Plan) {
  const program = buildProgram(plan);
  const knitting = knitProgram(program);
  if (knitting.fault !== null) throw new Error(`${JSON.stringify(knitting.fault)} in ${JSON.stringify(plan)}`);
  return { program, grid: knitting.grid, trace: knitting.trace };
}
