import { measureRest } from '../measure/measure-rest.ts';
import type { Measures } from '../measure/measures.ts';
import type { Plan } from '../plan/plan-types.ts';

/** How far a gauge may be off, stitches and rows in 10 cm. */
export interface GaugeError { readonly stitchesPer10cm: number; readonly rowsPer10cm: number }

export const TOLERATED_MEASURES = ['footGirthMm', 'footLengthMm', 'heelDepthMm', 'heelDiagonalMm', 'legLengthMm'] as const satisfies readonly (keyof Measures)[];

/** By how much a measure is off when the same counts are knitted at a gauge that is off: looser (fewer in 10 cm), or tighter; mm, at rest. */
export interface ToleranceRow {
  readonly measure: (typeof TOLERATED_MEASURES)[number];
  readonly plannedMm: number;
  readonly fewerStitchesMm: number;
  readonly moreStitchesMm: number;
  readonly fewerRowsMm: number;
  readonly moreRowsMm: number;
}

export interface Tolerance {
  readonly error: GaugeError;
  readonly rows: readonly ToleranceRow[];
}

/** Half a stitch, or one row, is what a swatch is miscounted by soon (common practice, no source). */
export const USUAL_ERROR: GaugeError = { stitchesPer10cm: 0.5, rowsPer10cm: 1 };

/** What an error of the gauge does to a sock whose counts stay: its rest measures worked out again at the other gauge. */
export function readTolerance(plan: Plan, error: GaugeError = USUAL_ERROR): Tolerance {
  const planned = measureRest(plan);
  const at = (stitches: number, rows: number): Measures => measureRest({
    ...plan, stitchesPerMm: plan.stitchesPerMm + stitches * error.stitchesPer10cm / 100, rowsPerMm: plan.rowsPerMm + rows * error.rowsPer10cm / 100,
  });
  const [fewerStitches, moreStitches, fewerRows, moreRows] = [at(-1, 0), at(1, 0), at(0, -1), at(0, 1)];
  const rows = TOLERATED_MEASURES.map((measure): ToleranceRow => {
    const plannedMm = planned[measure] ?? 0, off = (other: Measures): number => (other[measure] ?? 0) - plannedMm;
    return { measure, plannedMm, fewerStitchesMm: off(fewerStitches), moreStitchesMm: off(moreStitches), fewerRowsMm: off(fewerRows), moreRowsMm: off(moreRows) };
  });
  return { error, rows };
}
