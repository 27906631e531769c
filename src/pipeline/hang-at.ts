import { exp } from '../base/portable-math.ts';
import type { Fabric } from '../fabric/fabric.ts';
import { BED } from '../machine/codes.ts';
import { findLoopStays } from '../machine/loop-stays.ts';
import { BED_GAP_MM } from '../shape/beds-pose.ts';
import { needlePlace } from '../shape/beds-start.ts';
import type { KnittedSock } from './result.ts';

/** Where each vertex of a sock's fabric hangs while it is on a needle: from pass `pass[k]` on at `places[3 k ..]`, for k in `start[v]` .. `start[v + 1]`, until after pass `goneAt[v]` it is in the cloth. */
export interface NeedleStays {
  readonly start: Int32Array;
  readonly pass: Int32Array;
  readonly places: Float64Array;
  readonly goneAt: Int32Array;
}

/** A sock as it grows on the machine: what is the same at every pass. */
export interface Growth {
  readonly fabric: Fabric;
  readonly lastPass: number;
  /** Vertices that exist after each pass: the fabric's first ones. */
  readonly vertexCounts: Int32Array;
  readonly stays: NeedleStays;
  /** The vertex of the loop drawn through each one's; -1 where there is none. */
  readonly child: Int32Array;
}

/**
 * A shape of the piece after a pass. `positions`: three entries a vertex, mm, axes as in the pose on the
 * beds; single precision is exact to 1/10,000 mm and half the memory of hundreds of them.
 */
export interface Keyframe {
  readonly pass: number;
  readonly positions: Float32Array;
  /** Vertices on which the heel's weight hangs; none while no heel is turned. */
  readonly claw: Int32Array;
  /** 0: only hung up by rule; 1: nearly at rest; 2: at rest, the pose itself. */
  readonly quality: KeyQuality;
}
export type KeyQuality = 0 | 1 | 2;

export function prepareGrowth({ program, grid, trace, fabric, plan }: KnittedSock): Growth {
  const lastPass = trace.passes.length - 1, loops = findLoopStays(program, grid, trace), beds = { ...plan, gapMm: BED_GAP_MM };
  const start = new Int32Array(fabric.vertexCount + 1), pass: number[] = [], places: number[] = [];
  const vertexCounts = new Int32Array(lastPass + 1);
  for (let v = 0; v < fabric.vertexCount; v++) {
    const loop = fabric.vertexLoop[v];
    vertexCounts[fabric.vertexPass[v]] = v + 1;
    for (let k = loops.start[loop]; k < loops.start[loop + 1]; k++) {
      pass.push(loops.pass[k]);
      places.push(...needlePlace(beds, { bed: loops.bed[k] === BED.front ? 'front' : 'back', needle: loops.needle[k] }));
    }
    start[v + 1] = pass.length;
  }
  const goneAt = Int32Array.from(fabric.vertexLoop, (loop) => loops.goneAt[loop]);
  const child = Int32Array.from(fabric.vertexLoop, (loop) => (grid.child[loop] < 0 ? -1 : fabric.loopVertex[grid.child[loop]]));
  return { fabric, lastPass, vertexCounts, child, stays: { start, pass: Int32Array.from(pass), places: Float64Array.from(places), goneAt } };
}

/** Puts every vertex that is on a needle after a pass exactly there. */
export function pinInto(out: Float64Array | Float32Array, { vertexCounts, stays }: Growth, pass: number): void {
  for (let v = 0; v < vertexCounts[pass]; v++) {
    if (stays.goneAt[v] > pass) placeOnNeedle(out, 3 * v, stays, v, pass);
  }
}

/** Rows under the needles over which cloth between keyframes of unlike carriage side follows its own wale. `measured`: least distance from rest of 5, 10, 20, 40 and always. */
const OWN_WALE_ROWS = 20;

/**
 * The place of every vertex that exists after a pass, between the keyframes before and after it (the same
 * one twice at a keyframe). A loop on a needle is exactly there; cloth that hangs in both goes straight from
 * one place to the other, and a loop that leaves its needle in between from there, each as its own wale
 * lengthens: the beds of a tube take turns. After an odd number of passes one bed is a row ahead, so that
 * between keyframes of both kinds cloth far down goes with the passes. Into `out`, three entries a vertex.
 */
export function hangBetweenInto(out: Float64Array, growth: Growth, before: Keyframe, after: Keyframe, pass: number): void {
  const { vertexCounts, stays } = growth, a = before.pass, b = after.pass, from = before.positions, to = after.positions;
  if (a === b) {
    out.set(to);
    pinInto(out, growth, pass);
    return;
  }
  const old = vertexCounts[a], isAlike = (b - a) % 2 === 0, depthsA = depthsAt(growth, a), depths = depthsAt(growth, pass), depthsB = depthsAt(growth, b);
  for (let v = 0; v < vertexCounts[pass]; v++) {
    const i = 3 * v, gone = stays.goneAt[v];
    if (gone > pass) { placeOnNeedle(out, i, stays, v, pass); continue; }
    const isFromNeedle = gone > a || v >= old, begun = isFromNeedle ? gone - 1 : a, depth = isFromNeedle ? 0 : depthsA[v];
    const byPass = (pass - begun) / (b - begun), byWale = depthsB[v] > depth ? (depths[v] - depth) / (depthsB[v] - depth) : byPass;
    const s = isAlike ? byWale : byPass + exp(-depths[v] / OWN_WALE_ROWS) * (byWale - byPass);
    if (isFromNeedle) placeOnNeedle(out, i, stays, v, begun);
    else for (let d = i; d < i + 3; d++) out[d] = from[d];
    for (let d = i; d < i + 3; d++) out[d] += s * (to[d] - out[d]);
  }
}

/** Rows between each vertex and its wale's needle after a pass. */
function depthsAt({ vertexCounts, stays, child }: Growth, pass: number): Int32Array {
  const n = vertexCounts[pass], depths = new Int32Array(n);
  for (let v = n - 1; v >= 0; v--) {
    const above = child[v];
    depths[v] = stays.goneAt[v] > pass || above < 0 || above >= n ? 0 : depths[above] + 1;
  }
  return depths;
}

function placeOnNeedle(out: Float64Array | Float32Array, i: number, { start, pass: from, places }: NeedleStays, v: number, pass: number): void {
  let k = start[v];
  while (k + 1 < start[v + 1] && from[k + 1] <= pass) k++;
  for (let d = 0; d < 3; d++) out[i + d] = places[3 * k + d];
}
