import { edgeTowards } from './face-strip.ts';
import type { FaceStrip } from './face-strip.ts';
import type { SurfaceLine } from './straighten-line.ts';
import type { Surface } from './surface.ts';
import type { SurfacePoint } from './surface-point.ts';
import { pointOnSurface } from './surface-point.ts';

/**
 * A strip laid out in the plane. Portal i is the edge between its triangles i and i + 1, with its
 * left and right end as seen by the walker; the last portal is the goal itself, a point.
 */
export interface UnfoldedStrip {
  readonly strip: FaceStrip;
  readonly portalCount: number;
  /** Point of the surface at each portal's left and right end; -1 at the goal. */
  readonly left: Int32Array;
  readonly right: Int32Array;
  /** In the plane, two entries a portal. */
  readonly leftAt: Float64Array;
  readonly rightAt: Float64Array;
  readonly startX: number;
  readonly startY: number;
}

/** A place where the shortest line in a strip turns about one of its corners. */
export interface Turn {
  readonly point: number;
  /** A portal that ends in the corner. */
  readonly portal: number;
  /** The corner is at the walker's left. */
  readonly isLeft: boolean;
  /** Angle between the line's two arms on the strip's side: a half turn or more. */
  readonly insideRad: number;
  readonly x: number;
  readonly y: number;
}

export function unfoldStrip(surface: Surface, strip: FaceStrip): UnfoldedStrip {
  const { triangles } = surface;
  const count = strip.triangles.length;
  const out = {
    strip, portalCount: count, left: new Int32Array(count).fill(-1), right: new Int32Array(count).fill(-1),
    leftAt: new Float64Array(2 * count), rightAt: new Float64Array(2 * count),
  };
  // The first triangle lies with its first side along x; every next one is hinged to the edge before.
  const plane = new Float64Array(6);
  const first = strip.triangles[0];
  plane[2] = edgeLength(surface, triangles[3 * first], triangles[3 * first + 1]);
  hingeInto(plane, 4, surface, triangles[3 * first + 2], triangles[3 * first], triangles[3 * first + 1], 0, 0, plane[2], 0);
  const [startX, startY] = weighPlane(strip.from, plane);
  for (let i = 0; i + 1 < count; i++) {
    const half = edgeTowards(surface, strip.triangles[i], strip.triangles[i + 1]);
    const twin = surface.twins[half];
    const p = half % 3;
    const q = (p + 1) % 3;
    out.right[i] = triangles[half];
    out.left[i] = triangles[3 * strip.triangles[i] + q];
    const [px, py, qx, qy] = [plane[2 * p], plane[2 * p + 1], plane[2 * q], plane[2 * q + 1]];
    out.rightAt[2 * i] = px;
    out.rightAt[2 * i + 1] = py;
    out.leftAt[2 * i] = qx;
    out.leftAt[2 * i + 1] = qy;
    const k = twin % 3;
    const t = 3 * ((twin / 3) | 0);
    plane[2 * k] = qx;
    plane[2 * k + 1] = qy;
    plane[2 * ((k + 1) % 3)] = px;
    plane[2 * ((k + 1) % 3) + 1] = py;
    hingeInto(plane, 2 * ((k + 2) % 3), surface, triangles[t + ((k + 2) % 3)], out.left[i], out.right[i], qx, qy, px, py);
  }
  const [endX, endY] = weighPlane(strip.to, plane);
  out.leftAt[2 * count - 2] = out.rightAt[2 * count - 2] = endX;
  out.leftAt[2 * count - 1] = out.rightAt[2 * count - 1] = endY;
  return { ...out, startX, startY };
}

/** Turns of the shortest line in the strip, by the funnel: its two sides tighten until one bars the other. */
export function findTurns(unfolded: UnfoldedStrip): Turn[] {
  const { portalCount, left, right, leftAt, rightAt } = unfolded;
  const corners: Omit<Turn, 'insideRad'>[] = [];
  let [apexX, apexY] = [unfolded.startX, unfolded.startY];
  let apexPoint = -2;
  let leftIndex = 0;
  let rightIndex = 0;
  let i = 0;
  const turnAt = (index: number, isLeft: boolean): void => {
    apexX = (isLeft ? leftAt : rightAt)[2 * index];
    apexY = (isLeft ? leftAt : rightAt)[2 * index + 1];
    apexPoint = (isLeft ? left : right)[index];
    corners.push({ point: apexPoint, portal: index, isLeft, x: apexX, y: apexY });
    leftIndex = rightIndex = index + 1;
    i = index + 1;
  };
  const side = (a: Float64Array, ai: number, b: Float64Array, bi: number): number => (
    (a[2 * ai] - apexX) * (b[2 * bi + 1] - apexY) - (a[2 * ai + 1] - apexY) * (b[2 * bi] - apexX)
  );
  while (i < portalCount) {
    if (right[rightIndex] === apexPoint || side(rightAt, rightIndex, rightAt, i) >= 0) {
      if (left[leftIndex] !== apexPoint && side(leftAt, leftIndex, rightAt, i) > 0) {
        turnAt(leftIndex, true);
        continue;
      }
      rightIndex = i;
    }
    if (left[leftIndex] === apexPoint || side(leftAt, leftIndex, leftAt, i) <= 0) {
      if (right[rightIndex] !== apexPoint && side(rightAt, rightIndex, leftAt, i) < 0) {
        turnAt(rightIndex, false);
        continue;
      }
      leftIndex = i;
    }
    i++;
  }
  return weighTurns(unfolded, corners);
}

function weighTurns(unfolded: UnfoldedStrip, corners: readonly Omit<Turn, 'insideRad'>[]): Turn[] {
  const last = unfolded.portalCount - 1;
  const place = (i: number): [number, number] => {
    if (i < 0) return [unfolded.startX, unfolded.startY];
    return i < corners.length ? [corners[i].x, corners[i].y] : [unfolded.leftAt[2 * last], unfolded.leftAt[2 * last + 1]];
  };
  return corners.map((corner, i) => {
    const [px, py] = place(i - 1);
    const [qx, qy] = place(i + 1);
    const ux = px - corner.x;
    const uy = py - corner.y;
    const vx = qx - corner.x;
    const vy = qy - corner.y;
    const behind = Math.atan2(Math.abs(ux * vy - uy * vx), ux * vx + uy * vy);
    return { ...corner, insideRad: 2 * Math.PI - behind };
  });
}

/** The line in space: where it crosses each portal between its turns. */
export function traceStrip(surface: Surface, unfolded: UnfoldedStrip, turns: readonly Turn[]): SurfaceLine {
  const { strip, leftAt, rightAt, left, right } = unfolded;
  const last = unfolded.portalCount - 1;
  const points: number[] = [...pointOnSurface(surface, strip.from)];
  let [x, y] = [unfolded.startX, unfolded.startY];
  let portal = 0;
  let lengthMm = 0;
  const runTo = (toX: number, toY: number, end: number): void => {
    for (; portal < end; portal++) {
      const rx = rightAt[2 * portal];
      const ry = rightAt[2 * portal + 1];
      const ex = leftAt[2 * portal] - rx;
      const ey = leftAt[2 * portal + 1] - ry;
      const across = (toX - x) * ey - (toY - y) * ex;
      if (across === 0) continue;
      const u = Math.min(1, Math.max(0, ((toX - x) * (y - ry) - (toY - y) * (x - rx)) / across));
      const a = 3 * right[portal];
      const b = 3 * left[portal];
      for (let d = 0; d < 3; d++) points.push((1 - u) * surface.positions[a + d] + u * surface.positions[b + d]);
    }
    lengthMm += Math.sqrt((toX - x) ** 2 + (toY - y) ** 2);
    [x, y] = [toX, toY];
  };
  for (const turn of turns) {
    runTo(turn.x, turn.y, turn.portal);
    points.push(...surface.positions.subarray(3 * turn.point, 3 * turn.point + 3));
    portal = turn.portal + 1;
  }
  runTo(leftAt[2 * last], leftAt[2 * last + 1], last);
  points.push(...pointOnSurface(surface, strip.to));
  return { points: Float64Array.from(points), lengthMm };
}

function weighPlane(point: SurfacePoint, plane: Float64Array): [number, number] {
  const [u, v, w] = point.weights;
  return [u * plane[0] + v * plane[2] + w * plane[4], u * plane[1] + v * plane[3] + w * plane[5]];
}

/** Lays point c at its true distances from a and b (placed at ax, ay and bx, by), to the left of a to b. */
function hingeInto(
  plane: Float64Array, at: number, surface: Surface, c: number, a: number, b: number,
  ax: number, ay: number, bx: number, by: number,
): void {
  const base = Math.sqrt((bx - ax) ** 2 + (by - ay) ** 2);
  const toA = edgeLength(surface, a, c);
  const toB = edgeLength(surface, b, c);
  const along = (base * base + toA * toA - toB * toB) / (2 * base);
  const up = Math.sqrt(Math.max(0, toA * toA - along * along));
  const ux = (bx - ax) / base;
  const uy = (by - ay) / base;
  plane[at] = ax + along * ux - up * uy;
  plane[at + 1] = ay + along * uy + up * ux;
}

function edgeLength(surface: Surface, a: number, b: number): number {
  const { positions } = surface;
  const x = positions[3 * a] - positions[3 * b];
  const y = positions[3 * a + 1] - positions[3 * b + 1];
  const z = positions[3 * a + 2] - positions[3 * b + 2];
  return Math.sqrt(x * x + y * y + z * z);
}
