import type { Fabric } from '../fabric/fabric.ts';
import { createSingleLayer } from '../solve/index.ts';
import type { EnergyTerm } from '../solve/index.ts';
import { LAYER_STIFFNESS, LEAST_LAYER_SHARE } from './cloth-table.ts';
import { clipEars, doubleArea, restPolygon } from './rest-polygon.ts';

/** The axis across a sock laid flat: y. Between the plates its coordinates are given, not found. */
export const FLAT_AXIS = 1;

/**
 * Lays the left half of the cloth on one plate and the right half on the other, in place: y half a
 * stitch off the mid-plane, so that the stitches across the folds at centre back and centre front
 * stand upright between the halves, as long as they are at rest. A stitch right on a fold, as a slanted
 * toe has them where the fold goes over from wale to wale, lies between.
 */
export function layOnPlates(fabric: Fabric, positions: Float64Array): void {
  const isRib = ribVertices(fabric);
  for (let v = 0; v < fabric.vertexCount; v++) {
    const half = (isRib[v] === 1 ? fabric.ribCourseMm : fabric.courseMm) / 2;
    const side = isOnFold(fabric, v) ? 0 : turnOf(fabric, v) < 0.5 ? 1 : -1;
    positions[3 * v + FLAT_AXIS] = side * half;
  }
}

function ribVertices(fabric: Fabric): Uint8Array {
  const isRib = new Uint8Array(fabric.vertexCount);
  for (let cell = 0; cell + 1 < fabric.cellStart.length; cell++) {
    if (fabric.cellIsRib[cell] === 0) continue;
    for (let k = fabric.cellStart[cell]; k < fabric.cellStart[cell + 1]; k++) isRib[fabric.cellVertices[k]] = 1;
  }
  return isRib;
}

/** Nearer to centre back or centre front than a quarter of a stitch; stitches beside a fold are half a stitch off. */
function isOnFold(fabric: Fabric, vertex: number): boolean {
  const turn = turnOf(fabric, vertex), half = Math.min(turn, 1 - turn);
  return Math.min(half, 0.5 - half) * fabric.boundaryVertices.length < 0.25;
}

/** Courses do not resist their fold at centre back and centre front: cloth that lies folded takes a set. */
export function isAtFold(fabric: Fabric, vertex: number): boolean {
  const turn = turnOf(fabric, vertex), half = Math.min(turn, 1 - turn);
  return Math.min(half, 0.5 - half) * fabric.boundaryVertices.length < 1;
}

/**
 * Between the plates there is room for one layer a side: cells seen from the side keep their outer
 * face outward. Cells across the folds are free.
 */
export function makeSingleLayer(fabric: Fabric): EnergyTerm {
  const corners: number[] = [], signedAreas: number[] = [];
  for (let cell = 0; cell + 1 < fabric.cellStart.length; cell++) {
    const polygon = restPolygon(fabric, cell);
    const halves = polygon.map(({ vertex }) => (isOnFold(fabric, vertex) ? 0 : Math.sign(0.5 - turnOf(fabric, vertex))));
    if (halves[0] === 0 || halves.some((half) => half !== halves[0])) continue;
    const parts = polygon.length === 4
      ? polygon.map((corner, k) => [corner, polygon[(k + 1) % 4], polygon[(k + 3) % 4]])
      : clipEars(polygon);
    for (const [a, b, c] of parts) {
      corners.push(a.vertex, b.vertex, c.vertex);
      signedAreas.push(halves[0] * doubleArea(a, b, c) / 2);
    }
  }
  return createSingleLayer({
    corners: Int32Array.from(corners), signedAreas: Float64Array.from(signedAreas),
    // Counter-clockwise seen from the left (y upward) runs from z to x.
    axes: [2, 0], leastShare: LEAST_LAYER_SHARE, stiffness: LAYER_STIFFNESS,
  });
}

function turnOf(fabric: Fabric, vertex: number): number {
  return fabric.vertexAround[vertex] - Math.floor(fabric.vertexAround[vertex]);
}
