import type { ArchKind, FootSide, ToeOutline } from './foot-kinds.ts';

/** Tape measures of a foot and lower leg, in the order of the tables over them. */
export const MEASURE_NAMES = ['lengthMm', 'ballGirthMm', 'heelDiagonalMm', 'ankleGirthMm', 'calfGirthMm', 'heelBreadthMm'] as const;
export type MeasureName = (typeof MEASURE_NAMES)[number];

/** What is known of a foot, mm; what is missing is worked out. */
export interface FootMeasures {
  readonly lengthMm?: number | null;
  /** How far the length may be off, as a standard deviation: for one that comes from a shoe size. */
  readonly lengthSdMm?: number;
  readonly ballGirthMm?: number | null;
  /** Round heel tip and instep. */
  readonly heelDiagonalMm?: number | null;
  /** Least girth above the ankle bones. */
  readonly ankleGirthMm?: number | null;
  /** Widest girth of the lower leg. */
  readonly calfGirthMm?: number | null;
  readonly heelBreadthMm?: number | null;
  readonly arch?: ArchKind;
  readonly toes?: ToeOutline;
  readonly side?: FootSide;
}
