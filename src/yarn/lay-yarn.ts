import { cos, sin } from '../base/portable-math.ts';
import type { Fabric } from '../fabric/fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';
import { frameLoops, type LoopFrames, placeInto } from './loop-frames.ts';
import { measureAlong } from './measure-along.ts';
import { PART, PIECE_POINTS, POINT_STRIDE, type YarnLay, type YarnThread } from './yarn-lay.ts';

/** What is laid: a fabric, its grid, and the order of its yarn. */
export interface LaidFabric {
  readonly fabric: Fabric;
  readonly grid: StitchGrid;
  readonly thread: YarnThread;
  /** Thickness of each yarn (by grid.yarn) as it lies in the fabric, mm. */
  readonly diameterMm: Float64Array;
}

/** Twelve points of a loop from the middle of the yarn before it to the middle of that after it: stitches to the right, rows up, thicknesses outwards. */
const LOOP_POINTS = Array.from({ length: PIECE_POINTS }, (_, k) => {
  const turn = (2 * Math.PI * (k + 0.5)) / PIECE_POINTS;
  return [turn / (2 * Math.PI) - 0.5 + 0.16 * sin(2 * turn), 0.5 - 0.85 * cos(turn), -0.5 * cos(2 * turn)] as const;
});

/** +1 where a loop's yarn runs to the right as seen from outside, else -1. */
export function runOf(grid: StitchGrid, loop: number): number {
  const { yarnAfter, yarnBefore, leftOf, rightOf } = grid, before = yarnBefore[loop], after = yarnAfter[loop];
  if (after >= 0 && rightOf[loop] === after) return 1;
  if (after >= 0 && leftOf[loop] === after) return -1;
  if (before >= 0 && leftOf[loop] === before) return 1;
  if (before >= 0 && rightOf[loop] === before) return -1;
  return 1;
}

/** Lays every piece of yarn into a fabric of the given shape: `positions` has three entries a vertex, mm. */
export function layYarn(laid: LaidFabric, positions: Float64Array): YarnLay {
  const { fabric, grid, thread, diameterMm } = laid, count = thread.pieceCount * PIECE_POINTS;
  const points = new Float32Array(POINT_STRIDE * count), ups = new Int8Array(4 * count), frames = frameLoops(fabric, grid, positions);
  for (let piece = 0; piece < thread.pieceCount; piece++) {
    if (thread.part[piece] === PART.loop) layLoop(points, ups, piece, laid, frames);
  }
  for (let piece = 0; piece < thread.pieceCount; piece++) if (thread.part[piece] !== PART.loop) bridge(points, ups, piece, thread);
  const lay: YarnLay = { thread, points, ups, diameterMm };
  measureAlong(lay);
  return lay;
}

function layLoop(points: Float32Array, ups: Int8Array, piece: number, { fabric, grid, thread, diameterMm }: LaidFabric, frames: LoopFrames): void {
  const loop = thread.loop[piece], vertex = fabric.loopVertex[loop], run = runOf(grid, loop), face = grid.isPurl[loop] === 1 ? -1 : 1;
  const place = new Float64Array(6), diameter = diameterMm[grid.yarn[loop]];
  for (let k = 0; k < PIECE_POINTS; k++) {
    const [u, v, h] = LOOP_POINTS[k], at = PIECE_POINTS * piece + k;
    placeInto(place, frames, vertex, run * u, v, face * h * diameter);
    for (let d = 0; d < 3; d++) {
      points[POINT_STRIDE * at + d] = place[d];
      ups[4 * at + d] = Math.round(127 * place[3 + d]);
    }
    ups[4 * at + 3] = Math.round(32 * face * h);
  }
}

/** A straight line from the piece before to the piece after. */
function bridge(points: Float32Array, ups: Int8Array, piece: number, thread: YarnThread): void {
  const first = thread.lengthStart.includes(piece), last = thread.lengthStart.includes(piece + 1), start = PIECE_POINTS * piece;
  const a = first ? start + PIECE_POINTS : start - 1, b = last ? start - 1 : start + PIECE_POINTS;
  for (let k = 0; k < PIECE_POINTS; k++) {
    const t = (k + 1) / (PIECE_POINTS + 1);
    for (let d = 0; d < 3; d++) points[POINT_STRIDE * (start + k) + d] = (1 - t) * points[POINT_STRIDE * a + d] + t * points[POINT_STRIDE * b + d];
    ups.copyWithin(4 * (start + k), 4 * a, 4 * a + 4);
  }
}
