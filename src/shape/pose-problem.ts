import type { Fabric } from '../fabric/fabric.ts';
import { createBending, createPreconditioner, createQuadMembrane, createTriangleMembrane } from '../solve/index.ts';
import type { EnergyTerm, Preconditioner } from '../solve/index.ts';
import { makeClothBending } from './cloth-bending.ts';
import { makeClothElements } from './cloth-elements.ts';
import { clothOf } from './cloth-table.ts';
import type { Firmness } from './cloth-table.ts';
import { makeCreaseContacts } from './crease-contact.ts';
import { makeInnerPressure } from './inner-pressure.ts';
import { FLAT_AXIS, isAtFold, makeSingleLayer } from './flat-terms.ts';
import type { FreePoseName } from './pose.ts';

/** A pose's energy, and the metric to minimise it with. */
export interface PoseProblem {
  readonly terms: readonly EnergyTerm[];
  /** The one of the terms that resists bending. */
  readonly bending: EnergyTerm;
  /** Coordinates along this axis are given and stay what they are. */
  readonly fixedAxis?: number;
  readonly preconditioner: Preconditioner;
}

/** Added to the metric at each vertex, N/mm: small beside the cloth, so that whole-body moves have a metric. */
export const METRIC_SHIFT = 1e-6;

/** Gathers the terms of a pose. Bending is left out of the metric: it would double the factor's size for no fewer iterations (`measured`). */
export function setUpPose(fabric: Fabric, name: FreePoseName, firmness: Firmness = 'soft'): PoseProblem {
  const sockCloth = clothOf(firmness);
  const elements = makeClothElements(fabric);
  const rectangles = createQuadMembrane(elements.rectangles, sockCloth.law), triangles = createTriangleMembrane(elements.triangles, sockCloth.law);
  const cloth = [{ term: rectangles, factor: 1 }, { term: triangles, factor: 1 }];
  if (name === 'tube') {
    const bending = createBending(makeClothBending(fabric, sockCloth));
    return {
      terms: [rectangles, triangles, bending, makeInnerPressure(fabric), ...makeCreaseContacts(fabric)], bending,
      preconditioner: onFirstUse(() => createPreconditioner(fabric.vertexCount, [{ axes: [0, 1, 2], parts: cloth }], METRIC_SHIFT)),
    };
  }
  const bending = createBending(makeClothBending(fabric, sockCloth, (vertex) => (isAtFold(fabric, vertex) ? 0 : 1)));
  const inPlane = [0, 1, 2].filter((axis) => axis !== FLAT_AXIS);
  return {
    terms: [rectangles, triangles, bending, makeSingleLayer(fabric)], bending, fixedAxis: FLAT_AXIS,
    preconditioner: onFirstUse(() => createPreconditioner(fabric.vertexCount, [{ axes: inPlane, parts: cloth }], METRIC_SHIFT)),
  };
}

/** Its factor takes longer than all else that is set up, and is not always wanted. */
export function onFirstUse(make: () => Preconditioner): Preconditioner {
  let made: Preconditioner | null = null;
  const get = (): Preconditioner => (made ??= make());
  return {
    applyInto(step, gradient) { get().applyInto(step, gradient); },
    get entryCount() { return get().entryCount; },
  };
}
