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
  const ahead3 = new Float64Array(9), behind3 = new Float64Array(9), dense = new Float64Array(144), count = factors.length;

  /** Writes factor (I / |d| - d d^T / |d|^3), the derivative of a softened unit vector. */
  function turnInto(out: Float64Array, factor: number, dx: number, dy: number, dz: number, inverse: number): void {
    const k = factor * inverse, c = -k * inverse * inverse;
    out[0] = k + c * dx * dx; out[4] = k + c * dy * dy; out[8] = k + c * dz * dz;
    out[1] = out[3] = c * dx * dy;
    out[2] = out[6] = c * dx * dz;
    out[5] = out[7] = c * dy * dz;
  }

  /**
   * J^T J on and below the diagonal for J = (-P - Q, P, r Q, s Q) over the middle, the node ahead and the
   * two behind, P and Q the symmetric turns ahead and behind, r + s = 1. Rows are `stride` long.
   */
  function squareInto(stride: number, r: number, s: number): void {
    const P = ahead3, Q = behind3, row = 3 * stride;
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) {
        const p0 = P[3 * i], p1 = P[3 * i + 1], p2 = P[3 * i + 2], q0 = Q[3 * i], q1 = Q[3 * i + 1], q2 = Q[3 * i + 2], at = stride * i + j;
        const pp = p0 * P[j] + p1 * P[3 + j] + p2 * P[6 + j], pq = p0 * Q[j] + p1 * Q[3 + j] + p2 * Q[6 + j];
        const qp = q0 * P[j] + q1 * P[3 + j] + q2 * P[6 + j], qq = q0 * Q[j] + q1 * Q[3 + j] + q2 * Q[6 + j];
        dense[at] = pp + pq + qp + qq;
        dense[at + row] = -pp - pq;
        dense[at + row + 3] = pp;
        dense[at + 2 * row] = -r * (qp + qq);
        dense[at + 2 * row + 3] = r * qp;
        dense[at + 2 * row + 6] = r * r * qq;
        if (s === 0) continue;
        dense[at + 3 * row] = -s * (qp + qq);
        dense[at + 3 * row + 3] = s * qp;
        dense[at + 3 * row + 6] = r * s * qq;
        dense[at + 3 * row + 9] = s * s * qq;
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
      turnInto(ahead3, root, px, py, pz, ip);
      turnInto(behind3, root, qx, qy, qz, iq);
      const nodes = s > 0 ? 4 : 3;
      squareInto(3 * nodes, r, s);
      sink.addBlocks(stencils, 4 * f, nodes, dense);
    }
  };
}
