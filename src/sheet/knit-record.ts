import type { StitchGrid } from '../machine/grid.ts';
import type { Trace } from '../machine/trace.ts';
import type { YarnUse } from '../measure/estimate-yarn.ts';
import type { Measures } from '../measure/measures.ts';
import type { Problem } from '../base/problem.ts';
import type { Plan, PlannedFoot } from '../plan/plan-types.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { Program } from '../plan/step.ts';

/** What sheets and files are written from; the pipeline's `KnittedSock` is one. */
export interface KnitRecord {
  readonly file: SockFile;
  readonly plan: Plan;
  readonly foot: PlannedFoot;
  readonly program: Program;
  readonly trace: Trace;
  readonly grid: StitchGrid;
  readonly rest: Measures;
  readonly yarn: readonly YarnUse[];
  readonly cautions: readonly Problem[];
}
