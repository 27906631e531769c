import type { Fabric } from '../fabric/fabric.ts';
import { createScaledTerm, minimise } from '../solve/index.ts';
import type { MinimiseOptions, MinimiseResult } from '../solve/index.ts';
import { moveToFrame } from './canonical-frame.ts';
import { SOCK_CLOTH } from './cloth-table.ts';
import { fairShape } from './fair-shape.ts';
import { setUpPose } from './pose-problem.ts';
import type { PoseProblem } from './pose-problem.ts';
import type { Pose, PoseName, RelaxOptions } from './pose.ts';
import { makeStartShape } from './start-shape.ts';

const DEFAULT_TOLERANCE = 1e-3;
const DEFAULT_ITERATIONS = 3000;
/** Iterations between reports of progress: about 100 ms for a sock of 8,000 loops. */
const PROGRESS_EVERY = 10;
/** Strain whose force is the least against which the residual is measured: cloth without stress would have none. */
const LEAST_STRAIN = 1e-4;
/** Farthest move of a vertex in one iteration, in row heights. `chosen by eye`: none of the socks tried folds over itself. */
const LONGEST_MOVE = 1.5;
/**
 * A rough start is faired first: its jitter is smoothed away, and some iterations run with the bending
 * stiffness raised, so that it does not crumple while it is still far from rest. `measured`: starts
 * disturbed by 2 mm then end in one shape.
 */
const FAIRING = { fromResidual: 3, passes: 15, stiffness: 5, iterations: 50, tolerance: 0.1 } as const;

/**
 * Relaxes a fabric into a pose by minimising its energy from a start that follows the passes (or
 * from `options.start`). Never throws for a fabric that passes its checks; how far it came stands
 * in the pose's status and residual.
 */
export function relaxSock(fabric: Fabric, name: PoseName, options: RelaxOptions = {}): Pose {
  const { tolerance = DEFAULT_TOLERANCE, maxIterations = DEFAULT_ITERATIONS, onProgress, isCancelled } = options;
  const positions = options.start?.slice() ?? makeStartShape(fabric, name === 'flat' ? 'folded' : 'round');
  const problem = setUpPose(fabric, name);
  const result = relaxInPlace(fabric, positions, problem, {
    tolerance, maxIterations, longestMove: LONGEST_MOVE * fabric.waleMm, progressEvery: PROGRESS_EVERY,
    leastForce: LEAST_STRAIN * SOCK_CLOTH.law.courseModulus * fabric.waleMm,
    ...(isCancelled === undefined ? {} : { isCancelled }),
    ...(onProgress === undefined ? {} : { onProgress: reportTo(onProgress, tolerance) }),
  });
  moveToFrame(fabric, positions, name === 'flat');
  return { name, positions, status: result.status, residual: result.residual, iterations: result.iterations };
}

function relaxInPlace(
  fabric: Fabric, positions: Float64Array, problem: PoseProblem, options: MinimiseOptions & { readonly maxIterations: number },
): MinimiseResult {
  const { terms, bending, preconditioner } = problem;
  const start = minimise(positions, terms, preconditioner, { ...options, maxIterations: 0 });
  if (start.residual < FAIRING.fromResidual) return minimise(positions, terms, preconditioner, options);
  fairShape(fabric, positions, FAIRING.passes);
  const stiffer = createScaledTerm(bending, FAIRING.stiffness, fabric.vertexCount);
  const faired = minimise(positions, [...terms, stiffer], preconditioner, {
    ...options, tolerance: FAIRING.tolerance, maxIterations: Math.min(FAIRING.iterations, options.maxIterations),
  });
  const relaxed = minimise(positions, terms, preconditioner, { ...options, maxIterations: options.maxIterations - faired.iterations });
  return { ...relaxed, iterations: faired.iterations + relaxed.iterations };
}

/** Turns residuals into a fraction: the share of the way down to the tolerance, in powers of ten from the first one seen. */
function reportTo(onProgress: NonNullable<RelaxOptions['onProgress']>, tolerance: number): (positions: Float64Array, residual: number) => void {
  let first = 0, furthest = 0;
  return (positions, residual) => {
    if (first === 0) first = Math.max(residual, 10 * tolerance);
    furthest = Math.max(furthest, Math.min(1, Math.log(first / Math.max(residual, tolerance)) / Math.log(first / tolerance)));
    onProgress(positions, furthest);
  };
}
