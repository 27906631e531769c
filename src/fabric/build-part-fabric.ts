import type { StitchGrid } from '../machine/grid.ts';
import { buildFabric } from './build-fabric.ts';
import type { Fabric } from './fabric.ts';

/**
 * The cloth of a piece's first loops (see `gridAtPass`), as it is on the needles. Its vertices are the
 * first ones of the whole cloth, in the same order, and keep the places that they will have on it.
 */
export function buildPartFabric(part: StitchGrid, whole: Fabric): Fabric {
  const { courseMm, waleMm, ribCourseMm } = whole;
  const fabric = buildFabric(part, { courseMm, waleMm, ribCourseMm }), n = fabric.vertexCount;
  return {
    ...fabric,
    vertexAround: whole.vertexAround.slice(0, n), vertexRow: whole.vertexRow.slice(0, n), vertexFan: whole.vertexFan.slice(0, n),
  };
}
