import { fingerprint } from '../base/fingerprint.ts';
import type { Problem } from '../base/problem.ts';
import type { StretchSummary } from '../measure/measure-stretch.ts';
import type { Measures } from '../measure/measures.ts';
import type { Plan } from '../plan/plan-types.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { PoseName, PoseStatus } from '../shape/pose.ts';
import { shownLayer } from '../panel/cloth-layers.ts';
import type { PageState } from '../panel/page-state.ts';
import type { ClothLayer, SockView } from '../view/sock-view-types.ts';

/** `window.heelwright`: what the page shows, to be read by tests and by the curious. Changes nothing. */
export interface PageHook {
  readonly file: SockFile;
  /** Of the last knittable sock; null before there is one. */
  readonly plan: Plan | null;
  readonly problems: readonly Problem[];
  readonly pose: PoseName;
  /** On the beds: after which pass the shape at rest hangs; null for any other pose, and while under way. */
  readonly pass: number | null;
  /** Null while a shape is under way. */
  readonly poseStatus: PoseStatus | null;
  readonly residual: number | null;
  /** Of the positions of the shape at rest, to the bit; null while under way. */
  readonly fingerprint: string | null;
  /** From the request to the shape at rest; null while under way. */
  readonly milliseconds: number | null;
  readonly measures: { readonly rest: Measures | null; readonly posed: Measures | null };
  /** Of the shape at rest; null while under way. */
  readonly stretch: StretchSummary | null;
  readonly layer: ClothLayer;
  /** The sock that is kept to compare with; null without one. */
  readonly companion: { readonly file: SockFile | null; readonly problems: readonly Problem[]; readonly plan: Plan | null; readonly pose: PoseName | null } | null;
  /** True from a change until its shape is at rest (or refused). */
  readonly isBusy: boolean;
  /** GPU objects held and frames drawn; null without a picture. */
  readonly view: ReturnType<SockView['counters']> | null;
}

declare global {
  interface Window { heelwright?: PageHook }
}

export function exposePageHook(state: () => PageState, view: () => SockView | null): void {
  window.heelwright = Object.freeze({
    get file() { return state().file; },
    get plan() { return state().planned?.plan ?? null; },
    get problems() { return state().problems; },
    get pose() { return state().settings.pose; },
    get pass() { return state().posed?.part?.pass ?? null; },
    get poseStatus() { return state().posed?.pose.status ?? null; },
    get residual() { return state().posed?.pose.residual ?? null; },
    get fingerprint() {
      const { posed } = state();
      return posed === null ? null : fingerprint(posed.pose.positions);
    },
    get milliseconds() {
      const { shape } = state();
      return shape.kind === 'settled' ? shape.milliseconds : null;
    },
    get measures() { return { rest: state().planned?.rest ?? null, posed: state().posed?.measures ?? null }; },
    get stretch() { return state().posed?.stretch.summary ?? null; },
    get layer() { return shownLayer(state()); },
    get companion() {
      const { companion } = state();
      return companion === null ? null : { file: companion.file, problems: companion.problems, plan: companion.knitted?.plan ?? null, pose: companion.posed?.pose.name ?? null };
    },
    get isBusy() { return state().shape.kind === 'relaxing'; },
    get view() { return view()?.counters() ?? null; },
  });
}
