import { sampledFootOf } from '../../src/pipeline/foot-of.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import type { NearShape } from '../../src/pipeline/pose-sock.ts';
import { withField } from '../../src/plan/with-field.ts';
import { knitOrThrow, TEN_THOUSAND } from './bench-socks.ts';
import { median } from './timing.ts';
import { printTable } from './table.ts';

/** Sliders that are moved, each to a value beside that of the base sock. */
const EDITS: readonly (readonly [field: string, value: unknown])[] = [
  ['heel.turnDownWidth', 10], ['heel.turnDownWidth', 14], ['heel.plateauPasses', 2], ['toe.passesPerDecrease', 2], ['toe.tipStitches', 10],
  ['ease.girthPercent', -6], ['ease.lengthPercent', 2], ['leg.lengthMm', 115], ['counts.footPasses', 136], ['cloth.firmness', 'medium'],
  ['foot.lengthMm', 265], ['foot.ballGirthMm', 250],
];

/**
 * A sock of ten thousand loops on its foot: from nothing, and after a slider's change from the last worn
 * shape, all that `poseSock` does included. The foot's form is made anew where the change is the foot's.
 */
export function benchWorn(): void {
  const base = knitOrThrow(TEN_THOUSAND);
  sampledFootOf(base);
  const first = time(() => poseSock(base, 'worn')), again = time(() => poseSock(base, 'worn'));
  const near: NearShape = { fabric: base.fabric, positions: again.result.pose.positions };
  const ratios: number[] = [], times: number[] = [];
  const rows = EDITS.map(([field, value]) => {
    const sock = knitOrThrow(withField(TEN_THOUSAND, field, value)), foot = time(() => sampledFootOf(sock));
    const warm = time(() => poseSock(sock, 'worn', { near })), cold = time(() => poseSock(sock, 'worn'));
    ratios.push(warm.ms / cold.ms);
    times.push(warm.ms);
    const girths = [warm, cold].map(({ result }) => result.measures.heelDiagonalMm ?? NaN);
    return [
      `${field} to ${String(value)}`, (warm.ms / cold.ms).toFixed(2), warm.ms.toFixed(0), String(warm.result.pose.iterations), cold.ms.toFixed(0),
      String(cold.result.pose.iterations), foot.ms.toFixed(0), `${(100 * Math.abs(girths[0] / girths[1] - 1)).toPrecision(1)} %`, `${warm.result.pose.status}, ${cold.result.pose.status}`,
    ];
  });
  rows.push(['all together, median', median(ratios).toFixed(2), median(times).toFixed(0), '', again.ms.toFixed(0), String(again.result.pose.iterations), '', '', `first run ${first.ms.toFixed(0)} ms`]);
  printTable([`worn, ${base.trace.loops} loops`, 'warm / cold', 'warm ms', 'steps', 'cold ms', 'steps', 'foot ms', 'heel line differs by', 'warm, cold'], rows);
}

function time<T>(work: () => T): { readonly result: T; readonly ms: number } {
  const begun = performance.now(), result = work();
  return { result, ms: performance.now() - begun };
}
