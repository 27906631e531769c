import type { StiffnessMatrix } from './stiffness.ts';

/** What is done with a matrix A = L + D + L^T of blocks (L below the diagonal). Vectors have three entries a node, and no two of one call are one array. */
export interface BlockSweeps {
  /** Inverts the diagonal blocks of the matrix as it now stands, which must be positive definite. */
  renew(): void;
  /** out = A x. */
  multiplyInto(out: Float64Array, x: Float64Array): void;
  /** x = (D + L)^-1 rest; `rest` becomes D x. */
  sweepUp(x: Float64Array, rest: Float64Array): void;
  /** x = (D + L^T)^-1 rest. */
  sweepDown(x: Float64Array, rest: Float64Array): void;
  /** rest -= L x. */
  takeLower(rest: Float64Array, x: Float64Array): void;
  /** out = -L^T x. */
  upperInto(out: Float64Array, x: Float64Array): void;
  /** Entries of the inverted diagonal blocks. */
  readonly entryCount: number;
}

/** Sweeps over the lower triangle by columns, as `StiffnessMatrix` lays it out: a column is scattered for L, gathered for L^T. */
export function createBlockSweeps(matrix: StiffnessMatrix): BlockSweeps {
  const { nodeCount, columnStart, values } = matrix, inverse = new Float64Array(9 * nodeCount);
  return {
    entryCount: inverse.length,
    renew() { for (let j = 0; j < nodeCount; j++) invertInto(inverse, 9 * j, values, 9 * columnStart[j]); },
    multiplyInto(out, x) { multiply(matrix, out, x); },
    sweepUp(x, rest) { sweepUp(matrix, inverse, x, rest); },
    sweepDown(x, rest) { sweepDown(matrix, inverse, x, rest); },
    takeLower(rest, x) { takeLower(matrix, rest, x); },
    upperInto(out, x) { upperInto(matrix, out, x); },
  };
}

// The kernels are functions of the module and all sums of a block stand before its stores: `measured`, half the time of closures that store as they go.

function multiply({ nodeCount, columnStart, rows, values }: StiffnessMatrix, out: Float64Array, x: Float64Array): void {
  out.fill(0);
  for (let j = 0; j < nodeCount; j++) {
    const o = 3 * j, p = x[o], q = x[o + 1], r = x[o + 2], first = columnStart[j], end = columnStart[j + 1];
    let b = 9 * first;
    let s = values[b] * p + values[b + 1] * q + values[b + 2] * r;
    let t = values[b + 3] * p + values[b + 4] * q + values[b + 5] * r;
    let l = values[b + 6] * p + values[b + 7] * q + values[b + 8] * r;
    b += 9;
    // Each block is read once for itself and for its mirror image.
    for (let k = first + 1; k < end; k++, b += 9) {
      const i = 3 * rows[k], u = x[i], v = x[i + 1], w = x[i + 2];
      const b0 = values[b], b1 = values[b + 1], b2 = values[b + 2], b3 = values[b + 3], b4 = values[b + 4];
      const b5 = values[b + 5], b6 = values[b + 6], b7 = values[b + 7], b8 = values[b + 8];
      s += b0 * u + b3 * v + b6 * w;
      t += b1 * u + b4 * v + b7 * w;
      l += b2 * u + b5 * v + b8 * w;
      const c = out[i] + b0 * p + b1 * q + b2 * r, d = out[i + 1] + b3 * p + b4 * q + b5 * r, e = out[i + 2] + b6 * p + b7 * q + b8 * r;
      out[i] = c; out[i + 1] = d; out[i + 2] = e;
    }
    out[o] += s; out[o + 1] += t; out[o + 2] += l;
  }
}

function sweepUp({ nodeCount, columnStart, rows, values }: StiffnessMatrix, inverse: Float64Array, x: Float64Array, rest: Float64Array): void {
  for (let j = 0; j < nodeCount; j++) {
    const d = 9 * j, o = 3 * j, p = rest[o], q = rest[o + 1], r = rest[o + 2], end = columnStart[j + 1];
    const u = inverse[d] * p + inverse[d + 1] * q + inverse[d + 2] * r;
    const v = inverse[d + 3] * p + inverse[d + 4] * q + inverse[d + 5] * r;
    const w = inverse[d + 6] * p + inverse[d + 7] * q + inverse[d + 8] * r;
    x[o] = u; x[o + 1] = v; x[o + 2] = w;
    for (let k = columnStart[j] + 1, b = 9 * k; k < end; k++, b += 9) {
      const i = 3 * rows[k];
      const c = rest[i] - values[b] * u - values[b + 1] * v - values[b + 2] * w;
      const e = rest[i + 1] - values[b + 3] * u - values[b + 4] * v - values[b + 5] * w;
      const f = rest[i + 2] - values[b + 6] * u - values[b + 7] * v - values[b + 8] * w;
      rest[i] = c; rest[i + 1] = e; rest[i + 2] = f;
    }
  }
}

function takeLower({ nodeCount, columnStart, rows, values }: StiffnessMatrix, rest: Float64Array, x: Float64Array): void {
  for (let j = 0; j < nodeCount; j++) {
    const u = x[3 * j], v = x[3 * j + 1], w = x[3 * j + 2], end = columnStart[j + 1];
    for (let k = columnStart[j] + 1, b = 9 * k; k < end; k++, b += 9) {
      const i = 3 * rows[k];
      const c = rest[i] - values[b] * u - values[b + 1] * v - values[b + 2] * w;
      const e = rest[i + 1] - values[b + 3] * u - values[b + 4] * v - values[b + 5] * w;
      const f = rest[i + 2] - values[b + 6] * u - values[b + 7] * v - values[b + 8] * w;
      rest[i] = c; rest[i + 1] = e; rest[i + 2] = f;
    }
  }
}

function upperInto({ nodeCount, columnStart, rows, values }: StiffnessMatrix, out: Float64Array, x: Float64Array): void {
  for (let j = 0; j < nodeCount; j++) {
    let p = 0, q = 0, r = 0;
    const end = columnStart[j + 1];
    for (let k = columnStart[j] + 1, b = 9 * k; k < end; k++, b += 9) {
      const i = 3 * rows[k], u = x[i], v = x[i + 1], w = x[i + 2];
      p -= values[b] * u + values[b + 3] * v + values[b + 6] * w;
      q -= values[b + 1] * u + values[b + 4] * v + values[b + 7] * w;
      r -= values[b + 2] * u + values[b + 5] * v + values[b + 8] * w;
    }
    out[3 * j] = p; out[3 * j + 1] = q; out[3 * j + 2] = r;
  }
}

function sweepDown({ nodeCount, columnStart, rows, values }: StiffnessMatrix, inverse: Float64Array, x: Float64Array, rest: Float64Array): void {
  for (let j = nodeCount - 1; j >= 0; j--) {
    const d = 9 * j, o = 3 * j, end = columnStart[j + 1];
    let p = rest[o], q = rest[o + 1], r = rest[o + 2];
    for (let k = columnStart[j] + 1, b = 9 * k; k < end; k++, b += 9) {
      const i = 3 * rows[k], u = x[i], v = x[i + 1], w = x[i + 2];
      p -= values[b] * u + values[b + 3] * v + values[b + 6] * w;
      q -= values[b + 1] * u + values[b + 4] * v + values[b + 7] * w;
      r -= values[b + 2] * u + values[b + 5] * v + values[b + 8] * w;
    }
    x[o] = inverse[d] * p + inverse[d + 1] * q + inverse[d + 2] * r;
    x[o + 1] = inverse[d + 3] * p + inverse[d + 4] * q + inverse[d + 5] * r;
    x[o + 2] = inverse[d + 6] * p + inverse[d + 7] * q + inverse[d + 8] * r;
  }
}

/** Inverse of a symmetric positive definite 3 x 3 block. */
function invertInto(out: Float64Array, o: number, from: Float64Array, i: number): void {
  const a = from[i], b = from[i + 1], c = from[i + 2], d = from[i + 4], e = from[i + 5], f = from[i + 8];
  const p = d * f - e * e, q = c * e - b * f, r = b * e - c * d;
  const scale = 1 / (a * p + b * q + c * r);
  out[o] = p * scale;
  out[o + 1] = out[o + 3] = q * scale;
  out[o + 2] = out[o + 6] = r * scale;
  out[o + 4] = (a * f - c * c) * scale;
  out[o + 5] = out[o + 7] = (b * c - a * e) * scale;
  out[o + 8] = (a * d - b * b) * scale;
}
