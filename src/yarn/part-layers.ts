import type { Fabric } from '../fabric/fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';

/** From the middle of a side to that of the sock, thicknesses of yarn: how far in the loops of plain knitting and of rib reach (measured on the loop's shape), and half a yarn more for tails between the sides. */
const PLAIN_HALF = 1.8, RIB_HALF = 2.7;

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
