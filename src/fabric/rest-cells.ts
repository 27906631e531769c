import type { StitchGrid } from '../machine/grid.ts';
import type { DartMap } from './dart-map.ts';
import { EDGE } from './fabric.ts';
import { rampDecreases } from './ramp-decreases.ts';
import { layRingPolygon } from './ring-polygon.ts';
import type { Walks } from './walk-cells.ts';

/** Rest size of one stitch, mm. */
export interface StitchSize { readonly courseMm: number; readonly waleMm: number; readonly ribCourseMm: number }

export interface RestCells {
  readonly cellRestMm: Float64Array;
  readonly cellIsRib: Uint8Array;
  readonly edgeRestMm: Float64Array;
}

/** Is the dart of this edge the one that runs along the course to the right, or up the wale? */
const pointsForward = (map: DartMap, dart: number): boolean => {
  const angle = map.dartAngle[dart];
  return angle <= 90 || angle === 340;
};

/**
 * What a dart covers on flat cloth, in the frame of the loop it leaves: [to the right, upwards], mm.
 * Null for a mitre: it spans whatever rows the cell at that side leaves it.
 */
function spanOf(map: DartMap, grid: StitchGrid, dart: number, courseMm: number, waleMm: number): [number, number] | null {
  const sign = pointsForward(map, dart) ? 1 : -1;
  switch (map.edgeKind[dart >> 1]) {
    case EDGE.wale: {
      // A decrease leans its wale by the needles that the parent was moved.
      const parent = map.edges[sign > 0 ? dart : dart ^ 1];
      const lean = grid.lean[map.vertexLoop[parent]];
      return [sign * lean * courseMm, sign * waleMm];
    }
    case EDGE.join: return [0, waleMm];
    case EDGE.mitre: return null;
    default: return [sign * courseMm, 0];
  }
}

interface Layout {
  readonly spans: readonly ([number, number] | null)[];
  readonly gap: readonly [number, number];
  /** The frame comes back upside down: one join lies in the cell (the edge of a closed toe). */
  readonly isTwisted: boolean;
}

/** A cell where two beds meet, at the side of a tube: there a wale that leans on its bed runs along the fold. */
function isAtSide(map: DartMap, grid: StitchGrid, darts: Int32Array): boolean {
  const bed = grid.bed[map.vertexLoop[map.edges[darts[0]]]];
  for (const dart of darts) if (grid.bed[map.vertexLoop[map.edges[dart]]] !== bed) return true;
  return false;
}

/** Spans of a cell's darts in one common frame (a join turns the frame upside down), with the gap that they leave. */
function layOut(map: DartMap, grid: StitchGrid, darts: Int32Array, offset: Float64Array, courseMm: number, waleMm: number): Layout {
  const spans: ([number, number] | null)[] = [];
  const isSide = isAtSide(map, grid, darts);
  let turn = 1;
  let [gapX, gapY] = [0, 0];
  for (const dart of darts) {
    const span = spanOf(map, grid, dart, courseMm, waleMm);
    if (span !== null) {
      const isWale = map.edgeKind[dart >> 1] === EDGE.wale;
      if (isWale || !isSide) span[0] += (offset[map.edges[dart ^ 1]] - offset[map.edges[dart]]) * courseMm;
      if (isWale && isSide) {
        span[1] = Math.sign(span[1]) * Math.sqrt(span[0] * span[0] + span[1] * span[1]);
        span[0] = 0;
      }
      span[0] *= turn;
      span[1] *= turn;
      gapX -= span[0];
      gapY -= span[1];
    }
    spans.push(span);
    if (map.edgeKind[dart >> 1] === EDGE.join) turn = -turn;
  }
  return { spans, gap: [gapX, gapY], isTwisted: turn < 0 };
}

/** A gap below this is rounding. */
const CLOSED_MM = 1e-9;

/**
 * Closes a cell whose spans leave a gap. A mitre takes it whole. Without one, the courses slant by
 * equal shares: a cell with more rows on one side than on the other (a heel corner, the start of a
 * helix) is cut as a trapezoid.
 */
function closeGap(map: DartMap, darts: Int32Array, spans: Layout['spans'], gap: Layout['gap']): Layout['spans'] {
  if (!spans.includes(null) && Math.abs(gap[0]) + Math.abs(gap[1]) < CLOSED_MM) return spans;
  const open = spans.flatMap((s, i) => (s === null ? [i] : []));
  const isCourse = (dart: number): boolean => map.edgeKind[dart >> 1] === EDGE.course || map.edgeKind[dart >> 1] === EDGE.seam;
  const courses = [...darts].flatMap((dart, i) => (isCourse(dart) ? [i] : []));
  const takers = open.length > 0 ? open : courses.length > 0 ? courses : spans.map((_, i) => i);
  return spans.map((span, i) => {
    const [x, y] = span ?? [0, 0];
    const share = takers.includes(i) ? 1 / takers.length : 0;
    return [x + share * gap[0], y + share * gap[1]];
  });
}

/** Gaps of more rows than this between two sides of a cell are slits: the side of a plateau, 2 rows and its passes. */
const SLIT_ROWS = 3;

/**
 * A slit has many rows on one side against a row on the other. Cloth closes it by folding the long
 * side upon itself, so its rest shape is a strip one row wide. Null if the cell is no slit.
 */
function foldSlit(spans: Layout['spans'], gap: Layout['gap'], waleMm: number): [number, number][] | null {
  if (Math.abs(gap[1]) < SLIT_ROWS * waleMm || spans.includes(null)) return null;
  // The long side is the run against the gap; rotate the cell so that the run starts at 0.
  const direction = -Math.sign(gap[1]);
  const isLong = spans.map((s) => s !== null && s[0] === 0 && Math.sign(s[1]) === direction);
  const first = isLong.findIndex((here, i) => here && isLong.at(i - 1) === false);
  const rows = isLong.filter(Boolean).length;
  if (first < 0 || rows % 2 === 0) return null;
  const folded = spans.map((s): [number, number] => [s?.[0] ?? 0, s?.[1] ?? 0]);
  for (let k = 0; k < rows; k++) {
    const half = (rows - 1) / 2;
    const outward = direction * waleMm;
    folded[(first + k) % spans.length] = k < half ? [outward, 0] : k === half ? [0, direction * waleMm] : [-outward, 0];
  }
  return folded;
}

function isAllRib(map: DartMap, grid: StitchGrid, darts: Int32Array): boolean {
  for (const dart of darts) {
    if (grid.isRib[map.vertexLoop[map.edges[dart]]] === 0) return false;
  }
  return true;
}

/** Rest shape of every cell, and the length of every edge on flat cloth. */
export function cutRestCells(grid: StitchGrid, map: DartMap, cells: Walks, size: StitchSize): RestCells {
  const cellCount = cells.start.length - 1;
  const cellRestMm = new Float64Array(2 * cells.darts.length);
  const cellIsRib = new Uint8Array(cellCount);
  const edgeRestMm = new Float64Array(map.edges.length / 2);
  const offset = rampDecreases(grid, map);
  for (let c = 0; c < cellCount; c++) {
    const start = cells.start[c];
    const darts = cells.darts.subarray(start, cells.start[c + 1]);
    const isRib = isAllRib(map, grid, darts);
    cellIsRib[c] = isRib ? 1 : 0;
    const { spans, gap, isTwisted } = layOut(map, grid, darts, offset, isRib ? size.ribCourseMm : size.courseMm, size.waleMm);
    const closed = isTwisted
      ? layRingPolygon(spans.map((span) => Math.sqrt((span?.[0] ?? 0) ** 2 + (span?.[1] ?? 0) ** 2)))
      : foldSlit(spans, gap, size.waleMm) ?? closeGap(map, darts, spans, gap);
    let [x, y] = [0, 0];
    for (let i = 0; i < darts.length; i++) {
      const edge = (darts[i]) >> 1;
      cellRestMm[2 * (start + i)] = x;
      cellRestMm[2 * (start + i) + 1] = y;
      const [dx, dy] = closed[i] as [number, number];
      x += dx;
      y += dy;
      // An edge is as long as its own span; where a cell is cut askew, only a mitre takes the cut's length.
      const [ex, ey] = spans[i] ?? [dx, dy];
      edgeRestMm[edge] = Math.sqrt(ex * ex + ey * ey);
    }
  }
  return { cellRestMm, cellIsRib, edgeRestMm };
}
