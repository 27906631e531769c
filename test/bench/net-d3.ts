import { forceLink, forceSimulation } from 'd3-force-3d';
import type { ForceLink, ForceNode } from 'd3-force-3d';
import type { Judge } from './judge.ts';
import type { Contender } from './net-ours.ts';
import type { SpringNet } from './spring-net.ts';

interface Setting {
  /** Strength of the stiffest link; the others in proportion. */
  readonly strength: number;
  readonly velocityDecay: number;
  /** 0: alpha stays 1. */
  readonly alphaDecay: number;
  readonly iterations: number;
}

/** Links undo their stretch one after another, which softens them the more, the stronger they are: only weak ones balance a load as springs would. */
const SETTINGS: readonly Setting[] = [
  { strength: 0.5, velocityDecay: 0.4, alphaDecay: 0.0228, iterations: 1 },
  { strength: 0.5, velocityDecay: 0.4, alphaDecay: 0, iterations: 1 },
  { strength: 0.5, velocityDecay: 0.01, alphaDecay: 0, iterations: 1 },
  { strength: 0.1, velocityDecay: 0.01, alphaDecay: 0, iterations: 1 },
  { strength: 0.05, velocityDecay: 0.005, alphaDecay: 0, iterations: 1 },
  { strength: 0.03, velocityDecay: 0.003, alphaDecay: 0, iterations: 1 },
  { strength: 0.1, velocityDecay: 0.02, alphaDecay: 0, iterations: 4 },
];

/** d3-force-3d: links with distance and strength, a force of our own for the load, pinned nodes fixed. */
export function d3Contenders(): Contender[] {
  return SETTINGS.map((setting) => ({
    solver: 'd3-force-3d',
    setting: `strength ${setting.strength}, velocity decay ${setting.velocityDecay}, alpha decay ${setting.alphaDecay}, iterations ${setting.iterations}`,
    run: (net, judge) => { runSimulation(net, judge, setting); },
  }));
}

function runSimulation(net: SpringNet, judge: Judge, setting: Setting): void {
  const nodes = makeNodes(net);
  const links = makeLinks(net, nodes);
  const real = net.rest.length;
  let stiffest = 0;
  for (const stiffness of net.stiffness) stiffest = Math.max(stiffest, stiffness);
  // A link of strength s moves each of two equal ends by s / 2 of its stretch.
  const perForce = setting.strength / (2 * stiffest * setting.iterations);
  const { loads } = net;
  const simulation = forceSimulation(nodes, 3).stop().alphaDecay(setting.alphaDecay).velocityDecay(setting.velocityDecay)
    .force('load', (alpha) => {
      for (let v = 0; v < net.nodeCount; v++) {
        const node = nodes[v], scale = alpha * perForce * setting.iterations;
        node.vx = (node.vx ?? 0) + scale * loads[3 * v];
        node.vy = (node.vy ?? 0) + scale * loads[3 * v + 1];
        node.vz = (node.vz ?? 0) + scale * loads[3 * v + 2];
      }
    })
    .force('link', forceLink(links).iterations(setting.iterations)
      .distance((_, k) => (k < real ? net.rest[k] : 1))
      .strength((_, k) => (k < real ? 2 * perForce * net.stiffness[k] : 0)));
  const positions = net.start.slice();
  judge.begin();
  for (let isOver = false; !isOver;) {
    simulation.tick();
    const hasEnded = simulation.alpha() < simulation.alphaMin();
    if (!judge.isDue() && !hasEnded) continue;
    for (let v = 0; v < net.nodeCount; v++) positions.set([nodes[v].x, nodes[v].y, nodes[v].z], 3 * v);
    isOver = judge.look(positions) || hasEnded;
  }
}

function makeNodes(net: SpringNet): ForceNode[] {
  const { start } = net;
  const nodes: ForceNode[] = [];
  for (let v = 0; v < net.nodeCount; v++) {
    const [x, y, z] = start.subarray(3 * v, 3 * v + 3);
    nodes.push(net.isPinned[v] === 1 ? { x, y, z, fx: x, fy: y, fz: z } : { x, y, z });
  }
  return nodes;
}

/**
 * The library shares a link's pull out by how many links its ends have. So that every pair shares
 * evenly, nodes with fewer links get some without strength, to one more node that is held.
 */
function makeLinks(net: SpringNet, nodes: ForceNode[]): ForceLink[] {
  const links: ForceLink[] = [];
  const counts = new Int32Array(net.nodeCount);
  for (let k = 0; k < net.rest.length; k++) {
    const source = net.ends[2 * k], target = net.ends[2 * k + 1];
    counts[source]++; counts[target]++;
    links.push({ source, target });
  }
  let most = 0;
  for (const count of counts) most = Math.max(most, count);
  const target = nodes.push({ x: 0, y: 0, z: 0, fx: 0, fy: 0, fz: 0 }) - 1;
  for (let v = 0; v < net.nodeCount; v++) {
    for (let k = counts[v]; k < most; k++) links.push({ source: v, target });
  }
  return links;
}
