/**
 * What is wrong with a person's input, as data: shown beside its field, printed in the report.
 * All four keys are always present, null where there is nothing to show.
 */
export interface Problem {
  /** Dotted path in the sock file, e.g. `gauge.stitchesPer10cm`; null when it concerns the whole file. */
  readonly field: string | null;
  /** Summary of what was given, at most 200 characters. */
  readonly value: string | null;
  /** What would be right, in words. */
  readonly allowed: string | null;
  readonly message: string;
}
