import type { Fabric } from '../fabric/fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';
import { vertexNormals } from './vertex-normals.ts';

/** How stitches lie in space: at every vertex of a fabric, where a loop is drawn through another, a place and three directions. Three entries a vertex. */
export interface LoopFrames {
  readonly positions: Float64Array;
  /** A stitch to the right along the course, on either side of the wale, mm: never quite along the wale, as it is where wales turn at a mitre. */
  readonly fromLeft: Float64Array;
  readonly toRight: Float64Array;
  /** A row up along the wale, which runs smoothly through its vertices, mm. */
  readonly along: Float64Array;
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
  const normals = vertexNormals(fabric, positions), fromLeft = new Float64Array(n), toRight = new Float64Array(n), along = new Float64Array(n), childOf = new Int32Array(vertexCount).fill(-1);
  const before = new Float64Array(3), after = new Float64Array(3), up = new Float64Array(3), below = new Float64Array(3);
  const vertexOf = (loop: number): number => {
    const v = loop < 0 ? -1 : loopVertex[loop];
    return v < vertexCount ? v : -1;
  };
  for (let v = 0; v < vertexCount; v++) {
    const loop = vertexLoop[v], mate = vertexOf(mates[loop]), child = childOf[v] = vertexOf(grid.child[loop]);
    const left = grid.leftOf[loop] < 0 ? mate : vertexOf(grid.leftOf[loop]), right = grid.rightOf[loop] < 0 ? mate : vertexOf(grid.rightOf[loop]);
    for (const span of [before, after, up, below]) span.fill(0);
    addSpan(before, positions, left < 0 ? v : left, left < 0 && right >= 0 ? right : v, 1);
    addSpan(after, positions, right < 0 && left >= 0 ? left : v, right < 0 ? v : right, 1);
    if (child >= 0) addSpan(up, positions, v, child, 1);
    const from = grid.parentStart[loop], to = grid.parentStart[loop + 1];
    let parents = 0;
    for (let k = from; k < to; k++) if (vertexOf(grid.parents[k]) >= 0) parents++;
    for (let k = from; k < to; k++) if (vertexOf(grid.parents[k]) >= 0) addSpan(below, positions, vertexOf(grid.parents[k]), v, 1 / parents);
    bisectInto(along, v, up, below);
    uprightInto(fromLeft, v, before, along, normals, fabric);
    uprightInto(toRight, v, after, along, normals, fabric);
  }
  return { positions, fromLeft, toRight, along, normals, childOf };
}

/** Adds a share of the way from one vertex to another. */
function addSpan(out: Float64Array, p: Float64Array, from: number, to: number, share: number): void {
  for (let d = 0; d < 3; d++) out[d] += share * (p[3 * to + d] - p[3 * from + d]);
}

/** The direction between the way up to a vertex and the way on from it, as long as the two are on the mean; where one is missing, the other. */
function bisectInto(out: Float64Array, v: number, up: Float64Array, below: Float64Array): void {
  const high = lengthOf(up), low = lengthOf(below), tall = high > 0 && low > 0 ? 0.5 * (high + low) : high + low;
  let square = 0;
  for (let d = 0; d < 3; d++) {
    out[3 * v + d] = up[d] / (high || 1) + below[d] / (low || 1);
    square += out[3 * v + d] ** 2;
  }
  const scale = square > 0 ? tall / Math.sqrt(square) : 0;
  for (let d = 0; d < 3; d++) out[3 * v + d] *= scale;
}

function lengthOf(a: Float64Array): number { return Math.sqrt(a[0] * a[0] + a[1] * a[1] + a[2] * a[2]); }

/** A course may lie this much along its wale, cosine, and be drawn together to this share of its width; chosen by eye. */
const MOST_SHEAR = 0.5, LEAST_WIDTH = 0.7;

/** The course across a wale: as it is, but no nearer to the wale's direction than a loop can be sheared, and no narrower than it can be squeezed. */
function uprightInto(out: Float64Array, v: number, course: Float64Array, along: Float64Array, normals: Float64Array, { courseMm, ribCourseMm }: Fabric): void {
  const i = 3 * v, wx = along[i], wy = along[i + 1], wz = along[i + 2], nx = normals[i], ny = normals[i + 1], nz = normals[i + 2];
  let sx = wy * nz - wz * ny, sy = wz * nx - wx * nz, sz = wx * ny - wy * nx;
  const square = Math.sqrt(sx * sx + sy * sy + sz * sz) || 1, tall = Math.sqrt(wx * wx + wy * wy + wz * wz) || 1;
  sx /= square; sy /= square; sz /= square;
  const beside = course[0] * sx + course[1] * sy + course[2] * sz, ahead = (course[0] * wx + course[1] * wy + course[2] * wz) / tall;
  const width = Math.max(beside, LEAST_WIDTH * Math.min(courseMm, ribCourseMm)), most = MOST_SHEAR * width, shear = Math.max(-most, Math.min(most, ahead)) / tall;
  out[i] = width * sx + shear * wx;
  out[i + 1] = width * sy + shear * wy;
  out[i + 2] = width * sz + shear * wz;
}

/** A place in the fabric: x, y, z in mm, and the outward normal there; six entries. */
export type Place = Float64Array;

/**
 * Place of a point of a loop: u stitches to the right of its wale, v rows up from where it was drawn through (0) to
 * where the next loop is drawn through it (1) and beyond, h mm out of the fabric. Between the two the wale is a cubic (Hermite) that
 * leaves and comes along them, so that yarn at either place lies in that place's own frame, whichever loop it is of.
 */
export function placeInto(out: Place, frames: LoopFrames, vertex: number, u: number, v: number, h: number): void {
  const { positions, along, normals, childOf } = frames, a = 3 * vertex, across = u < 0 ? frames.fromLeft : frames.toRight;
  const child = childOf[vertex], b = child < 0 ? a : 3 * child, t = v < 0 ? 0 : v > 1 ? 1 : v, s = 1 - t;
  const leaving = t * s * s, coming = -t * t * s, far = t * t * (3 - 2 * t), beyond = v < 0 ? v : v > 1 ? v - 1 : 0;
  let square = 0;
  for (let d = 0; d < 3; d++) {
    const normal = normals[a + d] + t * (normals[b + d] - normals[a + d]), course = across[a + d] + t * (across[b + d] - across[a + d]);
    const axis = child < 0
      ? positions[a + d] + v * along[a + d]
      : positions[a + d] + far * (positions[b + d] - positions[a + d]) + leaving * along[a + d] + coming * along[b + d] + beyond * along[(v < 0 ? a : b) + d];
    out[d] = axis + u * course;
    out[3 + d] = normal;
    square += normal * normal;
  }
  const scale = square > 0 ? 1 / Math.sqrt(square) : 0;
  for (let d = 0; d < 3; d++) {
    out[3 + d] *= scale;
    out[d] += h * out[3 + d];
  }
}
