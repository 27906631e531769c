import type { EnergyTerm, MetricSink, StiffnessSink } from '../../src/solve/energy.ts';
import type { SpringNet } from './spring-net.ts';

/** The net's springs for our own minimiser. Pinned nodes feel nothing, and so never move. */
export function createSprings(net: SpringNet): EnergyTerm {
  const { ends, rest, stiffness, isPinned } = net;
  const count = rest.length;
  const firstFree = new Float64Array(count), secondFree = new Float64Array(count);
  for (let k = 0; k < count; k++) {
    firstFree[k] = 1 - isPinned[ends[2 * k]];
    secondFree[k] = 1 - isPinned[ends[2 * k + 1]];
  }
  let forceSum = 0;

  function addGradient(x: Float64Array, g: Float64Array): number {
    let energy = 0, sum = 0;
    for (let k = 0; k < count; k++) {
      const i = 3 * ends[2 * k], j = 3 * ends[2 * k + 1];
      const dx = x[j] - x[i], dy = x[j + 1] - x[i + 1], dz = x[j + 2] - x[i + 2];
      const length = Math.sqrt(dx * dx + dy * dy + dz * dz);
      const stretch = length - rest[k], force = stiffness[k] * stretch;
      energy += 0.5 * force * stretch;
      sum += Math.abs(force);
      const f = force / (length + 1e-300), a = f * firstFree[k], b = f * secondFree[k];
      g[i] -= a * dx; g[i + 1] -= a * dy; g[i + 2] -= a * dz;
      g[j] += b * dx; g[j + 1] += b * dy; g[j + 2] += b * dz;
    }
    forceSum = sum;
    return energy;
  }

  function addMetric(sink: MetricSink): void {
    const nodes = new Int32Array(2), form = new Float64Array(2);
    for (let k = 0; k < count; k++) {
      nodes[0] = ends[2 * k]; nodes[1] = ends[2 * k + 1];
      form[0] = -firstFree[k]; form[1] = secondFree[k];
      sink.addSquare(stiffness[k], nodes, form, 0, 2);
    }
  }

  /** Along the spring its stiffness, across it force over length where it pulls (where it pushes, nothing). */
  function addStiffness(x: Float64Array, sink: StiffnessSink): void {
    const unit = new Float64Array(3), dense = new Float64Array(36);
    for (let k = 0; k < count; k++) {
      const i = 3 * ends[2 * k], j = 3 * ends[2 * k + 1];
      for (let axis = 0; axis < 3; axis++) unit[axis] = x[j + axis] - x[i + axis];
      const length = Math.sqrt(unit[0] ** 2 + unit[1] ** 2 + unit[2] ** 2) + 1e-300;
      const across = stiffness[k] * Math.max(0, 1 - rest[k] / length), along = (stiffness[k] - across) / (length * length);
      for (let r = 0; r < 3; r++) {
        for (let c = 0; c < 3; c++) {
          const value = along * unit[r] * unit[c] + (r === c ? across : 0);
          dense[6 * r + c] = firstFree[k] * value;
          dense[6 * r + c + 3] = dense[6 * r + 18 + c] = -firstFree[k] * secondFree[k] * value;
          dense[6 * r + 21 + c] = secondFree[k] * value;
        }
      }
      sink.addBlocks(ends, 2 * k, 2, dense);
    }
  }

  return { addGradient, addMetric, couplings: () => ({ width: 2, nodes: ends }), addStiffness, edgeForces: () => ({ sum: forceSum, count }) };
}

/** The constant loads. */
export function createLoads(net: SpringNet): EnergyTerm {
  const loads = net.loads.map((load, i) => (net.isPinned[Math.floor(i / 3)] === 1 ? 0 : load));
  return {
    addGradient(x, g) {
      let energy = 0;
      for (let i = 0; i < loads.length; i++) {
        energy -= loads[i] * x[i];
        g[i] -= loads[i];
      }
      return energy;
    },
  };
}
