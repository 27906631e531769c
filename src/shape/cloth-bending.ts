import { atan2, cos } from '../base/portable-math.ts';
import type { Fabric } from '../fabric/fabric.ts';
import type { LineBends } from '../solve/index.ts';
import type { Cloth } from './cloth-table.ts';
import { clipEars, restPolygon } from './rest-polygon.ts';
import type { Corner } from './rest-polygon.ts';

/** A neighbour of a vertex: where it lies in the unrolled cells around, and how far. */
interface Ray { readonly vertex: number; readonly angle: number; readonly length: number; readonly isCourse: boolean; readonly stiffness: number }

interface Umbrella {
  readonly rays: readonly Ray[];
  /** Sum of the rest angles. */
  readonly total: number;
  readonly isClosed: boolean;
  /** Cloth that belongs to the vertex, mm^2. */
  readonly area: number;
}

/** An opposite point this near to a neighbour (as a share of the angle between two) is that neighbour. */
const SNAP = 0.02;
/** Between two neighbours wider apart than this (radian) no point is interpolated. */
const WIDEST = 2.4;

/**
 * Bends at every vertex, one for each line through it: from a neighbour to the point that lies
 * opposite, half the total rest angle away (between two neighbours if need be). On the regular grid
 * these are the courses and the wales; the rest state is flat. At an edge of the cloth only lines
 * along the edge and pairs half a turn apart count. `courseShare` gives the share of the stiffness
 * that the bends of courses keep at a vertex.
 */
export function makeClothBending(fabric: Fabric, cloth: Cloth, courseShare: (vertex: number) => number = () => 1): LineBends {
  const middle: number[] = [], ahead: number[] = [], first: number[] = [], second: number[] = [];
  const shares: number[] = [], lengthAhead: number[] = [], lengthBehind: number[] = [], weights: number[] = [];
  gatherUmbrellas(fabric, cloth).forEach((umbrella, vertex) => {
    if (umbrella === null) return;
    for (const ray of umbrella.rays) {
      const opposite = oppositePoint(umbrella, ray.angle);
      if (opposite === null) continue;
      const { from, to, share, length } = opposite;
      // A line that runs straight through is met from both ends: kept once, at full weight.
      const isStraight = share === 0 && oppositePoint(umbrella, from.angle)?.from === ray;
      if (isStraight && from.vertex < ray.vertex) continue;
      middle.push(vertex);
      ahead.push(ray.vertex);
      first.push(from.vertex);
      second.push(share > 0 ? to.vertex : from.vertex);
      shares.push(share);
      lengthAhead.push(ray.length);
      lengthBehind.push(length);
      weights.push((isStraight ? 4 : 2) / umbrella.rays.length * ray.stiffness * umbrella.area * (ray.isCourse ? courseShare(vertex) : 1));
    }
  });
  return {
    middle: Int32Array.from(middle), ahead: Int32Array.from(ahead), behindFirst: Int32Array.from(first), behindSecond: Int32Array.from(second),
    share: Float64Array.from(shares), lengthAhead: Float64Array.from(lengthAhead), lengthBehind: Float64Array.from(lengthBehind),
    weights: Float64Array.from(weights),
  };
}

function oppositePoint(umbrella: Umbrella, angle: number): { from: Ray; to: Ray; share: number; length: number } | null {
  const { rays, total, isClosed } = umbrella;
  let target = angle + (isClosed ? total / 2 : Math.PI);
  if (isClosed && target >= total) target -= total;
  const n = rays.length;
  for (let k = 0; k < (isClosed ? n : n - 1); k++) {
    const from = rays[k], to = rays[(k + 1) % n];
    const end = k + 1 < n ? to.angle : total;
    const share = (target - from.angle) / (end - from.angle);
    if (share < -SNAP || share > 1 + SNAP) continue;
    if (share < SNAP) return { from, to, share: 0, length: from.length };
    if (share > 1 - SNAP) return { from: to, to: from, share: 0, length: to.length };
    const wedge = end - from.angle;
    if (wedge > WIDEST) return null;
    const p = (1 - share) * from.length, q = share * to.length;
    return { from, to, share, length: Math.sqrt(p * p + q * q + 2 * p * q * cos(wedge)) };
  }
  return null;
}

interface Wedge {
  readonly next: number;
  readonly before: number;
  readonly angle: number;
  readonly nextLength: number;
  readonly beforeLength: number;
  readonly nextIsCourse: boolean;
  readonly beforeIsCourse: boolean;
  readonly nextStiffness: number;
  readonly beforeStiffness: number;
  readonly area: number;
}

/** The cells around each vertex in turn; null where they form no single fan. */
function gatherUmbrellas(fabric: Fabric, cloth: Cloth): (Umbrella | null)[] {
  const wedges: Wedge[][] = Array.from({ length: fabric.vertexCount }, () => []);
  for (let cell = 0; cell + 1 < fabric.cellStart.length; cell++) {
    const polygon = restPolygon(fabric, cell);
    // Larger cells are cut up, so that every vertex finds something opposite to each neighbour.
    for (const part of polygon.length > 4 ? clipEars(polygon) : [polygon]) addWedges(cloth, part, wedges);
  }
  return wedges.map(orderWedges);
}

function addWedges(cloth: Cloth, polygon: readonly Corner[], wedges: Wedge[][]): void {
  const size = polygon.length;
  const vector = (k: number, l: number): [number, number] => [polygon[l].s - polygon[k].s, polygon[l].t - polygon[k].t];
  let area = 0;
  for (let k = 1; k + 1 < size; k++) {
    const [ps, pt] = vector(0, k), [qs, qt] = vector(0, k + 1);
    area += 0.5 * (ps * qt - qs * pt);
  }
  for (let k = 0; k < size; k++) {
    const [ns, nt] = vector(k, (k + 1) % size), [bs, bt] = vector(k, (k + size - 1) % size);
    const turn = atan2(ns * bt - nt * bs, ns * bs + nt * bt);
    wedges[polygon[k].vertex].push({
      next: polygon[(k + 1) % size].vertex,
      before: polygon[(k + size - 1) % size].vertex,
      angle: turn > 0 ? turn : turn + 2 * Math.PI,
      nextLength: Math.sqrt(ns * ns + nt * nt), beforeLength: Math.sqrt(bs * bs + bt * bt),
      nextIsCourse: Math.abs(ns) > Math.abs(nt), beforeIsCourse: Math.abs(bs) > Math.abs(bt),
      nextStiffness: stiffnessAlong(cloth, ns, nt), beforeStiffness: stiffnessAlong(cloth, bs, bt),
      area: area / size,
    });
  }
}

function stiffnessAlong(cloth: Cloth, s: number, t: number): number {
  return (cloth.courseBending * s * s + cloth.waleBending * t * t) / (s * s + t * t);
}

function orderWedges(wedges: readonly Wedge[]): Umbrella | null {
  if (wedges.length === 0) return null;
  const first = wedges.find((wedge) => wedges.every((other) => other.before !== wedge.next));
  const isClosed = first === undefined;
  let wedge: Wedge | undefined = first ?? wedges[0];
  const rays: Ray[] = [];
  let angle = 0, area = 0, last = wedge;
  for (let count = 0; wedge !== undefined && count < wedges.length; count++) {
    rays.push({ vertex: wedge.next, angle, length: wedge.nextLength, isCourse: wedge.nextIsCourse, stiffness: wedge.nextStiffness });
    angle += wedge.angle;
    area += wedge.area;
    last = wedge;
    const meeting: number = wedge.before;
    wedge = isClosed && meeting === rays[0].vertex ? undefined : wedges.find((other) => other.next === meeting);
  }
  if (rays.length !== wedges.length || !rays.every((ray) => ray.length > 0)) return null;
  if (!isClosed) rays.push({ vertex: last.before, angle, length: last.beforeLength, isCourse: last.beforeIsCourse, stiffness: last.beforeStiffness });
  return { rays, total: angle, isClosed, area };
}
