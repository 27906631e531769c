import { PIECE_POINTS, POINT_STRIDE, type YarnLay, type YarnThread } from '../yarn/yarn-lay.ts';
import { blendInto, slopesInto, weightsInto } from '../yarn/spline.ts';

/** How finely a piece of yarn (a loop, say) is made: rings along it, and corners of a ring. */
export const TUBE_DETAILS = { coarse: { segments: 12, sides: 4 }, middle: { segments: 24, sides: 6 }, fine: { segments: 32, sides: 8 } } as const;
export type TubeDetail = keyof typeof TUBE_DETAILS;

/** Points that indices of 16 bits reach; the last number means a restart (glTF 2.0, section 3.7.2.1). */
const MOST_POINTS = 0xffff;

/** A rounded end: how far its rings lie beyond the yarn's end, in angles of a half sphere; the outermost is its tip. */
const END_ANGLES = [Math.PI / 2, Math.PI / 4] as const;

/** A run of rings along one length of yarn: the first and the last ring of runs that follow each other are the same. */
export interface TubeRun {
  readonly length: number;
  readonly yarn: number;
  readonly firstRing: number;
  readonly rings: number;
}

/** Points of a run, ring by ring: three entries a point, mm in the pose's axes, and unit normals. */
export interface TubePoints { readonly run: TubeRun; readonly positions: Float32Array; readonly normals: Float32Array }

/** All runs of a piece's yarn, each small enough for indices of 16 bits. */
export function listRuns({ lengthStart, yarn }: Pick<YarnThread, 'lengthStart' | 'yarn'>, detail: TubeDetail): TubeRun[] {
  const { segments, sides } = TUBE_DETAILS[detail], most = Math.floor(MOST_POINTS / sides), runs: TubeRun[] = [];
  for (let length = 0; length + 1 < lengthStart.length; length++) {
    const all = (lengthStart[length + 1] - lengthStart[length]) * segments + 1 + 2 * END_ANGLES.length;
    for (let firstRing = 0; firstRing < all - 1; firstRing += most - 1) {
      runs.push({ length, yarn: yarn[lengthStart[length]], firstRing, rings: Math.min(most, all - firstRing) });
    }
  }
  return runs;
}

/** Triangles of so many rings, outside out; those of fewer rings are its first ones. */
export function ringTriangles(rings: number, sides: number): Uint16Array<ArrayBuffer> {
  const out = new Uint16Array(6 * sides * (rings - 1));
  let at = 0;
  for (let ring = 0; ring + 1 < rings; ring++) {
    for (let side = 0; side < sides; side++) {
      const a = ring * sides + side, b = ring * sides + (side + 1) % sides;
      out.set([a, b, b + sides, a, b + sides, a + sides], at);
      at += 6;
    }
  }
  return out;
}

/** Where a ring lies: its middle, the yarn's direction there, and the direction of its first corner; three entries each. */
interface RingFrame { readonly middle: Float64Array; readonly along: Float64Array; readonly aside: Float64Array }

const createFrame = (): RingFrame => ({ middle: new Float64Array(3), along: new Float64Array(3), aside: new Float64Array(3) });

/** Tubes of all yarn, run by run, as `listRuns` has them. */
export function* layTubes(lay: YarnLay, detail: TubeDetail): Generator<TubePoints> {
  const { segments, sides } = TUBE_DETAILS[detail], corners = Array.from({ length: sides }, (_, side) => [Math.cos((2 * Math.PI * side) / sides), Math.sin((2 * Math.PI * side) / sides)] as const);
  const { lengthStart } = lay.thread, ends = END_ANGLES.length;
  let walk: Walk | null = null;
  for (const run of listRuns(lay.thread, detail)) {
    if (walk?.length !== run.length) walk = createWalk(lay, run.length, segments);
    const last = (lengthStart[run.length + 1] - lengthStart[run.length]) * segments, radius = lay.diameterMm[run.yarn] / 2;
    const positions = new Float32Array(3 * sides * run.rings), normals = new Float32Array(3 * sides * run.rings);
    for (let i = 0; i < run.rings; i++) {
      const ring = run.firstRing + i - ends, frame = walk.frameAt(Math.min(last, Math.max(0, ring)));
      const beyond = ring < 0 ? END_ANGLES[ring + ends] : ring > last ? END_ANGLES[last + ends - ring] : 0;
      ringInto(positions, normals, 3 * sides * i, frame, corners, { radius, cos: Math.cos(beyond), sin: ring < 0 ? -Math.sin(beyond) : Math.sin(beyond) });
    }
    yield { run, positions, normals };
  }
}

interface RingShape { readonly radius: number; readonly cos: number; readonly sin: number }

function ringInto(positions: Float32Array, normals: Float32Array, at: number, { middle, along, aside }: RingFrame, corners: readonly (readonly [number, number])[], { radius, cos, sin }: RingShape): void {
  const [tx, ty, tz] = along, [nx, ny, nz] = aside, bx = ty * nz - tz * ny, by = tz * nx - tx * nz, bz = tx * ny - ty * nx;
  for (const [c, s] of corners) {
    const x = cos * (c * nx + s * bx) + sin * tx, y = cos * (c * ny + s * by) + sin * ty, z = cos * (c * nz + s * bz) + sin * tz;
    normals[at] = x; normals[at + 1] = y; normals[at + 2] = z;
    positions[at] = middle[0] + radius * x; positions[at + 1] = middle[1] + radius * y; positions[at + 2] = middle[2] + radius * z;
    at += 3;
  }
}

interface Walk { readonly length: number; readonly frameAt: (ring: number) => RingFrame }

/**
 * Frames along a length, ring after ring; asked for in order, the same one as often as wished. They start from where the yarn points out of
 * the fabric and then turn no more about the yarn than it bends: the double reflection of Wang W., Juettler B., Zheng D., Liu Y., ACM Trans.
 * Graph. 27 (2008) 2, table I.
 */
function createWalk(lay: YarnLay, length: number, segments: number): Walk {
  const { lengthStart } = lay.thread, first = lengthStart[length], last = PIECE_POINTS * lengthStart[length + 1] - 1, rings = (lengthStart[length + 1] - first) * segments;
  const spans = (lengthStart[length + 1] - first) * PIECE_POINTS, weights = new Float64Array(4), point = new Float64Array(POINT_STRIDE);
  /** The slope is then in `point`. */
  const centreInto = (out: Float64Array, ring: number): void => {
    const place = (ring * PIECE_POINTS) / segments, span = Math.min(Math.floor(place), spans - 1), from = PIECE_POINTS * first + span;
    weightsInto(weights, place - span);
    blendInto(point, lay, from, last, weights);
    out.set(point.subarray(0, 3));
    slopesInto(weights, place - span);
    blendInto(point, lay, from, last, weights);
  };
  const directionInto = (out: Float64Array, at: Float64Array, ring: number): void => {
    out.set(point.subarray(0, 3));
    // Where control points fall together, as at a yarn's end, the line has a direction but no slope.
    for (let step = 1; !normalise(out) && step <= segments; step++) {
      const other = new Float64Array(3), ahead = ring + step <= rings;
      centreInto(other, ahead ? ring + step : ring - step);
      for (let d = 0; d < 3; d++) out[d] = ahead ? other[d] - at[d] : at[d] - other[d];
    }
  };
  let frame = createFrame(), spare = createFrame(), present = 0;
  const up = PIECE_POINTS * first * 4;
  centreInto(frame.middle, 0);
  directionInto(frame.along, frame.middle, 0);
  frame.aside.set([lay.ups[up], lay.ups[up + 1], lay.ups[up + 2]]);
  if (!squareOff(frame.aside, frame.along)) {
    frame.aside.set(Math.abs(frame.along[0]) < 0.6 ? [1, 0, 0] : [0, 1, 0]);
    squareOff(frame.aside, frame.along);
  }
  return {
    length,
    frameAt: (ring) => {
      for (; present < ring; present++) {
        centreInto(spare.middle, present + 1);
        directionInto(spare.along, spare.middle, present + 1);
        reflectTwiceInto(spare, frame);
        [frame, spare] = [spare, frame];
      }
      return frame;
    },
  };
}

function dot(a: Float64Array, b: Float64Array): number { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }

/** Makes a vector one of unit length; false for one that has hardly any. */
function normalise(v: Float64Array): boolean {
  const length = Math.sqrt(dot(v, v));
  if (length < 1e-6) return false;
  for (let d = 0; d < 3; d++) v[d] /= length;
  return true;
}

/** Takes out of a vector what lies along another of unit length; false where nothing is left. */
function squareOff(v: Float64Array, along: Float64Array): boolean {
  const share = dot(v, along);
  for (let d = 0; d < 3; d++) v[d] -= share * along[d];
  return normalise(v);
}

/** Carries the direction aside from one frame to the next, whose middle and direction along are known. */
function reflectTwiceInto(next: RingFrame, { middle, along, aside }: RingFrame): void {
  const step = next.middle.map((x, d) => x - middle[d]), square = dot(step, step);
  next.aside.set(aside);
  if (square > 1e-18) {
    const ofAside = (2 / square) * dot(step, aside), ofAlong = (2 / square) * dot(step, along), turned = new Float64Array(3);
    for (let d = 0; d < 3; d++) {
      next.aside[d] -= ofAside * step[d];
      turned[d] = next.along[d] - (along[d] - ofAlong * step[d]);
    }
    const rest = dot(turned, turned);
    if (rest > 1e-18) {
      const share = (2 / rest) * dot(turned, next.aside);
      for (let d = 0; d < 3; d++) next.aside[d] -= share * turned[d];
    }
  }
  // What rounding leaves along the yarn.
  if (!squareOff(next.aside, next.along)) next.aside.set(aside);
}
