import type { EnergyTerm, MetricSink } from '../../src/solve/index.ts';

/** Doubled area of the triangle a b c as a vector into `out`. */
function areaVectorInto(out: Float64Array, x: Float64Array, a: number, b: number, c: number): number {
  const px = x[b] - x[a], py = x[b + 1] - x[a + 1], pz = x[b + 2] - x[a + 2];
  const qx = x[c] - x[a], qy = x[c + 1] - x[a + 1], qz = x[c + 2] - x[a + 2];
  out[0] = py * qz - pz * qy;
  out[1] = pz * qx - px * qz;
  out[2] = px * qy - py * qx;
  return Math.sqrt(out[0] ** 2 + out[1] ** 2 + out[2] ** 2);
}

/**
 * A soap film: energy tension times area, whatever the stretch. No cloth does this. The metric is the
 * film's Dirichlet energy (cotangent weights; Pinkall & Polthier, Exp. Math. 2 (1993) 15-36) at `start`.
 */
export function createFilm(corners: Int32Array, tension: number, start: Float64Array): EnergyTerm {
  const normal = new Float64Array(3);
  let forceSum = 0;

  function addGradient(x: Float64Array, g: Float64Array): number {
    let energy = 0;
    forceSum = 0;
    for (let t = 0; t < corners.length; t += 3) {
      const doubled = areaVectorInto(normal, x, 3 * corners[t], 3 * corners[t + 1], 3 * corners[t + 2]);
      energy += 0.5 * tension * doubled;
      const w = 0.5 * tension / (doubled + 1e-300);
      for (let k = 0; k < 3; k++) {
        // The area grows by half of the edge opposite, turned a quarter outwards.
        const i = 3 * corners[t + k], a = 3 * corners[t + (k + 1) % 3], b = 3 * corners[t + (k + 2) % 3];
        const ex = x[b] - x[a], ey = x[b + 1] - x[a + 1], ez = x[b + 2] - x[a + 2];
        g[i] += w * (normal[1] * ez - normal[2] * ey);
        g[i + 1] += w * (normal[2] * ex - normal[0] * ez);
        g[i + 2] += w * (normal[0] * ey - normal[1] * ex);
        forceSum += 0.5 * tension * Math.sqrt(ex * ex + ey * ey + ez * ez);
      }
    }
    return energy;
  }

  function addMetric(sink: MetricSink): void {
    const pair = new Int32Array(2), ends = Float64Array.of(-1, 1);
    for (let t = 0; t < corners.length; t += 3) {
      for (let k = 0; k < 3; k++) {
        const at = corners[t + k], a = corners[t + (k + 1) % 3], b = corners[t + (k + 2) % 3];
        const doubled = areaVectorInto(normal, start, 3 * at, 3 * a, 3 * b);
        let dot = 0;
        for (let axis = 0; axis < 3; axis++) dot += (start[3 * a + axis] - start[3 * at + axis]) * (start[3 * b + axis] - start[3 * at + axis]);
        pair.set([a, b]);
        sink.addSquare(Math.max(0, 0.5 * tension * dot / doubled), pair, ends, 0, 2);
      }
    }
  }

  return { addGradient, addMetric, edgeForces: () => ({ sum: forceSum, count: corners.length }) };
}
