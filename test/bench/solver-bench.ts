import type { Fabric } from '../../src/fabric/fabric.ts';
import { measurePose } from '../../src/measure/measure-pose.ts';
import { knitCoarse } from '../../src/pipeline/knit-coarse.ts';
import type { KnittedSock } from '../../src/pipeline/result.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { benchSock, knitOrThrow } from './bench-socks.ts';
import { createJudge, worstError } from './judge.ts';
import type { Goal, Verdict } from './judge.ts';
import { ammoContenders } from './net-ammo.ts';
import { cannonContenders } from './net-cannon.ts';
import { d3Contenders } from './net-d3.ts';
import { ourContenders, plainContenders, settle } from './net-ours.ts';
import type { Contender } from './net-ours.ts';
import { elasticEnergy, makeSpringNet } from './spring-net.ts';
import type { SpringNet } from './spring-net.ts';
import { printTable } from './table.ts';

/** A solver that has not arrived after this long is stopped, ms. */
const CAP_MS = 20_000;
const LARGE_CAP_MS = 60_000;
const FINE = 1e-8;
const MOST_ITERATIONS = 60_000;

interface Run { readonly contender: Contender; readonly verdict: Verdict }

/**
 * Our minimiser beside general physics libraries and a plain L-BFGS, on one net of springs: the same
 * mesh, start, rest lengths and loads, held against that net's own minimum. First a small sock with
 * every setting, then one of ten thousand loops with each solver's two best.
 */
export async function benchSolvers(): Promise<void> {
  const small = await race(knitShallow(0.6), CAP_MS, (coarse) => [
    ...ourContenders(coarse), ...plainContenders(), ...d3Contenders(), ...cannonContenders(), ...ammoContenders(),
  ]);
  const best = bestOfEach(small);
  await race(knitShallow(1), LARGE_CAP_MS, (coarse) => [
    ...ourContenders(coarse).filter(({ setting }) => best.some(({ contender }) => contender.setting === setting)),
    ...best.map(({ contender }) => contender).filter(({ solver }) => solver !== 'ours'),
  ]);
}

/** A sock whose heel is turned by two stitches: springs have no bending, so that in a bent instep each solver would end in a crumple of its own. */
function knitShallow(fineness: number): KnittedSock {
  const file: SockFile = benchSock(fineness);
  return knitOrThrow({ ...file, heel: { turnDownWidth: knitOrThrow(file).plan.heelStitches - 2 } });
}

async function race(sock: KnittedSock, capMs: number, enter: (coarse: Fabric) => Contender[]): Promise<Run[]> {
  const coarse = knitCoarse(sock.plan, sock.trace.loops);
  if (coarse === null) throw new Error('the bench wants a sock large enough for a coarse one');
  const net = makeSpringNet(sock.fabric);
  const goal = findGoal(net, coarse);
  const runs: Run[] = [];
  for (const contender of enter(coarse)) {
    const judge = createJudge(goal, capMs);
    await contender.run(net, judge);
    runs.push({ contender, verdict: judge.verdict() });
  }
  const fastest = Math.min(...runs.filter(({ contender }) => contender.solver === 'ours').map(({ verdict }) => verdict.bothMs ?? Infinity));
  printTable(
    ['solver', 'setting', 'over ours', 'ms to 1 %', 'of it set-up', 'dimensions alone, ms', 'steps', 'at the end: dimensions', 'energy', ''],
    runs.map(({ contender, verdict }) => [
      contender.solver, contender.setting, verdict.bothMs === null ? 'never' : (verdict.bothMs / fastest).toFixed(1),
      milliseconds(verdict.bothMs), milliseconds(verdict.setUpMs), milliseconds(verdict.dimensionsMs), String(verdict.steps),
      percent(verdict.dimensionError), percent(verdict.energyError), verdict.end,
    ]),
  );
  return runs;
}

/** Ours at a residual of 1e-8, confirmed by the plain method. */
function findGoal(net: SpringNet, coarse: Fabric): Goal {
  const ours = settle(net, coarse, FINE, MOST_ITERATIONS), plain = settle(net, null, FINE, MOST_ITERATIONS);
  const energy = elasticEnergy(net, ours.positions), plainEnergy = elasticEnergy(net, plain.positions);
  const { measures } = measurePose(net.fabric, ours.positions);
  const start = measurePose(net.fabric, net.start).measures, other = measurePose(net.fabric, plain.positions).measures;
  console.log([
    `\nNet of ${net.nodeCount} nodes and ${net.rest.length} springs. Its minimum by ours: ${energy.toPrecision(8)} mJ in the springs (residual ${ours.result.residual.toExponential(1)}, ${ours.result.status});`,
    `by plain L-BFGS: ${plainEnergy.toPrecision(8)} mJ (residual ${plain.result.residual.toExponential(1)}, ${plain.result.status}); dimensions differ by ${percent(worstError(other, measures))}.`,
    `The start is off by ${percent(worstError(start, measures))} in its worst dimension, by a factor of ${(elasticEnergy(net, net.start) / energy).toFixed(0)} in the springs' energy.`,
    `"To 1 %": key dimensions and the springs' energy both, and for five looks in a row.`,
  ].join('\n'));
  return { fabric: net.fabric, measures, energy, energyOf: (positions) => elasticEnergy(net, positions) };
}

/** Of each solver the two settings that arrived first, or else came nearest. */
function bestOfEach(runs: readonly Run[]): Run[] {
  const key = ({ verdict }: Run): number => verdict.bothMs ?? 1e9 * (1 + Math.max(verdict.dimensionError, Math.min(1e3, verdict.energyError)));
  const sorted = [...runs].sort((a, b) => key(a) - key(b));
  return runs.filter((run) => sorted.filter(({ contender }) => contender.solver === run.contender.solver).indexOf(run) < 2);
}

function milliseconds(ms: number | null): string { return ms === null ? '-' : ms.toFixed(ms < 100 ? 1 : 0); }
function percent(share: number): string { return Number.isFinite(share) ? `${(100 * share).toPrecision(2)} %` : '-'; }
