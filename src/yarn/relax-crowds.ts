import { clamp } from '../base/round.ts';
import { Boxes } from './boxes.ts';
import { findCrowds } from './find-crowds.ts';
import type { LayDesk } from './lay-desk.ts';
import { PIECE_POINTS, POINT_STRIDE } from './yarn-lay.ts';

/** Rounds of making room; share of the room wanted that a round makes; how near yarns may lie, in thicknesses: as near as loops in plain fabric do; chosen by eye. */
const ROUNDS = 8, SHARE = 0.45, NEAR = 0.9;

/** Farthest that a point is moved in all, the middles of two chords that are looked at, and two chords that might come to touch: thicknesses. */
const FARTHEST = 0.9, REACH = 1.7, SPARE = 0.2;

/** Points along a length of yarn that are no neighbours of each other: about two thicknesses of yarn. */
const OWN_POINTS = 3;

/** Pairs of chords that might touch: the first control point of each, two entries a pair; and how near they may lie, mm. */
interface Pairs { readonly ends: Int32Array; readonly near: Float64Array }

/** Looks for chords of the marked pieces' lines that come near each other, one of them at least in a crowd. */
class PairFinder {
  private readonly desk: LayDesk;
  private readonly crowds: Uint8Array;
  private readonly line: Float64Array;
  /** First control point of each chord, and its middle. */
  private readonly chords: Int32Array;
  private readonly middles: Float64Array;
  private readonly thickest: number;
  private readonly nearest = new Float64Array(3);
  private readonly ends: number[] = [];
  private readonly near: number[] = [];

  constructor(desk: LayDesk, crowds: Uint8Array, line: Float64Array, marked: readonly number[]) {
    this.desk = desk;
    this.crowds = crowds;
    this.line = line;
    this.thickest = desk.diameterMm.reduce((most, d) => Math.max(most, d), 0.01);
    this.chords = new Int32Array(PIECE_POINTS * marked.length);
    this.middles = new Float64Array(3 * this.chords.length);
    for (let i = 0; i < this.chords.length; i++) {
      const k = this.chords[i] = PIECE_POINTS * marked[(i / PIECE_POINTS) | 0] + (i % PIECE_POINTS);
      for (let d = 0; d < 3; d++) this.middles[3 * i + d] = 0.5 * (line[3 * k + d] + line[3 * k + 3 + d]);
    }
  }

  find(): Pairs {
    const { chords, middles, crowds } = this, boxes = new Boxes(middles, 3, chords.length, REACH * this.thickest), runs = new Int32Array(54);
    for (let i = 0; i < chords.length; i++) {
      if (crowds[(chords[i] / PIECE_POINTS) | 0] < 2) continue;
      const n = boxes.runsInto(runs, middles[3 * i], middles[3 * i + 1], middles[3 * i + 2]);
      for (let r = 0; r < n; r += 2) this.meetAll(i, boxes.members, runs[r], runs[r + 1]);
    }
    return { ends: Int32Array.from(this.ends), near: Float64Array.from(this.near) };
  }

  private meetAll(i: number, members: Int32Array, from: number, to: number): void {
    const { middles, thickest } = this, reach = (REACH * thickest) ** 2, x = middles[3 * i], y = middles[3 * i + 1], z = middles[3 * i + 2];
    for (let m = from; m < to; m++) {
      const j = 3 * members[m], dx = middles[j] - x, dy = middles[j + 1] - y, dz = middles[j + 2] - z;
      if (dx * dx + dy * dy + dz * dz < reach) this.meet(this.chords[i], this.chords[members[m]]);
    }
  }

  private meet(a: number, b: number): void {
    const { thread, diameterMm } = this.desk, piece = (a / PIECE_POINTS) | 0, other = (b / PIECE_POINTS) | 0;
    // Two in crowds meet twice.
    if (Math.abs(a - b) < OWN_POINTS || (a < b && this.crowds[other] === 2)) return;
    const room = 0.5 * NEAR * (diameterMm[thread.yarn[piece]] + diameterMm[thread.yarn[other]]);
    nearestInto(this.nearest, this.line, 3 * a, 3 * b);
    if (this.nearest[2] > room + SPARE * this.thickest) return;
    this.ends.push(a, b);
    this.near.push(room);
  }
}

/** How far along two chords they are nearest, 0..1 each, and their distance: three entries (Ericson C., Real-Time Collision Detection (2005), 5.1.9). */
function nearestInto(out: Float64Array, p: Float64Array, a: number, b: number): void {
  let aa = 0, bb = 0, ab = 0, ar = 0, br = 0;
  for (let d = 0; d < 3; d++) {
    const u = p[a + 3 + d] - p[a + d], v = p[b + 3 + d] - p[b + d], r = p[a + d] - p[b + d];
    aa += u * u; bb += v * v; ab += u * v; ar += u * r; br += v * r;
  }
  const det = aa * bb - ab * ab;
  let s = det > 1e-9 * aa * bb ? clamp((ab * br - ar * bb) / det, 0, 1) : 0.5;
  const t = bb > 0 ? clamp((ab * s + br) / bb, 0, 1) : 0;
  s = aa > 0 ? clamp((ab * t - ar) / aa, 0, 1) : 0;
  let square = 0;
  for (let d = 0; d < 3; d++) square += (p[a + d] + s * (p[a + 3 + d] - p[a + d]) - p[b + d] - t * (p[b + 3 + d] - p[b + d])) ** 2;
  out[0] = s;
  out[1] = t;
  out[2] = Math.sqrt(square);
}

/** The line itself beside each control point of the marked pieces: (P - 1, P, P + 1) weighted 1, 4, 1. */
function drawInto(line: Float64Array, points: Float32Array, marked: readonly number[]): void {
  const last = points.length / POINT_STRIDE - 1;
  for (const piece of marked) {
    for (let k = PIECE_POINTS * piece; k <= PIECE_POINTS * (piece + 1); k++) {
      const i = POINT_STRIDE * Math.max(0, k - 1), j = POINT_STRIDE * Math.min(k, last), l = POINT_STRIDE * Math.min(k + 1, last);
      for (let d = 0; d < 3; d++) line[3 * k + d] = (points[i + d] + 4 * points[j + d] + points[l + d]) / 6;
    }
  }
}

/**
 * Makes room where loops are stacked, wrapped, sewn or drawn together: yarns there that lie in each other move apart, a little every round, their
 * lines kept smooth. Which side of each other they pass on stays as it is. Positions-based, not an energy: what is left is told by findContacts.
 */
export function relaxCrowds(desk: LayDesk): void {
  const { thread, points, diameterMm } = desk, crowds = findCrowds(desk), count = points.length / POINT_STRIDE;
  const marked = Array.from(crowds.keys()).filter((piece) => crowds[piece] > 0), movable = marked.filter((piece) => crowds[piece] > 1);
  const line = new Float64Array(3 * count + 3), push = new Float64Array(3 * count + 3), moved = new Float64Array(3 * count), nearest = new Float64Array(3);
  drawInto(line, points, marked);
  const pairs = new PairFinder(desk, crowds, line, marked).find();
  for (let round = 0; round < ROUNDS; round++) {
    drawInto(line, points, marked);
    for (const piece of marked) push.fill(0, 3 * PIECE_POINTS * piece, 3 * PIECE_POINTS * (piece + 1) + 3);
    for (let pair = 0; pair < pairs.near.length; pair++) {
      const a = 3 * pairs.ends[2 * pair], b = 3 * pairs.ends[2 * pair + 1], near = pairs.near[pair];
      nearestInto(nearest, line, a, b);
      const [s, t, distance] = nearest;
      if (distance >= near || distance < 1e-6) continue;
      const share = (SHARE * (near - distance)) / distance;
      for (let d = 0; d < 3; d++) {
        const way = share * (line[a + d] + s * (line[a + 3 + d] - line[a + d]) - line[b + d] - t * (line[b + 3 + d] - line[b + d]));
        push[a + d] += (1 - s) * way; push[a + 3 + d] += s * way;
        push[b + d] -= (1 - t) * way; push[b + 3 + d] -= t * way;
      }
    }
    for (const piece of movable) movePiece(points, moved, push, piece, diameterMm[thread.yarn[piece]]);
  }
}

/** Farthest that a round moves a point, thicknesses: yarn that comes nearer to other yarn is pushed back before it can go through it; chosen by eye. */
const STRIDE = 0.12;

/** Moves the points of a piece as they are pushed, smoothed along the yarn, each by no more than a stride, and no more than `FARTHEST` in all. */
function movePiece(points: Float32Array, moved: Float64Array, push: Float64Array, piece: number, thickness: number): void {
  for (let k = PIECE_POINTS * piece; k < PIECE_POINTS * (piece + 1); k++) {
    const i = 3 * Math.max(0, k - 1), j = 3 * k, l = 3 * (k + 1);
    const x = 0.25 * push[i] + 0.5 * push[j] + 0.25 * push[l], y = 0.25 * push[i + 1] + 0.5 * push[j + 1] + 0.25 * push[l + 1], z = 0.25 * push[i + 2] + 0.5 * push[j + 2] + 0.25 * push[l + 2];
    const step = shareWithin(x, y, z, STRIDE * thickness), mx = moved[j] + step * x, my = moved[j + 1] + step * y, mz = moved[j + 2] + step * z;
    const kept = shareWithin(mx, my, mz, FARTHEST * thickness), at = POINT_STRIDE * k;
    points[at] += kept * mx - moved[j]; points[at + 1] += kept * my - moved[j + 1]; points[at + 2] += kept * mz - moved[j + 2];
    moved[j] = kept * mx; moved[j + 1] = kept * my; moved[j + 2] = kept * mz;
  }
}

/** How much of a way keeps it within a length. */
function shareWithin(x: number, y: number, z: number, length: number): number {
  const square = x * x + y * y + z * z;
  return square > length * length ? length / Math.sqrt(square) : 1;
}
