import type { Fabric } from '../fabric/fabric.ts';
import { createQuadMembrane, createTriangleMembrane } from '../solve/index.ts';
import type { EnergyTerm, MembraneLaw } from '../solve/index.ts';
import type { Beds, Hanging } from './beds-start.ts';
import { makeClothElements } from './cloth-elements.ts';

/** Stitches whose needles stand farther apart than this many pitches bridge the ends of the beds; neighbours elsewhere are one apart. */
const REACH = 1.5;

/** A cloth's cells in two parts of the same vertices. */
export interface BridgedCloth { readonly plain: Fabric; readonly bridges: Fabric }

/**
 * Sets apart the cells whose stitches hang on needles far from each other: beside a heel on more than half
 * of the stitches, where the heel's bed has needles beyond the other's end.
 */
export function partBridges(fabric: Fabric, { needles }: Hanging, { needlePitchMm }: Beds): BridgedCloth {
  const isBridge = (cell: number): boolean => {
    let low = Infinity, high = -Infinity;
    for (let k = fabric.cellStart[cell]; k < fabric.cellStart[cell + 1]; k++) {
      const x = needles[3 * fabric.cellVertices[k]];
      low = Math.min(low, x);
      high = Math.max(high, x);
    }
    return high - low > REACH * needlePitchMm;
  };
  const cells = Array.from({ length: fabric.cellStart.length - 1 }, (_, cell) => cell), bridges = cells.filter(isBridge);
  if (bridges.length === 0) return { plain: fabric, bridges: pickCells(fabric, []) };
  return { plain: pickCells(fabric, cells.filter((cell) => !isBridge(cell))), bridges: pickCells(fabric, bridges) };
}

/**
 * Their membrane: they draw yarn from the stitches beside them, so they give as far as they must and never
 * stiffen. `chosen by eye`.
 */
export function makeBridges(bridges: Fabric, law: MembraneLaw): EnergyTerm[] {
  if (bridges.cellStart.length < 2) return [];
  const { rectangles, triangles } = makeClothElements(bridges), slack = { ...law, stiffening: 0 };
  return [
    ...(rectangles.widths.length > 0 ? [createQuadMembrane(rectangles, slack)] : []),
    ...(triangles.shares.length > 0 ? [createTriangleMembrane(triangles, slack)] : []),
  ];
}

function pickCells(fabric: Fabric, cells: readonly number[]): Fabric {
  const start = [0], vertices: number[] = [], rest: number[] = [], isRib: number[] = [];
  for (const cell of cells) {
    for (let k = fabric.cellStart[cell]; k < fabric.cellStart[cell + 1]; k++) {
      vertices.push(fabric.cellVertices[k]);
      rest.push(fabric.cellRestMm[2 * k], fabric.cellRestMm[2 * k + 1]);
    }
    isRib.push(fabric.cellIsRib[cell]);
    start.push(vertices.length);
  }
  return {
    ...fabric, cellStart: Int32Array.from(start), cellVertices: Int32Array.from(vertices), cellRestMm: Float64Array.from(rest), cellIsRib: Uint8Array.from(isRib),
  };
}
