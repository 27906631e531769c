import type { EnergyTerm, StiffnessSink } from './energy.ts';
import { STRIDE } from './energy.ts';

export interface LayerElements {
  /** Three corners an element. */
  readonly corners: Int32Array;
  /** Rest area of each element, times 1 or -1: the sign that its projected area must keep, mm^2. */
  readonly signedAreas: Float64Array;
  /** Axes of the plane looked at, in turning order (0 x, 1 y, 2 z). */
  readonly axes: readonly [number, number];
  /** Least projected area, as a share of the rest area. */
  readonly leastShare: number;
  /** N/mm: energy per rest area of an element whose share is a below the least is stiffness / 2 a^2. */
  readonly stiffness: number;
}

/**
 * Room for one layer only: between close plates cloth cannot double back on itself, so no element
 * may turn over as seen along the plates' normal. One-sided and quadratic in the projected area's
 * shortfall; nothing for elements that lie open.
 */
export function createSingleLayer(elements: LayerElements): EnergyTerm {
  const { corners, signedAreas, leastShare, stiffness } = elements;
  const [p, q] = elements.axes;
  const count = signedAreas.length;

  function addGradient(x: Float64Array, g: Float64Array): number {
    let energy = 0;
    for (let t = 0; t < count; t++) {
      const i0 = corners[3 * t] * STRIDE, i1 = corners[3 * t + 1] * STRIDE, i2 = corners[3 * t + 2] * STRIDE;
      const ap = x[i1 + p] - x[i0 + p], aq = x[i1 + q] - x[i0 + q];
      const bp = x[i2 + p] - x[i0 + p], bq = x[i2 + q] - x[i0 + q];
      const rest = signedAreas[t];
      const short = leastShare - 0.5 * (ap * bq - aq * bp) / rest;
      if (short <= 0) continue;
      const area = Math.abs(rest);
      energy += 0.5 * stiffness * area * short * short;
      const w = -0.5 * stiffness * area * short / rest;
      const g1p = w * bq, g1q = -w * bp, g2p = -w * aq, g2q = w * ap;
      g[i1 + p] += g1p; g[i1 + q] += g1q;
      g[i2 + p] += g2p; g[i2 + q] += g2q;
      g[i0 + p] -= g1p + g2p; g[i0 + q] -= g1q + g2q;
    }
    return energy;
  }

  const slopes = new Float64Array(9), dense = new Float64Array(81);
  /** Gauss-Newton: the square of the area's derivative. */
  function addStiffness(x: Float64Array, sink: StiffnessSink): void {
    for (let t = 0; t < count; t++) {
      const i0 = corners[3 * t] * STRIDE, i1 = corners[3 * t + 1] * STRIDE, i2 = corners[3 * t + 2] * STRIDE;
      const ap = x[i1 + p] - x[i0 + p], aq = x[i1 + q] - x[i0 + q];
      const bp = x[i2 + p] - x[i0 + p], bq = x[i2 + q] - x[i0 + q];
      const rest = signedAreas[t];
      if (leastShare - 0.5 * (ap * bq - aq * bp) / rest <= 0) continue;
      slopes.fill(0);
      slopes[p] = aq - bq; slopes[q] = bp - ap;
      slopes[3 + p] = bq; slopes[3 + q] = -bp;
      slopes[6 + p] = -aq; slopes[6 + q] = ap;
      const w = 0.25 * stiffness / Math.abs(rest);
      for (let i = 0; i < 9; i++) for (let j = 0; j < 9; j++) dense[9 * i + j] = w * slopes[i] * slopes[j];
      sink.addBlocks(corners, 3 * t, 3, dense);
    }
  }

  return { addGradient, addStiffness, couplings: () => ({ width: 3, nodes: corners }) };
}
