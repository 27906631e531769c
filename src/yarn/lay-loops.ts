import { LOOP } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import { type LayDesk, vertexOf, writePoint } from './lay-desk.ts';
import { placeInto } from './loop-frames.ts';
import { PIECE_POINTS } from './yarn-lay.ts';

/** Thicknesses of yarn from the middle of a rib to that of its knit wales, and of its purl wales on the other side, at rest; chosen by eye. */
const RIB_DEPTH = 0.9;

/** Of the loops on one needle the one that was moved there lies nearer to the eye, the others behind: thicknesses; so that two lie a thickness apart. */
const OVER = 0.3, UNDER = -0.7;

/** +1 where a loop's yarn runs to the right as seen from outside, else -1. */
export function runOf(grid: StitchGrid, loop: number): number {
  const { yarnAfter, yarnBefore, leftOf, rightOf } = grid, before = yarnBefore[loop], after = yarnAfter[loop];
  if (after >= 0 && rightOf[loop] === after) return 1;
  if (after >= 0 && leftOf[loop] === after) return -1;
  if (before >= 0 && leftOf[loop] === before) return 1;
  if (before >= 0 && rightOf[loop] === before) return -1;
  return 1;
}

/** Layers of loops that one loop was drawn through together: see LayDesk. */
export function layerLoops(grid: StitchGrid): Float32Array {
  const layers = new Float32Array(grid.loopCount);
  for (let loop = 0; loop < grid.loopCount; loop++) {
    const from = grid.parentStart[loop], to = grid.parentStart[loop + 1];
    let stitches = 0;
    for (let k = from; k < to; k++) if (grid.wrapHost[grid.parents[k]] < 0) stitches++;
    if (stitches < 2) continue;
    for (let k = from; k < to; k++) layers[grid.parents[k]] = grid.lean[grid.parents[k]] !== 0 ? OVER : UNDER;
  }
  return layers;
}

/** Middle of a wale of rib out of the fabric's, in thicknesses; less where the rib is drawn wider than at rest. */
function ribDepth({ frames: { fromLeft, toRight }, fabric: { ribCourseMm } }: LayDesk, vertex: number): number {
  let square = 0;
  for (let i = 3 * vertex; i < 3 * vertex + 3; i++) square += (0.5 * (fromLeft[i] + toRight[i])) ** 2;
  return RIB_DEPTH * Math.min(1, ribCourseMm / Math.sqrt(square + 1e-12));
}

/** Which side of the fabric a loop shows its knit side to, outside 1 and inside -1; how far its wale lies out on that side, in thicknesses; and how wide a stitch like it is at rest. */
interface Stand { readonly face: number; readonly depth: number; readonly courseMm: number }

function standOf(desk: LayDesk, loop: number): Stand {
  const { grid, fabric } = desk, vertex = vertexOf(fabric, loop), isRib = grid.isRib[loop] === 1;
  return { face: grid.isPurl[loop] === 1 ? -1 : 1, depth: isRib && vertex >= 0 ? ribDepth(desk, vertex) : 0, courseMm: isRib ? fabric.ribCourseMm : fabric.courseMm };
}

/**
 * A knitted or cast-on loop: the plain loop's shape, carried along by the fabric's frame; a purl one from behind; a rib's wales before and behind its
 * middle, on plain loops' width, the yarn from one to the next running through it. Its upper half lies as the loop drawn through it asks, whose yarn passes behind its legs.
 */
export function layLoop(desk: LayDesk, piece: number): void {
  const { fabric, grid, thread, frames, shapes, layers, diameterMm } = desk, loop = thread.loop[piece], vertex = vertexOf(fabric, loop), child = grid.child[loop];
  const run = runOf(grid, loop), { points } = shapes[grid.yarn[loop]], own = standOf(desk, loop);
  const top = child >= 0 && grid.kind[child] === LOOP.knit ? standOf(desk, child) : own;
  const diameter = diameterMm[grid.yarn[loop]];
  for (let k = 0; k < PIECE_POINTS; k++) {
    const v = points[3 * k + 1], isBetween = (k === 0 && goesOn(desk, loop, grid.yarnBefore[loop])) || (k === PIECE_POINTS - 1 && goesOn(desk, loop, grid.yarnAfter[loop]));
    const { face, depth, courseMm } = v > 0.5 ? top : own;
    const isTurn = grid.selvedge[loop] > 0 && ((k === 0 && turnsTo(desk, loop, grid.yarnBefore[loop])) || (k === PIECE_POINTS - 1 && turnsTo(desk, loop, grid.yarnAfter[loop])));
    const u = isBetween || isTurn ? (k === 0 ? -1 : 1) * (isTurn ? TURN_REACH : 0.42) : points[3 * k] / courseMm;
    const height = face * (isBetween ? 0.2 * depth : points[3 * k + 2] + depth + layers[loop] * Math.max(0, Math.min(1, 2 * v - 1)));
    placeInto(PLACE, frames, vertex, run * u, v, height * diameter);
    writePoint(desk, PIECE_POINTS * piece + k, PLACE, height);
  }
}

/** Whether the yarn goes from a loop of rib to one beside it. */
function goesOn({ grid }: LayDesk, loop: number, other: number): boolean {
  return grid.isRib[loop] === 1 && other >= 0 && (grid.leftOf[loop] === other || grid.rightOf[loop] === other);
}

/** Stitches from an edge's wale to which the yarn reaches out before it turns into the next row: round the loop that it comes from; chosen by eye. */
const TURN_REACH = 0.66;

/** Whether the yarn goes from a loop at an edge up or down to another row of that edge. */
function turnsTo({ grid }: LayDesk, loop: number, other: number): boolean {
  return other >= 0 && grid.kind[other] <= LOOP.knit && grid.leftOf[loop] !== other && grid.rightOf[loop] !== other;
}

const PLACE = new Float64Array(6);

/**
 * A wrap round a held loop: stitches towards the side that the yarn comes from, rows up from where the held loop was drawn through, thicknesses towards its knit
 * side. It lies before the held loop's legs, goes round it on the far side and comes back behind its head, where the next loop is drawn through both; chosen by eye.
 */
const WRAP_POINTS = [
  [0.52, 0.6, -0.5], [0.47, 0.56, 0.5], [0.3, 0.58, 1.45], [0.02, 0.57, 1.7], [-0.26, 0.61, 1.5], [-0.46, 0.73, 0.6],
  [-0.48, 0.93, -0.4], [-0.38, 1.16, -1.25], [-0.14, 1.33, -1.6], [0.13, 1.33, -1.6], [0.33, 1.16, -1.4], [0.46, 0.98, -1],
] as const;

export function layWrap(desk: LayDesk, piece: number): void {
  const { fabric, grid, thread, frames, diameterMm } = desk, wrap = thread.loop[piece], host = grid.wrapHost[wrap], vertex = vertexOf(fabric, host);
  const side = sideOf(desk, wrap, vertex), face = grid.isPurl[host] === 1 ? -1 : 1, diameter = diameterMm[grid.yarn[wrap]];
  WRAP_POINTS.forEach(([u, v, h], k) => {
    placeInto(PLACE, frames, vertex, side * u, v, face * h * diameter);
    writePoint(desk, PIECE_POINTS * piece + k, PLACE, face * h);
  });
}

/** +1 where the yarn comes to a wrap from the right of its host, as seen from outside, -1 from the left. */
function sideOf({ fabric, grid, frames: { positions, toRight } }: LayDesk, wrap: number, host: number): number {
  const before = vertexOf(fabric, grid.yarnBefore[wrap]), from = before >= 0 ? before : vertexOf(fabric, grid.yarnAfter[wrap]);
  if (from < 0) return 1;
  let dot = 0;
  for (let d = 0; d < 3; d++) dot += (positions[3 * from + d] - positions[3 * host + d]) * toRight[3 * host + d];
  return dot < 0 ? -1 : 1;
}
