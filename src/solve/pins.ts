import type { EnergyTerm, MetricSink, StiffnessSink } from './energy.ts';
import { STRIDE } from './energy.ts';

export interface PinnedNodes {
  readonly nodes: Int32Array;
  /** Three entries a pinned node, mm. */
  readonly places: Float64Array;
  /** N/mm. */
  readonly stiffness: number;
}

/** Springs from nodes to fixed places: energy stiffness / 2 |x - place|^2. */
export function createPins(pinned: PinnedNodes): EnergyTerm {
  const { nodes, places, stiffness } = pinned;

  function addGradient(x: Float64Array, g: Float64Array): number {
    let energy = 0;
    for (let k = 0; k < nodes.length; k++) {
      for (let axis = 0; axis < STRIDE; axis++) {
        const i = nodes[k] * STRIDE + axis;
        const d = x[i] - places[k * STRIDE + axis];
        energy += 0.5 * stiffness * d * d;
        g[i] += stiffness * d;
      }
    }
    return energy;
  }

  function addMetric(sink: MetricSink): void {
    for (const node of nodes) sink.addDiagonal(node, stiffness);
  }

  const dense = Float64Array.of(stiffness, 0, 0, 0, stiffness, 0, 0, 0, stiffness);
  function addStiffness(_: Float64Array, sink: StiffnessSink): void {
    for (let k = 0; k < nodes.length; k++) sink.addBlocks(nodes, k, 1, dense);
  }

  return { addGradient, addMetric, addStiffness };
}
