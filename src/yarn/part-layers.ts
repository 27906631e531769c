import type { Fabric } from '../fabric/fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';

/** Half the thickness of plain knitting and of rib, in thicknesses of yarn: how far the loops' legs lie out, and half a yarn; of rib with its depth. Measured on the loop's shape. */
const PLAIN_HALF = 1.3, RIB_HALF = 2.2;

/**
 * A sock between two plates, its sides as far apart as their loops need: the shape has them a stitch apart, and two ribs a rib stitch, in which the
 * wales that stand inwards would run through each other. Across the plates, y, alone; vertices on the fold stay.
 */
export function partLayers(fabric: Fabric, grid: StitchGrid, positions: Float64Array, diameterMm: number): Float64Array {
  const apart = positions.slice();
  for (let v = 0; v < fabric.vertexCount; v++) {
    const y = positions[3 * v + 1], half = diameterMm * (grid.isRib[fabric.vertexLoop[v]] === 1 ? RIB_HALF : PLAIN_HALF);
    if (Math.abs(y) > 0.1 * half && Math.abs(y) < half) apart[3 * v + 1] = y < 0 ? -half : half;
  }
  return apart;
}
