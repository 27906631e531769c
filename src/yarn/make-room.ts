import type { Fabric } from '../fabric/fabric.ts';
import { LOOP } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { Closing } from './close-frames.ts';
import { vertexOf } from './lay-desk.ts';

/** Rows of yarn between the places of two loops that are grafted: the one loop, the graft, the other. The cloth has one. */
const ROWS_NEEDED = 3;

/** Rows that draw together to make room; chosen by eye. */
const ROWS_MOVED = 12;

function parentsOf(fabric: Fabric, grid: StitchGrid, vertex: number): number[] {
  const loop = fabric.vertexLoop[vertex], parents: number[] = [];
  for (let k = grid.parentStart[loop]; k < grid.parentStart[loop + 1]; k++) {
    const parent = vertexOf(fabric, grid.parents[k]);
    if (parent >= 0) parents.push(parent);
  }
  return parents;
}

function distance(p: Float64Array, a: number, b: number): number {
  let square = 0;
  for (let d = 0; d < 3; d++) square += (p[3 * b + d] - p[3 * a + d]) ** 2;
  return Math.sqrt(square);
}

/** Moves a vertex towards those below it by so many mm, one row at most. */
function lower(out: Float64Array, p: Float64Array, vertex: number, parents: readonly number[], by: number): void {
  for (const parent of parents) {
    const share = Math.min(1, by / (distance(p, vertex, parent) || 1)) / parents.length;
    for (let d = 0; d < 3; d++) out[3 * vertex + d] += share * (p[3 * parent + d] - p[3 * vertex + d]);
  }
}

/**
 * Vertex positions for the yarn of a grafted fabric: the last rows of both sides draw together, each a little less than the one after it, so that
 * the graft has the room of a row and neither stands up as a ridge nor reaches over the edge.
 */
export function makeRoom(fabric: Fabric, grid: StitchGrid, positions: Float64Array, closings: readonly Closing[]): Float64Array {
  const grafts = closings.filter(({ loop, far }) => grid.kind[loop] === LOOP.graft && far >= 0);
  if (grafts.length === 0) return positions;
  const out = positions.slice();
  for (const { near, far } of grafts) {
    const sides = [near, far].map((vertex) => ({ row: [vertex], parents: parentsOf(fabric, grid, vertex) }));
    if (sides.some(({ parents }) => parents.length === 0)) continue;
    const rowMm = 0.5 * sides.reduce((sum, { row, parents }) => sum + distance(positions, row[0], parents[0]), 0);
    const shift = Math.max(0, 0.5 * (ROWS_NEEDED * rowMm - distance(positions, near, far)));
    for (let { row } of sides) {
      for (let j = 0; j < ROWS_MOVED; j++) {
        row = row.flatMap((vertex) => {
          const parents = parentsOf(fabric, grid, vertex);
          lower(out, positions, vertex, parents, shift * (1 - j / ROWS_MOVED));
          return parents;
        });
      }
    }
  }
  return out;
}
