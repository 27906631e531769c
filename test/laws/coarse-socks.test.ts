import { expect, it } from 'vitest';
import { createRandom } from '../../src/base/random.ts';
import { countEuler } from '../../src/fabric/check-fabric.ts';
import { coarsenPlan } from '../../src/pipeline/coarsen-plan.ts';
import { knitCoarse } from '../../src/pipeline/knit-coarse.ts';
import { measureRest } from '../../src/measure/measure-rest.ts';
import { planSock } from '../../src/plan/plan-sock.ts';
import { randomSockFile } from '../plan/random-sock-file.ts';

it('every sock of many loops has a coarse one that a machine can knit, of its girth and heel depth', () => {
  const random = createRandom(31);
  let count = 0;
  while (count < 120) {
    const { plan } = planSock(randomSockFile(random));
    if (plan === null) continue;
    const loops = plan.stitches / 2 * (plan.legPasses + plan.footPasses + plan.toePasses), coarse = coarsenPlan(plan, loops);
    if (coarse === null) continue;
    count++;
    const fabric = knitCoarse(plan, loops), rest = measureRest(plan), got = measureRest(coarse);
    if (fabric === null) throw new Error('a coarse plan, and no cloth');
    expect(countEuler(fabric)).toBe(1);
    expect(got.footGirthMm).toBeCloseTo(rest.footGirthMm ?? NaN, 9);
    // The plateau counts half, and is rounded to whole rows.
    expect(Math.abs((got.heelDepthMm ?? NaN) - (rest.heelDepthMm ?? NaN))).toBeLessThanOrEqual(plan.plateauPasses === 0 ? 1e-9 : 1.01 / coarse.rowsPerMm);
    expect(fabric.vertexCount).toBeLessThan(loops / 3);
  }
});
