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

/** Rows that a row of loops and what closes it take from vertex to vertex over an edge: last loop, graft, last loop. */
const GRAFT_ROWS = 3, BOUND_ROWS = 2;

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

/** The way goes on where the wales point, and farther out where the edge leaves it less than `rows` rows. */
function findWay(frames: LoopFrames, near: number, far: number, rows: number, rowMm: number): Way {
  const a = at(frames.positions, near), b = at(frames.positions, far), wales = [unit(at(frames.up, near)), unit(at(frames.up, far))] as const;
  const out = unit(plus(plus(...wales), plus(at(frames.normals, near), at(frames.normals, far))));
  const wayWith = (reach: number, lift: number): Way => [
    a, plus(plus(a, wales[0], reach), out, lift), plus(plus(b, wales[1], reach), out, lift), b,
  ];
  let low = 0, high = rows * rowMm;
  for (let i = 0; i < 16; i++) {
    const middle = (low + high) / 2;
    if (lengthOf(wayWith(Math.min(middle, rowMm), Math.max(0, middle - rowMm))) < rows * rowMm) low = middle;
    else high = middle;
  }
  return wayWith(Math.min(low, rowMm), Math.max(0, low - rowMm));
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
  const { positions, across, up, below, normals } = frames;
  const closed = { positions: longer(positions), across: longer(across), up: longer(up), below: longer(below), normals: longer(normals), childOf };
  const isGraft = grid.kind[closings[0].loop] === LOOP.graft, ways = closings.map((closing) => wayOf(fabric, frames, closing, isGraft));
  closings.forEach((closing, i) => {
    const ends = isGraft ? spreadGraft(closed, fabric, closings, ways, i) : raiseEdge(closed, fabric, closing, ways[i]);
    const targets = [[closing.near, closing.frame], [closing.far, closing.frame + 2]] as const;
    targets.forEach(([vertex, frame], side) => {
      if (vertex < 0) return;
      childOf[vertex] = frame;
      closed.up.set(minus(ends[side], at(positions, vertex)), 3 * vertex);
    });
  });
  return closed;
}

function wayOf({ waleMm }: Fabric, frames: LoopFrames, { near, far }: Closing, isGraft: boolean): Way {
  if (far >= 0) return findWay(frames, near, far, isGraft ? GRAFT_ROWS : BOUND_ROWS, waleMm);
  const a = at(frames.positions, near), up = times(unit(at(frames.up, near)), waleMm / 3);
  return [a, plus(a, up), plus(a, up, 2), plus(a, up, 3)];
}

function putFrame(frames: LoopFrames, entry: number, position: Vector, across: Vector, up: Vector, below: Vector): void {
  frames.positions.set(position, 3 * entry);
  frames.across.set(across, 3 * entry);
  frames.up.set(up, 3 * entry);
  frames.below.set(below, 3 * entry);
  frames.normals.set(unit(cross(across, up)), 3 * entry);
}

/** A stitch to the right at the near loop, where both sides agree about it. */
function acrossOf(frames: LoopFrames, { near, far }: Closing): Vector {
  const here = at(frames.across, near);
  return far < 0 ? here : times(minus(here, at(frames.across, far)), 0.5);
}

/**
 * A graft's row: it stands on the near loops as a course of knitting does, and seen from the far side it stands on the far ones, whose wales
 * lie half a stitch off: each stitch shares the loop before it and its own with its neighbours. The half stitch is shared out among the three rows.
 */
function spreadGraft(frames: LoopFrames, { waleMm }: Fabric, closings: readonly Closing[], ways: readonly Way[], i: number): readonly [Vector, Vector] {
  const closing = closings[i], across = acrossOf(frames, closing), step = times(across, closing.run), tangents = [slopeOf(ways[i], 1 / 3), slopeOf(ways[i], 2 / 3)].map((slope) => times(unit(slope), waleMm));
  const near = plus(along(ways[i], 1 / 3), step, -1 / 6), far = plus(along(ways[i], 2 / 3), step, 1 / 6), end = plus(far, step, -1 / 2), { frame } = closing;
  putFrame(frames, frame, near, across, tangents[0], minus(near, ways[i][0]));
  putFrame(frames, frame + 1, end, across, tangents[1], minus(end, near));
  putFrame(frames, frame + 2, far, times(across, -1), times(tangents[1], -1), minus(far, ways[i][3]));
  frames.up.set(minus(end, near), 3 * frame);
  frames.up.set(minus(ways[i][3], far), 3 * (frame + 1));
  frames.up.set(plus(minus(near, far), step, 1 / 2), 3 * (frame + 2));
  frames.childOf[frame] = frame + 1;
  return [near, far];
}

/** Thicknesses are not known here: the two rows' heads stand a third of a row apart on the edge. */
const EDGE_GAP = 1 / 3;

/** A bound-off edge: the last loops of both sides stand up side by side. The closing stitch's own frame is the near loop's end. */
function raiseEdge(frames: LoopFrames, { waleMm }: Fabric, closing: Closing, way: Way): readonly [Vector, Vector] {
  const across = acrossOf(frames, closing), middle = along(way, closing.far < 0 ? 1 : 0.5), chord = closing.far < 0 ? [0, 0, 0] as const : unit(slopeOf(way, 0.5));
  const out = closing.far < 0 ? at(frames.up, closing.near) : cross(across, chord), up = times(unit(out), waleMm), { frame } = closing;
  const near = plus(middle, chord, -0.5 * EDGE_GAP * waleMm), far = plus(middle, chord, 0.5 * EDGE_GAP * waleMm);
  putFrame(frames, frame, near, across, up, up);
  putFrame(frames, frame + 1, middle, across, up, up);
  putFrame(frames, frame + 2, far, times(across, -1), up, up);
  return [near, far];
}
