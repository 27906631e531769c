import type { CholeskyFactor } from './cholesky.ts';

export interface CholeskySolver {
  /**
   * x = A^-1 b for the coordinates `axes` of flat vectors with three entries a node; others are
   * left alone. `x` may be `b`.
   */
  solveInto(x: Float64Array, b: Float64Array, axes: readonly number[]): void;
}

/** Solves with one factor; keeps its working vector. Three right-hand sides are taken at once, so that each entry of L is read once. */
export function createCholeskySolver(factor: CholeskyFactor): CholeskySolver {
  const { pattern } = factor;
  const { size, order } = pattern;
  const work = new Float64Array(3 * size);

  return {
    solveInto(x, b, axes) {
      const count = axes.length;
      for (let k = 0; k < size; k++) {
        const node = 3 * order[k];
        for (let a = 0; a < count; a++) work[a * size + k] = b[node + axes[a]];
      }
      // Two right-hand sides go with the three-fold solve as well: reading L is most of the work.
      if (count > 1) solveThree(factor, work);
      else solveOne(factor, work, 0);
      for (let k = 0; k < size; k++) {
        const node = 3 * order[k];
        for (let a = 0; a < count; a++) x[node + axes[a]] = work[a * size + k];
      }
    },
  };
}

/** x = A^-1 b for plain vectors; `x` may be `b`. */
export function createPlainSolver(factor: CholeskyFactor): (x: Float64Array, b: Float64Array) => void {
  const { size, order } = factor.pattern;
  const work = new Float64Array(size);
  return (x, b) => {
    for (let k = 0; k < size; k++) work[k] = b[order[k]];
    solveOne(factor, work, 0);
    for (let k = 0; k < size; k++) x[order[k]] = work[k];
  };
}

// Forward and backward in one function each: a block's rows are gathered once for all of its columns.
function solveThree(factor: CholeskyFactor, w: Float64Array): void {
  const { values, pattern } = factor;
  const { size, blockCount, blockColumn, rowStart, rows, valueStart } = pattern;
  const n2 = 2 * size;
  for (let s = 0; s < blockCount; s++) {
    const first = blockColumn[s], width = blockColumn[s + 1] - first, height = rowStart[s + 1] - rowStart[s];
    let v = valueStart[s];
    for (let i = 0; i < width; i++, v += width) {
      let a0 = w[first + i], a1 = w[size + first + i], a2 = w[n2 + first + i];
      for (let k = 0; k < i; k++) {
        const l = values[v + k], c = first + k;
        a0 -= l * w[c]; a1 -= l * w[size + c]; a2 -= l * w[n2 + c];
      }
      const d = values[v + i];
      w[first + i] = a0 * d; w[size + first + i] = a1 * d; w[n2 + first + i] = a2 * d;
    }
    for (let i = width, r = rowStart[s] + width; i < height; i++, r++, v += width) {
      let a0 = 0, a1 = 0, a2 = 0;
      for (let k = 0; k < width; k++) {
        const l = values[v + k], c = first + k;
        a0 += l * w[c]; a1 += l * w[size + c]; a2 += l * w[n2 + c];
      }
      const row = rows[r];
      w[row] -= a0; w[size + row] -= a1; w[n2 + row] -= a2;
    }
  }
  for (let s = blockCount - 1; s >= 0; s--) {
    const first = blockColumn[s], width = blockColumn[s + 1] - first, height = rowStart[s + 1] - rowStart[s];
    let v = valueStart[s] + width * width;
    for (let i = width, r = rowStart[s] + width; i < height; i++, r++, v += width) {
      const row = rows[r];
      const a0 = w[row], a1 = w[size + row], a2 = w[n2 + row];
      for (let k = 0; k < width; k++) {
        const l = values[v + k], c = first + k;
        w[c] -= l * a0; w[size + c] -= l * a1; w[n2 + c] -= l * a2;
      }
    }
    v = valueStart[s] + width * (width - 1);
    for (let i = width - 1; i >= 0; i--, v -= width) {
      const d = values[v + i], at = first + i;
      const a0 = w[at] * d, a1 = w[size + at] * d, a2 = w[n2 + at] * d;
      w[at] = a0; w[size + at] = a1; w[n2 + at] = a2;
      for (let k = 0; k < i; k++) {
        const l = values[v + k], c = first + k;
        w[c] -= l * a0; w[size + c] -= l * a1; w[n2 + c] -= l * a2;
      }
    }
  }
}

/** The same for one right-hand side, which stands at w[o ..]; rows four at a time, so that their sums do not wait for each other. */
function solveOne(factor: CholeskyFactor, w: Float64Array, o: number): void {
  const { values, pattern } = factor;
  const { blockCount, blockColumn, rowStart, rows, valueStart } = pattern;
  for (let s = 0; s < blockCount; s++) {
    const first = o + blockColumn[s], width = blockColumn[s + 1] - blockColumn[s], end = rowStart[s + 1];
    let v = valueStart[s];
    for (let i = 0; i < width; i++, v += width) {
      let a = w[first + i];
      for (let k = 0; k < i; k++) a -= values[v + k] * w[first + k];
      w[first + i] = a * values[v + i];
    }
    let r = rowStart[s] + width;
    for (; r + 3 < end; r += 4, v += 4 * width) {
      let a0 = 0, a1 = 0, a2 = 0, a3 = 0;
      for (let k = 0, p = v; k < width; k++, p++) {
        const x = w[first + k];
        a0 += values[p] * x; a1 += values[p + width] * x; a2 += values[p + 2 * width] * x; a3 += values[p + 3 * width] * x;
      }
      w[o + rows[r]] -= a0; w[o + rows[r + 1]] -= a1; w[o + rows[r + 2]] -= a2; w[o + rows[r + 3]] -= a3;
    }
    for (; r < end; r++, v += width) {
      let a = 0;
      for (let k = 0; k < width; k++) a += values[v + k] * w[first + k];
      w[o + rows[r]] -= a;
    }
  }
  for (let s = blockCount - 1; s >= 0; s--) {
    const first = o + blockColumn[s], width = blockColumn[s + 1] - blockColumn[s], end = rowStart[s + 1];
    let v = valueStart[s] + width * width, r = rowStart[s] + width;
    for (; r + 3 < end; r += 4, v += 4 * width) {
      const a0 = w[o + rows[r]], a1 = w[o + rows[r + 1]], a2 = w[o + rows[r + 2]], a3 = w[o + rows[r + 3]];
      for (let k = 0, p = v; k < width; k++, p++) {
        w[first + k] -= values[p] * a0 + values[p + width] * a1 + values[p + 2 * width] * a2 + values[p + 3 * width] * a3;
      }
    }
    for (; r < end; r++, v += width) {
      const a = w[o + rows[r]];
      for (let k = 0; k < width; k++) w[first + k] -= values[v + k] * a;
    }
    v = valueStart[s] + width * (width - 1);
    for (let i = width - 1; i >= 0; i--, v -= width) {
      const a = w[first + i] * values[v + i];
      w[first + i] = a;
      for (let k = 0; k < i; k++) w[first + k] -= values[v + k] * a;
    }
  }
}
