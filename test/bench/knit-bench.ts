import { poseSock } from '../../src/pipeline/pose-sock.ts';
import { knitOrThrow, LADDER, TEN_THOUSAND } from './bench-socks.ts';
import { arrayBytes, createReferenceKernel, exponent, medianMs } from './timing.ts';
import { printTable } from './table.ts';

/** Poses above this many loops take minutes: with `--all` only. */
const POSE_UP_TO = 30_000;

/** What takes longer is timed once. */
const LONG_MS = 3000;

/** Times of the pipeline's stages, each as a multiple of the reference kernel in the same run. */
export function benchPipeline(wantsAll: boolean): void {
  const referenceMs = medianMs(createReferenceKernel(), 9);
  const times = (ms: number): string => (ms / referenceMs).toFixed(2);
  const sock = knitOrThrow(TEN_THOUSAND);
  const rows: [string, number][] = [
    ['reference kernel (10 million steps)', referenceMs],
    [`plan to fabric, ${sock.trace.loops} loops`, medianMs(() => { knitOrThrow(TEN_THOUSAND); }, 15, 3)],
  ];
  for (const name of ['flat', 'tube'] as const) {
    const begun = performance.now();
    const { pose } = poseSock(sock.fabric, name, {});
    const firstMs = performance.now() - begun;
    const ms = firstMs > LONG_MS ? firstMs : medianMs(() => { poseSock(sock.fabric, name, {}); }, 3, 0);
    rows.push([`relaxed, ${name} (${pose.status}, residual ${pose.residual.toExponential(1)}, ${pose.iterations} iterations)`, ms]);
  }
  printTable(['stage', 'reference kernels', 'ms'], rows.map(([stage, ms]) => [stage, times(ms), ms.toFixed(1)]));
  benchLadder(wantsAll, times);
}

function benchLadder(wantsAll: boolean, times: (ms: number) => string): void {
  const knitPoints: [number, number][] = [];
  const posePoints: [number, number][] = [];
  const bytePoints: [number, number][] = [];
  const rows = LADDER.map((file) => {
    const sock = knitOrThrow(file);
    const { loops } = sock.trace;
    const knitMs = medianMs(() => { knitOrThrow(file); }, 5);
    const bytes = arrayBytes(sock);
    knitPoints.push([loops, knitMs]);
    bytePoints.push([loops, bytes]);
    const cells = [String(loops), times(knitMs), knitMs.toFixed(1), (bytes / loops).toFixed(0)];
    if (!wantsAll && loops > POSE_UP_TO) return [...cells, '-', '-', 'with --all'];
    const begun = performance.now();
    const { pose } = poseSock(sock.fabric, 'flat', {});
    const poseMs = performance.now() - begun;
    posePoints.push([loops, poseMs]);
    return [...cells, times(poseMs), poseMs.toFixed(0), pose.status];
  });
  printTable(['loops', 'knit / kernel', 'knit ms', 'array bytes a loop', 'flat / kernel', 'flat ms', 'status'], rows);
  console.log(`grows with loops to the power: knit ${exponent(knitPoints).toFixed(2)}, flat ${exponent(posePoints).toFixed(2)}, array bytes ${exponent(bytePoints).toFixed(2)}`);
}
