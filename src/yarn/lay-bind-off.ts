import type { Closing } from './close-frames.ts';
import { type LayDesk, writePoint } from './lay-desk.ts';
import { placeInto } from './loop-frames.ts';
import { PIECE_POINTS } from './yarn-lay.ts';

/**
 * A stitch of the chain, from the middle of the yarn before it to that after it: stitches along the edge, rows above where its
 * needle's loops end, thicknesses to the near side. The yarn waits on the far side; it comes to the near side through the
 * needle's loops and the head of the stitch before, runs on to the next needle and back, and the same way out. Chosen by eye.
 */
const CHAIN_POINTS = [
  [-0.43, 0.1, -2.2], [-0.15, 0.1, -2.2], [0, 0.1, -1.1], [0, 0.14, 0.9], [0.25, 0.6, 2.5], [0.92, 1.42, 1.8],
  [1.7, 0.4, 0.7], [0.95, -0.95, 3.4], [0.22, 0.18, 3.5], [0, -0.38, 1.3], [0.02, -0.42, -1.1], [0.2, -0.15, -2.2],
] as const;

const PLACE = new Float64Array(6);

/** A stitch of a bind-off: drawn through its needle's loops and through the stitch before it, so that a chain lies along the edge on the near side. */
export function layBindOff(desk: LayDesk, piece: number, { loop, frame, run }: Closing): void {
  const { grid, frames, diameterMm } = desk, diameter = diameterMm[grid.yarn[loop]];
  CHAIN_POINTS.forEach(([u, v, h], k) => {
    // The edge's own entry lies between the two sides.
    placeInto(PLACE, frames, frame + 1, run * u, v, h * diameter);
    writePoint(desk, PIECE_POINTS * piece + k, PLACE, h);
  });
}
