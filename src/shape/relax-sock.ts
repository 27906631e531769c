import { log } from '../base/portable-math.ts';
import { runToEnd } from '../base/run-to-end.ts';
import type { Fabric } from '../fabric/fabric.ts';
import { createScaledTerm, createTwoLevelMetric, minimise, minimiseInSteps } from '../solve/index.ts';
import type { MinimiseOptions, MinimiseResult } from '../solve/index.ts';
import { moveToFrame } from './canonical-frame.ts';
import { SOCK_CLOTH } from './cloth-table.ts';
import { fairShape } from './fair-shape.ts';
import { keyLengths } from './key-lengths.ts';
import { interpolateSock } from './map-shape.ts';
import { METRIC_SHIFT, setUpPose } from './pose-problem.ts';
import type { PoseProblem } from './pose-problem.ts';
import { layOnPlates } from './flat-terms.ts';
import type { FreePoseName, Pose, PoseName, RelaxOptions } from './pose.ts';
import type { PoseSetUp } from './pose-set-up.ts';
import { makeStartShape } from './start-shape.ts';

const DEFAULT_TOLERANCE = 1e-3;
const DEFAULT_ITERATIONS = 3000;
/** Iterations between reports of progress. */
const PROGRESS_EVERY = 5;
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

/** Steps after which the metric of a held shape is made anew: contacts come and go. `measured`: least time of 15, 20, 25 and 40. */
const HELD_RENEWAL = 20;
/** From a shape that is near, steps are Newton's until the residual is this small. `measured`: least time of 0.05, 0.02, 0.005 and 0.002. Not as a tube: the metric knows nothing of pressure and creases, and Newton's steps take longer there than L-BFGS. */
const NEWTON_ABOVE = 0.005;

type Options = MinimiseOptions & { readonly maxIterations: number };

/**
 * Relaxes a fabric into a pose by minimising its energy from a start that follows the passes (or
 * from `options.start`). Never throws for a fabric that passes its checks; how far it came stands
 * in the pose's status and residual. Same input, same bytes.
 */
export function relaxSock(fabric: Fabric, name: FreePoseName, options: RelaxOptions = {}): Pose {
  return runToEnd(relaxInSteps(fabric, name, options));
}

/** The same, yielding before every iteration. */
export function* relaxInSteps(fabric: Fabric, name: FreePoseName, options: RelaxOptions = {}): Generator<void, Pose> {
  const common = readOptions(fabric, options), { coarse } = options;
  const result = coarse === undefined || options.start === undefined
    ? yield* relaxAlone(fabric, name, common, options)
    : yield* relaxGuided(fabric, coarse, name, common, options.start, options.firmness);
  moveToFrame(fabric, result.positions, name === 'flat');
  return { name, positions: result.positions, status: result.status, residual: result.residual, iterations: result.iterations };
}

/**
 * Relaxes a fabric in surroundings that hold it, from a start of theirs; the shape stays where they are.
 * Yields before every iteration. With `start` and `coarse` it goes on from a shape that is near.
 */
export function* relaxHeldInSteps(fabric: Fabric, name: PoseName, setUp: PoseSetUp, options: RelaxOptions = {}): Generator<void, Pose> {
  // A set-up may place its start only when that is asked for.
  const { problem } = setUp, positions = (options.start ?? setUp.start).slice(), { coarse } = options, isNear = options.start !== undefined && coarse !== undefined;
  const metric = isNear ? createTwoLevelMetric(fabric.vertexCount, problem.terms, interpolateSock(coarse, fabric), { shift: METRIC_SHIFT }) : problem.preconditioner;
  const result = yield* minimiseInSteps(positions, problem.terms, metric, { ...readOptions(fabric, options), lengths: keyLengths(fabric), ...(isNear ? { renewEvery: HELD_RENEWAL, newtonAbove: NEWTON_ABOVE } : {}) });
  return { name, positions, status: result.status, residual: result.residual, iterations: result.iterations };
}

function readOptions(fabric: Fabric, options: RelaxOptions): Options {
  const { tolerance = DEFAULT_TOLERANCE, maxIterations = DEFAULT_ITERATIONS, onProgress, isCancelled } = options;
  return {
    tolerance, maxIterations, longestMove: LONGEST_MOVE * fabric.waleMm, progressEvery: PROGRESS_EVERY,
    leastForce: LEAST_STRAIN * SOCK_CLOTH.law.courseModulus * fabric.waleMm,
    ...(isCancelled === undefined ? {} : { isCancelled }),
    ...(onProgress === undefined ? {} : { onProgress: reportTo(onProgress, tolerance) }),
  };
}

type Relaxed = Pick<Pose, 'positions' | 'status' | 'residual' | 'iterations'>;

function* relaxAlone(fabric: Fabric, name: FreePoseName, options: Options, { start, firmness }: RelaxOptions): Generator<void, Relaxed> {
  const positions = start?.slice() ?? makeStartShape(fabric, name === 'flat' ? 'folded' : 'round');
  if (name === 'flat') layOnPlates(fabric, positions);
  return { positions, ...yield* relaxFaired(fabric, positions, setUpPose(fabric, name, firmness), options) };
}

/** From a shape that is near to rest already, with the help of a sock of larger stitches, on which long bends are few unknowns. */
function* relaxGuided(fabric: Fabric, coarse: Fabric, name: FreePoseName, options: Options, start: Float64Array, firmness: RelaxOptions['firmness']): Generator<void, Relaxed> {
  const positions: Float64Array = start.slice();
  if (name === 'flat') layOnPlates(fabric, positions);
  const { terms, ...axis } = fixedAxisOf(setUpPose(fabric, name, firmness));
  const metric = createTwoLevelMetric(fabric.vertexCount, terms, interpolateSock(coarse, fabric), { shift: METRIC_SHIFT, ...axis });
  return { positions, ...yield* minimiseInSteps(positions, terms, metric, { ...options, ...axis, lengths: keyLengths(fabric), ...(name === 'flat' ? { newtonAbove: NEWTON_ABOVE } : {}) }) };
}

function fixedAxisOf({ terms, fixedAxis }: PoseProblem): Pick<PoseProblem, 'terms' | 'fixedAxis'> {
  return fixedAxis === undefined ? { terms } : { terms, fixedAxis };
}

function* relaxFaired(fabric: Fabric, positions: Float64Array, problem: PoseProblem, common: Options): Generator<void, MinimiseResult> {
  const { bending, preconditioner } = problem, { terms, ...axis } = fixedAxisOf(problem);
  const options = { ...common, ...axis, lengths: keyLengths(fabric) };
  const start = minimise(positions, terms, preconditioner, { ...options, maxIterations: 0 });
  if (start.residual < FAIRING.fromResidual) return yield* minimiseInSteps(positions, terms, preconditioner, options);
  fairShape(fabric, positions, FAIRING.passes, axis.fixedAxis);
  const stiffer = createScaledTerm(bending, FAIRING.stiffness, fabric.vertexCount);
  const faired = yield* minimiseInSteps(positions, [...terms, stiffer], preconditioner, {
    ...common, ...axis, tolerance: FAIRING.tolerance, maxIterations: Math.min(FAIRING.iterations, options.maxIterations),
  });
  const relaxed = yield* minimiseInSteps(positions, terms, preconditioner, { ...options, maxIterations: options.maxIterations - faired.iterations });
  return { ...relaxed, iterations: faired.iterations + relaxed.iterations };
}

/** Turns residuals into a fraction: the share of the way down to the tolerance, in powers of ten from the first one seen. */
function reportTo(onProgress: NonNullable<RelaxOptions['onProgress']>, tolerance: number): (positions: Float64Array, residual: number) => void {
  let first = 0, furthest = 0;
  return (positions, residual) => {
    if (first === 0) first = Math.max(residual, 10 * tolerance);
    furthest = Math.max(furthest, Math.min(1, log(first / Math.max(residual, tolerance)) / log(first / tolerance)));
    onProgress(positions, furthest);
  };
}
