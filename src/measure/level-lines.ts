import type { Surface } from './surface.ts';

/**
 * Where a field, linear in each triangle, takes a value: lines across the faces. A plane's section
 * is the level line of the distance from the plane. Points that have the value exactly count as
 * above it, so that no line runs into a corner.
 */

export interface LevelLine {
  /** Three entries a point; a closed line ends where it began. */
  readonly points: Float64Array;
  readonly isClosed: boolean;
}

/** Total length of all lines of `field = level` (a value a point). */
export function measureLevel(surface: Surface, field: ArrayLike<number>, level: number): number {
  const from = new Float64Array(3);
  const to = new Float64Array(3);
  let length = 0;
  for (let t = 0; t < surface.triangleCount; t++) {
    const enter = crossing(surface, field, level, t, true);
    if (enter === -1) continue;
    crossingInto(from, 0, surface, field, level, enter);
    crossingInto(to, 0, surface, field, level, crossing(surface, field, level, t, false));
    length += Math.sqrt((to[0] - from[0]) ** 2 + (to[1] - from[1]) ** 2 + (to[2] - from[2]) ** 2);
  }
  return length;
}

/** The lines of `field = level`, each walked with the higher side on its left. */
export function traceLevel(surface: Surface, field: ArrayLike<number>, level: number): LevelLine[] {
  const isDone = new Uint8Array(surface.triangleCount);
  const lines: LevelLine[] = [];
  const startAt = (t: number): void => {
    if (isDone[t] || crossing(surface, field, level, t, true) === -1) return;
    lines.push(walkLevel(surface, field, level, t, isDone));
  };
  for (let t = 0; t < surface.triangleCount; t++) {
    const enter = crossing(surface, field, level, t, true);
    if (enter !== -1 && surface.twins[enter] === -1) startAt(t);
  }
  for (let t = 0; t < surface.triangleCount; t++) startAt(t);
  return lines;
}

/** The lines in which a plane (a point and a normal, any length) cuts the surface. */
export function cutByPlane(surface: Surface, point: ArrayLike<number>, normal: ArrayLike<number>): LevelLine[] {
  const field = new Float64Array(surface.pointCount);
  for (let p = 0; p < surface.pointCount; p++) {
    for (let d = 0; d < 3; d++) field[p] += normal[d] * (surface.positions[3 * p + d] - point[d]);
  }
  return traceLevel(surface, field, 0);
}

function walkLevel(surface: Surface, field: ArrayLike<number>, level: number, start: number, isDone: Uint8Array): LevelLine {
  const points: number[] = [];
  const at = new Float64Array(3);
  const add = (half: number): void => {
    crossingInto(at, 0, surface, field, level, half);
    points.push(at[0], at[1], at[2]);
  };
  add(crossing(surface, field, level, start, true));
  let t = start;
  for (;;) {
    isDone[t] = 1;
    const leave = crossing(surface, field, level, t, false);
    add(leave);
    const twin = surface.twins[leave];
    if (twin === -1) return { points: Float64Array.from(points), isClosed: false };
    t = (twin / 3) | 0;
    if (t === start) return { points: Float64Array.from(points), isClosed: true };
  }
}

/** The half-edge of triangle t where the field passes the level: upwards along it (enter) or downwards (leave); -1 if none. */
function crossing(surface: Surface, field: ArrayLike<number>, level: number, t: number, isEnter: boolean): number {
  const { triangles } = surface;
  for (let k = 0; k < 3; k++) {
    const isHighFrom = field[triangles[3 * t + k]] >= level;
    const isHighTo = field[triangles[3 * t + ((k + 1) % 3)]] >= level;
    if (isHighFrom !== isHighTo && isHighTo === isEnter) return 3 * t + k;
  }
  return -1;
}

/** Both sides of an edge give the same point to the last bit: the lower point leads. */
function crossingInto(out: Float64Array, at: number, surface: Surface, field: ArrayLike<number>, level: number, half: number): void {
  const from = surface.triangles[half];
  const to = surface.triangles[half % 3 === 2 ? half - 2 : half + 1];
  const low = Math.min(from, to);
  const high = Math.max(from, to);
  const t = (level - field[low]) / (field[high] - field[low]);
  for (let d = 0; d < 3; d++) {
    out[at + d] = (1 - t) * surface.positions[3 * low + d] + t * surface.positions[3 * high + d];
  }
}
