import { cos, sin } from '../base/portable-math.ts';
import type { FootForm } from './foot-form.ts';
import type { MeasureName } from './foot-measures.ts';
import { rayOf, TAPE_RAYS, traceRadiiInto } from './form-tapes.ts';
import type { TapePlane } from './form-tapes.ts';
import { traceRay } from './trace-section.ts';
import type { Point } from './trace-section.ts';

/** Points one after the other on a drawing, mm: to the right, which is to the toes, and up. */
export type Polyline = readonly (readonly [number, number])[];

/** What a tape or a rule is laid along: for a tape the half that is seen, for a rule its two ends. */
export interface DrawnMeasure { readonly measure: MeasureName; readonly line: Polyline }
export interface FootView { readonly outline: Polyline; readonly measures: readonly DrawnMeasure[] }

export interface FootDrawing {
  /** Seen from the outer side; the outline starts and ends at the leg's top, which is open. */
  readonly side: FootView;
  /** The foot's outline on the floor, closed, and the measures over it as seen from above. y of the foot is up. */
  readonly above: FootView;
}

/** The same in the foot's axes: every point lies on the skin. */
export interface FootLines {
  readonly side: readonly Point[];
  readonly above: readonly Point[];
  readonly tapes: readonly { readonly measure: MeasureName; readonly centre: Point; readonly points: readonly Point[] }[];
  readonly rules: readonly { readonly measure: MeasureName; readonly points: readonly [Point, Point] }[];
}

const TAPES = ['ballGirthMm', 'heelDiagonalMm', 'ankleGirthMm', 'calfGirthMm'] as const;
/** Tapes that are seen from above, where the leg is not drawn. */
const ABOVE: readonly MeasureName[] = ['ballGirthMm', 'lengthMm', 'heelBreadthMm'];

/** Shares of the foot's length: the leg is drawn so far over the calf's girth; the outline on the floor is that of what lies below so high. */
const OVER_CALF = 0.1, SOLE_HEIGHT = 0.12;
/** Shares of the length, where the rays of an outline change from one direction to the next: middles of heel and toes, and the point in front of the instep. */
const HEEL = 0.13, TOES = 0.88, PIVOT_OFF = 0.06;
/** Places looked at across an outline's plane, and halvings of the way between them. */
const PLACES = 11, REFINEMENTS = 12;

/** Foot outlines and where the tapes run, for a drawing of how to measure. */
export function drawFootOutlines(foot: FootForm): FootDrawing {
  const { side, above, tapes, rules } = traceFootLines(foot), outer = foot.looks.side === 'right' ? -1 : 1;
  const fromSide = (p: Point): readonly [number, number] => [p[0], p[2]], fromAbove = (p: Point): readonly [number, number] => [p[0], p[1]];
  const seen = (isNear: (p: Point, centre: Point) => boolean): { readonly measure: MeasureName; readonly points: readonly Point[] }[] =>
    [...tapes.map(({ measure, centre, points }) => ({ measure, points: nearHalf(points, (p) => isNear(p, centre)) })), ...rules];
  return {
    side: {
      outline: side.map(fromSide),
      measures: seen((p, centre) => outer * (p[1] - centre[1]) >= 0).filter(({ measure }) => measure !== 'heelBreadthMm')
        .map(({ measure, points }) => ({ measure, line: points.map(fromSide) })),
    },
    above: {
      outline: above.map(fromAbove),
      measures: seen((p, centre) => p[2] >= centre[2]).filter(({ measure }) => ABOVE.includes(measure))
        .map(({ measure, points }) => ({ measure, line: points.map(fromAbove) })),
    },
  };
}

/** The points of a ring that are near, in one run. */
function nearHalf(ring: readonly Point[], isNear: (p: Point) => boolean): readonly Point[] {
  const first = ring.findIndex((p, k) => isNear(p) && !isNear(ring[(k + ring.length - 1) % ring.length]));
  return [...ring.slice(first), ...ring.slice(0, first)].filter(isNear);
}

export function traceFootLines(foot: FootForm): FootLines {
  const { lengthMm } = foot.measures, far = 2 * lengthMm;
  const meet = (from: Point, way: Point): Point => {
    const t = traceRay(foot, from, way, 2 * far, 0);
    return [from[0] + t * way[0], from[1] + t * way[1], from[2] + t * way[2]];
  };
  const rear = meet([-far, 0, 0], [1, 0, 0]), tip = meet([far, foot.toeAsideMm, foot.toeMm], [-1, 0, 0]);
  return {
    side: traceSide(foot), above: traceSole(foot),
    tapes: TAPES.map((measure) => ({ measure, centre: foot.tapes[measure].centre, points: traceTape(foot, foot.tapes[measure]) })),
    rules: [
      { measure: 'lengthMm', points: [rear, tip] },
      { measure: 'heelBreadthMm', points: [meet([foot.heelMm, -far, 0], [0, 1, 0]), meet([foot.heelMm, far, 0], [0, -1, 0])] },
    ],
  };
}

function traceTape(foot: FootForm, plane: TapePlane): Point[] {
  const radii = new Float64Array(TAPE_RAYS), { centre, u, v } = plane;
  traceRadiiInto(radii, foot, plane, 0.15 * foot.measures.lengthMm);
  return Array.from(radii, (r, k): Point => {
    const [x, y, z] = rayOf(u, v, k, TAPE_RAYS);
    return [centre[0] + r * x, centre[1] + r * y, centre[2] + r * z];
  });
}

/** A ray of an outline's plane, from outside. */
interface PlaneRay { readonly from: readonly [number, number]; readonly way: readonly [number, number] }

/** Rays that keep their direction while they move from one place to another, the last place left out. */
function sweep(count: number, from: readonly [number, number], to: readonly [number, number], way: readonly [number, number]): PlaneRay[] {
  return Array.from({ length: count }, (_, k) => ({ from: [from[0] + (to[0] - from[0]) * k / count, from[1] + (to[1] - from[1]) * k / count], way }));
}

/** Rays towards a middle from all round, or away from it, the last angle left out; degrees. */
function fan(count: number, middle: readonly [number, number], first: number, last: number, far: number): PlaneRay[] {
  return Array.from({ length: count }, (_, k) => {
    const angle = (first + (last - first) * k / count) * Math.PI / 180, c = cos(angle), s = sin(angle);
    return { from: [middle[0] + far * c, middle[1] + far * s], way: far > 0 ? [-c, -s] : [c, s] };
  });
}

/** From the leg's top down its back, round the heel, along the sole, round the toes, up the instep and the leg's front. */
function traceSide(foot: FootForm): Point[] {
  const { lengthMm } = foot.measures, far = 2 * lengthMm, top = foot.calfMm + OVER_CALF * lengthMm, aside = 0.3 * lengthMm;
  const outline = (ray: PlaneRay): Point => traceOutline(foot, ray, far, [-aside, aside], (a, b, across) => [a, across, b]);
  const s = Math.SQRT1_2, [x, z] = foot.turn, skin = outline({ from: [x + lengthMm * s, z + lengthMm * s], way: [-s, -s] });
  const pivot = [skin[0] + PIVOT_OFF * lengthMm * s, skin[2] + PIVOT_OFF * lengthMm * s] as const, heel = HEEL * lengthMm, toes = 0.95 * lengthMm;
  return [
    ...sweep(30, [-lengthMm, top], [-lengthMm, 0], [1, 0]),
    ...fan(10, [heel, 0], 180, 270, lengthMm),
    ...sweep(28, [heel, -lengthMm], [toes, -lengthMm], [0, 1]),
    ...fan(12, [toes, foot.toeMm], -90, 90, lengthMm),
    ...sweep(24, [toes, pivot[1]], pivot, [0, -1]),
    ...fan(8, pivot, -90, -180, 0),
    ...sweep(24, pivot, [pivot[0], top], [-1, 0]).map(({ from, way }) => ({ from: [from[0] + lengthMm, from[1]] as const, way })),
    { from: [far, top] as const, way: [-1, 0] as const },
  ].map(outline);
}

/** From the heel's inner side round it, along the outer side, round the toes and back; a right foot's, mirrored for a left one. */
function traceSole(foot: FootForm): Point[] {
  const { lengthMm } = foot.measures, heel = HEEL * lengthMm, toes = TOES * lengthMm, sign = foot.looks.side === 'right' ? 1 : -1;
  const outline = (ray: PlaneRay): Point => traceOutline(foot, ray, 2 * lengthMm, [foot.floorMm, foot.floorMm + SOLE_HEIGHT * lengthMm], (a, b, across) => [a, sign * b, across]);
  return [
    ...fan(16, [heel, 0], 90, 270, lengthMm),
    ...sweep(30, [heel, -lengthMm], [toes, -lengthMm], [0, 1]),
    ...fan(24, [toes, 0], -90, 90, lengthMm),
    ...sweep(30, [toes, lengthMm], [heel, lengthMm], [0, -1]),
  ].map(outline);
}

/**
 * Where a ray in a plane meets the outline of the whole foot seen across that plane: sphere tracing by the least
 * distance of the points across, which is never overstated either. The point of the skin where it does.
 */
function traceOutline(foot: FootForm, { from, way }: PlaneRay, reach: number, range: readonly [number, number], place: (a: number, b: number, across: number) => Point): Point {
  const normal = new Float64Array(3);
  let t = 0, across = 0;
  const distanceAt = (at: number): number => foot.distanceAt(...place(from[0] + t * way[0], from[1] + t * way[1], at), normal);
  for (let step = 0; step < 200 && t < reach; step++) {
    across = leastAcross(distanceAt, range);
    const d = distanceAt(across);
    t += d;
    if (d < 1e-4) break;
  }
  return place(from[0] + t * way[0], from[1] + t * way[1], across);
}

/** Place of the least value in a range: the lowest of some places, then a golden-section search beside it. */
function leastAcross(f: (at: number) => number, [low, high]: readonly [number, number]): number {
  const step = (high - low) / (PLACES - 1), golden = 0.5 * (Math.sqrt(5) - 1);
  let best = low, least = Infinity;
  for (let k = 0; k < PLACES; k++) {
    const value = f(low + k * step);
    if (value < least) { least = value; best = low + k * step; }
  }
  let a = Math.max(low, best - step), b = Math.min(high, best + step);
  for (let k = 0; k < REFINEMENTS; k++) {
    const p = b - golden * (b - a), q = a + golden * (b - a);
    if (f(p) < f(q)) b = q;
    else a = p;
  }
  return 0.5 * (a + b);
}
