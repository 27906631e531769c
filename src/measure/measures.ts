/** Millimetres and degrees; null where the measure does not exist (see README, table of measures). */
export interface Measures {
  readonly footLengthMm: number | null;
  readonly heelDepthMm: number | null;
  readonly heelDiagonalMm: number | null;
  readonly heelTipGirthMm: number | null;
  readonly throatToHeelMm: number | null;
  readonly footGirthMm: number | null;
  readonly toeLengthMm: number | null;
  readonly legLengthMm: number | null;
  readonly toeTipWidthMm: number | null;
  readonly legFootAngleDeg: number | null;
}

/** The line behind each measure, to be drawn: three entries a point, mm. */
export type MeasureLines = { readonly [K in keyof Measures]?: Float64Array };
