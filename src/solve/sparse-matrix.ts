import type { MetricSink } from './energy.ts';

/** Symmetric matrix, lower triangle by columns: rows ascending, the diagonal first and always there. */
export interface SparseMatrix {
  readonly size: number;
  readonly columnStart: Int32Array;
  readonly rows: Int32Array;
  readonly values: Float64Array;
}

export interface MatrixBuilder extends MetricSink {
  build(): SparseMatrix;
}

/** Collects entries in any order; `build` sums those that meet. Every diagonal entry starts at `shift`. */
export function createMatrixBuilder(size: number, shift: number): MatrixBuilder {
  let capacity = Math.max(1024, size * 16);
  let count = 0;
  let entryRows = new Int32Array(capacity), entryColumns = new Int32Array(capacity);
  let entryValues = new Float64Array(capacity);

  function add(i: number, j: number, value: number): void {
    if (count === capacity) {
      capacity *= 2;
      entryRows = grow(entryRows, new Int32Array(capacity));
      entryColumns = grow(entryColumns, new Int32Array(capacity));
      entryValues = grow(entryValues, new Float64Array(capacity));
    }
    entryRows[count] = Math.max(i, j);
    entryColumns[count] = Math.min(i, j);
    entryValues[count++] = value;
  }

  for (let i = 0; i < size; i++) add(i, i, shift);
  return {
    addDiagonal: (node, weight) => { add(node, node, weight); },
    addSquare(weight, nodes, coefficients, from, n) {
      for (let p = from; p < from + n; p++) {
        const c = weight * coefficients[p];
        for (let q = from; q <= p; q++) {
          const isTwice = q < p && nodes[p] === nodes[q];
          add(nodes[p], nodes[q], (isTwice ? 2 : 1) * c * coefficients[q]);
        }
      }
    },
    build: () => compress(size, entryRows.subarray(0, count), entryColumns.subarray(0, count), entryValues),
  };
}

function grow<T extends Int32Array | Float64Array>(old: T, bigger: T): T {
  bigger.set(old);
  return bigger;
}

/** Two stable counting sorts (by row, then by column), then one pass that sums neighbours. */
function compress(size: number, entryRows: Int32Array, entryColumns: Int32Array, entryValues: Float64Array): SparseMatrix {
  const byRow = countingOrder(size, entryRows, null);
  const order = countingOrder(size, entryColumns, byRow);
  const columnStart = new Int32Array(size + 1);
  const rows = new Int32Array(order.length);
  const values = new Float64Array(order.length);
  let n = 0, column = -1;
  for (const e of order) {
    const i = entryRows[e], j = entryColumns[e];
    if (j === column && rows[n - 1] === i) {
      values[n - 1] += entryValues[e];
      continue;
    }
    while (column < j) columnStart[++column] = n;
    rows[n] = i;
    values[n++] = entryValues[e];
  }
  while (column < size) columnStart[++column] = n;
  return { size, columnStart, rows: rows.slice(0, n), values: values.slice(0, n) };
}

/** Indices of `keys` in ascending order of key, ties as in `before` (null: as they stand). */
function countingOrder(size: number, keys: Int32Array, before: Int32Array | null): Int32Array {
  const next = new Int32Array(size + 1);
  for (const key of keys) next[key + 1]++;
  for (let k = 0; k < size; k++) next[k + 1] += next[k];
  const order = new Int32Array(keys.length);
  for (let p = 0; p < keys.length; p++) {
    const e = before === null ? p : before[p];
    order[next[keys[e]]++] = e;
  }
  return order;
}

/** out = A x, for `width` interleaved right-hand sides (entry k of node i at i * width + k). */
export function multiplyInto(out: Float64Array, matrix: SparseMatrix, x: Float64Array, width: number): void {
  out.fill(0);
  const { size, columnStart, rows, values } = matrix;
  for (let j = 0; j < size; j++) {
    for (let p = columnStart[j]; p < columnStart[j + 1]; p++) {
      addScaledEntry(out, rows[p], x, j, values[p], width);
      if (rows[p] !== j) addScaledEntry(out, j, x, rows[p], values[p], width);
    }
  }
}

function addScaledEntry(out: Float64Array, to: number, x: Float64Array, from: number, factor: number, width: number): void {
  for (let k = 0; k < width; k++) out[to * width + k] += factor * x[from * width + k];
}
