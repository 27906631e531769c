import { estimateMeasures } from './estimate-measures.ts';
import type { FootMeasures, MeasureName } from './foot-measures.ts';

export type { FootMeasures };

/** Every measure, mm. */
export type CompleteMeasures = Readonly<Record<MeasureName, number>>;

/** Fills in what is not given from what is, as the average of adults has it. */
export function completeMeasures(given: FootMeasures): CompleteMeasures {
  const all = estimateMeasures(given);
  return {
    lengthMm: all.lengthMm.valueMm, ballGirthMm: all.ballGirthMm.valueMm, heelDiagonalMm: all.heelDiagonalMm.valueMm,
    ankleGirthMm: all.ankleGirthMm.valueMm, calfGirthMm: all.calfGirthMm.valueMm, heelBreadthMm: all.heelBreadthMm.valueMm,
  };
}
