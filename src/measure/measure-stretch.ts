import type { Fabric } from '../fabric/fabric.ts';

/** Percent of the size at rest, over the whole cloth, each cell counted by its area at rest. 5 and 95: one part in twenty of the cloth lies below, or above. */
export interface StretchSummary {
  readonly widthMedianPercent: number;
  readonly width5Percent: number;
  readonly width95Percent: number;
  readonly lengthMedianPercent: number;
  readonly length5Percent: number;
  readonly length95Percent: number;
}

/**
 * How far the cloth is drawn out along its courses (width) and along its wales (length), as a
 * share of its size at rest: 0.05 is 5 % longer, -0.05 is 5 % shorter. One entry a cell or a vertex.
 */
export interface Stretch {
  readonly cellWidth: Float64Array;
  readonly cellLength: Float64Array;
  /** Mean of the cells at each vertex by their area at rest; 0 for a vertex without cells. */
  readonly vertexWidth: Float64Array;
  readonly vertexLength: Float64Array;
  readonly summary: StretchSummary;
}

/**
 * Stretch of a posed cloth against its cells' rest polygons. A cell's deformation is the 3 x 2
 * matrix F that fits its corners best: with rest corners r and posed corners p taken from their
 * means, F = (sum p r') (sum r r')^-1 (least squares; exact where the cell is stretched evenly).
 * Width is |F e_s| - 1, length |F e_t| - 1.
 * @param positions three entries a vertex, mm
 */
export function measureStretch(fabric: Fabric, positions: Float64Array): Stretch {
  const { cellWidth, cellLength, areas } = stretchCells(fabric, positions);
  return {
    cellWidth, cellLength,
    vertexWidth: spreadToVertices(fabric, cellWidth, areas),
    vertexLength: spreadToVertices(fabric, cellLength, areas),
    summary: summarise(cellWidth, cellLength, areas),
  };
}

/** The vertices' part of it alone: for a shape on its way, of which many pass by. */
export function measureVertexStretch(fabric: Fabric, positions: Float64Array): Pick<Stretch, 'vertexWidth' | 'vertexLength'> {
  const { cellWidth, cellLength, areas } = stretchCells(fabric, positions);
  return { vertexWidth: spreadToVertices(fabric, cellWidth, areas), vertexLength: spreadToVertices(fabric, cellLength, areas) };
}

function stretchCells(fabric: Fabric, positions: Float64Array): { readonly cellWidth: Float64Array; readonly cellLength: Float64Array; readonly areas: Float64Array } {
  const cellCount = fabric.cellStart.length - 1;
  const cellWidth = new Float64Array(cellCount), cellLength = new Float64Array(cellCount), areas = new Float64Array(cellCount);
  const fit = new Float64Array(FIT_ENTRIES);
  for (let cell = 0; cell < cellCount; cell++) {
    fitCellInto(fit, fabric, positions, cell);
    [cellWidth[cell], cellLength[cell]] = stretchOf(fit);
    areas[cell] = fit[AREA];
  }
  return { cellWidth, cellLength, areas };
}

/** Places in a fit: sums of r r' (ss, st, tt), of p r' (column s, column t), and the cell's area at rest, mm2. */
const SS = 0, ST = 1, TT = 2, COLUMN_S = 3, COLUMN_T = 6, AREA = 9, FIT_ENTRIES = 10;

function fitCellInto(fit: Float64Array, fabric: Fabric, positions: Float64Array, cell: number): void {
  const { cellVertices, cellRestMm } = fabric, from = fabric.cellStart[cell], to = fabric.cellStart[cell + 1];
  const share = 1 / Math.max(1, to - from);
  let meanS = 0, meanT = 0;
  for (let k = from; k < to; k++) {
    meanS += share * cellRestMm[2 * k];
    meanT += share * cellRestMm[2 * k + 1];
  }
  fit.fill(0);
  for (let k = from, before = to - 1; k < to; before = k, k++) {
    // Rest corners from their mean are enough: their sum is zero, so the mean of p falls out.
    const s = cellRestMm[2 * k] - meanS, t = cellRestMm[2 * k + 1] - meanT, at = 3 * cellVertices[k];
    fit[SS] += s * s;
    fit[ST] += s * t;
    fit[TT] += t * t;
    for (let d = 0; d < 3; d++) {
      fit[COLUMN_S + d] += positions[at + d] * s;
      fit[COLUMN_T + d] += positions[at + d] * t;
    }
    fit[AREA] += 0.5 * ((cellRestMm[2 * before] - meanS) * t - s * (cellRestMm[2 * before + 1] - meanT));
  }
  fit[AREA] = Math.max(0, fit[AREA]);
}

/** A cell whose corners at rest keep within this share of its length of one line tells nothing across that line. */
const THINNEST = 1e-4;

/**
 * Width and length stretch of a fit. Across a cell without breadth, and in a cell without size,
 * nothing can be told: the cloth counts as unstretched there.
 */
function stretchOf(fit: Float64Array): [number, number] {
  const ss = fit[SS], st = fit[ST], tt = fit[TT], trace = ss + tt, det = ss * tt - st * st;
  if (!(trace > 0)) return [0, 0];
  if (det > THINNEST * THINNEST * trace * trace) {
    let width = 0, length = 0;
    for (let d = 0; d < 3; d++) {
      const s = fit[COLUMN_S + d], t = fit[COLUMN_T + d];
      width += ((s * tt - t * st) / det) ** 2;
      length += ((t * ss - s * st) / det) ** 2;
    }
    return [Math.sqrt(width) - 1, Math.sqrt(length) - 1];
  }
  // All corners lie along one direction: sum r r' is trace times its square.
  const alongS = Math.sqrt(ss / trace), alongT = (st < 0 ? -1 : 1) * Math.sqrt(tt / trace);
  let square = 0;
  for (let d = 0; d < 3; d++) square += ((fit[COLUMN_S + d] * alongS + fit[COLUMN_T + d] * alongT) / trace) ** 2;
  const stretchOfAxis = (share: number): number => Math.sqrt(1 + share * (square - 1)) - 1;
  return [stretchOfAxis(ss / trace), stretchOfAxis(tt / trace)];
}

function spreadToVertices(fabric: Fabric, values: Float64Array, areas: Float64Array): Float64Array {
  const sum = new Float64Array(fabric.vertexCount), weight = new Float64Array(fabric.vertexCount);
  for (let cell = 0; cell < values.length; cell++) {
    for (let k = fabric.cellStart[cell]; k < fabric.cellStart[cell + 1]; k++) {
      sum[fabric.cellVertices[k]] += areas[cell] * values[cell];
      weight[fabric.cellVertices[k]] += areas[cell];
    }
  }
  return sum.map((value, v) => (weight[v] > 0 ? value / weight[v] : 0));
}

function summarise(width: Float64Array, length: Float64Array, areas: Float64Array): StretchSummary {
  const [width5, widthMedian, width95] = percentilesOf(width, areas);
  const [length5, lengthMedian, length95] = percentilesOf(length, areas);
  return {
    widthMedianPercent: 100 * widthMedian, width5Percent: 100 * width5, width95Percent: 100 * width95,
    lengthMedianPercent: 100 * lengthMedian, length5Percent: 100 * length5, length95Percent: 100 * length95,
  };
}

const SHARES = [0.05, 0.5, 0.95] as const;

/** For each of SHARES the least value that, with all smaller ones, holds that share of the area; zeros without any area. */
function percentilesOf(values: Float64Array, areas: Float64Array): [number, number, number] {
  const order = Int32Array.from(values, (_, i) => i).sort((a, b) => values[a] - values[b]);
  const total = areas.reduce((sum, area) => sum + area, 0);
  const found: [number, number, number] = [0, 0, 0];
  let held = 0, next = 0;
  for (const cell of order) {
    held += areas[cell];
    while (next < SHARES.length && total > 0 && held >= SHARES[next] * total) found[next++] = values[cell];
  }
  return found;
}
