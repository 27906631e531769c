import type { Problem } from '../base/problem.ts';
import type { Plan } from '../plan/plan-types.ts';
import type { SockFile } from '../plan/sock-file.ts';

/** One measure of a sock against what the foot asks of it, along the unstretched cloth. */
export interface Misfit {
  readonly what: 'foot-girth' | 'heel-line' | 'heel-breadth' | 'foot-length' | 'toe-breadth' | 'toe-length';
  /** What would suit best, and what the sock has, mm. */
  readonly wantedMm: number;
  readonly gotMm: number;
  /** How far the cloth is then stretched on the foot there, %; negative: it is loose. */
  readonly stretchPercent: number;
}

/** A sock's fit by counts and gauge alone, and what it takes to knit it. */
export interface WeighedSock {
  readonly plan: Plan;
  /** Lower is better: see `weigh-fit.ts` for the sum that it is. */
  readonly score: number;
  readonly misfits: readonly Misfit[];
  readonly passes: number;
  readonly metres: number;
  readonly grams: number;
}

export interface AdvisedChange {
  /** Field of the sock file. */
  readonly field: string;
  readonly from: number | null;
  readonly to: number;
}

export interface AdvisedSock extends WeighedSock {
  /** The person's file with the changes made: everything else stays. */
  readonly file: SockFile;
  readonly changes: readonly AdvisedChange[];
  /** Why this one, in a sentence or two; lengths in mm. */
  readonly reason: string;
}

export interface Advice {
  /** The sock as it stands; null where it cannot be knitted. */
  readonly present: WeighedSock | null;
  /** At most three, the best first. */
  readonly best: readonly AdvisedSock[];
  /** Socks weighed. */
  readonly tried: number;
  /** Why there is no advice, if there is none. */
  readonly problems: readonly Problem[];
}
