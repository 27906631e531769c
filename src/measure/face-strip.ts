import type { Hop } from './search-nodes.ts';
import type { Surface } from './surface.ts';
import type { SurfacePoint } from './surface-point.ts';
import type { Turn } from './unfold-strip.ts';

/** Triangles, each sharing an edge with the next, that lead from one point to another. */
export interface FaceStrip {
  readonly from: SurfacePoint;
  readonly to: SurfacePoint;
  readonly triangles: readonly number[];
}

/** The half-edge of triangle t beyond which triangle `next` lies. */
export function edgeTowards(surface: Surface, t: number, next: number): number {
  for (let half = 3 * t; half < 3 * t + 3; half++) {
    const twin = surface.twins[half];
    if (twin !== -1 && ((twin / 3) | 0) === next) return half;
  }
  return -1;
}

/**
 * The triangles that a line of steps passes; at a corner it goes round the side with fewer of them.
 * Null where the surface hangs together by a corner only: no strip leads across.
 */
export function buildStrip(surface: Surface, hops: readonly Hop[]): number[] | null {
  const strip = [hops[0].triangle];
  for (let i = 1; i < hops.length; i++) {
    const way = leadTo(surface, hops[i - 1].node, hops[i - 1].triangle, hops[i].triangle);
    if (way === null) return null;
    strip.push(...way);
  }
  return dropBacktracks(strip);
}

/** Triangles after `from` up to `to`, both of which touch a node; null where none lead round it. */
function leadTo(surface: Surface, node: number, from: number, to: number): number[] | null {
  if (from === to) return [];
  if (edgeTowards(surface, from, to) !== -1) return [to];
  const left = walkRound(surface, node, from, to, true);
  const right = walkRound(surface, node, from, to, false);
  const way = left === null || (right !== null && right.length < left.length) ? right : left;
  return way;
}

/** Triangles about a point from one (left out) to another (included), counter-clockwise or not; null if a boundary cuts the way. */
function walkRound(surface: Surface, point: number, from: number, to: number, isLeft: boolean): number[] | null {
  const way: number[] = [];
  let t = from;
  do {
    const corner = cornerOf(surface, t, point);
    const twin = surface.twins[3 * t + (isLeft ? (corner + 2) % 3 : corner)];
    if (twin === -1) return null;
    t = (twin / 3) | 0;
    way.push(t);
  } while (t !== to && t !== from);
  return t === to ? way : null;
}

export function cornerOf(surface: Surface, t: number, point: number): number {
  const { triangles } = surface;
  return triangles[3 * t] === point ? 0 : triangles[3 * t + 1] === point ? 1 : triangles[3 * t + 2] === point ? 2 : -1;
}

/** Surface (radians) behind a turn: at the corner, on the side away from the strip; infinite at a boundary. */
export function turnBehind(surface: Surface, turn: Turn): number {
  let total = 0;
  for (let i = surface.fanStart[turn.point]; i < surface.fanStart[turn.point + 1]; i++) {
    const t = surface.fans[i];
    const corner = cornerOf(surface, t, turn.point);
    if (surface.twins[3 * t + corner] === -1 || surface.twins[3 * t + ((corner + 2) % 3)] === -1) return Infinity;
    total += cornerAngle(surface, t, corner);
  }
  return total - turn.insideRad;
}

function cornerAngle(surface: Surface, t: number, corner: number): number {
  const { positions, triangles } = surface;
  const at = 3 * triangles[3 * t + corner];
  const one = 3 * triangles[3 * t + ((corner + 1) % 3)];
  const two = 3 * triangles[3 * t + ((corner + 2) % 3)];
  let dot = 0;
  let oneSquare = 0;
  let twoSquare = 0;
  for (let d = 0; d < 3; d++) {
    const u = positions[one + d] - positions[at + d];
    const v = positions[two + d] - positions[at + d];
    dot += u * v;
    oneSquare += u * u;
    twoSquare += v * v;
  }
  const cross = Math.sqrt(Math.max(0, oneSquare * twoSquare - dot * dot));
  return Math.atan2(cross, dot);
}

/**
 * The strip led round the other side of turns' corners (in order along the strip), of as many as do
 * not get in each other's way; null where none can be changed.
 */
export function detourStrip(surface: Surface, strip: readonly number[], turns: readonly Turn[]): number[] | null {
  const out: number[] = [];
  let done = 0;
  for (const turn of turns) {
    let first = turn.portal;
    let last = turn.portal + 1;
    while (first > 0 && cornerOf(surface, strip[first - 1], turn.point) !== -1) first--;
    while (last < strip.length - 1 && cornerOf(surface, strip[last + 1], turn.point) !== -1) last++;
    if (first < done) continue;
    const way = strip[first] === strip[last] ? [] : walkRound(surface, turn.point, strip[first], strip[last], !turn.isLeft);
    if (way === null) continue;
    for (let i = done; i <= first; i++) out.push(strip[i]);
    out.push(...way);
    done = last + 1;
  }
  if (done === 0) return null;
  for (let i = done; i < strip.length; i++) out.push(strip[i]);
  return dropBacktracks(out);
}

/** A strip that goes into a triangle and straight back does not go there. */
function dropBacktracks(strip: readonly number[]): number[] {
  const out: number[] = [];
  for (const t of strip) {
    if (out.length > 0 && out[out.length - 1] === t) continue;
    if (out.length > 1 && out[out.length - 2] === t) out.pop();
    else out.push(t);
  }
  return out;
}

/** Leaves out triangles at both ends that the line only touches: its end lies on the edge that leads out of them. */
export function trimStrip(surface: Surface, strip: FaceStrip): FaceStrip {
  let { from, to } = strip;
  let first = 0;
  let last = strip.triangles.length - 1;
  while (first < last) {
    const moved = moveAcross(surface, from, strip.triangles[first], strip.triangles[first + 1]);
    if (moved === null) break;
    from = moved;
    first++;
  }
  while (first < last) {
    const moved = moveAcross(surface, to, strip.triangles[last], strip.triangles[last - 1]);
    if (moved === null) break;
    to = moved;
    last--;
  }
  const triangles = strip.triangles.slice(first, last + 1);
  return {
    from: restate(surface, from, triangles[0]),
    to: restate(surface, to, triangles[triangles.length - 1]),
    triangles,
  };
}

/** The point as a point of `next`, if it lies on the edge between; null otherwise. */
function moveAcross(surface: Surface, point: SurfacePoint, t: number, next: number): SurfacePoint | null {
  const here = restate(surface, point, t);
  const half = edgeTowards(surface, t, next);
  return here.weights[(half + 2) % 3] > 1e-9 ? null : restate(surface, here, next);
}

/** The same point with the weights of another triangle, of which it is a rim point. */
function restate(surface: Surface, point: SurfacePoint, t: number): SurfacePoint {
  if (point.triangle === t) return point;
  const weights: [number, number, number] = [0, 0, 0];
  for (let k = 0; k < 3; k++) {
    const corner = cornerOf(surface, t, surface.triangles[3 * point.triangle + k]);
    if (corner !== -1) weights[corner] = point.weights[k];
  }
  return { triangle: t, weights };
}
