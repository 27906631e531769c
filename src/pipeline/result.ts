import type { Problem } from '../base/problem.ts';
import type { Fabric } from '../fabric/fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { Trace } from '../machine/trace.ts';
import type { YarnUse } from '../measure/estimate-yarn.ts';
import type { Stretch } from '../measure/measure-stretch.ts';
import type { MeasureLines, Measures } from '../measure/measures.ts';
import type { Derivation, Plan, PlannedFoot } from '../plan/plan-types.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { Program } from '../plan/step.ts';
import type { Pose } from '../shape/pose.ts';

export type { YarnUse } from '../measure/estimate-yarn.ts';

/** Everything about a sock but its relaxed shapes: plain data, made in milliseconds. */
export interface KnittedSock {
  readonly file: SockFile;
  readonly plan: Plan;
  readonly derivations: readonly Derivation[];
  readonly foot: PlannedFoot;
  readonly program: Program;
  readonly trace: Trace;
  readonly grid: StitchGrid;
  readonly fabric: Fabric;
  readonly rest: Measures;
  readonly yarn: readonly YarnUse[];
  /** Cautions that do not keep the sock from being knitted (a tight top, say). */
  readonly cautions: readonly Problem[];
}

/** `knitSock`'s answer: a sock, or what is wrong with the file. */
export type KnitOutcome =
  | { readonly sock: KnittedSock; readonly problems: readonly Problem[] }
  | { readonly sock: null; readonly problems: readonly Problem[] };

export interface PosedSock {
  readonly pose: Pose;
  readonly measures: Measures;
  readonly lines: MeasureLines;
  readonly stretch: Stretch;
  /** On the beds: what has been knitted by then, which the pose is of; its first loops are the sock's. Null for a pose of the whole sock. */
  readonly part: { readonly fabric: Fabric; readonly grid: StitchGrid; readonly pass: number } | null;
}
