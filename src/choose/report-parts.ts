import type { Problem } from '../base/problem.ts';
import type { Plan } from '../plan/plan-types.ts';
import type { AdvisedChange, AdvisedSock, Advice, Misfit, WeighedSock } from './advice.ts';
import type { GradedRow, SizeRow } from './size-table.ts';
import type { Tolerance } from './read-tolerance.ts';

const REPORTED = ['stitches', 'heelStitches', 'turnDownWidth', 'legPasses', 'anklePasses', 'heelPasses', 'footPasses', 'toePasses', 'toeTipStitches', 'toeDecreases'] as const;

export type ReportedPlan = Readonly<Pick<Plan, (typeof REPORTED)[number]>>;

/** A plan's counts, as the report's `plan` has them. */
export function reportPlan(plan: Plan): ReportedPlan {
  return Object.fromEntries(REPORTED.map((name) => [name, plan[name]])) as ReportedPlan;
}

interface WeighedReport {
  readonly plan: ReportedPlan;
  readonly plateauPasses: number;
  readonly passesPerDecrease: number;
  readonly score: number;
  readonly misfits: readonly Misfit[];
  readonly passes: number;
  readonly metres: number;
  readonly grams: number;
}

export interface AdviceReport {
  readonly present: WeighedReport | null;
  readonly best: readonly (WeighedReport & { readonly changes: readonly AdvisedChange[]; readonly reason: string; readonly file: AdvisedSock['file'] })[];
  readonly tried: number;
  readonly problems: readonly Problem[];
}

function reportWeighed({ plan, score, misfits, passes, metres, grams }: WeighedSock): WeighedReport {
  return { plan: reportPlan(plan), plateauPasses: plan.plateauPasses, passesPerDecrease: plan.passesPerDecrease, score, misfits, passes, metres, grams };
}

export function reportAdvice({ present, best, tried, problems }: Advice): AdviceReport {
  return {
    present: present === null ? null : reportWeighed(present),
    best: best.map((advised) => ({ ...reportWeighed(advised), changes: advised.changes, reason: advised.reason, file: advised.file })),
    tried, problems,
  };
}

/** A size, what the sock takes in it (null where it cannot be knitted), and what there is to say at its row. */
export interface GradeReport {
  readonly size: SizeRow;
  readonly sock: { readonly plan: ReportedPlan; readonly passes: number; readonly metres: number; readonly grams: number } | null;
  readonly problems: readonly Problem[];
}

export function reportGrade(rows: readonly GradedRow[]): readonly GradeReport[] {
  return rows.map(({ size, sock, problems }) => ({
    size, problems,
    sock: sock === null ? null : { plan: reportPlan(sock.plan), passes: sock.passes, metres: sock.metres, grams: sock.grams },
  }));
}

/** As `readTolerance` gives it, a row a measure. */
export type ToleranceReport = Tolerance;
