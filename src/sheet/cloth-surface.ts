import { triangulatePolygon } from '../base/triangulate.ts';
import type { Fabric } from '../fabric/fabric.ts';

/** A posed cloth as one layer of triangles, as other programs want it. */
export interface ClothSurface {
  /** Three entries a point, mm, in the pose's axes. */
  readonly positions: Float64Array;
  /** Three points a triangle, counter-clockwise seen from outside. */
  readonly triangles: Uint32Array;
}

/** Every cell of the cloth cut into triangles; points are the fabric's vertices. */
export function surfaceOf(fabric: Fabric, positions: Float64Array): ClothSurface {
  const { cellStart, cellVertices, cellRestMm } = fabric, cells = cellStart.length - 1;
  const triangles = new Uint32Array(3 * (cellVertices.length - 2 * cells));
  let at = 0;
  for (let cell = 0; cell < cells; cell++) {
    const from = cellStart[cell], to = cellStart[cell + 1];
    for (const corner of triangulatePolygon(cellRestMm.subarray(2 * from, 2 * to))) triangles[at++] = cellVertices[from + corner];
  }
  return { positions, triangles };
}
