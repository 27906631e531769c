import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import type { KnittedSock } from '../../src/pipeline/result.ts';
import type { FreePoseName } from '../../src/shape/pose.ts';
import { knitOrThrow, LADDER } from './bench-socks.ts';
import { arrayBytes, createReferenceKernel, exponent, medianMs } from './timing.ts';
import { printTable } from './table.ts';

/** Poses above this many loops take minutes: with `--all` only. */
const POSE_UP_TO = 30_000;

interface Relaxed { readonly ms: number; readonly kilobytes: number; readonly status: string; readonly iterations: number }

/** One foot at ever finer gauges, up to 200,000 loops: time and memory, and the powers of the loops that they grow with. */
export function benchScale(wantsAll: boolean): void {
  const referenceMs = medianMs(createReferenceKernel(), 9);
  const collect = exposeCollector();
  const points = new Map<string, [number, number][]>();
  const note = (name: string, loops: number, value: number): void => {
    points.set(name, [...points.get(name) ?? [], [loops, value]]);
  };
  const rows = LADDER.map((file) => {
    const sock = knitOrThrow(file), { loops } = sock.trace;
    const knitMs = medianMs(() => { knitOrThrow(file); }, 3);
    note('knit time', loops, knitMs);
    note('fabric memory', loops, arrayBytes(sock));
    const cells = [String(loops), (knitMs / referenceMs).toFixed(2), knitMs.toFixed(1), (arrayBytes(sock) / loops).toFixed(0)];
    for (const name of ['tube', 'flat'] as const) {
      if (!wantsAll && loops > POSE_UP_TO) { cells.push('-', '-', '-', 'with --all'); continue; }
      const { ms, kilobytes, status, iterations } = relax(sock, name, collect);
      note(`${name} time`, loops, ms);
      note(`${name} memory`, loops, kilobytes);
      cells.push((ms / referenceMs).toFixed(1), ms.toFixed(0), (kilobytes / loops).toFixed(1), `${status}, ${iterations}`);
    }
    return cells;
  });
  const pose = (name: string): string[] => [`${name} / kernel`, `${name} ms`, 'kB a loop', 'status, iterations'];
  printTable(['loops', 'knit / kernel', 'knit ms', 'array bytes a loop', ...pose('tube'), ...pose('flat')], rows);
  console.log(`grows with loops to the power: ${[...points].map(([name, list]) => `${name} ${exponent(list).toFixed(2)}`).join(', ')}`);
}

/** Cold. Memory is the most seen while it ran, above what was held before: heap and arrays, garbage not yet collected among it. */
function relax(sock: KnittedSock, name: FreePoseName, collect: () => void): Relaxed {
  collect();
  const before = heldBytes();
  let most = before;
  const begun = performance.now();
  const { pose } = poseSock(sock, name, { onProgress: () => { most = Math.max(most, heldBytes()); } });
  const ms = performance.now() - begun;
  most = Math.max(most, heldBytes());
  return { ms, kilobytes: (most - before) / 1000, status: pose.status, iterations: pose.iterations };
}

function heldBytes(): number {
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return heapUsed + arrayBuffers;
}

/** Node hides its collector unless it is asked for. */
function exposeCollector(): () => void {
  setFlagsFromString('--expose-gc');
  return runInNewContext('gc') as () => void;
}
