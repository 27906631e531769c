import { cos, sin } from '../base/portable-math.ts';
import type { FootForm } from './foot-form.ts';
import { traceRay } from './trace-section.ts';
import type { Point } from './trace-section.ts';

/** A closed surface as triangles, counter-clockwise as seen from outside. */
export interface FormMesh {
  /** Three entries a point, mm. */
  readonly positions: Float64Array;
  /** Three points a triangle. */
  readonly triangles: Uint32Array;
}

/** Points round a ring; rings round the heel and along the foot; farthest distance of those up the leg, mm. */
const SIDES = 44;
const HEEL_RINGS = 11, FOOT_RINGS = 22, LEG_STEP_MM = 16;
/** The planes of the heel's rings all meet this far in front of the crease over the instep, as a share of the foot's length. */
const PIVOT_OFF = 0.06;
/** The last ring stands this far before the toes' tip, as a share of the length. */
const TIP = 0.004;
/** The leg's upper edge is rounded over so many mm: rings inward and up, shares of it. */
const BRIM_MM = 5;
const BRIM: readonly (readonly [number, number])[] = [[0.62, 0], [0.22, 0.35], [0, 1]];

/** Half of the girth round a section is more than its breadth: this share of the greatest girth is more than half of any breadth. */
const OUTSIDE = 0.26;

/** A plane across the form, level along y: a point in its middle, the unit vector across y, and half of the form's height along that. */
interface Section { readonly middle: Point; readonly up: Point; readonly half: number }

/** What the rings are traced with. */
interface Tracer {
  /** Where a ray from outside meets the surface. */
  readonly meet: (from: Point, way: Point) => Point;
  readonly reach: number;
  /** Rays of a ring start on an ellipse: so far outside along y, and so far off the surface across it. */
  readonly outsideY: number;
  readonly off: number;
}

/**
 * The foot as a surface of some 4,000 triangles, `insetMm` inside its skin, the leg cut off level
 * at height `topMm` with a rounded edge. Rings lie in planes across the leg, then in planes that
 * turn about a line in front of the instep, then in planes across the foot: no two cross inside.
 */
export function makeFormMesh(foot: FootForm, topMm: number, insetMm: number): FormMesh {
  const { lengthMm } = foot.measures, reach = 2 * Math.max(lengthMm, foot.measures.calfGirthMm);
  const meet = (from: Point, way: Point): Point => {
    const t = traceRay(foot, from, way, 2 * reach, -insetMm);
    return [from[0] + t * way[0], from[1] + t * way[1], from[2] + t * way[2]];
  };
  const tracer: Tracer = { meet, reach, outsideY: OUTSIDE * Math.max(...Object.values(foot.girths) as number[]), off: PIVOT_OFF * lengthMm };
  const pivot = findPivot(foot, tracer), rings: Point[][] = [];
  const add = (from: readonly [number, number], way: Point): void => { rings.push(traceRing(acrossForm(from, way, tracer), tracer)); };
  const low = Math.max(pivot[1], 0), top = Math.max(topMm, low + 4 * BRIM_MM);
  const legRings = Math.ceil((top - BRIM_MM - low) / LEG_STEP_MM);
  for (let i = 0; i < legRings; i++) {
    const z = top - BRIM_MM + (low - top + BRIM_MM) * i / legRings;
    add([reach, z], [-1, 0, 0]);
  }
  roundBrim(rings, top);
  for (let i = 0; i <= HEEL_RINGS; i++) {
    const angle = Math.PI / 2 * i / HEEL_RINGS;
    add(pivot, [-cos(angle), 0, -sin(angle)]);
  }
  const tip = meet([reach, 0, foot.toeMm], [-1, 0, 0]), last = tip[0] - TIP * lengthMm;
  for (let i = 1; i <= FOOT_RINGS; i++) {
    const x = pivot[0] + (last - pivot[0]) * sin(Math.PI / 2 * i / FOOT_RINGS);
    add([x, pivot[1]], [0, 0, -1]);
  }
  return joinRings(rings, tip);
}

/** A line in front of the instep's crease, outside the form: its x and z. */
function findPivot(foot: FootForm, { meet, reach, off }: Tracer): readonly [number, number] {
  const s = Math.SQRT1_2, [x, z] = foot.turn;
  const skin = meet([x + reach * s, 0, z + reach * s], [-s, 0, -s]);
  return [skin[0] + off * s, skin[2] + off * s];
}

/** The section through a point (x, z) outside the form and along `way`, which points into it: its middle lies half way between skin and skin. */
function acrossForm([x, z]: readonly [number, number], way: Point, { meet, reach }: Tracer): Section {
  const near = meet([x, 0, z], way);
  const far = meet([near[0] + reach * way[0], 0, near[2] + reach * way[2]], [-way[0], 0, -way[2]]);
  const half = 0.5 * Math.sqrt((near[0] - far[0]) ** 2 + (near[2] - far[2]) ** 2);
  return { middle: [(near[0] + far[0]) / 2, 0, (near[2] + far[2]) / 2], up: [-way[0], 0, -way[2]], half };
}

function traceRing({ middle, up, half }: Section, { meet, outsideY, off }: Tracer): Point[] {
  return Array.from({ length: SIDES }, (_, k) => {
    const c = (half + off) * cos(2 * Math.PI * k / SIDES), s = outsideY * sin(2 * Math.PI * k / SIDES), length = Math.sqrt(c * c + s * s);
    const out: Point = [c * up[0], s, c * up[2]];
    return meet([middle[0] + out[0], out[1], middle[2] + out[2]], [-out[0] / length, -out[1] / length, -out[2] / length]);
  });
}

/** Puts rings before the first, narrower and higher, so that the leg's cut has a soft edge. */
function roundBrim(rings: Point[][], top: number): void {
  const [first] = rings, height = top - first[0][2];
  let x = 0;
  for (const point of first) x += point[0] / SIDES;
  const before = BRIM.map(([rise, inward]) => first.map((point): Point => {
    const away = Math.sqrt((point[0] - x) ** 2 + point[1] ** 2) || 1, share = 1 - inward * height / away;
    return [x + share * (point[0] - x), share * point[1], top - rise * height];
  }));
  rings.unshift(...before.reverse());
}

/** Neighbouring rings joined by triangles; the first ring is closed by a lid, the last by the toes' tip. */
function joinRings(rings: readonly Point[][], tip: Point): FormMesh {
  const [first] = rings, lid: Point = [first.reduce((sum, p) => sum + p[0] / SIDES, 0), 0, first[0][2]];
  const points = [...rings.flat(), lid, tip], triangles: number[] = [], end = rings.length * SIDES;
  for (let k = 0; k < SIDES; k++) {
    const next = (k + 1) % SIDES;
    triangles.push(end, k, next);
    for (let at = 0; at + SIDES < end; at += SIDES) triangles.push(at + k, at + SIDES + k, at + next, at + next, at + SIDES + k, at + SIDES + next);
    triangles.push(end - SIDES + k, end + 1, end - SIDES + next);
  }
  return { positions: Float64Array.from(points.flat()), triangles: Uint32Array.from(triangles) };
}
