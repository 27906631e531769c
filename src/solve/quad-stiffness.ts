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
  /** Blocks between edges: BB, TT, LL, RR, then BL, BR, TR, TL, as CORNER_EDGES has them. */
  const pairs = new Float64Array(72);

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

  /** Writes into `pairs` what two edges that meet give: both u_c u_w^T + shear e_w e_c^T. */
  function pairInto(at: number, c: number, w: number, shear: number): void {
    const both = curvature[4 * c + w];
    for (let r = 0; r < 3; r++) {
      const u = both * units[3 * c + r], e = shear * edges[3 * w + r], o = at + 3 * r;
      pairs[o] = u * units[3 * w] + e * edges[3 * c];
      pairs[o + 1] = u * units[3 * w + 1] + e * edges[3 * c + 1];
      pairs[o + 2] = u * units[3 * w + 2] + e * edges[3 * c + 2];
    }
  }

  /** An edge with itself: its curvature and its tension's stiffness across, and the shear with the two edges p and q that it meets. */
  function selfInto(at: number, k: number, p: number, q: number, across: number, shear: number): void {
    const bent = curvature[5 * k] - across;
    for (let r = 0; r < 3; r++) {
      const u = bent * units[3 * k + r], e = shear * edges[3 * p + r], f = shear * edges[3 * q + r], o = at + 3 * r;
      pairs[o] = u * units[3 * k] + e * edges[3 * p] + f * edges[3 * q];
      pairs[o + 1] = u * units[3 * k + 1] + e * edges[3 * p + 1] + f * edges[3 * q + 1];
      pairs[o + 2] = u * units[3 * k + 2] + e * edges[3 * p + 2] + f * edges[3 * q + 2];
      pairs[o + r] += across;
    }
  }

  /** From edges to their ends: the blocks of the corners on and below the diagonal; with B, T, L, R from EDGE_FROM to EDGE_TO. */
  function spread(): void {
    for (let r = 0; r < 3; r++) {
      for (let c = 0; c < 3; c++) {
        const k = 3 * r + c, m = 3 * c + r, at = 12 * r + c;
        const bb = pairs[k], tt = pairs[9 + k], ll = pairs[18 + k], rr = pairs[27 + k];
        const bl = pairs[36 + k], br = pairs[45 + k], tr = pairs[54 + k], tl = pairs[63 + k];
        const lb = pairs[36 + m], rb = pairs[45 + m], rt = pairs[54 + m], lt = pairs[63 + m];
        dense[at] = bb + ll + bl + lb;
        dense[at + 36] = rb - bb - bl;
        dense[at + 39] = bb + rr - br - rb;
        dense[at + 72] = -tl - rb;
        dense[at + 75] = rb - tr - rr;
        dense[at + 78] = tt + rr + tr + rt;
        dense[at + 108] = tl - lb - ll;
        dense[at + 111] = tr + lb;
        dense[at + 114] = lt - tt - tr;
        dense[at + 117] = tt + ll - tl - lt;
      }
    }
  }

  function acrossOf(k: number, rest: number): number { return Math.max(0, tension[k]) / Math.max(lengths[k], LEAST_LENGTH * rest); }

  return (x, sink) => {
    for (let q = 0; q < widths.length; q++) {
      const a = widths[q], b = heights[q], shear = 0.25 * law.shearModulus / (a * b);
      readEdges(x, q);
      readLaw(a, b);
      for (let k = 0; k < 2; k++) selfInto(9 * k, k, 2, 3, acrossOf(k, a), shear);
      for (let k = 2; k < 4; k++) selfInto(9 * k, k, 0, 1, acrossOf(k, b), shear);
      for (let k = 0; k < 4; k++) pairInto(36 + 9 * k, CORNER_EDGES[k][0], CORNER_EDGES[k][1], shear);
      spread();
      sink.addBlocks(corners, 4 * q, 4, dense);
    }
  };
}
