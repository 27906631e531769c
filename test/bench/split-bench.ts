import type { Fabric } from '../../src/fabric/fabric.ts';
import { measurePose } from '../../src/measure/measure-pose.ts';
import { knitCoarse } from '../../src/pipeline/knit-coarse.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import type { KnittedSock } from '../../src/pipeline/result.ts';
import { withField } from '../../src/plan/with-field.ts';
import { fairShape } from '../../src/shape/fair-shape.ts';
import { layOnPlates } from '../../src/shape/flat-terms.ts';
import { keyLengths } from '../../src/shape/key-lengths.ts';
import { interpolateSock, mapShape } from '../../src/shape/map-shape.ts';
import { METRIC_SHIFT, setUpPose } from '../../src/shape/pose-problem.ts';
import type { FreePoseName } from '../../src/shape/pose.ts';
import { makeStartShape } from '../../src/shape/start-shape.ts';
import { createTwoLevelMetric, minimise } from '../../src/solve/index.ts';
import type { EnergyTerm, Preconditioner } from '../../src/solve/index.ts';
import { buildCloth } from '../../src/view/cloth-geometry.ts';
import { poseClothInto } from '../../src/view/cloth-pose.ts';
import { vertexNormals } from '../../src/yarn/vertex-normals.ts';
import { knitOrThrow, TEN_THOUSAND } from './bench-socks.ts';
import { printTable } from './table.ts';

/** Times by what they went into, ms. */
interface Ledger {
  time<T>(entry: string, work: () => T): T;
  readonly entries: Map<string, number>;
}

/** As in `relaxSock`. */
const RENEW_EVERY = 25;
const FAIRING_PASSES = 15;

/**
 * Where the time goes when the turn-down width is moved by 2, warm, and when the same sock is relaxed
 * cold from its faired start: the steps that `poseSock` takes, one by one, each under a stopwatch.
 */
export function benchSplit(): void {
  const base = knitOrThrow(TEN_THOUSAND);
  const file = withField(TEN_THOUSAND, 'heel.turnDownWidth', base.plan.turnDownWidth + 2);
  for (const name of ['flat', 'tube'] as const) {
    const near = { fabric: base.fabric, positions: poseSock(base, name).pose.positions };
    // Once unwritten, so that everything is compiled.
    runEdit(file, name, near, createLedger());
    print(`warm edit, ${name}`, (ledger) => runEdit(file, name, near, ledger));
    print(`cold, ${name}`, (ledger) => runEdit(file, name, null, ledger));
  }
}

function print(title: string, run: (ledger: Ledger) => string): void {
  const ledger = createLedger();
  const begun = performance.now();
  const remark = run(ledger);
  const total = performance.now() - begun;
  const known = [...ledger.entries.values()].reduce((sum, ms) => sum + ms, 0);
  const rows = [...ledger.entries, ['history, steps, tests for rest', total - known] as const].map(([entry, ms]) => [entry, `${(100 * ms / total).toFixed(0)} %`, ms.toFixed(1)]);
  printTable([`${title}: ${remark}`, 'share', 'ms'], [...rows, ['together', '100 %', total.toFixed(1)]]);
}

function runEdit(file: typeof TEN_THOUSAND, name: FreePoseName, near: { fabric: Fabric; positions: Float64Array } | null, ledger: Ledger): string {
  const sock = ledger.time('plan to fabric', () => knitOrThrow(file)), { fabric } = sock;
  const positions = ledger.time('start', () => startOf(fabric, name, near));
  const problem = ledger.time('elements', () => setUpPose(fabric, name));
  const axis = problem.fixedAxis === undefined ? {} : { fixedAxis: problem.fixedAxis };
  const terms = problem.terms.map((term) => watchTerm(term, ledger));
  const metric = ledger.time('metric: pattern, order', () => watchMetric(near === null ? problem.preconditioner : guide(sock, terms, axis), ledger));
  // A metric that is made on first use is made here.
  ledger.time('metric: factor', () => metric.entryCount);
  const { status, iterations, evaluations } = minimise(positions, terms, metric, {
    ...axis, longestMove: 1.5 * fabric.waleMm, maxIterations: 3000, renewEvery: RENEW_EVERY, lengths: keyLengths(fabric),
  });
  // What each evaluation beyond one an iteration costs was spent on the line search.
  const energy = ledger.entries.get('energy and gradient') ?? 0, extra = energy * Math.max(0, evaluations - iterations - 1) / evaluations;
  ledger.entries.set('energy and gradient', energy - extra);
  ledger.entries.set('line search: further evaluations', extra);
  ledger.time('measures', () => measurePose(fabric, positions));
  ledger.time('buffers of the picture', () => fillBuffers(sock, positions));
  return `${fabric.vertexCount} loops, ${status}, ${iterations} iterations, ${evaluations} evaluations`;
}

function startOf(fabric: Fabric, name: FreePoseName, near: { fabric: Fabric; positions: Float64Array } | null): Float64Array {
  const positions = near === null ? makeStartShape(fabric, name === 'flat' ? 'folded' : 'round') : mapShape(interpolateSock(near.fabric, fabric), near.positions);
  if (name === 'flat') layOnPlates(fabric, positions);
  if (near === null) fairShape(fabric, positions, FAIRING_PASSES, setUpPose(fabric, name).fixedAxis);
  return positions;
}

function guide(sock: KnittedSock, terms: readonly EnergyTerm[], axis: { fixedAxis?: number }): Preconditioner {
  const coarse = knitCoarse(sock.plan, sock.trace.loops);
  if (coarse === null) throw new Error('the bench wants a sock large enough for a coarse one');
  return createTwoLevelMetric(sock.fabric.vertexCount, terms, interpolateSock(coarse, sock.fabric), { shift: METRIC_SHIFT, ...axis });
}

function fillBuffers({ fabric, grid }: KnittedSock, positions: Float64Array): void {
  const cloth = buildCloth(fabric, grid);
  const out = { positions: new Float32Array(3 * cloth.vertexCount), normals: new Float32Array(3 * cloth.vertexCount), hollow: new Float32Array(2 * cloth.vertexCount) };
  poseClothInto(out, cloth, fabric, positions, vertexNormals(fabric, positions));
}

/** Inner entries are taken out of outer ones. */
function createLedger(): Ledger {
  const entries = new Map<string, number>();
  let inner = 0;
  return {
    entries,
    time(entry, work) {
      const outer = inner, begun = performance.now();
      inner = 0;
      const result = work();
      const ms = performance.now() - begun;
      entries.set(entry, (entries.get(entry) ?? 0) + ms - inner);
      inner = outer + ms;
      return result;
    },
  };
}

function watchTerm(term: EnergyTerm, ledger: Ledger): EnergyTerm {
  const { addStiffness } = term;
  return {
    ...term,
    addGradient: (x, g) => ledger.time('energy and gradient', () => term.addGradient(x, g)),
    ...(addStiffness === undefined ? {} : { addStiffness: (x, sink) => { ledger.time('stiffness', () => { addStiffness.call(term, x, sink); }); } }),
  };
}

function watchMetric(metric: Preconditioner, ledger: Ledger): Preconditioner {
  return {
    get entryCount() { return metric.entryCount; },
    applyInto(step, gradient) { ledger.time('metric: solve', () => { metric.applyInto(step, gradient); }); },
    renew(positions) { ledger.time('metric: factor', () => { metric.renew?.(positions); }); },
  };
}
