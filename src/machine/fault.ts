import type { Bed } from '../plan/sock-file.ts';

/** Why a program cannot be knitted: data, not an exception. */
export interface Fault {
  /** Index of the step refused; the number of steps for a fault found at the end. */
  readonly step: number;
  /** Passes knitted before it. */
  readonly pass: number;
  readonly bed: Bed | null;
  readonly needle: number | null;
  readonly reason: string;
}

/** Stops the simulator from within; `knitProgram` turns it into a `Fault`. */
export class Refusal extends Error {
  readonly bed: Bed | null;
  readonly needle: number | null;

  constructor(reason: string, bed: Bed | null, needle: number | null) {
    super(reason);
    this.bed = bed;
    this.needle = needle;
  }
}
