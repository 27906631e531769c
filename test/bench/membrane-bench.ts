import type { Fabric } from '../../src/fabric/fabric.ts';
import { measurePose } from '../../src/measure/measure-pose.ts';
import { fairShape } from '../../src/shape/fair-shape.ts';
import { layOnPlates } from '../../src/shape/flat-terms.ts';
import { setUpPose } from '../../src/shape/pose-problem.ts';
import type { PoseProblem } from '../../src/shape/pose-problem.ts';
import type { FreePoseName } from '../../src/shape/pose.ts';
import { relaxSock } from '../../src/shape/relax-sock.ts';
import { makeStartShape } from '../../src/shape/start-shape.ts';
import { minimise } from '../../src/solve/index.ts';
import { knitOrThrow, LADDER, TEN_THOUSAND } from './bench-socks.ts';
import { createJudge } from './judge.ts';
import type { Goal, Judge } from './judge.ts';
import { diagonalMetric, scaledIdentity } from './plain-metric.ts';
import type { PlainMetric } from './plain-metric.ts';
import { printTable } from './table.ts';

const CAP_MS = 60_000;
const FINE = { tolerance: 1e-5, maxIterations: 6000 } as const;
/** Judged by the judge alone. */
const ENDLESS = { tolerance: 1e-12, maxIterations: 1e6 } as const;
/** Of a first step, mm/N. */
const FIRST_SCALE = 5;
const SHIFT = 1e-6;
/** Smoothing passes over the plain method's start: as many as ours gives a rough one. */
const FAIRING_PASSES = 15;

interface Way { readonly name: string; run(judge: Judge): void }

/** The sock's own energy, cold: ours beside a plain L-BFGS, to 1 % of dimensions and of the elastic energy. */
export function benchMembrane(): void {
  const rows: string[][] = [];
  for (const file of [LADDER[0], TEN_THOUSAND]) {
    const { fabric } = knitOrThrow(file);
    for (const name of ['flat', 'tube'] as const) rows.push(...compare(fabric, name));
  }
  printTable(['pose, cold', 'loops', 'by', 'over ours', 'ms to 1 %', 'dimensions alone, ms', 'at the end: dimensions', 'energy', ''], rows);
}

function compare(fabric: Fabric, name: FreePoseName): string[][] {
  const rest = relaxSock(fabric, name, FINE);
  const energyOf = createElasticEnergy(setUpPose(fabric, name), fabric.vertexCount);
  const goal: Goal = { fabric, measures: measurePose(fabric, rest.positions).measures, energy: energyOf(rest.positions), energyOf };
  let oursMs: number | null = null;
  return ways(fabric, name).map((way) => {
    const judge = createJudge(goal, CAP_MS);
    way.run(judge);
    const { bothMs, dimensionsMs, dimensionError, energyError, end } = judge.verdict();
    oursMs ??= bothMs;
    const over = bothMs === null || oursMs === null ? 'never' : (bothMs / oursMs).toFixed(1);
    const percent = (share: number): string => `${(100 * share).toPrecision(2)} %`;
    return [
      name, String(fabric.vertexCount), way.name, over, bothMs?.toFixed(0) ?? '-', dimensionsMs?.toFixed(0) ?? '-',
      percent(dimensionError), percent(energyError), end,
    ];
  });
}

function ways(fabric: Fabric, name: FreePoseName): Way[] {
  const plain = (metricOf: (problem: PoseProblem) => PlainMetric, memory: number) => (judge: Judge): void => {
    const positions = fairStart(fabric, name), problem = setUpPose(fabric, name), { terms, metric } = metricOf(problem);
    let isOver = false;
    judge.begin();
    const result = minimise(positions, terms, metric, {
      ...ENDLESS, memory, longestMove: 1.5 * fabric.waleMm, progressEvery: 1,
      ...(problem.fixedAxis === undefined ? {} : { fixedAxis: problem.fixedAxis }),
      onProgress: (now) => { isOver = judge.isDue() && judge.look(now); },
      isCancelled: () => isOver,
    });
    if (result.status !== 'cancelled') judge.look(positions);
  };
  const identity = ({ terms }: PoseProblem): PlainMetric => scaledIdentity(terms, 3 * fabric.vertexCount, FIRST_SCALE);
  return [
    {
      name: 'ours',
      run(judge) {
        let isOver = false;
        judge.begin();
        relaxSock(fabric, name, { ...ENDLESS, onProgress: (now) => { isOver = judge.isDue() && judge.look(now); }, isCancelled: () => isOver });
      },
    },
    { name: 'plain L-BFGS, scaled identity, memory 8', run: plain(identity, 8) },
    { name: 'plain L-BFGS, scaled identity, memory 20', run: plain(identity, 20) },
    { name: 'plain L-BFGS, diagonal, memory 8', run: plain(({ terms }) => diagonalMetric(terms, fabric.vertexCount, SHIFT), 8) },
  ];
}

function fairStart(fabric: Fabric, name: FreePoseName): Float64Array {
  const positions = makeStartShape(fabric, name === 'flat' ? 'folded' : 'round');
  if (name === 'flat') layOnPlates(fabric, positions);
  fairShape(fabric, positions, FAIRING_PASSES, setUpPose(fabric, name).fixedAxis);
  return positions;
}

/** Energy in the cloth: of the terms that carry force along edges, and of bending. Loads and contacts are left out. */
function createElasticEnergy({ terms, bending }: PoseProblem, nodeCount: number): (positions: Float64Array) => number {
  const elastic = terms.filter((term) => term === bending || term.edgeForces !== undefined);
  const gradient = new Float64Array(3 * nodeCount);
  return (positions) => elastic.reduce((sum, term) => sum + term.addGradient(positions, gradient), 0);
}
