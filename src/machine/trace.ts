import type { SectionName, Side } from '../plan/step.ts';

/** What one pass did; the cast-on is entry 0. */
export interface PassRecord {
  readonly pass: number;
  readonly section: SectionName;
  /** Index of the `knit` (or `cast-on`) step in the program. */
  readonly step: number;
  readonly from: Side;
  readonly yarn: number;
  readonly knitted: number;
  /** First loop of the pass, and one past its last. */
  readonly firstLoop: number;
  readonly endLoop: number;
}

/** The machine's state after every pass. */
export interface Trace {
  readonly passes: readonly PassRecord[];
  readonly needlesPerBed: number;
  /** NEEDLE codes after pass p: entries [p * 2 * needlesPerBed ..), front bed first, left to right. */
  readonly needleStates: Uint8Array;
  readonly wraps: number;
  readonly cornerWraps: number;
  readonly transfers: number;
  readonly decreases: number;
  /** Cast-on and knitted loops. */
  readonly loops: number;
}
