import type { EnergyTerm, MetricSink, StiffnessSink } from './energy.ts';
import { STRIDE } from './energy.ts';

export interface SlabBounds {
  /** Coordinate that is bounded: 0 x, 1 y, 2 z. */
  readonly axis: number;
  /** Least and greatest value for each node, mm; infinite where a side is free. */
  readonly least: Float64Array;
  readonly greatest: Float64Array;
  /** Stiffness of each node against crossing, N/mm. */
  readonly stiffness: number;
}

/** Share of nodes in contact that the metric reckons with. `measured`: least iterations over several socks. */
const METRIC_SHARE = 0.5;

/** Soft planes: energy stiffness / 2 d^2 for a node that is d beyond its bound, nothing within. */
export function createSlab(bounds: SlabBounds): EnergyTerm {
  const { axis, least, greatest, stiffness } = bounds;
  const count = least.length;

  function addGradient(x: Float64Array, g: Float64Array): number {
    let energy = 0;
    for (let n = 0; n < count; n++) {
      const i = n * STRIDE + axis;
      const at = x[i];
      let d = 0;
      if (at < least[n]) d = at - least[n];
      else if (at > greatest[n]) d = at - greatest[n];
      else continue;
      energy += 0.5 * stiffness * d * d;
      g[i] += stiffness * d;
    }
    return energy;
  }

  function addMetric(sink: MetricSink, axes: readonly number[]): void {
    if (!axes.includes(axis)) return;
    for (let n = 0; n < count; n++) {
      if (least[n] > -Infinity || greatest[n] < Infinity) sink.addDiagonal(n, METRIC_SHARE * stiffness / axes.length);
    }
  }

  const node = new Int32Array(1), dense = new Float64Array(9);
  dense[4 * axis] = stiffness;
  function addStiffness(x: Float64Array, sink: StiffnessSink): void {
    for (let n = 0; n < count; n++) {
      const at = x[n * STRIDE + axis];
      if (at >= least[n] && at <= greatest[n]) continue;
      node[0] = n;
      sink.addBlocks(node, 0, 1, dense);
    }
  }

  return { addGradient, addMetric, addStiffness };
}
