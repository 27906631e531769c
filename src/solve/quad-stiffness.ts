import { STRIDE } from './energy.ts';
import type { StiffnessSink } from './energy.ts';
import { strainForce, strainStiffness } from './membrane-law.ts';
import type { MembraneLaw } from './membrane-law.ts';
import type { RectangleElements } from './quad-membrane.ts';

/** Ends of the edges of a cell as corners, lower and upper course first, then left and right wale. */
const EDGE_FROM = [0, 3, 0, 1] as const, EDGE_TO = [1, 2, 3, 2] as const;
/** The two edges at each corner: course and wale. */
const CORNER_EDGES = [[0, 2], [0, 3], [1, 3], [1, 2]] as const;
/** An edge shorter than this share of its rest length turns no more easily than one of this length. */
const LEAST_LENGTH = 0.2;

/**
 * The law's curvature along the edges and tension's stiffness across them, gathered over pairs of
 * edges and then spread to their ends; what compression takes from the stiffness across is left out.
 */
// eslint-disable-next-line max-lines-per-function -- one kernel in steps that share their scratch
export function createQuadStiffness(elements: RectangleElements, law: MembraneLaw): (x: Float64Array, sink: StiffnessSink) => void {
  const { corners, widths, heights } = elements;
  const edges = new Float64Array(12), units = new Float64Array(12), lengths = new Float64Array(4), strains = new Float64Array(4);
  const curvature = new Float64Array(16), tension = new Float64Array(4), dense = new Float64Array(144);

  function readEdges(x: Float64Array, q: number): void {
    for (let k = 0; k < 4; k++) {
      const i = corners[4 * q + EDGE_FROM[k]] * STRIDE, j = corners[4 * q + EDGE_TO[k]] * STRIDE;
      const dx = x[j] - x[i], dy = x[j + 1] - x[i + 1], dz = x[j + 2] - x[i + 2];
      const length = Math.sqrt(dx * dx + dy * dy + dz * dz) + 1e-300;
      edges[3 * k] = dx; edges[3 * k + 1] = dy; edges[3 * k + 2] = dz;
      units[3 * k] = dx / length; units[3 * k + 1] = dy / length; units[3 * k + 2] = dz / length;
      lengths[k] = length;
      strains[k] = length / (k < 2 ? widths[q] : heights[q]) - 1;
    }
  }

  function readLaw(a: number, b: number): void {
    const { courseModulus: k1, waleModulus: k2, coupling: nu } = law, quarter = 0.25 * a * b;
    curvature.fill(0);
    tension.fill(0);
    for (let k = 0; k < 2; k++) {
      curvature[5 * k] += 2 * quarter * k1 * strainStiffness(strains[k], law) / (a * a);
      tension[k] += 2 * quarter * k1 * strainForce(strains[k], law) / a;
    }
    for (const [c, w] of CORNER_EDGES) {
      const e = strains[w] + nu * strains[c], stiffness = quarter * k2 * strainStiffness(e, law), force = quarter * k2 * strainForce(e, law);
      curvature[5 * w] += stiffness / (b * b);
      curvature[5 * c] += nu * nu * stiffness / (a * a);
      curvature[4 * w + c] += nu * stiffness / (a * b);
      curvature[4 * c + w] += nu * stiffness / (a * b);
      tension[w] += force / b;
      tension[c] += nu * force / a;
    }
  }

  /** Adds the block of entry (r, s) = scale p_r q_s, and `across` on its diagonal, between edges k and l. */
  function addPair(k: number, l: number, scale: number, p: Float64Array, pAt: number, q: Float64Array, qAt: number, across: number): void {
    const kFrom = 36 * EDGE_FROM[k], kTo = 36 * EDGE_TO[k], lFrom = 3 * EDGE_FROM[l], lTo = 3 * EDGE_TO[l];
    for (let r = 0; r < 3; r++) {
      for (let s = 0; s < 3; s++) {
        const value = scale * p[pAt + r] * q[qAt + s] + (r === s ? across : 0), at = 12 * r + s;
        dense[kTo + lTo + at] += value;
        dense[kFrom + lFrom + at] += value;
        dense[kTo + lFrom + at] -= value;
        dense[kFrom + lTo + at] -= value;
      }
    }
  }

  return (x, sink) => {
    for (let q = 0; q < widths.length; q++) {
      const a = widths[q], b = heights[q], shear = 0.25 * law.shearModulus / (a * b);
      readEdges(x, q);
      readLaw(a, b);
      dense.fill(0);
      for (let k = 0; k < 4; k++) {
        const across = Math.max(0, tension[k]) / Math.max(lengths[k], LEAST_LENGTH * (k < 2 ? a : b));
        addPair(k, k, curvature[5 * k] - across, units, 3 * k, units, 3 * k, across);
      }
      for (const [c, w] of CORNER_EDGES) {
        const both = curvature[4 * c + w];
        addPair(c, w, both, units, 3 * c, units, 3 * w, 0);
        addPair(w, c, both, units, 3 * w, units, 3 * c, 0);
        addPair(c, c, shear, edges, 3 * w, edges, 3 * w, 0);
        addPair(w, w, shear, edges, 3 * c, edges, 3 * c, 0);
        addPair(c, w, shear, edges, 3 * w, edges, 3 * c, 0);
        addPair(w, c, shear, edges, 3 * c, edges, 3 * w, 0);
      }
      sink.addBlocks(corners, 4 * q, 4, dense);
    }
  };
}
