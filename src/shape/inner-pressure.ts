import type { Fabric } from '../fabric/fabric.ts';
import { createPressure } from '../solve/index.ts';
import type { EnergyTerm, Polygons } from '../solve/index.ts';
import { TUBE_PRESSURE } from './cloth-table.ts';

/** A light pressure inside, the sock's openings closed by a lid each. */
export function makeInnerPressure(fabric: Fabric): EnergyTerm {
  return createPressure(closeCloth(fabric), TUBE_PRESSURE);
}

/** Cells and, for each opening, its boundary as one more polygon: walked with the cloth on the left, it is turned round to face outward. */
export function closeCloth(fabric: Fabric): Polygons {
  const start = [...fabric.cellStart], corners = [...fabric.cellVertices];
  for (let b = 0; b + 1 < fabric.boundaryStart.length; b++) {
    for (let k = fabric.boundaryStart[b + 1] - 1; k >= fabric.boundaryStart[b]; k--) corners.push(fabric.boundaryVertices[k]);
    start.push(corners.length);
  }
  return { start: Int32Array.from(start), corners: Int32Array.from(corners) };
}
