import type { Fabric } from '../fabric/fabric.ts';
import { clipEars, doubleArea, restPolygon } from './rest-polygon.ts';
import { createGravity, createSingleLayer, createSlab } from '../solve/index.ts';
import type { EnergyTerm } from '../solve/index.ts';
import { FOLD_SET, FOLD_WIDTH_MM, LAYER_STIFFNESS, LEAST_LAYER_SHARE, PLATE_GAP_MM, PLATE_STIFFNESS, PRESS, SOCK_CLOTH } from './cloth-table.ts';

/**
 * Two plates and the mid-plane between them: the left half of the cloth keeps to y >= 0, the right
 * half to y <= 0, a half thickness off the plane but for the folds at centre back and centre front,
 * where the halves meet.
 */
export function makePlates(fabric: Fabric): EnergyTerm {
  const n = fabric.vertexCount;
  const least = new Float64Array(n), greatest = new Float64Array(n);
  for (let v = 0; v < n; v++) {
    const turn = turnOf(fabric, v);
    const near = Math.min(SOCK_CLOTH.thicknessMm / 2, foldDistance(fabric, v) * 0.25);
    const isLeft = turn > 0 && turn < 0.5, isRight = turn > 0.5;
    least[v] = isLeft ? near : -PLATE_GAP_MM;
    greatest[v] = isRight ? -near : PLATE_GAP_MM;
  }
  return createSlab({ axis: 1, least, greatest, stiffness: PLATE_STIFFNESS });
}

/** A light load that presses each half towards the mid-plane, in proportion to its area. */
export function makePress(fabric: Fabric): EnergyTerm {
  const weights = new Float64Array(fabric.vertexCount);
  for (let cell = 0; cell + 1 < fabric.cellStart.length; cell++) {
    const polygon = restPolygon(fabric, cell);
    let area = 0;
    for (let k = 1; k + 1 < polygon.length; k++) area += doubleArea(polygon[0], polygon[k], polygon[k + 1]) / 2;
    for (const { vertex } of polygon) weights[vertex] += PRESS * area / polygon.length * (turnOf(fabric, vertex) < 0.5 ? 1 : -1);
  }
  return createGravity(weights, [0, -1, 0]);
}

/** Along the course to the nearer of centre back and centre front, mm. */
function foldDistance(fabric: Fabric, vertex: number): number {
  const turn = turnOf(fabric, vertex), half = Math.min(turn, 1 - turn);
  return Math.min(half, 0.5 - half) * fabric.boundaryVertices.length * fabric.courseMm;
}

/** Share of the bending stiffness of courses that is left where the cloth lies folded. */
export function foldShare(fabric: Fabric, vertex: number): number {
  return foldDistance(fabric, vertex) < FOLD_WIDTH_MM ? FOLD_SET : 1;
}

/**
 * Between the plates there is room for one layer a side: cells seen from the side keep their outer
 * face outward. Cells across the folds are free.
 */
export function makeSingleLayer(fabric: Fabric): EnergyTerm {
  const corners: number[] = [], signedAreas: number[] = [];
  for (let cell = 0; cell + 1 < fabric.cellStart.length; cell++) {
    const polygon = restPolygon(fabric, cell);
    const halves = polygon.map((corner) => Math.sign(0.5 - turnOf(fabric, corner.vertex)));
    if (halves.some((half) => half !== halves[0])) continue;
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
