import { cos, sin } from '../base/portable-math.ts';
import type { Fabric } from '../fabric/fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';
import { createGapContact } from '../solve/index.ts';
import type { EnergyTerm } from '../solve/index.ts';
import { PLATE_STIFFNESS, SOCK_CLOTH } from './cloth-table.ts';
import { isFanToeSection, isHeelSection } from './sock-profile.ts';

/** Slope of the line along which layers keep their order, radian. `chosen by eye`. */
const SLOPE = 0.2;

/** Rows of heel and short-row toe, by wale. */
export interface Pouches {
  /** Rows of the pouch that the loop's wale runs through next (or that it lies in): 0 without one. */
  readonly rows: Int32Array;
  /** For a loop of a pouch, how far along its wale's rows there: above 0 to 1; else 0. */
  readonly place: Float64Array;
  /** For a loop below a pouch, how many rows; else -1. */
  readonly distance: Int32Array;
  /** First loop of each wale in a pouch. */
  readonly first: readonly number[];
}

export function isPouchSection(section: number): boolean { return isHeelSection(section) || isFanToeSection(section); }

/** The vertex of the loop drawn through that of `v`, -1 if there is none yet. */
export function childOf(fabric: Fabric, grid: StitchGrid, v: number): number {
  const child = grid.child[fabric.vertexLoop[v]];
  return child < 0 ? -1 : fabric.loopVertex[child];
}

/** Follows each wale through the rows of heel and short-row toe. */
export function findPouches(fabric: Fabric, grid: StitchGrid): Pouches {
  const n = fabric.vertexCount;
  const rows = new Int32Array(n), place = new Float64Array(n), distance = new Int32Array(n).fill(-1), index = new Int32Array(n), first: number[] = [];
  const isPouch = (v: number): boolean => isPouchSection(fabric.vertexSection[v]);
  for (let v = 0; v < n; v++) {
    const next = childOf(fabric, grid, v);
    if (!isPouch(v)) continue;
    if (index[v] === 0) first.push(v);
    index[v]++;
    if (next >= 0 && isPouch(next)) index[next] = index[v];
  }
  for (let v = n - 1; v >= 0; v--) {
    const next = childOf(fabric, grid, v), isNextInside = next >= 0 && isPouch(next);
    if (isPouch(v)) {
      rows[v] = isNextInside ? rows[next] : index[v];
      place[v] = index[v] / rows[v];
    } else if (isNextInside || next >= 0 && distance[next] >= 0) {
      rows[v] = rows[next];
      distance[v] = isNextInside ? 0 : distance[next] + 1;
    }
  }
  return { rows, place, distance, first };
}

/**
 * Keeps the layers of a pouch in order: of the rows of a wale there, the upper half lies outside the
 * lower. Loops equally far from the middle face each other; their order holds along a line that slopes
 * down a little inward, so that a pouch that hangs open, the inner rows below, is free.
 */
export function makePouchContacts(fabric: Fabric, grid: StitchGrid, pouches: Pouches, side: Int8Array): EnergyTerm[] {
  return [-1, 1].flatMap((ofSide) => {
    const outer: number[] = [], inner: number[] = [], clearances: number[] = [];
    for (const start of pouches.first) {
      if (side[start] !== ofSide) continue;
      const wale: number[] = [];
      for (let v = start; v >= 0 && isPouchSection(fabric.vertexSection[v]); v = childOf(fabric, grid, v)) wale.push(v);
      for (let k = 0; k < Math.floor(wale.length / 2); k++) {
        inner.push(wale[k]);
        outer.push(wale[wale.length - 1 - k]);
        clearances.push(Math.min(SOCK_CLOTH.thicknessMm / 2, 0.25 * (wale.length / 2 - k) * fabric.waleMm));
      }
    }
    if (outer.length === 0) return [];
    return [createGapContact({
      first: Int32Array.from(outer), second: Int32Array.from(inner), clearances: Float64Array.from(clearances),
      direction: [0, -ofSide * cos(SLOPE), -sin(SLOPE)], stiffness: PLATE_STIFFNESS,
    })];
  });
}
