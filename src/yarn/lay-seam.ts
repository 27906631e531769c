import { type LayDesk, vertexOf, writePoint } from './lay-desk.ts';
import { type Place, placeInto } from './loop-frames.ts';
import { PIECE_POINTS } from './yarn-lay.ts';

/**
 * A stitch of the seam round the edge on one side, where the knitting yarn goes up from row to row: stitches from the seam's line
 * towards that side, rows above the upper row's foot, thicknesses out. It comes over the line, before the turned-in edge, round
 * behind it and back to the line, all on the inside. Chosen by eye.
 */
const SEAM_POINTS = [
  [0, -0.4, -1.05], [0.1, -0.5, -0.6], [0.24, -0.6, -0.65], [0.34, -0.68, -1.15], [0.37, -0.76, -1.8], [0.31, -0.84, -2.3],
  [0.21, -0.92, -2.5], [0.12, -1, -2.5], [0.06, -1.08, -2.35], [0.03, -1.16, -2.05], [0.01, -1.24, -1.7], [0, -1.32, -1.35],
] as const;

/** Rows above the upper row's foot at which a stitch begins; and where it begins at the cast-on, which has no row below, and how many rows it takes there over those of the others. */
const BEGIN = -0.36, LAST_BEGIN = -0.12, LAST_STITCH = 0.25;

/** Where the yarn goes up along the edge, from row to row: stitches from the seam's line, and at which rows below the upper row's foot. */
const EDGE = 0.14, EDGE_ROWS = [-0.8, -0.5] as const;

/** Thicknesses out at which it does so beside knit stitches; and how much farther out beside purl ones, whose yarn comes from before the stitches below. */
const TURNED_IN = -1.5, PURL_OUT = 1.3;

const PLACE = new Float64Array(6), OTHER = new Float64Array(6);

/** Vertices of the loops left and right of the seam in one of its rows; and the side (-1 left, +1 right) of the row's first loop. */
interface SeamRow { readonly left: number; readonly right: number; readonly side: number }

function rowOf({ fabric, grid }: LayDesk, first: number, last: number): SeamRow {
  // Nothing lies to the left of the loop on the right of the seam.
  const isRight = (grid.selvedge[first] & 1) !== 0, a = vertexOf(fabric, first), b = vertexOf(fabric, last);
  return isRight ? { left: b, right: a, side: 1 } : { left: a, right: b, side: -1 };
}

/** A place beside the seam's line, x stitches to the right of it: the mean of what both sides say. */
function besideInto(out: Place, { frames }: LayDesk, { left, right }: SeamRow, x: number, v: number, h: number): void {
  placeInto(out, frames, left, 0.5 + x, v, h);
  placeInto(OTHER, frames, right, x - 0.5, v, h);
  let square = 0;
  for (let d = 0; d < 6; d++) out[d] = 0.5 * (out[d] + OTHER[d]);
  for (let d = 3; d < 6; d++) square += out[d] * out[d];
  for (let d = 3; d < 6; d++) out[d] /= Math.sqrt(square) || 1;
}

/** A stitch of the seam, laid with the leg's own yarn from its last row down: a ladder between the outermost half stitches, one side after the other. */
export function laySeam(desk: LayDesk, piece: number): void {
  const { grid, thread, diameterMm } = desk, first = thread.loop[piece], row = rowOf(desk, first, thread.mate[piece]), diameter = diameterMm[thread.yarn[piece]];
  const hasBelow = grid.parentStart[first + 1] > grid.parentStart[first], share = hasBelow ? 1 : LAST_STITCH, begin = hasBelow ? BEGIN : LAST_BEGIN, out = PURL_OUT * grid.isPurl[first];
  SEAM_POINTS.forEach(([x, v, h], k) => {
    besideInto(PLACE, desk, row, row.side * x, begin + share * (v - BEGIN), (h + out) * diameter);
    writePoint(desk, PIECE_POINTS * piece + k, PLACE, h + out);
  });
}

/** Turns the edges of a sewn piece in: where the yarn goes up from a row to the next beside the seam, it lies on the inside. */
export function turnEdgesIn(desk: LayDesk): void {
  const { grid: { seamPairs, yarnAfter, yarn, isPurl }, thread: { loopPiece }, diameterMm } = desk;
  for (let i = 2; i + 1 < seamPairs.length; i += 2) {
    const before = seamPairs[i - 1], first = seamPairs[i];
    if (yarnAfter[before] !== first || loopPiece[first] < 0) continue;
    const row = rowOf(desk, first, seamPairs[i + 1]), diameter = diameterMm[yarn[first]], end = PIECE_POINTS * loopPiece[first], out = TURNED_IN + PURL_OUT * isPurl[first];
    EDGE_ROWS.forEach((v, k) => {
      besideInto(PLACE, desk, row, row.side * EDGE, v, out * diameter);
      writePoint(desk, end - 1 + k, PLACE, out);
    });
  }
}
