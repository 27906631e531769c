import type { CholeskyPattern } from './cholesky-symbolic.ts';
import type { SparseMatrix } from './sparse-matrix.ts';

/** A = L L^T; values as `CholeskyPattern` lays them out, with 1 / L_jj on the diagonal. */
export interface CholeskyFactor {
  readonly pattern: CholeskyPattern;
  readonly values: Float64Array;
}

/**
 * Numeric factor of a positive definite matrix, block by block: a block takes the updates of all
 * earlier blocks that reach it (left-looking supernodal; Ng & Peyton, SIAM J. Sci. Comput. 14
 * (1993) 1034-1056). Throws when a pivot is not positive.
 */
export function factorise(matrix: SparseMatrix, pattern: CholeskyPattern): CholeskyFactor {
  const { size, blockCount, blockColumn, rowStart, rows, blockOf, valueCount } = pattern;
  const values = new Float64Array(valueCount);
  const rowAt = new Int32Array(size);
  const pending = new Int32Array(blockCount).fill(-1);
  const nextPending = new Int32Array(blockCount).fill(-1);
  const reach = new Int32Array(blockCount);
  scatterMatrix(matrix, pattern, values);
  for (let s = 0; s < blockCount; s++) {
    for (let r = rowStart[s]; r < rowStart[s + 1]; r++) rowAt[rows[r]] = r - rowStart[s];
    let source = pending[s];
    while (source >= 0) {
      const following = nextPending[source];
      const from = reach[source];
      const end = updateBlock(pattern, values, source, from, s, rowAt);
      hand(source, end);
      source = following;
    }
    factoriseBlock(pattern, values, s);
    hand(s, rowStart[s] + blockColumn[s + 1] - blockColumn[s]);
  }
  return { pattern, values };

  /** Queues a finished block at the block that its rows from `row` on reach next. */
  function hand(source: number, row: number): void {
    if (row >= rowStart[source + 1]) return;
    const target = blockOf[rows[row]];
    reach[source] = row;
    nextPending[source] = pending[target];
    pending[target] = source;
  }
}

function scatterMatrix(matrix: SparseMatrix, pattern: CholeskyPattern, values: Float64Array): void {
  const { place, blockOf, blockColumn, rowStart, rows, valueStart, size } = pattern;
  // Entries by block column, so that each block's row positions are looked up once.
  const heads = new Int32Array(pattern.blockCount).fill(-1);
  const entryCount = matrix.columnStart[size];
  const links = new Int32Array(entryCount), high = new Int32Array(entryCount), low = new Int32Array(entryCount);
  for (let j = 0; j < size; j++) {
    for (let p = matrix.columnStart[j]; p < matrix.columnStart[j + 1]; p++) {
      const a = place[j], b = place[matrix.rows[p]];
      low[p] = Math.min(a, b);
      high[p] = Math.max(a, b);
      const s = blockOf[low[p]];
      links[p] = heads[s];
      heads[s] = p;
    }
  }
  const rowAt = new Int32Array(size);
  for (let s = 0; s < pattern.blockCount; s++) {
    const width = blockColumn[s + 1] - blockColumn[s];
    for (let r = rowStart[s]; r < rowStart[s + 1]; r++) rowAt[rows[r]] = r - rowStart[s];
    for (let p = heads[s]; p >= 0; p = links[p]) {
      values[valueStart[s] + rowAt[high[p]] * width + low[p] - blockColumn[s]] += matrix.values[p];
    }
  }
}

/**
 * Subtracts L_K[rows from `from`] L_K[rows in the target's columns]^T from block `target`. Returns
 * the first row of the source beyond the target's columns.
 */
function updateBlock(pattern: CholeskyPattern, values: Float64Array, source: number, from: number, target: number, rowAt: Int32Array): number {
  const { blockColumn, rowStart, rows, valueStart } = pattern;
  const width = blockColumn[source + 1] - blockColumn[source];
  const targetWidth = blockColumn[target + 1] - blockColumn[target];
  const targetFirst = blockColumn[target], targetEnd = blockColumn[target + 1];
  const last = rowStart[source + 1];
  let end = from;
  while (end < last && rows[end] < targetEnd) end++;
  const base = valueStart[source] - rowStart[source] * width;
  const out = valueStart[target];
  // Tiles of four rows by two columns: every entry read serves several products.
  let j = from;
  for (; j + 1 < end; j += 2) {
    const b = base + j * width, d = b + width;
    const column = rows[j] - targetFirst, next = rows[j + 1] - targetFirst;
    let i = j;
    for (; i + 3 < last; i += 4) {
      const r0 = base + i * width, r1 = r0 + width, r2 = r1 + width, r3 = r2 + width;
      let s0 = 0, s1 = 0, s2 = 0, s3 = 0, t0 = 0, t1 = 0, t2 = 0, t3 = 0;
      for (let k = 0; k < width; k++) {
        const v = values[b + k], w = values[d + k];
        const a0 = values[r0 + k], a1 = values[r1 + k], a2 = values[r2 + k], a3 = values[r3 + k];
        s0 += a0 * v; s1 += a1 * v; s2 += a2 * v; s3 += a3 * v;
        t0 += a0 * w; t1 += a1 * w; t2 += a2 * w; t3 += a3 * w;
      }
      const o0 = out + rowAt[rows[i]] * targetWidth, o1 = out + rowAt[rows[i + 1]] * targetWidth;
      const o2 = out + rowAt[rows[i + 2]] * targetWidth, o3 = out + rowAt[rows[i + 3]] * targetWidth;
      values[o0 + column] -= s0; values[o1 + column] -= s1; values[o2 + column] -= s2; values[o3 + column] -= s3;
      // In the first tile this writes above the diagonal, where nobody reads.
      values[o0 + next] -= t0; values[o1 + next] -= t1; values[o2 + next] -= t2; values[o3 + next] -= t3;
    }
    for (; i < last; i++) {
      const a = base + i * width, o = out + rowAt[rows[i]] * targetWidth;
      let sum = 0, other = 0;
      for (let k = 0; k < width; k++) { sum += values[a + k] * values[b + k]; other += values[a + k] * values[d + k]; }
      values[o + column] -= sum;
      values[o + next] -= other;
    }
  }
  for (; j < end; j++) {
    const b = base + j * width, column = rows[j] - targetFirst;
    for (let i = j; i < last; i++) {
      const a = base + i * width;
      let sum = 0;
      for (let k = 0; k < width; k++) sum += values[a + k] * values[b + k];
      values[out + rowAt[rows[i]] * targetWidth + column] -= sum;
    }
  }
  return end;
}

/** Dense Cholesky of a block's own rows, then its rows below, four at a time; row by row, dot products of rows. */
function factoriseBlock(pattern: CholeskyPattern, values: Float64Array, s: number): void {
  const { blockColumn, rowStart, valueStart } = pattern;
  const width = blockColumn[s + 1] - blockColumn[s];
  const height = rowStart[s + 1] - rowStart[s];
  const base = valueStart[s];
  for (let i = 0; i < width; i++) {
    const a = base + i * width;
    solveRow(values, base, width, a, i);
    let pivot = values[a + i];
    for (let k = 0; k < i; k++) pivot -= values[a + k] * values[a + k];
    if (!(pivot > 0)) throw new Error(`matrix is not positive definite at column ${blockColumn[s] + i}`);
    values[a + i] = 1 / Math.sqrt(pivot);
  }
  let i = width;
  for (; i + 3 < height; i += 4) {
    const r0 = base + i * width, r1 = r0 + width, r2 = r1 + width, r3 = r2 + width;
    for (let j = 0; j < width; j++) {
      const b = base + j * width;
      let s0 = values[r0 + j], s1 = values[r1 + j], s2 = values[r2 + j], s3 = values[r3 + j];
      for (let k = 0; k < j; k++) {
        const v = values[b + k];
        s0 -= values[r0 + k] * v; s1 -= values[r1 + k] * v; s2 -= values[r2 + k] * v; s3 -= values[r3 + k] * v;
      }
      const d = values[b + j];
      values[r0 + j] = s0 * d; values[r1 + j] = s1 * d; values[r2 + j] = s2 * d; values[r3 + j] = s3 * d;
    }
  }
  for (; i < height; i++) solveRow(values, base, width, base + i * width, width);
}

/** The first `columns` entries of the row at `a`, by forward substitution with the block's own rows. */
function solveRow(values: Float64Array, base: number, width: number, a: number, columns: number): void {
  for (let j = 0; j < columns; j++) {
    const b = base + j * width;
    let sum = values[a + j];
    for (let k = 0; k < j; k++) sum -= values[a + k] * values[b + k];
    values[a + j] = sum * values[b + j];
  }
}
