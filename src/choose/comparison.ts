import type { Problem } from '../base/problem.ts';

/** One line of a table of differences. */
export interface ComparedRow {
  /** `passes`, `stitches`, `yarn`, ..., or a measure's name with its pose: `flat.footLengthMm`. */
  readonly name: string;
  readonly label: string;
  readonly unit: 'mm' | 'deg' | 'stitches' | 'passes' | 'm' | 'g' | '%' | 'mmHg' | '';
  readonly first: number | null;
  readonly second: number | null;
  /** second - first; null where either is. */
  readonly difference: number | null;
}

export interface SockComparison {
  readonly rows: readonly ComparedRow[];
  /** What to mind in comparing these two: another gauge, another machine. Nothing here keeps them from being compared. */
  readonly remarks: readonly Problem[];
}

/**
 * Where and by how much the second sock is larger than the first in the same pose: one entry a vertex
 * of the second sock, mm over the whole round (wider) and over the whole part of the sock that the
 * vertex lies in (longer); negative: narrower, shorter.
 */
export interface DifferenceMap {
  readonly vertexWiderMm: Float64Array;
  readonly vertexLongerMm: Float64Array;
}
