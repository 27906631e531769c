import type { Fabric } from '../fabric/fabric.ts';
import { createBending, createPreconditioner, createQuadMembrane, createTriangleMembrane } from '../solve/index.ts';
import type { EnergyTerm, Preconditioner } from '../solve/index.ts';
import { makeClothBending } from './cloth-bending.ts';
import { makeClothElements } from './cloth-elements.ts';
import { SOCK_CLOTH } from './cloth-table.ts';
import { makeCreaseContacts } from './crease-contact.ts';
import { makeInnerPressure } from './inner-pressure.ts';
import { foldShare, makePlates, makePress, makeSingleLayer } from './pose-terms.ts';
import type { PoseName } from './pose.ts';

/** A pose's energy, and the metric to minimise it with. */
export interface PoseProblem {
  readonly terms: readonly EnergyTerm[];
  /** The one of the terms that resists bending. */
  readonly bending: EnergyTerm;
  readonly preconditioner: Preconditioner;
}

/** Added to the metric at each vertex, N/mm: small beside the cloth, so that whole-body moves have a metric. */
const METRIC_SHIFT = 1e-6;
/** Across the plates the cloth is bent more than stretched: share of the membrane's metric that counts there. `measured`: fewest iterations of 0.02 to 1. */
const ACROSS_SHARE = 0.4;

/** Gathers the terms of a pose. Bending is left out of the metric: it would double the factor's size for no fewer iterations (`measured`). */
export function setUpPose(fabric: Fabric, name: PoseName): PoseProblem {
  const elements = makeClothElements(fabric);
  const rectangles = createQuadMembrane(elements.rectangles, SOCK_CLOTH.law), triangles = createTriangleMembrane(elements.triangles, SOCK_CLOTH.law);
  const cloth = [{ term: rectangles, factor: 1 }, { term: triangles, factor: 1 }];
  if (name === 'tube') {
    const bending = createBending(makeClothBending(fabric, SOCK_CLOTH));
    return {
      terms: [rectangles, triangles, bending, makeInnerPressure(fabric), ...makeCreaseContacts(fabric)], bending,
      preconditioner: createPreconditioner(fabric.vertexCount, [{ axes: [0, 1, 2], parts: cloth }], METRIC_SHIFT),
    };
  }
  const bending = createBending(makeClothBending(fabric, SOCK_CLOTH, (vertex) => foldShare(fabric, vertex)));
  const plates = makePlates(fabric);
  const across = [...cloth.map(({ term }) => ({ term, factor: ACROSS_SHARE })), { term: plates, factor: 1 }];
  return {
    terms: [rectangles, triangles, bending, plates, makePress(fabric), makeSingleLayer(fabric)], bending,
    preconditioner: createPreconditioner(fabric.vertexCount, [{ axes: [0, 2], parts: cloth }, { axes: [1], parts: across }], METRIC_SHIFT),
  };
}
