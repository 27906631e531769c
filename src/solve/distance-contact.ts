import type { EnergyTerm, MetricSink, StiffnessSink } from './energy.ts';
import { STRIDE } from './energy.ts';

/** A body that nothing may enter, by its distance. */
export interface DistanceField {
  /** Signed distance of the point from the body, mm, negative inside; its gradient, a unit vector, goes into `normal` (three entries). */
  distanceAt(x: number, y: number, z: number, normal: Float64Array): number;
}

export interface DistanceContact {
  readonly field: DistanceField;
  /** Distance that each node keeps from the body, mm. */
  readonly clearances: Float64Array;
  /** Stiffness of each node against coming nearer, N/mm. */
  readonly stiffness: number;
}

/** Share of the stiffness in the metric. `measured`: half the stiffness takes 39 iterations where none takes over 600 (a ball under a sheet). */
const METRIC_SHARE = 0.5;

/** Soft contact without friction: energy stiffness / 2 d^2 for a node that is d nearer to the body than its clearance. */
export function createDistanceContact({ field, clearances, stiffness }: DistanceContact): EnergyTerm {
  const normal = new Float64Array(STRIDE);

  function addGradient(x: Float64Array, g: Float64Array): number {
    let energy = 0;
    for (let n = 0; n < clearances.length; n++) {
      const i = n * STRIDE;
      const short = clearances[n] - field.distanceAt(x[i], x[i + 1], x[i + 2], normal);
      if (!(short > 0)) continue;
      energy += 0.5 * stiffness * short * short;
      for (let axis = 0; axis < STRIDE; axis++) g[i + axis] -= stiffness * short * normal[axis];
    }
    return energy;
  }

  /** Of the term's Hessian only the part along the body's normal; the body's curvature is left out. */
  const node = new Int32Array(1), dense = new Float64Array(9);
  function addStiffness(x: Float64Array, sink: StiffnessSink): void {
    for (let n = 0; n < clearances.length; n++) {
      const i = n * STRIDE;
      if (!(field.distanceAt(x[i], x[i + 1], x[i + 2], normal) < clearances[n])) continue;
      for (let r = 0; r < 3; r++) for (let c = 0; c < 3; c++) dense[3 * r + c] = stiffness * normal[r] * normal[c];
      node[0] = n;
      sink.addBlocks(node, 0, 1, dense);
    }
  }

  function addMetric(sink: MetricSink): void {
    for (let n = 0; n < clearances.length; n++) if (clearances[n] > -Infinity) sink.addDiagonal(n, METRIC_SHARE * stiffness);
  }

  return { addGradient, addMetric, addStiffness };
}
