import type { Fabric } from '../fabric/fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';
import { vertexNormals } from './vertex-normals.ts';

/** How stitches lie in space: at every vertex of a fabric a place and three directions. Three entries a vertex. */
export interface LoopFrames {
  readonly positions: Float64Array;
  /** A stitch to the right along the course, mm. */
  readonly across: Float64Array;
  /** From the vertex to that of the loop drawn through its own, or as far again as from the one before, mm. */
  readonly up: Float64Array;
  /** From the mean of the loops it was drawn through to the vertex, or as `up` where there are none, mm. */
  readonly below: Float64Array;
  /** Out of the fabric, unit. */
  readonly normals: Float64Array;
  /** Vertex of the loop drawn through each; -1 for none. */
  readonly childOf: Int32Array;
}

function pairUp(mates: Int32Array, pairs: Int32Array): void {
  for (let i = 0; i + 1 < pairs.length; i += 2) {
    mates[pairs[i]] = pairs[i + 1];
    mates[pairs[i + 1]] = pairs[i];
  }
}

/** Loops beside each other over a seam or the closing of a cast-on; -1 for none. */
function sewnMates(grid: StitchGrid): Int32Array {
  const mates = new Int32Array(grid.loopCount).fill(-1);
  pairUp(mates, grid.seamPairs);
  pairUp(mates, grid.ringPair);
  return mates;
}

/** Frames of the first `fabric.vertexCount` vertices; those beyond are not there yet. */
export function frameLoops(fabric: Fabric, grid: StitchGrid, positions: Float64Array): LoopFrames {
  const { vertexCount, vertexLoop, loopVertex } = fabric, n = 3 * vertexCount, mates = sewnMates(grid);
  const normals = vertexNormals(fabric, positions);
  const across = new Float64Array(n), up = new Float64Array(n), below = new Float64Array(n), childOf = new Int32Array(vertexCount).fill(-1);
  const vertexOf = (loop: number): number => {
    const v = loop < 0 ? -1 : loopVertex[loop];
    return v < vertexCount ? v : -1;
  };
  for (let v = 0; v < vertexCount; v++) {
    const loop = vertexLoop[v], mate = vertexOf(mates[loop]);
    const left = grid.leftOf[loop] < 0 ? mate : vertexOf(grid.leftOf[loop]), right = grid.rightOf[loop] < 0 ? mate : vertexOf(grid.rightOf[loop]);
    const child = childOf[v] = vertexOf(grid.child[loop]);
    spanInto(across, v, positions, left < 0 ? v : left, right < 0 ? v : right, left >= 0 && right >= 0 ? 0.5 : 1);
    if (child >= 0) spanInto(up, v, positions, v, child, 1);
    let parents = 0;
    for (let k = grid.parentStart[loop]; k < grid.parentStart[loop + 1]; k++) if (vertexOf(grid.parents[k]) >= 0) parents++;
    for (let k = grid.parentStart[loop]; k < grid.parentStart[loop + 1]; k++) {
      const parent = vertexOf(grid.parents[k]);
      if (parent >= 0) spanInto(below, v, positions, parent, v, 1 / parents);
    }
    fillMissing({ across, up, below, normals }, v, child >= 0, parents > 0, fabric);
  }
  return { positions, across, up, below, normals, childOf };
}

/** Adds a share of the way from one vertex to another to the entry of vertex v. */
function spanInto(out: Float64Array, v: number, p: Float64Array, from: number, to: number, share: number): void {
  for (let d = 0; d < 3; d++) out[3 * v + d] += share * (p[3 * to + d] - p[3 * from + d]);
}

type Directions = Pick<LoopFrames, 'across' | 'up' | 'below' | 'normals'>;

function fillMissing({ across, up, below, normals }: Directions, v: number, hasChild: boolean, hasParent: boolean, fabric: Fabric): void {
  for (let d = 0; d < 3; d++) {
    const i = 3 * v + d;
    if (!hasChild) up[i] = hasParent ? below[i] : 0;
    if (!hasParent) below[i] = up[i];
  }
  const x = up[3 * v], y = up[3 * v + 1], z = up[3 * v + 2];
  if (across[3 * v] ** 2 + across[3 * v + 1] ** 2 + across[3 * v + 2] ** 2 > 1e-12) return;
  // A loop without neighbours lies square to its wale.
  const nx = normals[3 * v], ny = normals[3 * v + 1], nz = normals[3 * v + 2], length = Math.sqrt(x * x + y * y + z * z) || 1;
  across[3 * v] = (fabric.courseMm / length) * (y * nz - z * ny);
  across[3 * v + 1] = (fabric.courseMm / length) * (z * nx - x * nz);
  across[3 * v + 2] = (fabric.courseMm / length) * (x * ny - y * nx);
}

/** A place in the fabric: x, y, z in mm, and the outward normal there; six entries. */
export type Place = Float64Array;

/**
 * Place of a point of a loop: u stitches to the right of its wale, v rows up from where it was drawn through (0) to
 * where the next loop is drawn through it (1) and beyond, h mm out of the fabric.
 */
export function placeInto(out: Place, frames: LoopFrames, vertex: number, u: number, v: number, h: number): void {
  const { positions, across, up, below, normals, childOf } = frames, a = 3 * vertex;
  const child = childOf[vertex], b = child < 0 ? a : 3 * child, t = v < 0 ? 0 : v > 1 ? 1 : v;
  const beyond = v < 0 ? v : v > 1 ? v - 1 : 0, step = v < 0 ? below : up, from = v < 0 ? a : b;
  let square = 0;
  for (let d = 0; d < 3; d++) {
    const normal = normals[a + d] + t * (normals[b + d] - normals[a + d]), course = across[a + d] + t * (across[b + d] - across[a + d]);
    out[d] = positions[a + d] + t * up[a + d] + beyond * step[from + d] + u * course;
    out[3 + d] = normal;
    square += normal * normal;
  }
  const scale = square > 0 ? 1 / Math.sqrt(square) : 0;
  for (let d = 0; d < 3; d++) {
    out[3 + d] *= scale;
    out[d] += h * out[3 + d];
  }
}
