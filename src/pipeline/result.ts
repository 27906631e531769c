import type { Problem } from '../base/problem.ts';
import type { Fabric } from '../fabric/fabric.ts';
import type { FormMesh } from '../foot/form-mesh.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { Trace } from '../machine/trace.ts';
import type { YarnParts, YarnUse } from '../measure/estimate-yarn.ts';
import type { WornReading } from '../measure/fit-answer.ts';
import type { Stretch } from '../measure/measure-stretch.ts';
import type { MeasureLines, Measures } from '../measure/measures.ts';
import type { Derivation, Plan, PlannedFoot } from '../plan/plan-types.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { Program } from '../plan/step.ts';
import type { Pose } from '../shape/pose.ts';

export type { YarnParts, YarnUse } from '../measure/estimate-yarn.ts';
export type { LaidYarn } from '../measure/measure-yarn.ts';

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
  /** What it takes by the textbook's relation, by yarn. */
  readonly yarn: readonly YarnUse[];
  /** The same by what becomes of it. */
  readonly yarnParts: readonly YarnParts[];
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
  readonly part: PartOnBeds | null;
  /** Worn: the foot inside, a little smaller than the one that the cloth lies on, so that it shows through gaps only. Null for any other pose. */
  readonly body: FormMesh | null;
  /** Worn: pressure, gaps, and how the sock fits. Null for any other pose. */
  readonly worn: WornReading | null;
}

/** What has been knitted by a pass, and what holds it; places in the pose's axes, mm. */
export interface PartOnBeds {
  readonly fabric: Fabric;
  readonly grid: StitchGrid;
  readonly pass: number;
  readonly holding: Holding;
}

/** Needles and weights round a piece on the machine. */
export interface Holding {
  readonly needlePitchMm: number;
  /** The needles that carry loops, and some more at each side of both beds: where loops hang on them, three entries a needle. */
  readonly needles: Float64Array;
  /** NEEDLE code of each. */
  readonly states: Uint8Array;
  /** The cast-on loops, in which the weights' comb hangs: three entries a loop. */
  readonly edge: Float64Array;
  /** Where the heel's weight hangs; null while no heel is turned. */
  readonly claw: readonly [number, number, number] | null;
}
