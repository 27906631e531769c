import type { Closing } from './close-frames.ts';
import { type LayDesk, vertexOf, writePoint } from './lay-desk.ts';
import { runOf } from './lay-loops.ts';
import { type Place, placeInto } from './loop-frames.ts';
import { PART, PIECE_POINTS, POINT_STRIDE } from './yarn-lay.ts';

/** Control points of a tail's end, all in one place: the line ends there. */
const END_POINTS = 3;

/** Rows from one control point to the next along a tail; thicknesses in from the fabric's middle, of one that runs up and of one that runs down, so that they pass; rows below a loop's foot. */
const STEP_ROWS = 1.15, DEPTH_UP = -1.8, DEPTH_DOWN = -2.7, BELOW = -0.4;

/** Thicknesses by which a rib's wales stand farther in than plain ones. */
const RIB_DEPTH = 1.1;

/** Stitches aside: behind the tail's own stitch, and then on at a slant with a little swing, as a darning needle leaves it. Chosen by eye. */
const aside = (step: number): number => Math.min(1, step / 2) - 0.62 + 0.12 * step + 0.08 * Math.min(2, Math.abs(step - 4));

/** A control point: frame, stitches to the right, rows up, thicknesses out. */
type Station = readonly [frame: number, u: number, v: number, h: number];

/** Where a tail leaves its length: the vertex beside which it is drawn in, which way, and what it does before. */
interface Departure {
  readonly vertex: number;
  readonly isUp: boolean;
  /** +1 to go on to the right behind its own stitch. */
  readonly side: number;
  readonly before: readonly Station[];
}

/** A way through stitches from one on: upwards into what was knitted later, or down; along the course where there is nothing more that way. */
function walkFrom({ fabric, grid }: LayDesk, { vertex: from, isUp, side }: Departure): number[] {
  const way = [from];
  const next = (loop: number): number => {
    if (isUp) return vertexOf(fabric, grid.child[loop]);
    for (let k = grid.parentStart[loop]; k < grid.parentStart[loop + 1]; k++) if (vertexOf(fabric, grid.parents[k]) >= 0) return vertexOf(fabric, grid.parents[k]);
    return -1;
  };
  for (let vertex = from; way.length < 2 * PIECE_POINTS;) {
    const loop = fabric.vertexLoop[vertex], beside = vertexOf(fabric, side > 0 ? grid.rightOf[loop] : grid.leftOf[loop]);
    const on = [next(loop), beside].find((candidate) => candidate >= 0 && !way.includes(candidate));
    if (on === undefined) break;
    way.push(on);
    vertex = on;
  }
  return way;
}

/** The last yarn of a graft goes once more through the last far loop, as the first leg of a next stitch would. */
function leaveGraft({ shapes, grid }: LayDesk, { loop, frame, far, near, run }: Closing, courseMm: number): Departure {
  const { points } = shapes[grid.yarn[loop]];
  const before = [0, 1, 2, 3, 4].map((k): Station => [frame, run * (1 + points[3 * k] / courseMm), points[3 * k + 1], points[3 * k + 2]]);
  return { vertex: far < 0 ? near : far, isUp: false, side: run, before };
}

/** The last yarn of a bind-off is drawn through the last stitch of the chain, and then between the wales to the inside. */
function leaveBindOff({ frame, near, run }: Closing): Departure {
  return {
    vertex: near, isUp: false, side: -run,
    before: [
      [frame + 1, run * 0.75, 0.1, -1.7], [frame + 1, run, 0.3, 0.2], [frame + 1, run * 1.3, 0.3, 2.2], [near, run, 0.9, 1.7], [near, run * 0.65, 0.35, 0],
    ],
  };
}

function departureOf(desk: LayDesk, piece: number, closings: readonly Closing[]): Departure {
  const { fabric, grid, thread } = desk, isFirst = thread.lengthStart.includes(piece), beside = isFirst ? piece + 1 : piece - 1, loop = thread.loop[beside];
  const closing = closings.find((stitch) => stitch.loop === loop);
  if (closing !== undefined && !isFirst) return thread.part[beside] === PART.graft ? leaveGraft(desk, closing, fabric.courseMm) : leaveBindOff(closing);
  if (closing !== undefined) return { vertex: closing.near, isUp: false, side: closing.run, before: [] };
  // The seam ends where the cast-on begins: on the other side of it.
  if (thread.part[beside] === PART.seam) return { vertex: vertexOf(fabric, thread.mate[beside]), isUp: true, side: -runOf(grid, thread.mate[beside]), before: [] };
  const host = grid.wrapHost[loop];
  return { vertex: vertexOf(fabric, host >= 0 ? host : loop), isUp: isFirst, side: runOf(grid, loop) * (isFirst ? 1 : -1), before: [] };
}

const PLACE = new Float64Array(6), NEXT = new Float64Array(6);

/** Place of a tail's station between two stitches of its way, `rows` stitches along it; `height` mm out. */
function besideInto(out: Place, { frames }: LayDesk, way: readonly number[], rows: number, u: number, height: number): void {
  const whole = Math.floor(rows), share = rows - whole;
  placeInto(out, frames, way[whole], u, BELOW, height);
  placeInto(NEXT, frames, way[Math.min(whole + 1, way.length - 1)], u, BELOW, height);
  let square = 0;
  for (let d = 0; d < 6; d++) out[d] += share * (NEXT[d] - out[d]);
  for (let d = 3; d < 6; d++) square += out[d] * out[d];
  for (let d = 3; d < 6; d++) out[d] /= Math.sqrt(square) || 1;
}

/**
 * A tail, drawn in: some 25 mm inside the sock from its loop on, at a slant along the wales: the yarn's first end into what is knitted with it after, its
 * last end into what was. The tail that is cut is longer (TAIL_MM of the yarn's amount), as one is that is darned in.
 */
export function layTail(desk: LayDesk, piece: number, closings: readonly Closing[]): void {
  const { fabric, grid, thread, frames, diameterMm } = desk, diameter = diameterMm[thread.yarn[piece]], isFirst = thread.lengthStart.includes(piece);
  const departure = departureOf(desk, piece, closings), { before, side, isUp } = departure, way = walkFrom(desk, departure), depth = isUp ? DEPTH_UP : DEPTH_DOWN;
  for (let i = 0; i < PIECE_POINTS; i++) {
    // Counted from the loop: the points of the end come last.
    const point = PIECE_POINTS * piece + (isFirst ? PIECE_POINTS - 1 - i : i), step = Math.min(i, PIECE_POINTS - END_POINTS) - before.length;
    if (step < 0) {
      const [frame, u, v, height] = before[i];
      placeInto(PLACE, frames, frame, u, v, height * diameter);
      writePoint(desk, point, PLACE, height);
      continue;
    }
    const rows = Math.min(STEP_ROWS * step, way.length - 1), isRib = grid.isRib[fabric.vertexLoop[way[Math.floor(rows)]]];
    const height = (i === 0 ? 0.5 : 1) * (depth - isRib * RIB_DEPTH);
    besideInto(PLACE, desk, way, rows, side * aside(step), height * diameter);
    // Of a sock that lies flat the sides leave a tail the middle between them.
    if (desk.isFlat && i > 0) PLACE[1] = 0;
    writePoint(desk, point, PLACE, height);
  }
}

/** Makes every length begin and end in one point again, where its yarn was moved. */
export function tieEnds({ points, thread: { lengthStart } }: Pick<LayDesk, 'points' | 'thread'>): void {
  for (let k = 0; k + 1 < lengthStart.length; k++) {
    const first = POINT_STRIDE * PIECE_POINTS * lengthStart[k], last = POINT_STRIDE * (PIECE_POINTS * lengthStart[k + 1] - 1);
    for (let i = 1; i < END_POINTS; i++) {
      points.copyWithin(first + POINT_STRIDE * i, first, first + POINT_STRIDE);
      points.copyWithin(last - POINT_STRIDE * i, last, last + POINT_STRIDE);
    }
  }
}
