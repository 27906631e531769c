import { describe, expect, it } from 'vitest';
import { findLoopLength } from '../../src/yarn/loop-length.ts';
import { measureRest } from '../../src/measure/measure-rest.ts';
import type { Plan } from '../../src/plan/plan-types.ts';
import { makePlan } from '../measure/make-plan.ts';

const INCH = 25.4;

describe('rest measures', () => {
  /**
   * Common practice, no source: 8 stitches and 10 rows to the inch, 64 stitches, rib leg of 50 rows
   * (5 inches), heel turned down to 10, 98 foot passes, toe decreased to 10: 22 rows of heel, 49
   * rounds of foot and 21 of toe are 9.20 inches. The rule for a women's 6 1/2 (3 x inches - 21) asks for 9.17.
   */
  it('of a knitter\'s own sock', () => {
    const rest = measureRest(makePlan({
      stitchesPerMm: 8 / INCH, rowsPerMm: 10 / INCH, stitches: 64, heelStitches: 32, turnDownWidth: 10,
      legPasses: 50, footPasses: 98, toePasses: 42, toeTipStitches: 10,
    }));
    expect(rest.footLengthMm! / INCH).toBeCloseTo(9.2, 10);
    expect(rest.legLengthMm! / INCH).toBeCloseTo(5, 10);
    expect(rest.heelDepthMm! / INCH).toBeCloseTo(2.2, 10);
    expect(rest.footGirthMm! / INCH).toBeCloseTo(8, 10);
    expect(Math.abs(rest.footLengthMm! / INCH - (6.5 + 21) / 3)).toBeLessThan(0.05);
  });

  /**
   * Geometry: line over the heel against the tube's girth. The figures are those of the folded
   * trapezoids at a turn-down of a third of the heel (or as named), with no whole numbers to fit.
   */
  const third = 1 / 3;
  it.each<[gauge: string, stitches: number, rows: number, width: number, marked: number | null, shortest: number | null]>([
    ['30 x 42 in 10 cm', 0.3, 0.42, third, 1.25, 1.19],
    ['8 x 10 to the inch', 8 / INCH, 10 / INCH, third, 1.30, 1.23],
    ['30 x 42 in 10 cm', 0.3, 0.42, 0.25, 1.28, null],
    ['30 x 42 in 10 cm', 0.3, 0.42, 0.5, 1.19, null],
  ])('over the heel at %s, %d, %d, turned down to %d', (_gauge, stitchesPerMm, rowsPerMm, width, marked, shortest) => {
    const rest = measureRest(makePlan({ stitchesPerMm, rowsPerMm, stitches: 7200, heelStitches: 3600, turnDownWidth: 3600 * width }));
    if (marked !== null) expect(rest.heelDiagonalMm! / rest.footGirthMm!).toBeCloseTo(marked, 2);
    if (shortest !== null) expect(rest.heelTipGirthMm! / rest.footGirthMm!).toBeCloseTo(shortest, 2);
  });

  it('count a plateau half in the depth, whole in the marked diagonal', () => {
    const without = makePlan({ plateauPasses: 0 });
    const [a, b] = [measureRest(without), measureRest({ ...without, plateauPasses: 6 })];
    expect((b.heelDepthMm! - a.heelDepthMm!) * without.rowsPerMm).toBeCloseTo(3, 10);
    expect((b.footLengthMm! - a.footLengthMm!) * without.rowsPerMm).toBeCloseTo(3, 10);
    expect((b.heelDiagonalMm! - a.heelDiagonalMm!) * without.rowsPerMm).toBeCloseTo(6, 10);
  });

  it('take a short-row toe by its turned rows and a tube leg by its rounds', () => {
    const plan: Plan = makePlan({ legKind: 'tube', legPasses: 40, toeKind: 'short-row', toeTipStitches: 10, toePasses: 52, toeDecreases: 0 });
    const rest = measureRest(plan);
    expect(rest.toeLengthMm! * plan.rowsPerMm).toBeCloseTo(26, 10);
    expect(rest.legLengthMm! * plan.rowsPerMm).toBeCloseTo(20, 10);
    expect(rest.toeTipWidthMm! * plan.stitchesPerMm).toBeCloseTo(10, 10);
    expect([rest.throatToHeelMm, rest.legFootAngleDeg]).toEqual([null, null]);
  });
});

describe('loop length', () => {
  /** Munden D. L., J. Text. Inst. 50 (1959) T448-T471: fully relaxed, ks = 23.1; a loop of 0.50 cm gives 92.4 loops/cm2, the textbooks' worked item. */
  it('of the published worked item', () => {
    expect(findLoopLength(9.24, 10)).toBeCloseTo(5, 10);
    expect(findLoopLength(4.2 / 0.5, 5.5 / 0.5)).toBeCloseTo(5, 10);
  });

  /** The same relation at 30 stitches and 42 rows in 10 cm: about 13.5 mm. */
  it('at a sock\'s gauge', () => {
    expect(Math.abs(findLoopLength(3, 4.2) - 13.5)).toBeLessThan(0.06);
  });
});
