import type { Fabric } from '../fabric/fabric.ts';
import { SECTION } from '../machine/codes.ts';
import type { Surface } from './surface.ts';

/** What is known of a triangle for the search round the heel: bits of `sortTriangles`. */
export const PART = {
  /** Nothing of its cell lies on the right, or on the left: cells on a centre line have both. */
  left: 1, right: 2,
  /** Its cell lies across the centre front. */
  front: 4,
  /** Its cell was knitted turning down, or turning out. */
  heelIn: 8, heelOut: 16,
} as const;

/** The cell's newest loop tells what it was knitted with. */
function sectionOf(fabric: Fabric, cell: number): number {
  let newest = fabric.cellVertices[fabric.cellStart[cell]];
  for (let i = fabric.cellStart[cell]; i < fabric.cellStart[cell + 1]; i++) {
    if (fabric.vertexPass[fabric.cellVertices[i]] > fabric.vertexPass[newest]) newest = fabric.cellVertices[i];
  }
  return fabric.vertexSection[newest];
}

function isHeel(section: number): boolean {
  return section === SECTION['heel-in'] || section === SECTION['heel-level'] || section === SECTION['heel-out'];
}

/** The cells of the heel and of the tube within `rows` rows of the row at which it branches off. */
export function listHeelCells(fabric: Fabric, heelRow: number, rows: number): Int32Array {
  const cells: number[] = [];
  for (let cell = 0; cell + 1 < fabric.cellStart.length; cell++) {
    if (Math.abs(fabric.vertexRow[fabric.cellVertices[fabric.cellStart[cell]]] - heelRow) <= rows) cells.push(cell);
  }
  return Int32Array.from(cells);
}

/** PART bits of each triangle. */
export function sortTriangles(fabric: Fabric, surface: Surface): Uint8Array {
  const parts = new Uint8Array(surface.triangleCount);
  for (let t = 0; t < surface.triangleCount; t++) {
    const cell = surface.triangleCell[t];
    if (t > 0 && surface.triangleCell[t - 1] === cell) {
      parts[t] = parts[t - 1];
      continue;
    }
    parts[t] = sidesOf(fabric, cell);
    const section = sectionOf(fabric, cell);
    if (!isHeel(section)) continue;
    if (section === SECTION['heel-in']) parts[t] |= PART.heelIn;
    if (section === SECTION['heel-out']) parts[t] |= PART.heelOut;
  }
  return parts;
}

function sidesOf(fabric: Fabric, cell: number): number {
  let isLeft = false;
  let isRight = false;
  let forward = 0;
  for (let i = fabric.cellStart[cell]; i < fabric.cellStart[cell + 1]; i++) {
    const turn = 2 * Math.PI * fabric.vertexAround[fabric.cellVertices[i]];
    isLeft ||= Math.sin(turn) > 0;
    isRight ||= Math.sin(turn) < 0;
    forward -= Math.cos(turn);
  }
  if (isLeft !== isRight) return isLeft ? PART.left : PART.right;
  return PART.left | PART.right | (forward > 0 ? PART.front : 0);
}
