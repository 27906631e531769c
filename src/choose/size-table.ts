import type { Problem } from '../base/problem.ts';
import type { Plan } from '../plan/plan-types.ts';
import type { SockFile } from '../plan/sock-file.ts';

/** A size to grade a sock to. */
export interface SizeRow {
  readonly name: string;
  readonly lengthMm: number;
  readonly ballGirthMm: number;
  /** Length of the leg, mm; null: as the sock's own, scaled with the foot. */
  readonly legLengthMm: number | null;
  /** No published table stands behind it. */
  readonly isEstimate: boolean;
}

/** A sock graded to one size. */
export interface GradedRow {
  readonly size: SizeRow;
  /** Null where it cannot be knitted: `problems` says why, at the row's fields. */
  readonly sock: { readonly file: SockFile; readonly plan: Plan; readonly passes: number; readonly metres: number; readonly grams: number } | null;
  readonly problems: readonly Problem[];
}
