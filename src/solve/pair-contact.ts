import type { EnergyTerm } from './energy.ts';
import { STRIDE } from './energy.ts';

/** Two sheets that face each other across a crease. */
export interface FacingPairs {
  /** Pairs of nodes that would meet, one of each sheet. */
  readonly upper: Int32Array;
  readonly lower: Int32Array;
  /** Nodes whose mean stands for the upper and the lower body: the direction from the lower to the upper is that of the gap. */
  readonly upperBody: Int32Array;
  readonly lowerBody: Int32Array;
  /** Least gap of each pair, mm. */
  readonly clearances: Float64Array;
  /** N/mm. */
  readonly stiffness: number;
}

/**
 * Keeps the sheets of a crease from passing through each other: for each pair the gap
 * (x_u - x_l) . n, n the unit vector from the lower body's mean to the upper's, costs
 * stiffness / 2 d^2 when it is d less than its clearance. The crease as a whole may lie and bend as
 * it likes; n follows the bodies, and its share of the gradient is kept, so that the term is
 * conservative and without net force or moment.
 */
export function createPairContact(pairs: FacingPairs): EnergyTerm {
  const { upper, lower, upperBody, lowerBody, clearances, stiffness } = pairs;
  const mean = new Float64Array(6);

  function addGradient(x: Float64Array, g: Float64Array): number {
    meanInto(mean, 0, upperBody, x);
    meanInto(mean, 3, lowerBody, x);
    let nx = mean[0] - mean[3], ny = mean[1] - mean[4], nz = mean[2] - mean[5];
    const size = Math.sqrt(nx * nx + ny * ny + nz * nz);
    if (size === 0) return 0;
    nx /= size; ny /= size; nz /= size;
    let energy = 0, px = 0, py = 0, pz = 0;
    for (let k = 0; k < upper.length; k++) {
      const u = upper[k] * STRIDE, l = lower[k] * STRIDE;
      const dx = x[u] - x[l], dy = x[u + 1] - x[l + 1], dz = x[u + 2] - x[l + 2];
      const short = clearances[k] - (dx * nx + dy * ny + dz * nz);
      if (short <= 0) continue;
      energy += 0.5 * stiffness * short * short;
      const f = -stiffness * short;
      g[u] += f * nx; g[u + 1] += f * ny; g[u + 2] += f * nz;
      g[l] -= f * nx; g[l + 1] -= f * ny; g[l + 2] -= f * nz;
      px += f * dx; py += f * dy; pz += f * dz;
    }
    // The turn of n: sum of f d, less its part along n, spread over the bodies.
    const along = px * nx + py * ny + pz * nz;
    spread(g, upperBody, (px - along * nx) / size, (py - along * ny) / size, (pz - along * nz) / size);
    spread(g, lowerBody, -(px - along * nx) / size, -(py - along * ny) / size, -(pz - along * nz) / size);
    return energy;
  }

  return { addGradient };
}

function meanInto(out: Float64Array, at: number, nodes: Int32Array, x: Float64Array): void {
  let a = 0, b = 0, c = 0;
  for (let k = 0; k < nodes.length; k++) {
    const i = nodes[k] * STRIDE;
    a += x[i]; b += x[i + 1]; c += x[i + 2];
  }
  out[at] = a / nodes.length; out[at + 1] = b / nodes.length; out[at + 2] = c / nodes.length;
}

function spread(g: Float64Array, nodes: Int32Array, x: number, y: number, z: number): void {
  const n = nodes.length;
  for (let k = 0; k < n; k++) {
    const i = nodes[k] * STRIDE;
    g[i] += x / n; g[i + 1] += y / n; g[i + 2] += z / n;
  }
}
