import { createBendingStiffness, SOFTENING } from './bending-stiffness.ts';
import type { EnergyTerm, MetricSink } from './energy.ts';
import { STRIDE } from './energy.ts';

/** Bends of lines: at a node, between the line to a node ahead and the line to a point behind. */
export interface LineBends {
  readonly middle: Int32Array;
  readonly ahead: Int32Array;
  /** The point behind: (1 - share) of the first node and share of the second. */
  readonly behindFirst: Int32Array;
  readonly behindSecond: Int32Array;
  readonly share: Float64Array;
  /** Rest lengths ahead and behind, mm. */
  readonly lengthAhead: Float64Array;
  readonly lengthBehind: Float64Array;
  /** Bending stiffness times the area of cloth that the bend stands for, N mm mm^2. */
  readonly weights: Float64Array;
}

/**
 * Bending: weight / 2 kappa^2 with kappa = 2 / (h1 + h2) |u1 + u2|, where u1 and u2 are the unit
 * vectors from the middle ahead and behind (h1, h2 the rest lengths; the vectors are softened so that
 * a line shorter than about a tenth of its rest length loses its direction): for small angles the
 * curvature of the line, straight at rest, and untouched by stretching, so that a tight fold does
 * not draw the cloth together. The metric takes the lengths as they are at rest, where the energy is
 * the square of a second difference.
 */
export function createBending(bends: LineBends): EnergyTerm {
  const { middle, ahead, behindFirst, behindSecond, share, lengthAhead, lengthBehind, weights } = bends;
  const count = weights.length;
  const factors = new Float64Array(count);
  // Softened unit vectors of a straight line are shorter than 1 by 1 / sqrt(1 + SOFTENING^2).
  for (let f = 0; f < count; f++) factors[f] = 4 * weights[f] * (1 + SOFTENING * SOFTENING) / (lengthAhead[f] + lengthBehind[f]) ** 2;
  const stencils = new Int32Array(4 * count);
  for (let f = 0; f < count; f++) stencils.set([middle[f], ahead[f], behindFirst[f], behindSecond[f]], 4 * f);

  function addGradient(x: Float64Array, g: Float64Array): number {
    let energy = 0;
    for (let f = 0; f < count; f++) {
      const m = middle[f] * STRIDE, a = ahead[f] * STRIDE, b = behindFirst[f] * STRIDE, c = behindSecond[f] * STRIDE;
      const s = share[f], r = 1 - s;
      const px = x[a] - x[m], py = x[a + 1] - x[m + 1], pz = x[a + 2] - x[m + 2];
      const qx = r * x[b] + s * x[c] - x[m], qy = r * x[b + 1] + s * x[c + 1] - x[m + 1], qz = r * x[b + 2] + s * x[c + 2] - x[m + 2];
      const hp = SOFTENING * lengthAhead[f], hq = SOFTENING * lengthBehind[f];
      const ip = 1 / Math.sqrt(px * px + py * py + pz * pz + hp * hp), iq = 1 / Math.sqrt(qx * qx + qy * qy + qz * qz + hq * hq);
      const ux = px * ip, uy = py * ip, uz = pz * ip, vx = qx * iq, vy = qy * iq, vz = qz * iq;
      const w = factors[f];
      const sx = ux + vx, sy = uy + vy, sz = uz + vz;
      energy += 0.5 * w * (sx * sx + sy * sy + sz * sz);
      const wp = w * ip, wq = w * iq;
      const su = sx * ux + sy * uy + sz * uz, sv = sx * vx + sy * vy + sz * vz;
      const ax = wp * (sx - su * ux), ay = wp * (sy - su * uy), az = wp * (sz - su * uz);
      const bx = wq * (sx - sv * vx), by = wq * (sy - sv * vy), bz = wq * (sz - sv * vz);
      g[a] += ax; g[a + 1] += ay; g[a + 2] += az;
      g[b] += r * bx; g[b + 1] += r * by; g[b + 2] += r * bz;
      g[c] += s * bx; g[c + 1] += s * by; g[c + 2] += s * bz;
      g[m] -= ax + bx; g[m + 1] -= ay + by; g[m + 2] -= az + bz;
    }
    return energy;
  }

  function addMetric(sink: MetricSink): void {
    const nodes = new Int32Array(4), form = new Float64Array(4);
    for (let f = 0; f < count; f++) {
      const lead = 2 / (lengthAhead[f] + lengthBehind[f]), isSplit = share[f] > 0;
      nodes.set([middle[f], ahead[f], behindFirst[f], behindSecond[f]]);
      form.set([
        -lead / lengthAhead[f] - lead / lengthBehind[f], lead / lengthAhead[f],
        lead * (1 - share[f]) / lengthBehind[f], lead * share[f] / lengthBehind[f],
      ]);
      sink.addSquare(weights[f], nodes, form, 0, isSplit ? 4 : 3);
    }
  }

  return { addGradient, addMetric, addStiffness: createBendingStiffness(bends, factors, stencils), couplings: () => ({ width: 4, nodes: stencils }) };
}
