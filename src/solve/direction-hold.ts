import type { EnergyTerm, MetricSink, StiffnessSink } from './energy.ts';
import { STRIDE } from './energy.ts';

/** Nodes held along one direction each, free across it. */
export interface HeldNodes {
  readonly nodes: Int32Array;
  /** Three entries a held node: a unit vector. */
  readonly directions: Float64Array;
  /** Place along its direction at which a node is held, mm. */
  readonly offsets: Float64Array;
  /** N/mm. */
  readonly stiffness: number;
}

/** Energy stiffness / 2 (x . d - offset)^2 for each held node. */
export function createDirectionHold({ nodes, directions, offsets, stiffness }: HeldNodes): EnergyTerm {
  function addGradient(x: Float64Array, g: Float64Array): number {
    let energy = 0;
    for (let k = 0; k < nodes.length; k++) {
      const i = nodes[k] * STRIDE, dx = directions[3 * k], dy = directions[3 * k + 1], dz = directions[3 * k + 2];
      const off = x[i] * dx + x[i + 1] * dy + x[i + 2] * dz - offsets[k];
      energy += 0.5 * stiffness * off * off;
      const f = stiffness * off;
      g[i] += f * dx; g[i + 1] += f * dy; g[i + 2] += f * dz;
    }
    return energy;
  }

  function addMetric(sink: MetricSink, axes: readonly number[]): void {
    for (let k = 0; k < nodes.length; k++) {
      let share = 0;
      for (const axis of axes) share += directions[3 * k + axis] ** 2 / axes.length;
      sink.addDiagonal(nodes[k], stiffness * share);
    }
  }

  const dense = new Float64Array(9);
  function addStiffness(_: Float64Array, sink: StiffnessSink): void {
    for (let k = 0; k < nodes.length; k++) {
      for (let r = 0; r < 3; r++) for (let c = 0; c < 3; c++) dense[3 * r + c] = stiffness * directions[3 * k + r] * directions[3 * k + c];
      sink.addBlocks(nodes, k, 1, dense);
    }
  }

  return { addGradient, addMetric, addStiffness };
}
