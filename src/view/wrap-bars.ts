import type { Fabric } from '../fabric/fabric.ts';
import { LOOP } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';

/** Rings of a bar, and points round each. */
const RINGS = 9, SIDES = 7;
/** A bar's half length, thickness and height over the cloth, in stitches; chosen by eye. */
const HALF_LENGTH = 0.56, RADIUS = 0.115, RISE = 0.07, SINK = 0.3;

/** Where each wrap lies, all fabric vertices; -1 for none. */
export interface WrapPlace {
  /** Loop of the grid that the wrap is. */
  readonly loop: number;
  readonly host: number;
  /** Loop drawn through the host: the wrap lies at its base. */
  readonly child: number;
  /** Host's neighbours in its course, left and right. */
  readonly left: number;
  readonly right: number;
  /** The held loops before and after the host along the mitre. */
  readonly before: number;
  readonly after: number;
}

/** Wraps that lie round a loop of the cloth. */
export function findWraps(fabric: Fabric, grid: StitchGrid): WrapPlace[] {
  const before = new Map<number, number>(), after = new Map<number, number>();
  for (let i = 0; i + 1 < grid.mitrePairs.length; i += 2) {
    const a = grid.mitrePairs[i], b = grid.mitrePairs[i + 1];
    after.set(a, b);
    before.set(b, a);
  }
  const vertexOf = (loop: number | undefined): number => (loop === undefined || loop < 0 ? -1 : fabric.loopVertex[loop]);
  const places: WrapPlace[] = [];
  for (let loop = 0; loop < grid.loopCount; loop++) {
    const host = grid.wrapHost[loop];
    if (grid.kind[loop] !== LOOP.wrap || vertexOf(host) < 0) continue;
    places.push({
      loop, host: vertexOf(host), child: vertexOf(grid.child[host]),
      left: vertexOf(grid.leftOf[host]), right: vertexOf(grid.rightOf[host]),
      before: vertexOf(before.get(host)), after: vertexOf(after.get(host)),
    });
  }
  return places;
}

/** Triangles and buffers of all bars; three, three and two entries a point (place along the yarn in stitches, and round it in turns). */
export interface WrapBars {
  readonly pointsPerBar: number;
  readonly index: Uint32Array;
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  readonly along: Float32Array;
}

export function createWrapBars(barCount: number): WrapBars {
  const pointsPerBar = RINGS * SIDES, triangles: number[] = [];
  for (let bar = 0; bar < barCount; bar++) {
    for (let ring = 0; ring + 1 < RINGS; ring++) {
      for (let side = 0; side < SIDES; side++) {
        const a = bar * pointsPerBar + ring * SIDES + side, b = a - side + ((side + 1) % SIDES);
        triangles.push(a, b, b + SIDES, a, b + SIDES, a + SIDES);
      }
    }
  }
  const n = barCount * pointsPerBar;
  const along = new Float32Array(2 * n);
  for (let i = 0; i < n; i++) {
    along[2 * i] = ((Math.floor(i / SIDES) % RINGS) / (RINGS - 1) - 0.5) * 2 * HALF_LENGTH;
    along[2 * i + 1] = (i % SIDES) / SIDES;
  }
  return { pointsPerBar, index: Uint32Array.from(triangles), positions: new Float32Array(3 * n), normals: new Float32Array(3 * n), along };
}

type Vector = [number, number, number];

function point(p: Float64Array, v: number): Vector { return [p[3 * v], p[3 * v + 1], p[3 * v + 2]]; }

function dot(a: Vector, b: Vector): number { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }

function cross(a: Vector, b: Vector): Vector {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

function unit(a: Vector): Vector {
  const length = Math.sqrt(dot(a, a)) || 1;
  return [a[0] / length, a[1] / length, a[2] / length];
}

/** Unit direction between the two given vertices, or from or to the host where one is missing; null if both are. */
function directionAt(p: Float64Array, host: number, from: number, to: number): Vector | null {
  if (from < 0 && to < 0) return null;
  const a = point(p, from < 0 ? host : from), b = point(p, to < 0 ? host : to);
  return unit([b[0] - a[0], b[1] - a[1], b[2] - a[2]]);
}

/** A bar's frame: its middle, its direction in the cloth (between course and mitre), the cloth's normal. */
function barFrame(p: Float64Array, normals: Float64Array, place: WrapPlace): { middle: Vector; direction: Vector; normal: Vector } {
  const { host } = place, normal = point(normals, host), at = point(p, host);
  const course = directionAt(p, host, place.left, place.right) ?? unit(cross([0, 0, 1], normal));
  const mitre = directionAt(p, host, place.before, place.after) ?? course;
  const sign = dot(course, mitre) < 0 ? -1 : 1;
  const mixed: Vector = [0, 1, 2].map((d) => course[d] + 0.9 * sign * mitre[d]) as Vector;
  const lift = dot(mixed, normal);
  const direction = unit([0, 1, 2].map((d) => mixed[d] - lift * normal[d]) as Vector);
  const child = place.child < 0 ? at : point(p, place.child);
  const middle = [0, 1, 2].map((d) => at[d] + 0.3 * (child[d] - at[d])) as Vector;
  return { middle, direction, normal };
}

/** One ring of a bar, `s` from -1 to 1 along it, into the points from entry `at` on. */
function poseRing(out: WrapBars, at: number, s: number, frame: ReturnType<typeof barFrame>, courseMm: number): void {
  const { middle, direction, normal } = frame, side = cross(normal, direction);
  const climb = (-2 * s * (RISE + SINK)) / HALF_LENGTH, length = Math.sqrt(1 + climb * climb);
  const rise = courseMm * (RISE - (RISE + SINK) * s * s), reach = courseMm * HALF_LENGTH * s;
  for (let k = 0; k < 3 * SIDES; k++) {
    const angle = (2 * Math.PI * Math.floor(k / 3)) / SIDES, d = k % 3;
    const n = Math.cos(angle) * side[d] + (Math.sin(angle) / length) * (normal[d] - climb * direction[d]);
    out.normals[at + k] = n;
    out.positions[at + k] = middle[d] + reach * direction[d] + rise * normal[d] + courseMm * RADIUS * n;
  }
}

/**
 * Bends every bar over its stitch: an arc that rises over the cloth at its middle and dives into
 * it at both ends. `normals` are the fabric's (cloth-pose.ts), `courseMm` the width of a stitch.
 */
export function poseWrapsInto(out: WrapBars, places: readonly WrapPlace[], p: Float64Array, normals: Float64Array, courseMm: number): void {
  places.forEach((place, bar) => {
    const frame = barFrame(p, normals, place);
    for (let ring = 0; ring < RINGS; ring++) {
      poseRing(out, 3 * SIDES * (RINGS * bar + ring), (2 * ring) / (RINGS - 1) - 1, frame, courseMm);
    }
  });
}
