import { expect, test } from 'vitest';
import { buildFabric, stitchSizeOf } from '../../src/fabric/build-fabric.ts';
import { countEuler } from '../../src/fabric/check-fabric.ts';
import { knitProgram } from '../../src/machine/knit-program.ts';
import { buildProgram } from '../../src/plan/build-program.ts';
import { planSock } from '../../src/plan/plan-sock.ts';
import type { Step } from '../../src/plan/step.ts';

const planned = planSock({
  gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 },
  counts: { stitches: 40, legPasses: 20, footPasses: 30 },
});
const plan = planned.plan!;
const program = buildProgram(plan);
const LAST_ROW = plan.legPasses + plan.plainPasses;

/** The sock with these stretches of its leg sewn up. */
function sew(...seams: readonly (readonly [number, number])[]) {
  const steps = [
    ...program.steps.filter((step) => step.do !== 'seam'),
    ...seams.map(([fromPass, toPass]): Step => ({ do: 'seam', fromPass, toPass })),
  ];
  const { grid, fault } = knitProgram({ ...program, steps });
  if (fault !== null) throw new Error(fault.reason);
  const fabric = buildFabric(grid, stitchSizeOf(plan));
  return { euler: countEuler(fabric), boundaryLengths: [...fabric.boundaryStart].slice(1).map((end, i) => end - fabric.boundaryStart[i]), edges: fabric.edges.length / 2 };
}

test('a sewn sock is a disk bounded by its cast-on', () => {
  expect(sew([0, LAST_ROW])).toMatchObject({ euler: 1, boundaryLengths: [40] });
});

test('one seam edge less is a hole of six loops', () => {
  const whole = sew([0, LAST_ROW]);
  const holed = sew([0, 9], [11, LAST_ROW]);
  expect(holed.edges).toBe(whole.edges - 1);
  expect(holed.euler).toBe(0);
  expect(holed.boundaryLengths.sort((a, b) => a - b)).toEqual([6, 40]);
});

test('unsewn, it has the same Euler number, but its boundary runs up and down the leg', () => {
  // 40 loops of the cast-on, 22 rows up one edge and down the other, and the first round of tube across the gap.
  expect(sew()).toMatchObject({ euler: 1, boundaryLengths: [40 + 2 * 22 + 2] });
});

test('sewn only from the top down to the cuff, the open length is a slit in the boundary', () => {
  expect(sew([5, LAST_ROW])).toMatchObject({ euler: 1, boundaryLengths: [40 + 2 * 5] });
});
