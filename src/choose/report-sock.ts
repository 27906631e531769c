import type { Problem } from '../base/problem.ts';
import type { FitAnswer, WornSummary } from '../measure/fit-answer.ts';
import type { StretchSummary } from '../measure/measure-stretch.ts';
import type { Measures } from '../measure/measures.ts';
import { knitSock } from '../pipeline/knit-sock.ts';
import { measureLaidYarn } from '../pipeline/measure-laid-yarn.ts';
import { poseSock } from '../pipeline/pose-sock.ts';
import type { KnitOutcome, KnittedSock, LaidYarn, PosedSock, YarnUse } from '../pipeline/result.ts';
import { readSock } from '../plan/read-sock.ts';
import type { PoseName, PoseStatus } from '../shape/pose.ts';
import { adviseSock } from './advise-sock.ts';
import type { PosedPair } from './compare-socks.ts';
import { compareSocks } from './compare-socks.ts';
import type { SockComparison } from './comparison.ts';
import { gradeSock } from './grade-sock.ts';
import { readTolerance } from './read-tolerance.ts';
import type { AdviceReport, GradeReport, ReportedPlan, ToleranceReport } from './report-parts.ts';
import { reportAdvice, reportGrade, reportPlan } from './report-parts.ts';
import { standardRows } from './standard-rows.ts';

export interface PoseReport {
  readonly status: PoseStatus;
  readonly residual: number;
  readonly milliseconds: number;
  readonly stretch: StretchSummary;
}

/** The report's one JSON object: keys and counting rules are the README's, section "Report". What was not asked for is null. */
export interface SockReport {
  readonly plan: ReportedPlan | null;
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
  /** Along the loops as they lie as a tube, or else laid flat; null unless one of these is among the poses. */
  readonly yarnLaid: readonly LaidYarn[] | null;
  /** How the worn sock sits; null unless `worn` is among the poses. */
  readonly fit: { readonly summary: WornSummary; readonly answers: readonly FitAnswer[] } | null;
  readonly advice: AdviceReport | null;
  readonly compare: SockComparison | null;
  readonly grade: readonly GradeReport[] | null;
  readonly tolerance: ToleranceReport | null;
  readonly problems: readonly Problem[];
}

export interface ReportOutcome {
  readonly json: SockReport;
  /** 0: the sock can be knitted; 2: it cannot, or the file is no sock file, or the one to compare with is none. */
  readonly exitCode: 0 | 2;
}

export interface ReportOptions {
  readonly poses: readonly PoseName[];
  readonly wantsAdvice?: boolean;
  readonly wantsGrade?: boolean;
  /** A second sock file to compare with: its name, for problems, and its text. */
  readonly compare?: { readonly name: string; readonly text: string } | null;
}

/** The report on something that is no sock. */
export function refuseReport(problems: readonly Problem[]): SockReport {
  return {
    plan: null, knit: null, fabric: null, poses: null, measures: null, yarn: null, yarnLaid: null,
    fit: null, advice: null, compare: null, grade: null, tolerance: null, problems,
  };
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

/** A file's text to a sock, or every problem on the way. */
function knitText(text: string): KnitOutcome {
  const { file, problems } = readSock(text);
  return file === null ? { sock: null, problems } : knitSock(file);
}

/** Problems of the file to compare with, which they name. */
function nameProblems(name: string, problems: readonly Problem[]): readonly Problem[] {
  return problems.map((problem) => ({ ...problem, field: problem.field === null ? 'compare' : `compare.${problem.field}`, message: `${name}: ${problem.message}` }));
}

/**
 * A sock file's text to the report. `now` reads a clock in milliseconds, for the poses' times.
 * Throws only for a bug of ours.
 */
export function reportOnSock(text: string, options: ReportOptions, now: () => number): ReportOutcome {
  const { sock, problems } = knitText(text), { poses, compare = null } = options;
  const other = compare === null ? null : knitText(compare.text);
  const said = [...problems, ...(compare === null || other === null ? [] : nameProblems(compare.name, other.problems))];
  if (sock === null || other?.sock === null) return { json: refuseReport(said), exitCode: 2 };

  const poseReports: Partial<Record<PoseName, PoseReport>> = {};
  const measures: { rest: Measures } & Partial<Record<PoseName, Measures>> = { rest: sock.rest };
  const posed = new Map<PoseName, PosedSock>();
  for (const name of poses) {
    const start = now(), one = poseSock(sock, name);
    poseReports[name] = { status: one.pose.status, residual: one.pose.residual, milliseconds: now() - start, stretch: one.stretch.summary };
    measures[name] = one.measures;
    posed.set(name, one);
  }
  const json: SockReport = {
    plan: reportPlan(sock.plan),
    knit: reportKnit(sock),
    fabric: reportFabric(sock),
    poses: poseReports,
    measures,
    yarn: sock.yarn,
    yarnLaid: weighAtRest(sock, posed.get('tube') ?? posed.get('flat')),
    fit: reportFit(posed.get('worn')),
    advice: options.wantsAdvice === true ? reportAdvice(adviseSock(sock.file)) : null,
    compare: other === null ? null : compareSocks(sock, other.sock, [...posed.values()].map((first): PosedPair => ({ first, second: poseSock(other.sock, first.pose.name) }))),
    grade: options.wantsGrade === true ? reportGrade(gradeSock(sock.file, standardRows())) : null,
    tolerance: readTolerance(sock.plan),
    problems: said,
  };
  return { json, exitCode: 0 };
}

function weighAtRest(sock: KnittedSock, posed: PosedSock | undefined): SockReport['yarnLaid'] {
  return posed === undefined ? null : measureLaidYarn(sock, posed.pose.positions, posed.pose.name);
}

function reportFit(worn: PosedSock | undefined): SockReport['fit'] {
  const reading = worn?.worn ?? null;
  return reading === null ? null : { summary: reading.summary, answers: reading.fit };
}
