import { adviseInSteps } from '../../src/choose/advise-sock.ts';
import { compareSocks } from '../../src/choose/compare-socks.ts';
import { gradeSock } from '../../src/choose/grade-sock.ts';
import { mapDifference } from '../../src/choose/map-difference.ts';
import type { ShapedSock } from '../../src/choose/map-difference.ts';
import { readTolerance } from '../../src/choose/read-tolerance.ts';
import { standardRows } from '../../src/choose/standard-rows.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { withField } from '../../src/plan/with-field.ts';
import { makeStartShape } from '../../src/shape/start-shape.ts';
import { benchSock, knitOrThrow, TEN_THOUSAND } from './bench-socks.ts';
import { printTable } from './table.ts';
import { medianMs } from './timing.ts';

/** Sizes that the goal is set for. */
const TWELVE = 12;

const highInstep = (file: SockFile): SockFile => withField(file, 'foot.heelDiagonalMm', 354);

/** The longest that a caller waits between two looks at the search, ms. */
function longestStep(file: SockFile): number {
  let longest = 0;
  const steps = adviseInSteps(file);
  for (let begun = performance.now(); steps.next().done !== true; begun = performance.now()) longest = Math.max(longest, performance.now() - begun);
  return longest;
}

function runToEnd(file: SockFile): void {
  const steps = adviseInSteps(file);
  while (steps.next().done !== true);
}

/** Advice, sizes and comparison, as multiples of knitting the plain sock in the same run. */
export function benchChoose(): void {
  const plain = knitOrThrow(TEN_THOUSAND), other = knitOrThrow(withField(TEN_THOUSAND, 'heel.turnDownWidth', 6)), fine = highInstep(benchSock(2));
  const shapeOf = ({ fabric }: typeof plain): ShapedSock => ({ fabric, positions: makeStartShape(fabric, 'round') });
  const [a, b] = [shapeOf(plain), shapeOf(other)];
  const knitMs = medianMs(() => { knitOrThrow(TEN_THOUSAND); }, 9, 2);
  const begun = performance.now();
  runToEnd(highInstep(TEN_THOUSAND));
  const firstMs = performance.now() - begun;
  const rows: [string, number][] = [
    [`knitSock of the plain sock, ${plain.trace.loops} loops`, knitMs],
    ['advice, the first time in a run', firstMs],
    ['advice', medianMs(() => { runToEnd(highInstep(TEN_THOUSAND)); }, 5)],
    ['advice: longest wait between two looks', longestStep(highInstep(TEN_THOUSAND))],
    ['advice at 60 x 84 in 10 cm', medianMs(() => { runToEnd(fine); }, 3)],
    [`${TWELVE} sizes`, medianMs(() => { gradeSock(TEN_THOUSAND, standardRows().slice(-TWELVE)); }, 5)],
    ['comparison, table', medianMs(() => { compareSocks(plain, other); }, 9)],
    ['comparison, map', medianMs(() => { mapDifference(a, b); }, 5)],
    ['tolerance', medianMs(() => { readTolerance(plain.plan); }, 9)],
  ];
  printTable(['choice', 'times knitSock', 'ms'], rows.map(([choice, ms]) => [choice, (ms / knitMs).toFixed(2), ms.toFixed(1)]));
}
