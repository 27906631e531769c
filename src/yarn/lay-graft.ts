import type { Closing } from './close-frames.ts';
import { type LayDesk, writePoint } from './lay-desk.ts';
import { placeInto } from './loop-frames.ts';
import { PIECE_POINTS } from './yarn-lay.ts';

const PLACE = new Float64Array(6);

/**
 * A graft stitch is a knitted loop: drawn through the near loop, and seen from the far side, upside down, its foot is the head
 * of a stitch drawn through the far ones (see frameClosings).
 */
export function layGraft(desk: LayDesk, piece: number, { loop, frame, run }: Closing): void {
  const { fabric: { courseMm }, grid, frames, shapes, diameterMm } = desk, { points } = shapes[grid.yarn[loop]], diameter = diameterMm[grid.yarn[loop]];
  for (let k = 0; k < PIECE_POINTS; k++) {
    placeInto(PLACE, frames, frame, (run * points[3 * k]) / courseMm, points[3 * k + 1], points[3 * k + 2] * diameter);
    writePoint(desk, PIECE_POINTS * piece + k, PLACE, points[3 * k + 2]);
  }
}
