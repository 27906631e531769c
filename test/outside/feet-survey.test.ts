import { describe, expect, test } from 'vitest';
import { perInchToPer10cm } from '../../src/base/unit.ts';
import { checkGrid } from '../../src/machine/check-grid.ts';
import { knitProgram } from '../../src/machine/knit-program.ts';
import { buildProgram } from '../../src/plan/build-program.ts';
import { planSock } from '../../src/plan/plan-sock.ts';
import type { Plan } from '../../src/plan/plan-types.ts';
import { readFeet } from '../data/read-feet.ts';

/**
 * 1,500 measured feet: Gordon C. C. et al., 2012 Anthropometric Survey of U.S. Army Personnel,
 * NATICK/TR-15/007, 2014 (test/data/README.md).
 */
const FEET = readFeet();

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/**
 * Loops of a sock with flat rib leg and decreased toe, added up pass by pass as a knitter would:
 * cast-on and flat rows of N, tube passes of H, a heel of H-1 ... W and W+1 ... H, a toe that loses
 * two stitches a bed at each decrease (common practice, no source).
 */
function addUpLoops({ stitches: n, heelStitches: h, legPasses, plainPasses, anklePasses, turnDownWidth: w, footPasses, passesPerDecrease, toeDecreases }: Plan): number {
  let loops = n * (1 + legPasses + plainPasses) + h * (anklePasses + footPasses);
  for (let width = w; width < h; width++) loops += width + (width + 1);
  for (let event = 1; event <= toeDecreases; event++) loops += (h - 2 * event) * (event === toeDecreases ? 2 : passesPerDecrease);
  return loops;
}

test('the sample is the survey: means of the whole, to three standard errors', () => {
  // Published summary statistics, mm: mean and standard deviation of 4,082 men and 1,986 women.
  for (const [gender, count, lengthMean, lengthSd, girthMean, girthSd] of [
    ['Male', 1033, 271.2, 13.1, 252.0, 12.9], ['Female', 467, 246.3, 12.4, 228.1, 11.8],
  ] as const) {
    const feet = FEET.filter((foot) => foot.gender === gender);
    expect(feet).toHaveLength(count);
    expect(Math.abs(mean(feet.map((foot) => foot.lengthMm)) - lengthMean)).toBeLessThan((3 * lengthSd) / Math.sqrt(count));
    expect(Math.abs(mean(feet.map((foot) => foot.ballGirthMm)) - girthMean)).toBeLessThan((3 * girthSd) / Math.sqrt(count));
  }
});

describe.each([
  { name: '30 x 42 in 10 cm', stitchesPer10cm: 30, rowsPer10cm: 42 },
  { name: '8 x 10 to the inch', stitchesPer10cm: perInchToPer10cm(8), rowsPer10cm: perInchToPer10cm(10) },
  { name: '20 x 28 in 10 cm', stitchesPer10cm: 20, rowsPer10cm: 28 },
  { name: '52 x 74 in 10 cm', stitchesPer10cm: 52, rowsPer10cm: 74 },
])('at $name', ({ stitchesPer10cm, rowsPer10cm }) => {
  const stitchesPerMm = stitchesPer10cm / 100;
  const rowsPerMm = rowsPer10cm / 100;

  test('every foot has its default sock, on a bed of 180 needles', () => {
    for (const { lengthMm, ballGirthMm } of FEET) {
      const { plan, problems } = planSock({ gauge: { stitchesPer10cm, rowsPer10cm }, foot: { lengthMm, ballGirthMm } });
      expect(problems).toEqual([]);
      // Half of the step of four stitches, from the girth less 10 %.
      expect(Math.abs(plan!.stitches - ballGirthMm * 0.9 * stitchesPerMm)).toBeLessThanOrEqual(2 + 1e-9);
      // Rest length, in rows: heel depth H - W, a row a round, half a row a toe pass.
      const rows = plan!.heelStitches - plan!.turnDownWidth + plan!.footPasses / 2 + plan!.toePasses / 2;
      expect(Math.abs(rows - lengthMm * rowsPerMm)).toBeLessThanOrEqual(1);
      expect(Math.abs(plan!.turnDownWidth - plan!.heelStitches / 3)).toBeLessThanOrEqual(1);
      expect(plan!.footPasses).toBeGreaterThanOrEqual(2);
    }
  });

  test('the shortest and the longest foot of every stitch count are knitted, loops conserved', () => {
    const ends = new Map<string, Plan>();
    for (const { lengthMm, ballGirthMm } of [...FEET].sort((a, b) => a.lengthMm - b.lengthMm)) {
      const { plan } = planSock({ gauge: { stitchesPer10cm, rowsPer10cm }, foot: { lengthMm, ballGirthMm } });
      const shortest = `${plan!.stitches} shortest`;
      if (!ends.has(shortest)) ends.set(shortest, plan!);
      ends.set(`${plan!.stitches} longest`, plan!);
    }
    for (const plan of ends.values()) {
      const { fault, grid, trace } = knitProgram(buildProgram(plan));
      expect(fault).toBeNull();
      expect(checkGrid(grid!)).toEqual([]);
      expect(grid!.live).toHaveLength(0);
      expect(trace!.loops).toBe(addUpLoops(plan));
    }
    expect(ends.size).toBeGreaterThan(6);
  }, 60_000);
});
