import { STRIDE } from './energy.ts';
import type { StiffnessSink } from './energy.ts';
import { strainForce, strainStiffness } from './membrane-law.ts';
import type { MembraneLaw } from './membrane-law.ts';

/** An edge shorter than this share of its rest length turns no more easily than one of this length. */
const LEAST_LENGTH = 0.2;

/**
 * The law's curvature along the stretches of constant-strain triangles, and tension's stiffness across
 * them; what compression takes from that is left out. `inverse` and `areas` as in the membrane.
 */
export function createTriangleStiffness(
  corners: Int32Array, inverse: Float64Array, areas: Float64Array, law: MembraneLaw,
): (x: Float64Array, sink: StiffnessSink) => void {
  const { courseModulus: k1, waleModulus: k2, coupling: nu, shearModulus: shear } = law;
  const along = new Float64Array(6), stretches = new Float64Array(6), dense = new Float64Array(81);
  const form = new Float64Array(36);

  /** Derivatives of the three corners' weights along course (first three) and wale, and the stretches x_s and x_t. */
  function readTriangle(x: Float64Array, t: number): void {
    for (let axis = 0; axis < 2; axis++) {
      along[3 * axis + 1] = inverse[4 * t + axis];
      along[3 * axis + 2] = inverse[4 * t + 2 + axis];
      along[3 * axis] = -along[3 * axis + 1] - along[3 * axis + 2];
    }
    stretches.fill(0);
    for (let k = 0; k < 9; k++) {
      const corner = Math.floor(k / 3), axis = k % 3, at = x[corners[3 * t + corner] * STRIDE + axis];
      stretches[axis] += along[corner] * at;
      stretches[3 + axis] += along[3 + corner] * at;
    }
  }

  return (x, sink) => {
    for (let t = 0; t < areas.length; t++) {
      readTriangle(x, t);
      const [s0, s1, s2, t0, t1, t2] = stretches, area = areas[t];
      const lenS = Math.sqrt(s0 * s0 + s1 * s1 + s2 * s2) + 1e-300, lenT = Math.sqrt(t0 * t0 + t1 * t1 + t2 * t2) + 1e-300;
      const e1 = lenS - 1, e2 = lenT - 1 + nu * e1;
      const c1 = area * k1 * strainStiffness(e1, law), c2 = area * k2 * strainStiffness(e2, law), g = area * shear;
      const f2 = area * k2 * strainForce(e2, law), f1 = area * k1 * strainForce(e1, law) + nu * f2;
      const acrossS = Math.max(0, f1) / Math.max(lenS, LEAST_LENGTH), acrossT = Math.max(0, f2) / Math.max(lenT, LEAST_LENGTH);
      // Four linear forms of the nine coordinates: along the course, along the wale, coupled, sheared.
      for (let k = 0; k < 9; k++) {
        const corner = Math.floor(k / 3), axis = k % 3, a = along[corner], b = along[3 + corner];
        form[k] = a * stretches[axis] / lenS;
        form[9 + k] = b * stretches[3 + axis] / lenT;
        form[18 + k] = form[9 + k] + nu * form[k];
        form[27 + k] = a * stretches[3 + axis] + b * stretches[axis];
      }
      for (let p = 0; p < 81; p++) {
        const i = Math.floor(p / 9), j = p % 9, isSameAxis = i % 3 === j % 3, a = Math.floor(i / 3), b = Math.floor(j / 3);
        const across = isSameAxis ? acrossS * along[a] * along[b] + acrossT * along[3 + a] * along[3 + b] : 0;
        dense[p] = (c1 - acrossS) * form[i] * form[j] - acrossT * form[9 + i] * form[9 + j] + c2 * form[18 + i] * form[18 + j]
          + g * form[27 + i] * form[27 + j] + across;
      }
      sink.addBlocks(corners, 3 * t, 3, dense);
    }
  };
}
