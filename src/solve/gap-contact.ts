import type { EnergyTerm, MetricSink, StiffnessSink } from './energy.ts';
import { STRIDE } from './energy.ts';

/** Pairs of nodes that keep their order along a direction. */
export interface OrderedPairs {
  /** The second of each pair lies farther along the direction than the first. */
  readonly first: Int32Array;
  readonly second: Int32Array;
  /** Unit vector. */
  readonly direction: readonly [number, number, number];
  /** Least distance of each pair along the direction, mm. */
  readonly clearances: Float64Array;
  /** N/mm. */
  readonly stiffness: number;
}

/** Share of the pairs in contact that the metric reckons with. `chosen by eye`. */
const METRIC_SHARE = 0.25;

/** Soft contact between the nodes of a pair: energy stiffness / 2 s^2 where (x2 - x1) . d falls short of the clearance by s. */
export function createGapContact({ first, second, direction, clearances, stiffness }: OrderedPairs): EnergyTerm {
  const [dx, dy, dz] = direction;

  function addGradient(x: Float64Array, g: Float64Array): number {
    let energy = 0;
    for (let k = 0; k < first.length; k++) {
      const a = first[k] * STRIDE, b = second[k] * STRIDE;
      const short = clearances[k] - (dx * (x[b] - x[a]) + dy * (x[b + 1] - x[a + 1]) + dz * (x[b + 2] - x[a + 2]));
      if (!(short > 0)) continue;
      energy += 0.5 * stiffness * short * short;
      const f = stiffness * short;
      g[a] += f * dx; g[a + 1] += f * dy; g[a + 2] += f * dz;
      g[b] -= f * dx; g[b + 1] -= f * dy; g[b + 2] -= f * dz;
    }
    return energy;
  }

  function addMetric(sink: MetricSink, axes: readonly number[]): void {
    let share = 0;
    for (const axis of axes) share += direction[axis] ** 2 / axes.length;
    const nodes = new Int32Array(2), form = Float64Array.of(-1, 1);
    for (let k = 0; k < first.length; k++) {
      nodes[0] = first[k];
      nodes[1] = second[k];
      sink.addSquare(METRIC_SHARE * stiffness * share, nodes, form, 0, 2);
    }
  }

  const pairs = Int32Array.from({ length: 2 * first.length }, (_, i) => (i % 2 === 0 ? first : second)[i >> 1]);
  const dense = new Float64Array(36);
  for (let r = 0; r < 6; r++) for (let c = 0; c < 6; c++) dense[6 * r + c] = (r < 3 === c < 3 ? stiffness : -stiffness) * direction[r % 3] * direction[c % 3];
  function addStiffness(x: Float64Array, sink: StiffnessSink): void {
    for (let k = 0; k < first.length; k++) {
      const a = first[k] * STRIDE, b = second[k] * STRIDE;
      if (!(dx * (x[b] - x[a]) + dy * (x[b + 1] - x[a + 1]) + dz * (x[b + 2] - x[a + 2]) < clearances[k])) continue;
      sink.addBlocks(pairs, 2 * k, 2, dense);
    }
  }

  return { addGradient, addMetric, addStiffness, couplings: () => ({ width: 2, nodes: pairs }) };
}
