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
  // Constants of the curve: p and m are kept doubled and squared, so their fourth powers are 16 times too large.
  const d = law.softness, dd = d * d, stiffening = law.stiffening / 16, crushing = law.crushing / 16;
  const hard = 0.5 * (1 + law.compression), soft = 0.25 * (1 - law.compression);
  const slope = d * dd * (stiffening - crushing), level = 0.25 * dd * dd * (stiffening + crushing);
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
      const rB = Math.sqrt(eB * eB + dd), pB = (rB + eB) * (rB + eB), mB = (rB - eB) * (rB - eB), qB = soft * eB * eB, gB = qB / (rB + d);
      const rT = Math.sqrt(eT * eT + dd), pT = (rT + eT) * (rT + eT), mT = (rT - eT) * (rT - eT), qT = soft * eT * eT, gT = qT / (rT + d);
      const rBL = Math.sqrt(wBL * wBL + dd), pBL = (rBL + wBL) * (rBL + wBL), mBL = (rBL - wBL) * (rBL - wBL), qBL = soft * wBL * wBL, gBL = qBL / (rBL + d);
      const rBR = Math.sqrt(wBR * wBR + dd), pBR = (rBR + wBR) * (rBR + wBR), mBR = (rBR - wBR) * (rBR - wBR), qBR = soft * wBR * wBR, gBR = qBR / (rBR + d);
      const rTR = Math.sqrt(wTR * wTR + dd), pTR = (rTR + wTR) * (rTR + wTR), mTR = (rTR - wTR) * (rTR - wTR), qTR = soft * wTR * wTR, gTR = qTR / (rTR + d);
      const rTL = Math.sqrt(wTL * wTL + dd), pTL = (rTL + wTL) * (rTL + wTL), mTL = (rTL - wTL) * (rTL - wTL), qTL = soft * wTL * wTL, gTL = qTL / (rTL + d);
      const fB = hard * eB + gB + (qB + stiffening * pB * pB - crushing * mB * mB) / rB - slope;
      const fT = hard * eT + gT + (qT + stiffening * pT * pT - crushing * mT * mT) / rT - slope;
      const fBL = hard * wBL + gBL + (qBL + stiffening * pBL * pBL - crushing * mBL * mBL) / rBL - slope;
      const fBR = hard * wBR + gBR + (qBR + stiffening * pBR * pBR - crushing * mBR * mBR) / rBR - slope;
      const fTR = hard * wTR + gTR + (qTR + stiffening * pTR * pTR - crushing * mTR * mTR) / rTR - slope;
      const fTL = hard * wTL + gTL + (qTL + stiffening * pTL * pTL - crushing * mTL * mTL) / rTL - slope;
      const courses = eB * (0.5 * hard * eB + gB - slope) + 0.25 * (stiffening * pB * pB + crushing * mB * mB) + eT * (0.5 * hard * eT + gT - slope) + 0.25 * (stiffening * pT * pT + crushing * mT * mT);
      const bottom = wBL * (0.5 * hard * wBL + gBL - slope) + 0.25 * (stiffening * pBL * pBL + crushing * mBL * mBL) + wBR * (0.5 * hard * wBR + gBR - slope) + 0.25 * (stiffening * pBR * pBR + crushing * mBR * mBR);
      const top = wTL * (0.5 * hard * wTL + gTL - slope) + 0.25 * (stiffening * pTL * pTL + crushing * mTL * mTL) + wTR * (0.5 * hard * wTR + gTR - slope) + 0.25 * (stiffening * pTR * pTR + crushing * mTR * mTR);
      const q2 = quarter * k2;
      energy += 2 * quarter * k1 * (courses - 2 * level) + q2 * (bottom + top - 4 * level);
      const dB = 2 * quarter * k1 * fB + nu * q2 * (fBL + fBR);
      const dT = 2 * quarter * k1 * fT + nu * q2 * (fTL + fTR);
      const dL = q2 * (fBL + fTL), dR = q2 * (fBR + fTR);
      sum += (Math.abs(dB) + Math.abs(dT)) / a + (Math.abs(dL) + Math.abs(dR)) / b;
      const area = a * b;
      const hBL = (bx * lx + by * ly + bz * lz) / area, hBR = (bx * rx + by * ry + bz * rz) / area;
      const hTR = (tx * rx + ty * ry + tz * rz) / area, hTL = (tx * lx + ty * ly + tz * lz) / area;
      const s = 0.25 * shear;
      energy += 0.5 * s * area * (hBL * hBL + hBR * hBR + hTR * hTR + hTL * hTL);
      const uB = dB / (a * (lenB + 1e-300)), uT = dT / (a * (lenT + 1e-300));
      const uL = dL / (b * (lenL + 1e-300)), uR = dR / (b * (lenR + 1e-300));
      const sBL = s * hBL, sBR = s * hBR, sTR = s * hTR, sTL = s * hTL;
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
