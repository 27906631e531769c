import type { StiffnessSink } from './energy.ts';

/** Groups of nodes that a term couples, `width` a group; a node may stand in a group twice. */
export interface Couplings { readonly width: number; readonly nodes: Int32Array }

/**
 * A symmetric matrix of 3 x 3 blocks over nodes, lower triangle by columns: block k of column j is
 * that of row rows[k] >= j and stands at values[9 k .. 9 k + 9), row by row; the diagonal block first.
 */
export interface StiffnessMatrix extends StiffnessSink {
  readonly nodeCount: number;
  readonly columnStart: Int32Array;
  readonly rows: Int32Array;
  readonly values: Float64Array;
  /** Sets all blocks to zero, the diagonal of the matrix to `shift`. */
  clear(shift: number): void;
  /** Uncouples all coordinates along an axis from the rest and gives each the stiffness 1. */
  fixAxis(axis: number): void;
  /** Place of the block of two nodes, row >= column. */
  slotOf(row: number, column: number): number;
}

/** A matrix with room for the pairs of nodes that couple. */
export function createStiffnessMatrix(nodeCount: number, groups: readonly Couplings[]): StiffnessMatrix {
  const { columnStart, rows } = pairPattern(nodeCount, groups);
  return makeStiffnessMatrix(nodeCount, columnStart, rows);
}

export function makeStiffnessMatrix(nodeCount: number, columnStart: Int32Array, rows: Int32Array): StiffnessMatrix {
  const values = new Float64Array(9 * rows.length);

  function slotOf(row: number, column: number): number {
    if (row === column) return columnStart[column];
    let low = columnStart[column] + 1, high = columnStart[column + 1] - 1;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (rows[middle] < row) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  function addBlocks(nodes: Int32Array, from: number, count: number, dense: Float64Array): void {
    const stride = 3 * count;
    for (let p = 0; p < count; p++) {
      for (let q = 0; q <= p; q++) {
        const a = nodes[from + p], b = nodes[from + q];
        const at = 9 * (a >= b ? slotOf(a, b) : slotOf(b, a));
        // Above the diagonal the block of the other order is the same block turned over.
        if (a >= b) addBlock(at, dense, 3 * p * stride + 3 * q, stride, 1);
        else addBlock(at, dense, 3 * p * stride + 3 * q, 1, stride);
        if (a === b && p !== q) addBlock(at, dense, 3 * p * stride + 3 * q, 1, stride);
      }
    }
  }

  function addBlock(at: number, dense: Float64Array, from: number, rowStep: number, columnStep: number): void {
    for (let r = 0, k = at; r < 3; r++) {
      const row = from + r * rowStep;
      values[k++] += dense[row];
      values[k++] += dense[row + columnStep];
      values[k++] += dense[row + 2 * columnStep];
    }
  }

  return {
    nodeCount, columnStart, rows, values, slotOf, addBlocks,
    fixAxis(axis) {
      for (let at = 0; at < values.length; at += 9) {
        for (let k = 0; k < 3; k++) { values[at + 3 * axis + k] = 0; values[at + 3 * k + axis] = 0; }
      }
      for (let j = 0; j < nodeCount; j++) values[9 * columnStart[j] + 4 * axis] = 1;
    },
    clear(shift) {
      values.fill(0);
      for (let j = 0; j < nodeCount; j++) {
        const at = 9 * columnStart[j];
        values[at] = shift; values[at + 4] = shift; values[at + 8] = shift;
      }
    },
  };
}

/** Columns of the lower triangle: a node's couplings to higher nodes, each once, itself first. */
function pairPattern(nodeCount: number, groups: readonly Couplings[]): { columnStart: Int32Array; rows: Int32Array } {
  const counts = new Int32Array(nodeCount + 1);
  const visit = (each: (low: number, high: number) => void): void => {
    for (const { width, nodes } of groups) {
      for (let p = 0; p < nodes.length; p++) {
        for (let q = p - p % width; q < p; q++) each(Math.min(nodes[p], nodes[q]), Math.max(nodes[p], nodes[q]));
      }
    }
  };
  visit((low) => { counts[low + 1]++; });
  for (let j = 0; j < nodeCount; j++) counts[j + 1] += counts[j];
  const at = counts.slice(0, nodeCount), found = new Int32Array(counts[nodeCount]);
  visit((low, high) => { found[at[low]++] = high; });
  const columnStart = new Int32Array(nodeCount + 1), rows = new Int32Array(nodeCount + found.length);
  let end = 0;
  for (let j = 0; j < nodeCount; j++) {
    rows[end++] = j;
    const column = found.subarray(counts[j], counts[j + 1]).sort();
    for (const row of column) if (row !== rows[end - 1]) rows[end++] = row;
    columnStart[j + 1] = end;
  }
  return { columnStart, rows: rows.slice(0, end) };
}
