import type { EnergyTerm, MetricSink } from './energy.ts';
import { STRIDE } from './energy.ts';
import type { MembraneLaw } from './membrane-law.ts';
import { createQuadStiffness } from './quad-stiffness.ts';

export interface RectangleElements {
  /** Four corners an element: lower left, lower right, upper right, upper left (course to the right, wale up). */
  readonly corners: Int32Array;
  /** Rest width and height of each element, mm. */
  readonly widths: Float64Array;
  readonly heights: Float64Array;
}

/** Factor on the tension moduli in the metric: cloth at rest is between tension and compression. `measured`: least iterations over several socks. */
const METRIC_SHARE = 0.6;

/**
 * Membrane energy of cells whose rest shape is a rectangle a x b: the law of `membrane-law.ts` at
 * the four corners, each with the two edges that meet there and a quarter of the area. Edges along
 * the course give e1, along the wale e2; the corner's dot product over a b gives the shear.
 */
// eslint-disable-next-line max-lines-per-function -- one kernel: edges are shared by four corner terms, and calls between would cost more than they hide
export function createQuadMembrane(elements: RectangleElements, law: MembraneLaw): EnergyTerm {
  const { corners, widths, heights } = elements;
  const count = widths.length;
  const k1 = law.courseModulus, k2 = law.waleModulus, nu = law.coupling, shear = law.shearModulus;
  const { compression, stiffening, crushing } = law, dd = law.softness * law.softness;
  // f1 and f0 of the curve.
  const slope = 0.25 * law.softness * (1 - compression + 0.25 * (stiffening - crushing) * dd);
  const level = 0.125 * dd * (1 + compression + 0.125 * (stiffening + crushing) * dd);
  let forceSum = 0;

  // eslint-disable-next-line max-lines-per-function -- one kernel, the strain curve written out
  function addGradient(x: Float64Array, g: Float64Array): number {
    let energy = 0;
    let sum = 0;
    for (let q = 0; q < count; q++) {
      const a = widths[q], b = heights[q];
      const i0 = corners[4 * q] * STRIDE, i1 = corners[4 * q + 1] * STRIDE;
      const i2 = corners[4 * q + 2] * STRIDE, i3 = corners[4 * q + 3] * STRIDE;
      const x0 = x[i0], y0 = x[i0 + 1], z0 = x[i0 + 2];
      const x1 = x[i1], y1 = x[i1 + 1], z1 = x[i1 + 2];
      const x2 = x[i2], y2 = x[i2 + 1], z2 = x[i2 + 2];
      const x3 = x[i3], y3 = x[i3 + 1], z3 = x[i3 + 2];
      const bx = x1 - x0, by = y1 - y0, bz = z1 - z0;
      const tx = x2 - x3, ty = y2 - y3, tz = z2 - z3;
      const lx = x3 - x0, ly = y3 - y0, lz = z3 - z0;
      const rx = x2 - x1, ry = y2 - y1, rz = z2 - z1;
      const lenB = Math.sqrt(bx * bx + by * by + bz * bz), lenT = Math.sqrt(tx * tx + ty * ty + tz * tz);
      const lenL = Math.sqrt(lx * lx + ly * ly + lz * lz), lenR = Math.sqrt(rx * rx + ry * ry + rz * rz);
      const eB = lenB / a - 1, eT = lenT / a - 1, eL = lenL / b - 1, eR = lenR / b - 1;
      const quarter = 0.25 * a * b;
      const wBL = eL + nu * eB, wBR = eR + nu * eB, wTR = eR + nu * eT, wTL = eL + nu * eT;
      // The strain curve six times over, written out: as calls it takes half as long again.
      const rB = Math.sqrt(eB * eB + dd), pB = 0.25 * (rB + eB) * (rB + eB), mB = 0.25 * (rB - eB) * (rB - eB);
      const rT = Math.sqrt(eT * eT + dd), pT = 0.25 * (rT + eT) * (rT + eT), mT = 0.25 * (rT - eT) * (rT - eT);
      const rBL = Math.sqrt(wBL * wBL + dd), pBL = 0.25 * (rBL + wBL) * (rBL + wBL), mBL = 0.25 * (rBL - wBL) * (rBL - wBL);
      const rBR = Math.sqrt(wBR * wBR + dd), pBR = 0.25 * (rBR + wBR) * (rBR + wBR), mBR = 0.25 * (rBR - wBR) * (rBR - wBR);
      const rTR = Math.sqrt(wTR * wTR + dd), pTR = 0.25 * (rTR + wTR) * (rTR + wTR), mTR = 0.25 * (rTR - wTR) * (rTR - wTR);
      const rTL = Math.sqrt(wTL * wTL + dd), pTL = 0.25 * (rTL + wTL) * (rTL + wTL), mTL = 0.25 * (rTL - wTL) * (rTL - wTL);
      const fB = (pB * (1 + stiffening * pB) - mB * (compression + crushing * mB)) / rB - slope;
      const fT = (pT * (1 + stiffening * pT) - mT * (compression + crushing * mT)) / rT - slope;
      const fBL = (pBL * (1 + stiffening * pBL) - mBL * (compression + crushing * mBL)) / rBL - slope;
      const fBR = (pBR * (1 + stiffening * pBR) - mBR * (compression + crushing * mBR)) / rBR - slope;
      const fTR = (pTR * (1 + stiffening * pTR) - mTR * (compression + crushing * mTR)) / rTR - slope;
      const fTL = (pTL * (1 + stiffening * pTL) - mTL * (compression + crushing * mTL)) / rTL - slope;
      const courses = pB * (1 + 0.5 * stiffening * pB) + mB * (compression + 0.5 * crushing * mB) + pT * (1 + 0.5 * stiffening * pT) + mT * (compression + 0.5 * crushing * mT);
      const bottom = pBL * (1 + 0.5 * stiffening * pBL) + mBL * (compression + 0.5 * crushing * mBL) + pBR * (1 + 0.5 * stiffening * pBR) + mBR * (compression + 0.5 * crushing * mBR);
      const top = pTL * (1 + 0.5 * stiffening * pTL) + mTL * (compression + 0.5 * crushing * mTL) + pTR * (1 + 0.5 * stiffening * pTR) + mTR * (compression + 0.5 * crushing * mTR);
      const q2 = quarter * k2;
      energy += 2 * quarter * k1 * (0.5 * courses - slope * (eB + eT) - 2 * level);
      energy += q2 * (0.5 * (bottom + top) - slope * (wBL + wBR + wTR + wTL) - 4 * level);
      const dB = 2 * quarter * k1 * fB + nu * q2 * (fBL + fBR);
      const dT = 2 * quarter * k1 * fT + nu * q2 * (fTL + fTR);
      const dL = q2 * (fBL + fTL), dR = q2 * (fBR + fTR);
      sum += (Math.abs(dB) + Math.abs(dT)) / a + (Math.abs(dL) + Math.abs(dR)) / b;
      const area = a * b;
      const gBL = (bx * lx + by * ly + bz * lz) / area, gBR = (bx * rx + by * ry + bz * rz) / area;
      const gTR = (tx * rx + ty * ry + tz * rz) / area, gTL = (tx * lx + ty * ly + tz * lz) / area;
      const s = 0.25 * shear;
      energy += 0.5 * s * area * (gBL * gBL + gBR * gBR + gTR * gTR + gTL * gTL);
      const uB = dB / (a * (lenB + 1e-300)), uT = dT / (a * (lenT + 1e-300));
      const uL = dL / (b * (lenL + 1e-300)), uR = dR / (b * (lenR + 1e-300));
      const sBL = s * gBL, sBR = s * gBR, sTR = s * gTR, sTL = s * gTL;
      const pBx = uB * bx + sBL * lx + sBR * rx, pBy = uB * by + sBL * ly + sBR * ry, pBz = uB * bz + sBL * lz + sBR * rz;
      const pTx = uT * tx + sTL * lx + sTR * rx, pTy = uT * ty + sTL * ly + sTR * ry, pTz = uT * tz + sTL * lz + sTR * rz;
      const pLx = uL * lx + sBL * bx + sTL * tx, pLy = uL * ly + sBL * by + sTL * ty, pLz = uL * lz + sBL * bz + sTL * tz;
      const pRx = uR * rx + sBR * bx + sTR * tx, pRy = uR * ry + sBR * by + sTR * ty, pRz = uR * rz + sBR * bz + sTR * tz;
      g[i0] -= pBx + pLx; g[i0 + 1] -= pBy + pLy; g[i0 + 2] -= pBz + pLz;
      g[i1] += pBx - pRx; g[i1 + 1] += pBy - pRy; g[i1 + 2] += pBz - pRz;
      g[i2] += pTx + pRx; g[i2 + 1] += pTy + pRy; g[i2 + 2] += pTz + pRz;
      g[i3] += pLx - pTx; g[i3 + 1] += pLy - pTy; g[i3 + 2] += pLz - pTz;
    }
    forceSum = sum;
    return energy;
  }

  function addMetric(sink: MetricSink): void {
    const nodes = new Int32Array(2);
    const ends = Float64Array.of(-1, 1);
    for (let q = 0; q < count; q++) {
      const a = widths[q], b = heights[q];
      const course = METRIC_SHARE * 0.5 * a * b * (k1 + nu * nu * k2 + shear) / (a * a);
      const wale = METRIC_SHARE * 0.5 * a * b * (k2 + shear) / (b * b);
      const corner = 4 * q;
      addEdge(corner, corner + 1, course);
      addEdge(corner + 3, corner + 2, course);
      addEdge(corner, corner + 3, wale);
      addEdge(corner + 1, corner + 2, wale);
    }
    function addEdge(from: number, to: number, weight: number): void {
      nodes[0] = corners[from];
      nodes[1] = corners[to];
      sink.addSquare(weight, nodes, ends, 0, 2);
    }
  }

  return { addGradient, addMetric, addStiffness: createQuadStiffness(elements, law), couplings: () => ({ width: 4, nodes: corners }), edgeForces: () => ({ sum: forceSum, count: 2 * count }) };
}
