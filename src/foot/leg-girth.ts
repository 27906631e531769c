import type { CompleteMeasures } from './complete-measures.ts';
import { FORM } from './lay-cones.ts';

/** Girth of the leg at a height above the floor, mm: evenly from the ankle's least to the calf's widest, which it keeps above; below the ankle the ankle's. As the form has it. */
export function legGirthAt({ lengthMm, ankleGirthMm, calfGirthMm }: Pick<CompleteMeasures, 'lengthMm' | 'ankleGirthMm' | 'calfGirthMm'>, heightMm: number): number {
  const ankle = FORM.ankleHeight * lengthMm, calf = FORM.calfHeight * lengthMm;
  const share = Math.min(1, Math.max(0, (heightMm - ankle) / (calf - ankle)));
  return ankleGirthMm + share * (calfGirthMm - ankleGirthMm);
}

/** Height above the floor of the place where a sock's heel turns, mm. */
export function turnHeight({ lengthMm }: Pick<CompleteMeasures, 'lengthMm'>): number { return FORM.turnHeight * lengthMm; }
