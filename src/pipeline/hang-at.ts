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
  return { fabric, lastPass, vertexCounts, stays: { start, pass: Int32Array.from(pass), places: Float64Array.from(places), goneAt } };
}

/** Puts every vertex that is on a needle after a pass exactly there. */
export function pinInto(out: Float64Array | Float32Array, { vertexCounts, stays }: Growth, pass: number): void {
  for (let v = 0; v < vertexCounts[pass]; v++) {
    if (stays.goneAt[v] > pass) placeOnNeedle(out, 3 * v, stays, v, pass);
  }
}

/**
 * The place of every vertex that exists after a pass, between the keyframes before and after it (the same
 * one twice at a keyframe): cloth that hangs in both goes straight from one place to the other; a loop that
 * leaves its needle in between goes from there; one that is on a needle is exactly there. Into `out`, three
 * entries a vertex.
 */
export function hangBetweenInto(out: Float64Array, growth: Growth, before: Keyframe, after: Keyframe, pass: number): void {
  const { vertexCounts, stays } = growth, a = before.pass, b = after.pass, old = vertexCounts[a], to = after.positions, from = before.positions;
  for (let v = 0; v < vertexCounts[pass]; v++) {
    const i = 3 * v, left = stays.goneAt[v];
    if (left > pass) { placeOnNeedle(out, i, stays, v, pass); continue; }
    if (a === b) { for (let d = i; d < i + 3; d++) out[d] = to[d]; continue; }
    const isFromNeedle = left > a || v >= old, begun = isFromNeedle ? left - 1 : a, s = (pass - begun) / (b - begun);
    if (isFromNeedle) placeOnNeedle(out, i, stays, v, begun);
    else for (let d = i; d < i + 3; d++) out[d] = from[d];
    for (let d = i; d < i + 3; d++) out[d] += s * (to[d] - out[d]);
  }
}

function placeOnNeedle(out: Float64Array | Float32Array, i: number, { start, pass: from, places }: NeedleStays, v: number, pass: number): void {
  let k = start[v];
  while (k + 1 < start[v + 1] && from[k + 1] <= pass) k++;
  for (let d = 0; d < 3; d++) out[i + d] = places[3 * k + d];
}
