import type { Fabric } from '../fabric/fabric.ts';
import { LOOP } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import { vertexOf } from './lay-desk.ts';
import type { LoopFrames } from './loop-frames.ts';

/** A stitch that closes a fabric, and the loops on its needles. */
export interface Closing {
  /** Graft or bind-off loop. */
  readonly loop: number;
  /** Vertices of the loop in whose frame it is laid and of the one that it joins to that; the second -1 for none. */
  readonly near: number;
  readonly far: number;
  /** Entry of the frames at which it lies. */
  readonly frame: number;
  /** +1 where its yarn runs to the right as seen at the near loop, else -1. */
  readonly run: number;
}

/** Entries that a closing stitch adds: its own, the one at its far end, and the one that the far loop ends in. */
const ADDED = 3;

/** Rows from last loop to last loop over a grafted edge: the one loop, the graft, the other. */
const GRAFT_ROWS = 3;

/** Closing stitches whose loops are all there, in yarn order. */
export function findClosings(fabric: Fabric, grid: StitchGrid): Closing[] {
  const found: Omit<Closing, 'run'>[] = [];
  for (let loop = 0; loop < grid.loopCount; loop++) {
    if (grid.kind[loop] < LOOP.graft) continue;
    const stitches: number[] = [];
    for (let k = grid.parentStart[loop]; k < grid.parentStart[loop + 1]; k++) {
      const vertex = grid.kind[grid.parents[k]] > LOOP.knit ? -1 : vertexOf(fabric, grid.parents[k]);
      // What is on its own bed was there first; what came from the other lies behind.
      if (vertex >= 0 && grid.bed[fabric.vertexLoop[vertex]] === grid.bed[loop]) stitches.unshift(vertex);
      else if (vertex >= 0) stitches.push(vertex);
    }
    if (stitches.length > 0) found.push({ loop, near: stitches[0], far: stitches[1] ?? -1, frame: fabric.vertexCount + ADDED * found.length });
  }
  return found.map((closing, i) => ({ ...closing, run: runBetween(fabric, grid, found[i], found[i + 1]) || runBetween(fabric, grid, found[i - 1], found[i]) || 1 }));
}

/** +1 where the second closing's near loop lies to the right of the first's, -1 to the left, 0 not beside it. */
function runBetween({ vertexLoop }: Fabric, { rightOf, leftOf }: StitchGrid, a: Omit<Closing, 'run'> | undefined, b: Omit<Closing, 'run'> | undefined): number {
  if (a === undefined || b === undefined) return 0;
  const from = vertexLoop[a.near], to = vertexLoop[b.near];
  return rightOf[from] === to ? 1 : leftOf[from] === to ? -1 : 0;
}

type Vector = readonly [number, number, number];

const at = (values: Float64Array, entry: number): Vector => [values[3 * entry], values[3 * entry + 1], values[3 * entry + 2]];
const plus = (a: Vector, b: Vector, share = 1): Vector => [a[0] + share * b[0], a[1] + share * b[1], a[2] + share * b[2]];
const minus = (a: Vector, b: Vector): Vector => plus(a, b, -1);
const times = (a: Vector, share: number): Vector => [share * a[0], share * a[1], share * a[2]];
const cross = (a: Vector, b: Vector): Vector => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
const sizeOf = (a: Vector): number => Math.sqrt(a[0] * a[0] + a[1] * a[1] + a[2] * a[2]);
const unit = (a: Vector): Vector => times(a, 1 / (sizeOf(a) || 1));

/** A way from one loop over the edge to the one that it is joined to: Bezier's cubic. */
type Way = readonly [Vector, Vector, Vector, Vector];

function along([a, b, c, d]: Way, t: number): Vector {
  const s = 1 - t;
  return plus(plus(times(a, s * s * s), b, 3 * s * s * t), plus(times(c, 3 * s * t * t), d, t * t * t));
}

function slopeOf([a, b, c, d]: Way, t: number): Vector {
  const s = 1 - t;
  return plus(plus(times(minus(b, a), s * s), minus(c, b), 2 * s * t), minus(d, c), t * t);
}

function lengthOf(way: Way): number {
  let sum = 0, last = way[0];
  for (let i = 1; i <= 12; i++) {
    const next = along(way, i / 12);
    sum += sizeOf(minus(next, last));
    last = next;
  }
  return sum;
}

/** The way goes on where the wales point, and farther out where the edge leaves it too little room. */
function findWay(frames: LoopFrames, { near, far }: Closing, rowMm: number): Way {
  const a = at(frames.positions, near), b = at(frames.positions, far), wales = [unit(at(frames.along, near)), unit(at(frames.along, far))] as const;
  const out = unit(plus(plus(...wales), plus(at(frames.normals, near), at(frames.normals, far))));
  const wayWith = (lift: number): Way => [a, plus(plus(a, wales[0], rowMm), out, lift), plus(plus(b, wales[1], rowMm), out, lift), b];
  let low = 0, high = GRAFT_ROWS * rowMm;
  for (let i = 0; i < 12; i++) {
    const middle = (low + high) / 2;
    if (lengthOf(wayWith(middle)) < GRAFT_ROWS * rowMm) low = middle;
    else high = middle;
  }
  return wayWith(low);
}

/** Frames with room for what closes the fabric: last loops end over the edge, and closing stitches have frames of their own. */
export function frameClosings(fabric: Fabric, grid: StitchGrid, frames: LoopFrames, closings: readonly Closing[]): LoopFrames {
  if (closings.length === 0) return frames;
  const entries = frames.childOf.length + ADDED * closings.length;
  const longer = (values: Float64Array): Float64Array => {
    const out = new Float64Array(3 * entries);
    out.set(values);
    return out;
  };
  const childOf = new Int32Array(entries).fill(-1);
  childOf.set(frames.childOf);
  const closed = {
    positions: longer(frames.positions), fromLeft: longer(frames.fromLeft), toRight: longer(frames.toRight),
    along: longer(frames.along), normals: longer(frames.normals), childOf,
  };
    closings.forEach((closing) => {
    if (grid.kind[closing.loop] === LOOP.graft && closing.far >= 0) spreadGraft(closed, closing);
    else raiseEdge(closed, fabric, closing);
    childOf[closing.near] = closing.frame;
    if (closing.far >= 0) childOf[closing.far] = closing.frame + 2;
  });
  return closed;
}

function putFrame(frames: LoopFrames, entry: number, position: Vector, across: Vector, along: Vector): void {
  frames.positions.set(position, 3 * entry);
  frames.fromLeft.set(across, 3 * entry);
  frames.toRight.set(across, 3 * entry);
  frames.along.set(along, 3 * entry);
  frames.normals.set(unit(cross(across, along)), 3 * entry);
}

/** A stitch to the right at the near loop, where both sides agree about it. */
function acrossOf(frames: LoopFrames, { near, far }: Closing): Vector {
  const [here, there] = [near, far].map((vertex) => times(plus(at(frames.fromLeft, vertex), at(frames.toRight, vertex)), 0.5));
  return far < 0 ? here : times(minus(here, there), 0.5);
}

/** Where on its way a graft's row has the direction that heads and feet have at either end of it: nearer the middle than where they lie, so that heads lean over the edge. */
const LEANING = 0.42;

/**
 * A graft's row: it stands on the near loops as a course of knitting does, and seen from the far side it stands on the far ones, whose wales
 * lie half a stitch off: each stitch shares the loop before it and its own with its neighbours. The half stitch is shared out among the three rows.
 */
function spreadGraft(frames: LoopFrames, closing: Closing): void {
  const { frame, near, far: opposite, run } = closing, rowMm = 0.5 * (sizeOf(at(frames.along, near)) + sizeOf(at(frames.along, opposite)));
  const way = findWay(frames, closing, rowMm), across = acrossOf(frames, closing), step = times(across, run);
  const [first, second] = [slopeOf(way, LEANING), slopeOf(way, 1 - LEANING)].map((slope) => times(unit(slope), rowMm)), far = plus(along(way, 2 / 3), step, 1 / 6);
  putFrame(frames, frame, plus(along(way, 1 / 3), step, -1 / 6), across, first);
  putFrame(frames, frame + 1, plus(far, step, -1 / 2), across, second);
  putFrame(frames, frame + 2, far, times(across, -1), times(second, -1));
  frames.childOf[frame] = frame + 1;
}

/** The two rows stand this share of a row apart on a bound-off edge, so that their heads, which lie to the inside, do not reach into each other; chosen by eye. */
const EDGE_GAP = 0.85;

/** Square of the least height in rows to which loops stand up that come from far apart. */
const LEAST_RISE = 0.3;

/** A bound-off edge: the last loops of both sides stand up side by side, a row high. The closing stitch's own frame is the near loop's end. */
function raiseEdge(frames: LoopFrames, { waleMm }: Fabric, closing: Closing): void {
  const across = acrossOf(frames, closing), { frame, near, far } = closing, a = at(frames.positions, near);
  const chord = far < 0 ? [0, 0, 0] as const : minus(at(frames.positions, far), a), apart = sizeOf(chord), gap = far < 0 ? 0 : EDGE_GAP * waleMm;
  const up = far < 0 ? at(frames.along, near) : times(unit(cross(across, chord)), waleMm), lean = 0.5 * (apart - gap) / waleMm;
  const middle = plus(plus(a, chord, 0.5), up, Math.sqrt(Math.max(LEAST_RISE, 1 - lean * lean))), aside = times(unit(chord), 0.5 * gap);
  putFrame(frames, frame, minus(middle, aside), across, up);
  putFrame(frames, frame + 1, middle, across, up);
  putFrame(frames, frame + 2, plus(middle, aside), times(across, -1), up);
}
