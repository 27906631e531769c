import type { Fabric } from '../../src/fabric/fabric.ts';
import { interpolateSock } from '../../src/shape/map-shape.ts';
import { createPreconditioner, createTwoLevelMetric, minimise } from '../../src/solve/index.ts';
import type { EnergyTerm, MinimiseOptions, MinimiseResult } from '../../src/solve/index.ts';
import type { Judge } from './judge.ts';
import { diagonalMetric, scaledIdentity } from './plain-metric.ts';
import type { PlainMetric } from './plain-metric.ts';
import type { SpringNet } from './spring-net.ts';
import { createLoads, createSprings } from './spring-term.ts';

/** One solver at one setting: runs until the judge says it is over. */
export interface Contender {
  readonly solver: string;
  readonly setting: string;
  run(net: SpringNet, judge: Judge): Promise<void> | void;
}

const SHIFT = 1e-6;
/** Of a first step, mm/N: about one over a node's stiffness. */
const FIRST_SCALE = 5;
/** Farthest move of a node in one step, mm. */
const LONGEST_MOVE = 5;

/** A coarse sock's nodes as parents of the net's: pinned nodes have none. */
function pinInterpolation(net: SpringNet, coarse: Fabric): ReturnType<typeof interpolateSock> {
  const { coarseCount, nodes, weights } = interpolateSock(coarse, net.fabric);
  const parents = weights.length / net.nodeCount;
  return { coarseCount, nodes, weights: weights.map((weight, p) => (net.isPinned[Math.floor(p / parents)] === 1 ? 0 : weight)) };
}

/** Minimises under the judge's eye. */
function minimiseJudged(net: SpringNet, { terms, metric }: PlainMetric, judge: Judge, options: MinimiseOptions): void {
  const positions = net.start.slice();
  let isOver = false;
  judge.begin();
  minimise(positions, terms, metric, {
    tolerance: 1e-9, maxIterations: 1e6, longestMove: LONGEST_MOVE, progressEvery: 1, ...options,
    onProgress: (now) => { isOver = judge.isDue() && judge.look(now); },
    isCancelled: () => isOver,
  });
  if (!isOver) judge.look(positions);
}

function termsOf(net: SpringNet): EnergyTerm[] { return [createSprings(net), createLoads(net)]; }

function twoLevel(net: SpringNet, coarse: Fabric): PlainMetric {
  const terms = termsOf(net);
  return { terms, metric: createTwoLevelMetric(net.nodeCount, terms, pinInterpolation(net, coarse), { shift: SHIFT }) };
}

/** Our minimiser: with the coarse sock's help as in the page, and with the one factor that small socks get. */
export function ourContenders(coarse: Fabric): Contender[] {
  const two = (memory: number, renewEvery: number): Contender => ({
    solver: 'ours', setting: `two levels, memory ${memory}, renewed every ${renewEvery}`,
    run: (net, judge) => { minimiseJudged(net, twoLevel(net, coarse), judge, { memory, renewEvery }); },
  });
  const one = (memory: number, factor: number): Contender => ({
    solver: 'ours', setting: `one factor, memory ${memory}, metric x ${factor}`,
    run: (net, judge) => {
      const terms = termsOf(net);
      const metric = createPreconditioner(net.nodeCount, [{ axes: [0, 1, 2], parts: terms.map((term) => ({ term, factor })) }], SHIFT);
      minimiseJudged(net, { terms, metric }, judge, { memory });
    },
  });
  return [two(8, 40), two(8, 20), two(8, 10), two(20, 40), one(8, 1), one(8, 0.3), one(20, 1)];
}

/** The textbook's method, run by the same code. */
export function plainContenders(): Contender[] {
  const plain = (memory: number): Contender => ({
    solver: 'plain L-BFGS', setting: `scaled identity, memory ${memory}`,
    run: (net, judge) => { minimiseJudged(net, scaledIdentity(termsOf(net), 3 * net.nodeCount, FIRST_SCALE), judge, { memory }); },
  });
  const diagonal = (memory: number): Contender => ({
    solver: 'plain L-BFGS', setting: `diagonal, memory ${memory}`,
    run: (net, judge) => { minimiseJudged(net, diagonalMetric(termsOf(net), net.nodeCount, SHIFT), judge, { memory }); },
  });
  return [plain(5), plain(8), plain(20), diagonal(8), diagonal(20)];
}

/** The minimum itself, by ours or by the plain method. */
export function settle(net: SpringNet, coarse: Fabric | null, tolerance: number, maxIterations: number): { positions: Float64Array; result: MinimiseResult } {
  const positions = net.start.slice();
  const { terms, metric } = coarse === null ? scaledIdentity(termsOf(net), 3 * net.nodeCount, FIRST_SCALE) : twoLevel(net, coarse);
  return { positions, result: minimise(positions, terms, metric, { tolerance, maxIterations, longestMove: LONGEST_MOVE, memory: 20 }) };
}
