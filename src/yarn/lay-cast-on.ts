import { type LayDesk, vertexOf, writePoint } from './lay-desk.ts';
import { runOf } from './lay-loops.ts';
import { placeInto } from './loop-frames.ts';
import { PIECE_POINTS } from './yarn-lay.ts';

/**
 * Foot of a loop that is cast on, its first and its last points: stitches along the edge, rows up, thicknesses to its knit side. The yarn
 * comes along the edge, goes past its wale and up, and from the other leg down over itself: a half hitch, which does not slip
 * as a bare loop would, and crossing by crossing makes the edge firm. Chosen by eye.
 */
const FIRST = [[-0.42, -0.1, -0.35], [-0.02, -0.14, -0.6], [0.3, 0.06, -0.35]] as const, LAST = [[-0.3, 0.06, 0.3], [0.02, -0.2, 0.75], [0.42, -0.16, 0.2]] as const;

const PLACE = new Float64Array(6);

/** Makes the foot of a cast-on loop, already laid as a loop, a half hitch: its legs change sides. */
export function layCastOn(desk: LayDesk, piece: number): void {
  const { fabric, grid, thread, frames, diameterMm, points, ups } = desk, loop = thread.loop[piece], vertex = vertexOf(fabric, loop);
  const run = runOf(grid, loop), face = grid.isPurl[loop] === 1 ? -1 : 1, diameter = diameterMm[grid.yarn[loop]], start = PIECE_POINTS * piece;
  mirror(points, 4 * start);
  mirror(ups, 4 * start);
  for (const [from, feet] of [[0, FIRST], [PIECE_POINTS - LAST.length, LAST]] as const) {
    feet.forEach(([u, v, h], k) => {
      placeInto(PLACE, frames, vertex, run * u, v, face * h * diameter);
      writePoint(desk, start + from + k, PLACE, face * h);
    });
  }
}

/** Reverses the order of a piece's control points, four entries each. */
function mirror(values: Float32Array | Int8Array, from: number): void {
  for (let i = 0; i < PIECE_POINTS / 2; i++) {
    for (let d = 0; d < 4; d++) {
      const a = from + 4 * i + d, b = from + 4 * (PIECE_POINTS - 1 - i) + d, kept = values[a];
      values[a] = values[b];
      values[b] = kept;
    }
  }
}
