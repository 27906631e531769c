import type { LineBends } from './bending.ts';
import { STRIDE } from './energy.ts';
import type { StiffnessSink } from './energy.ts';

/** Share of the rest length that is added, squared, to a line's length, so that directions stay smooth. */
export const SOFTENING = 0.1;

/**
 * Gauss-Newton stiffness of bends: J^T J of u1 + u2, which is exact for a straight line. `factors`:
 * a bend's energy over |u1 + u2|^2 / 2; `stencils`: middle, ahead and the two behind of each.
 */
export function createBendingStiffness(bends: LineBends, factors: Float64Array, stencils: Int32Array): (x: Float64Array, sink: StiffnessSink) => void {
  const { middle, ahead, behindFirst, behindSecond, share, lengthAhead, lengthBehind } = bends;
  const turns = new Float64Array(36), dense = new Float64Array(144), count = factors.length;

  /** Writes factor (I / |d| - d d^T / |d|^3), the derivative of a softened unit vector, as block `block` of `turns`. */
  function turnInto(block: number, factor: number, dx: number, dy: number, dz: number, inverse: number): void {
    const o = 9 * block, k = factor * inverse, c = -k * inverse * inverse;
    turns[o] = k + c * dx * dx; turns[o + 4] = k + c * dy * dy; turns[o + 8] = k + c * dz * dz;
    turns[o + 1] = turns[o + 3] = c * dx * dy;
    turns[o + 2] = turns[o + 6] = c * dx * dz;
    turns[o + 5] = turns[o + 7] = c * dy * dz;
  }

  /** J^T J of the blocks in `turns`. */
  function squareInto(out: Float64Array, stride: number): void {
    for (let i = 0; i < stride; i++) {
      const p = 9 * Math.floor(i / 3) + i % 3;
      for (let j = 0; j <= i; j++) {
        const q = 9 * Math.floor(j / 3) + j % 3;
        const value = turns[p] * turns[q] + turns[p + 3] * turns[q + 3] + turns[p + 6] * turns[q + 6];
        out[i * stride + j] = value;
        out[j * stride + i] = value;
      }
    }
  }

  return (x, sink) => {
    for (let f = 0; f < count; f++) {
      const m = middle[f] * STRIDE, a = ahead[f] * STRIDE, b = behindFirst[f] * STRIDE, c = behindSecond[f] * STRIDE;
      const s = share[f], r = 1 - s, root = Math.sqrt(factors[f]);
      const px = x[a] - x[m], py = x[a + 1] - x[m + 1], pz = x[a + 2] - x[m + 2];
      const qx = r * x[b] + s * x[c] - x[m], qy = r * x[b + 1] + s * x[c + 1] - x[m + 1], qz = r * x[b + 2] + s * x[c + 2] - x[m + 2];
      const hp = SOFTENING * lengthAhead[f], hq = SOFTENING * lengthBehind[f];
      const ip = 1 / Math.sqrt(px * px + py * py + pz * pz + hp * hp), iq = 1 / Math.sqrt(qx * qx + qy * qy + qz * qz + hq * hq);
      turnInto(1, root, px, py, pz, ip);
      turnInto(2, root * r, qx, qy, qz, iq);
      turnInto(3, root * s, qx, qy, qz, iq);
      for (let k = 0; k < 9; k++) turns[k] = -turns[9 + k] - turns[18 + k] - turns[27 + k];
      const nodes = s > 0 ? 4 : 3, stride = 3 * nodes;
      squareInto(dense, stride);
      sink.addBlocks(stencils, 4 * f, nodes, dense);
    }
  };
}
