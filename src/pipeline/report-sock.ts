import type { Problem } from '../base/problem.ts';
import type { StretchSummary } from '../measure/measure-stretch.ts';
import type { Measures } from '../measure/measures.ts';
import type { Plan } from '../plan/plan-types.ts';
import { readSock } from '../plan/read-sock.ts';
import type { PoseName, PoseStatus } from '../shape/pose.ts';
import { knitSock } from './knit-sock.ts';
import { poseSock } from './pose-sock.ts';
import type { KnittedSock, YarnUse } from './result.ts';

type ReportedCount =
  | 'stitches' | 'heelStitches' | 'turnDownWidth' | 'legPasses' | 'anklePasses' | 'heelPasses' | 'footPasses'
  | 'toePasses' | 'toeTipStitches' | 'toeDecreases';

export interface PoseReport {
  readonly status: PoseStatus;
  readonly residual: number;
  readonly milliseconds: number;
  readonly stretch: StretchSummary;
}

/** The report's one JSON object: keys and counting rules are the README's, section "Report". */
export interface SockReport {
  readonly plan: Readonly<Pick<Plan, ReportedCount>> | null;
  readonly knit: {
    readonly passes: number;
    readonly loops: number;
    readonly wraps: number;
    readonly transfers: number;
    readonly decreases: number;
  } | null;
  readonly fabric: {
    readonly vertices: number;
    readonly edges: number;
    readonly cells: number;
    readonly euler: number;
    readonly boundaries: number;
  } | null;
  readonly poses: Readonly<Partial<Record<PoseName, PoseReport>>> | null;
  readonly measures: Readonly<{ rest: Measures } & Partial<Record<PoseName, Measures>>> | null;
  readonly yarn: readonly YarnUse[] | null;
  readonly problems: readonly Problem[];
}

export interface ReportOutcome {
  readonly json: SockReport;
  /** 0: the sock can be knitted; 2: it cannot, or the file is no sock file. */
  readonly exitCode: 0 | 2;
}

/** The report on something that is no sock. */
export function refuseReport(problems: readonly Problem[]): SockReport {
  return { plan: null, knit: null, fabric: null, poses: null, measures: null, yarn: null, problems };
}

function reportPlan(plan: Plan): NonNullable<SockReport['plan']> {
  const { stitches, heelStitches, turnDownWidth, legPasses, anklePasses, heelPasses, footPasses, toePasses, toeTipStitches, toeDecreases } = plan;
  return { stitches, heelStitches, turnDownWidth, legPasses, anklePasses, heelPasses, footPasses, toePasses, toeTipStitches, toeDecreases };
}

function reportKnit({ trace }: KnittedSock): NonNullable<SockReport['knit']> {
  const { loops, wraps, transfers, decreases } = trace;
  // Entry 0 is the cast-on, which is no pass.
  return { passes: trace.passes.length - 1, loops, wraps, transfers, decreases };
}

function reportFabric({ fabric }: KnittedSock): NonNullable<SockReport['fabric']> {
  const vertices = fabric.vertexCount;
  const edges = fabric.edges.length / 2;
  const cells = fabric.cellStart.length - 1;
  return { vertices, edges, cells, euler: vertices - edges + cells, boundaries: fabric.boundaryStart.length - 1 };
}

/**
 * A sock file's text to the report. `now` reads a clock in milliseconds, for the poses' times.
 * Throws only for a bug of ours.
 */
export function reportOnSock(text: string, poses: readonly PoseName[], now: () => number): ReportOutcome {
  const { file, problems: formProblems } = readSock(text);
  if (file === null) return { json: refuseReport(formProblems), exitCode: 2 };
  const { sock, problems } = knitSock(file);
  if (sock === null) return { json: refuseReport(problems), exitCode: 2 };

  const poseReports: Partial<Record<PoseName, PoseReport>> = {};
  const measures: { rest: Measures } & Partial<Record<PoseName, Measures>> = { rest: sock.rest };
  for (const name of poses) {
    const start = now();
    const posed = poseSock(sock, name);
    poseReports[name] = { status: posed.pose.status, residual: posed.pose.residual, milliseconds: now() - start, stretch: posed.stretch.summary };
    measures[name] = posed.measures;
  }
  const json: SockReport = {
    plan: reportPlan(sock.plan),
    knit: reportKnit(sock),
    fabric: reportFabric(sock),
    poses: poseReports,
    measures,
    yarn: sock.yarn,
    problems,
  };
  return { json, exitCode: 0 };
}
