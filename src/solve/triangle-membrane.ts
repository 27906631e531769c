import type { EnergyTerm, MetricSink } from './energy.ts';
import { STRIDE } from './energy.ts';
import { strainEnergy, strainForce } from './membrane-law.ts';
import type { MembraneLaw } from './membrane-law.ts';
import { createTriangleStiffness } from './triangle-stiffness.ts';

export interface TriangleElements {
  /** Three corners an element, counter-clockwise in rest coordinates. */
  readonly corners: Int32Array;
  /** Six entries an element: rest coordinates (course, wale) of its corners, mm. */
  readonly rest: Float64Array;
  /** Share of the triangle's area that it stands for (1/2 where corner triangles cover a cell twice). */
  readonly shares: Float64Array;
  /** Width and height of a usual cell, which turn stresses into forces along edges, mm. */
  readonly cellWidth: number;
  readonly cellHeight: number;
}

const METRIC_SHARE = 0.6;

/**
 * Constant-strain triangles under the law of `membrane-law.ts`. With rest edges (p, q) from corner
 * 0 and inverse entries m, the derivatives along the material axes are
 * x_s = m11 d1 + m21 d2 and x_t = m12 d1 + m22 d2 (d1, d2: the edges now). With a bluntness d the
 * strains are sqrt(|x_s|^2 + d^2) - sqrt(1 + d^2) and so for x_t.
 */
export function createTriangleMembrane(elements: TriangleElements, law: MembraneLaw): EnergyTerm {
  const { corners } = elements;
  const count = elements.shares.length;
  const { inverse, areas } = invertRest(elements);
  const k1 = law.courseModulus, k2 = law.waleModulus, nu = law.coupling, shear = law.shearModulus;
  const { cellWidth, cellHeight } = elements, dd = (law.bluntness ?? 0) ** 2, atRest = Math.sqrt(1 + dd);
  let areaSum = 0;
  for (let t = 0; t < count; t++) areaSum += areas[t];
  const forceCount = 2 * areaSum / (cellWidth * cellHeight);
  let forceSum = 0;

  // One kernel; the inverse rest matrix is read once and used for both axes.
  function addGradient(x: Float64Array, g: Float64Array): number {
    let energy = 0;
    let sum = 0;
    for (let t = 0; t < count; t++) {
      const i0 = corners[3 * t] * STRIDE, i1 = corners[3 * t + 1] * STRIDE, i2 = corners[3 * t + 2] * STRIDE;
      const m11 = inverse[4 * t], m12 = inverse[4 * t + 1], m21 = inverse[4 * t + 2], m22 = inverse[4 * t + 3];
      const x0 = x[i0], y0 = x[i0 + 1], z0 = x[i0 + 2];
      const px = x[i1] - x0, py = x[i1 + 1] - y0, pz = x[i1 + 2] - z0;
      const qx = x[i2] - x0, qy = x[i2 + 1] - y0, qz = x[i2 + 2] - z0;
      const sx = m11 * px + m21 * qx, sy = m11 * py + m21 * qy, sz = m11 * pz + m21 * qz;
      const tx = m12 * px + m22 * qx, ty = m12 * py + m22 * qy, tz = m12 * pz + m22 * qz;
      const lenS = Math.sqrt(sx * sx + sy * sy + sz * sz + dd), lenT = Math.sqrt(tx * tx + ty * ty + tz * tz + dd);
      const e1 = lenS - atRest, e2 = lenT - atRest + nu * e1;
      const area = areas[t];
      const f2 = area * k2 * strainForce(e2, law);
      const f1 = area * k1 * strainForce(e1, law) + nu * f2;
      const dot = sx * tx + sy * ty + sz * tz;
      energy += area * (k1 * strainEnergy(e1, law) + k2 * strainEnergy(e2, law) + 0.5 * shear * dot * dot);
      sum += Math.abs(f1) / cellWidth + Math.abs(f2) / cellHeight;
      const u = f1 / (lenS + 1e-300), v = f2 / (lenT + 1e-300), w = area * shear * dot;
      const gsx = u * sx + w * tx, gsy = u * sy + w * ty, gsz = u * sz + w * tz;
      const gtx = v * tx + w * sx, gty = v * ty + w * sy, gtz = v * tz + w * sz;
      const ax = m11 * gsx + m12 * gtx, ay = m11 * gsy + m12 * gty, az = m11 * gsz + m12 * gtz;
      const bx = m21 * gsx + m22 * gtx, by = m21 * gsy + m22 * gty, bz = m21 * gsz + m22 * gtz;
      g[i1] += ax; g[i1 + 1] += ay; g[i1 + 2] += az;
      g[i2] += bx; g[i2 + 1] += by; g[i2 + 2] += bz;
      g[i0] -= ax + bx; g[i0 + 1] -= ay + by; g[i0 + 2] -= az + bz;
    }
    forceSum = sum;
    return energy;
  }

  function addMetric(sink: MetricSink): void {
    const nodes = new Int32Array(3);
    const form = new Float64Array(3);
    for (let t = 0; t < count; t++) {
      for (let c = 0; c < 3; c++) nodes[c] = corners[3 * t + c];
      for (let axis = 0; axis < 2; axis++) {
        form[1] = inverse[4 * t + axis];
        form[2] = inverse[4 * t + 2 + axis];
        form[0] = -form[1] - form[2];
        const modulus = axis === 0 ? k1 + nu * nu * k2 + shear : k2 + shear;
        sink.addSquare(METRIC_SHARE * areas[t] * modulus, nodes, form, 0, 3);
      }
    }
  }

  return { addGradient, addMetric, addStiffness: createTriangleStiffness(corners, inverse, areas, law), couplings: () => ({ width: 3, nodes: corners }), edgeForces: () => ({ sum: forceSum, count: forceCount }) };
}

/** Inverse of the rest edge matrix (m11 m12 m21 m22 an element) and the areas stood for. */
function invertRest(elements: TriangleElements): { inverse: Float64Array; areas: Float64Array } {
  const { rest, shares } = elements;
  const count = shares.length;
  const inverse = new Float64Array(4 * count);
  const areas = new Float64Array(count);
  for (let t = 0; t < count; t++) {
    const o = 6 * t;
    const ps = rest[o + 2] - rest[o], pt = rest[o + 3] - rest[o + 1];
    const qs = rest[o + 4] - rest[o], qt = rest[o + 5] - rest[o + 1];
    const det = ps * qt - qs * pt;
    if (!(det > 0)) throw new Error(`triangle ${t} has rest area ${det / 2}`);
    // d = (p q) = x_(s,t) (ps qs; pt qt), so (x_s x_t) = (d1 d2) times the inverse.
    inverse[4 * t] = qt / det;
    inverse[4 * t + 1] = -qs / det;
    inverse[4 * t + 2] = -pt / det;
    inverse[4 * t + 3] = ps / det;
    areas[t] = 0.5 * det * shares[t];
  }
  return { inverse, areas };
}
