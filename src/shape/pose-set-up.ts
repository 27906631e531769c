import type { PoseProblem } from './pose-problem.ts';

/** A pose to be relaxed, and where from: three entries a vertex, mm. */
export interface PoseSetUp { readonly problem: PoseProblem; readonly start: Float64Array }
