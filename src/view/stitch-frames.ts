import type { Fabric } from '../fabric/fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';

/** Entries a corner: x, y of the loop in its cell's rest plane, the matrix of its frame row by row, the vertex, 0. Lengths across in usual stitches of the cell, along in rows. */
export const CORNER_STRIDE = 8;

/** Partner of each loop over a seam or a ring's closing, and over a graft or bind-off; -1 where there is none. */
interface Mates { readonly beside: Int32Array; readonly above: Int32Array }

function pairUp(mates: Int32Array, pairs: Int32Array): void {
  for (let i = 0; i + 1 < pairs.length; i += 2) {
    mates[pairs[i]] = pairs[i + 1];
    mates[pairs[i + 1]] = pairs[i];
  }
}

function findMates(grid: StitchGrid): Mates {
  const beside = new Int32Array(grid.loopCount).fill(-1);
  const above = new Int32Array(grid.loopCount).fill(-1);
  pairUp(beside, grid.seamPairs);
  pairUp(beside, grid.ringPair);
  pairUp(above, grid.joinPairs);
  return { beside, above };
}

/** Steps of a direction code: 0 right, 1 up, 2 left, 3 down. */
const STEP_X = [1, 0, -1, 0] as const, STEP_Y = [0, 1, 0, -1] as const;

/** Direction in which loop `to` stands as seen from loop `from`; -1 if they are no neighbours by course, wale, seam or join (a mitre edge). */
function directionOf(grid: StitchGrid, mates: Mates, from: number, to: number): number {
  if (grid.child[from] === to) return 1;
  if (grid.child[to] === from) return 3;
  if (grid.rightOf[from] === to) return 0;
  if (grid.leftOf[from] === to) return 2;
  if (mates.beside[from] === to) return grid.leftOf[from] < 0 ? 2 : 0;
  return mates.above[from] === to ? 1 : -1;
}

/** For each corner of each cell the direction of the next corner, and of the one before it. */
interface CornerTurns { readonly next: Int8Array; readonly prev: Int8Array }

function cornerTurns(fabric: Fabric, grid: StitchGrid): CornerTurns {
  const { cellStart, cellVertices, vertexLoop } = fabric;
  const mates = findMates(grid);
  const next = new Int8Array(cellVertices.length), prev = new Int8Array(cellVertices.length);
  for (let cell = 0; cell + 1 < cellStart.length; cell++) {
    const from = cellStart[cell], to = cellStart[cell + 1];
    for (let k = from; k < to; k++) {
      const kn = k + 1 < to ? k + 1 : from;
      const a = vertexLoop[cellVertices[k]], b = vertexLoop[cellVertices[kn]];
      next[k] = directionOf(grid, mates, a, b);
      prev[kn] = directionOf(grid, mates, b, a);
    }
  }
  return { next, prev };
}

/** Lower left corner of a cell whose four edges run right, up, left, down; -1 for any other cell. */
function lowerLeft(turns: CornerTurns, from: number, to: number): number {
  if (to - from !== 4) return -1;
  const first = turns.next[from];
  for (let k = 0; k < 4; k++) {
    const isInTurn = turns.next[from + k] === ((first + k) & 3) && turns.prev[from + k] === ((first + k + 1) & 3);
    if (first < 0 || !isInTurn) return -1;
  }
  return from + ((4 - first) & 3);
}

/** Frame that maps one known edge exactly and its perpendicular at the usual size. */
function frameOfEdge(out: Float64Array, direction: number, rx: number, ry: number): void {
  const sign = STEP_X[direction] + STEP_Y[direction];
  const square = rx * rx + ry * ry, length = Math.sqrt(square);
  const ux = (sign * rx) / length, uy = (sign * ry) / length;
  if (STEP_Y[direction] === 0) out.set([(sign * rx) / square, (sign * ry) / square, -uy, ux]);
  else out.set([uy, -ux, (sign * rx) / square, (sign * ry) / square]);
}

/** Whether a frame keeps the sides of the cloth and is no more than about threefold off the plain stitch. */
function isSane(m: Float64Array): boolean {
  const area = m[0] * m[3] - m[1] * m[2];
  return area > 0.2 && area < 4 && m.every((entry) => Math.abs(entry) < 3);
}

/** Fills the 2 x 2 frame from the directions of the two edges at a corner and their vectors at rest. */
function solveFrameInto(m: Float64Array, next: number, prev: number, r: Float64Array): void {
  const nx = r[0], ny = r[1], px = r[2], py = r[3], det = nx * py - ny * px;
  const isCrossed = next >= 0 && prev >= 0 && ((next ^ prev) & 1) === 1 && Math.abs(det) > 1e-9;
  if (isCrossed) {
    m[0] = (STEP_X[next] * py - STEP_X[prev] * ny) / det;
    m[1] = (STEP_X[prev] * nx - STEP_X[next] * px) / det;
    m[2] = (STEP_Y[next] * py - STEP_Y[prev] * ny) / det;
    m[3] = (STEP_Y[prev] * nx - STEP_Y[next] * px) / det;
  } else if (next >= 0) frameOfEdge(m, next, nx, ny);
  else if (prev >= 0) frameOfEdge(m, prev, px, py);
  if ((next < 0 && prev < 0) || !isSane(m)) m.set([1, 0, 0, 1]);
}

/** The cells' rest polygons measured in usual stitches of their kind across and rows along; two entries a corner. */
function restInStitches(fabric: Fabric): Float64Array {
  const rest = new Float64Array(fabric.cellRestMm.length);
  for (let cell = 0; cell + 1 < fabric.cellStart.length; cell++) {
    const course = fabric.cellIsRib[cell] ? fabric.ribCourseMm : fabric.courseMm;
    for (let k = fabric.cellStart[cell]; k < fabric.cellStart[cell + 1]; k++) {
      rest[2 * k] = fabric.cellRestMm[2 * k] / course;
      rest[2 * k + 1] = fabric.cellRestMm[2 * k + 1] / fabric.waleMm;
    }
  }
  return rest;
}

/** How stitches lie in the cells. */
export interface StitchFrames {
  /** Two entries a corner: its place in the cell's plane, stitches across and rows along. A regular cell is the unit square, lower left at (0, 0). */
  readonly rest: Float64Array;
  /** For each cell the corner at its lower left if its four edges are two courses and two wales, else -1. */
  readonly lowerLeft: Int32Array;
  /** CORNER_STRIDE entries a corner. */
  readonly corners: Float32Array;
}

/**
 * For every corner of every cell the frame of its loop: q = M (p - corner) is the place of a
 * point p of the cell's rest plane in stitches to the right and rows up from that loop. Edges
 * along courses and wales become unit steps, so what is drawn by one loop meets over an edge
 * from both its cells, whatever their shape.
 */
export function stitchFrames(fabric: Fabric, grid: StitchGrid): StitchFrames {
  const { cellStart, cellVertices } = fabric, cellCount = cellStart.length - 1;
  const turns = cornerTurns(fabric, grid), rest = restInStitches(fabric);
  const corners = new Float32Array(CORNER_STRIDE * cellVertices.length), lower = new Int32Array(cellCount).fill(-1);
  const edges = new Float64Array(4), matrix = new Float64Array(4);
  for (let cell = 0; cell < cellCount; cell++) {
    const from = cellStart[cell], to = cellStart[cell + 1], n = to - from;
    const corner = lower[cell] = lowerLeft(turns, from, to);
    for (let i = 0; corner >= 0 && i < 4; i++) {
      const k = from + ((corner - from + i) & 3);
      rest[2 * k] = i === 1 || i === 2 ? 1 : 0;
      rest[2 * k + 1] = i >= 2 ? 1 : 0;
    }
    for (let k = from; k < to; k++) {
      const kn = from + ((k - from + 1) % n), kp = from + ((k - from + n - 1) % n);
      const x = rest[2 * k], y = rest[2 * k + 1];
      edges[0] = rest[2 * kn] - x; edges[1] = rest[2 * kn + 1] - y;
      edges[2] = rest[2 * kp] - x; edges[3] = rest[2 * kp + 1] - y;
      solveFrameInto(matrix, turns.next[k], turns.prev[k], edges);
      const at = CORNER_STRIDE * k;
      corners[at] = x; corners[at + 1] = y; corners[at + 6] = cellVertices[k];
      corners.set(matrix, at + 2);
    }
  }
  return { rest, lowerLeft: lower, corners };
}
