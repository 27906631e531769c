import { poseSock } from '../../src/pipeline/pose-sock.ts';
import { knitOrThrow, TEN_THOUSAND } from './bench-socks.ts';
import { createReferenceKernel, medianMs } from './timing.ts';
import { printTable } from './table.ts';

/** What takes longer is timed once. */
const LONG_MS = 3000;

/** Times of the pipeline's stages, each as a multiple of the reference kernel in the same run. */
export function benchPipeline(): void {
  const referenceMs = medianMs(createReferenceKernel(), 9);
  const times = (ms: number): string => (ms / referenceMs).toFixed(2);
  const sock = knitOrThrow(TEN_THOUSAND);
  const rows: [string, number][] = [
    ['reference kernel (10 million steps)', referenceMs],
    [`plan to fabric, ${sock.trace.loops} loops`, medianMs(() => { knitOrThrow(TEN_THOUSAND); }, 15, 3)],
  ];
  for (const name of ['flat', 'tube', 'worn', 'beds'] as const) {
    const begun = performance.now();
    const { pose } = poseSock(sock, name);
    const firstMs = performance.now() - begun;
    const ms = firstMs > LONG_MS ? firstMs : medianMs(() => { poseSock(sock, name); }, 3, 0);
    rows.push([`relaxed, ${name} (${pose.status}, residual ${pose.residual.toExponential(1)}, ${pose.iterations} iterations)`, ms]);
  }
  printTable(['stage', 'reference kernels', 'ms'], rows.map(([stage, ms]) => [stage, times(ms), ms.toFixed(1)]));
}
