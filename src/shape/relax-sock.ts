import type { Fabric } from '../fabric/fabric.ts';
import { createBending, createPreconditioner, createQuadMembrane, createTriangleMembrane, minimise } from '../solve/index.ts';
import type { EnergyTerm, Preconditioner } from '../solve/index.ts';
import { moveToFrame } from './canonical-frame.ts';
import { makeClothBending } from './cloth-bending.ts';
import { makeClothElements } from './cloth-elements.ts';
import { SOCK_CLOTH } from './cloth-table.ts';
import { makeInnerPressure } from './inner-pressure.ts';
import { foldShare, makePlates, makePress, makeSingleLayer } from './pose-terms.ts';
import { makeCreaseContacts } from './crease-contact.ts';
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
/** Added to the metric at each vertex, N/mm: small beside the cloth, so that whole-body moves have a metric. */
const METRIC_SHIFT = 1e-6;
/** Across the plates the cloth is bent, not stretched: share of the membrane's metric that counts there. `measured`: least iterations. */
const ACROSS_SHARE = 0.4;

/** A pose's energy and the metric to minimise it with. */
interface Problem { readonly terms: readonly EnergyTerm[]; readonly preconditioner: Preconditioner }

/**
 * Relaxes a fabric into a pose by minimising its energy from a start that follows the passes (or
 * from `options.start`). Never throws for a fabric that passes its checks; how far it came stands
 * in the pose's status and residual.
 */
export function relaxSock(fabric: Fabric, name: PoseName, options: RelaxOptions = {}): Pose {
  const { tolerance = DEFAULT_TOLERANCE, maxIterations = DEFAULT_ITERATIONS, onProgress, isCancelled } = options;
  const positions = options.start?.slice() ?? makeStartShape(fabric, name === 'flat' ? 'folded' : 'round');
  const { terms, preconditioner } = setUpPose(fabric, name);
  const result = minimise(positions, terms, preconditioner, {
    tolerance, maxIterations, longestMove: LONGEST_MOVE * fabric.waleMm, progressEvery: PROGRESS_EVERY,
    leastForce: LEAST_STRAIN * SOCK_CLOTH.law.courseModulus * fabric.waleMm,
    ...(isCancelled === undefined ? {} : { isCancelled }),
    ...(onProgress === undefined ? {} : { onProgress: reportTo(onProgress, tolerance) }),
  });
  moveToFrame(fabric, positions, name === 'flat');
  return { name, positions, status: result.status, residual: result.residual, iterations: result.iterations };
}

export function setUpPose(fabric: Fabric, name: PoseName): Problem {
  const elements = makeClothElements(fabric);
  const { law } = SOCK_CLOTH;
  const rectangles = createQuadMembrane(elements.rectangles, law), triangles = createTriangleMembrane(elements.triangles, law);
  const bending = createBending(makeClothBending(fabric, SOCK_CLOTH, name === 'flat' ? (vertex) => foldShare(fabric, vertex) : undefined));
  if (name === 'tube') {
    const parts = [{ term: rectangles, factor: 1 }, { term: triangles, factor: 1 }];
    return {
      terms: [rectangles, triangles, bending, makeInnerPressure(fabric), ...makeCreaseContacts(fabric)],
      preconditioner: createPreconditioner(fabric.vertexCount, [{ axes: [0, 1, 2], parts }], METRIC_SHIFT),
    };
  }
  const plates = makePlates(fabric);
  const inPlane = [{ term: rectangles, factor: 1 }, { term: triangles, factor: 1 }];
  const across = [
    { term: rectangles, factor: ACROSS_SHARE }, { term: triangles, factor: ACROSS_SHARE }, { term: plates, factor: 1 },
  ];
  return {
    terms: [rectangles, triangles, bending, plates, makePress(fabric), makeSingleLayer(fabric)],
    preconditioner: createPreconditioner(fabric.vertexCount, [{ axes: [0, 2], parts: inPlane }, { axes: [1], parts: across }], METRIC_SHIFT),
  };
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
