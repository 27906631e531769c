import type { Measures } from '../../src/measure/measures.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import type { NearShape } from '../../src/pipeline/pose-sock.ts';
import type { KnittedSock, PosedSock } from '../../src/pipeline/result.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { withField } from '../../src/plan/with-field.ts';
import type { FreePoseName } from '../../src/shape/pose.ts';
import { knitOrThrow, TEN_THOUSAND } from './bench-socks.ts';
import { worstError } from './judge.ts';
import { median } from './timing.ts';
import { printTable } from './table.ts';

/** Every control of the panel that changes the shape, and values that it is moved to from where it stands. */
const EDITS: readonly (readonly [field: string, label: string, values: (sock: KnittedSock) => readonly unknown[]])[] = [
  ['heel.turnDownWidth', 'turn-down width', ({ plan }) => around(plan.turnDownWidth, 2, 4)],
  ['heel.plateauPasses', 'plateau', () => [2, 4, 8]],
  ['toe.passesPerDecrease', 'decrease rate', () => [2, 6]],
  ['toe.tipStitches', 'tip width', ({ plan }) => around(plan.toeTipStitches, 2, 4)],
  ['toe.kind', 'toe shaped by', () => ['short-row']],
  ['foot.lengthMm', 'foot length', () => around(262, 3, 10)],
  ['foot.ballGirthMm', 'ball girth', () => around(246, 15, 30)],
  ['ease.girthPercent', 'ease round', () => around(-10, 6, 12)],
  ['ease.lengthPercent', 'ease along', () => around(0, 2, 5)],
  ['leg.kind', 'leg knitted as', () => ['tube']],
  ['leg.lengthMm', 'leg length', () => around(110, 5, 20)],
  ['leg.gatherBed', 'gather on', () => ['front']],
  ['gauge.stitchesPer10cm', 'stitches in 10 cm', () => around(30, 1, 2)],
  ['gauge.rowsPer10cm', 'rows in 10 cm', () => around(42, 1, 2)],
  ['gauge.ribWidthFactor', 'rib width', () => around(0.7, 0.05, 0.1)],
  ['cloth.firmness', 'fabric firmness', () => ['medium', 'firm']],
  ['counts.stitches', 'stitches round', ({ plan }) => around(plan.stitches, 4, 8)],
  ['counts.legPasses', 'leg passes', ({ plan }) => around(plan.legPasses, 2, 6)],
  ['counts.anklePasses', 'ankle passes', ({ plan }) => [plan.anklePasses - 2, plan.anklePasses + 2, plan.anklePasses + 4]],
  ['counts.footPasses', 'foot passes', ({ plan }) => around(plan.footPasses, 2, 8)],
];

function around(value: number, ...by: number[]): number[] { return by.flatMap((step) => [value + step, value - step]); }

interface Edit { readonly warmMs: number; readonly knitMs: number; readonly coldMs: number | null; readonly difference: number; readonly statuses: string[] }

/**
 * From the edit of a control to the shape at rest, measured: knitting and relaxing, from the shape
 * before the edit (warm) and from nothing (cold, for a control's first edit; for all with `--all`).
 */
export function benchEdits(wantsAll: boolean): void {
  const base = knitOrThrow(TEN_THOUSAND);
  for (const name of ['flat', 'tube'] as const) {
    const { pose } = poseSock(base, name);
    const near: NearShape = { fabric: base.fabric, positions: pose.positions };
    // The first run of a path is slower than all later ones, by its compiling.
    poseSock(knitOrThrow(withField(TEN_THOUSAND, 'name', 'again')), name, { near });
    const everyMs: number[] = [];
    const rows = EDITS.map(([field, label, values]) => {
      const edits = values(base).map((value, k) => makeEdit(withField(TEN_THOUSAND, field, value), name, near, wantsAll || k === 0));
      everyMs.push(...edits.map(({ warmMs }) => warmMs));
      return describe(label, edits);
    });
    rows.push(['all together', String(everyMs.length), median(everyMs).toFixed(0), Math.max(...everyMs).toFixed(0), '', '', '', '', '']);
    printTable([`edit, ${name}, ${base.trace.loops} loops`, 'edits', 'warm ms, median', 'worst', 'of it knitting', 'cold ms, median', 'warm / cold', 'differs from cold by', 'not converged'], rows);
  }
}

function makeEdit(file: SockFile, name: FreePoseName, near: NearShape, wantsCold: boolean): Edit {
  const begun = performance.now();
  const sock = knitOrThrow(file);
  const knitted = performance.now();
  const warm = poseSock(sock, name, { near });
  const warmed = performance.now();
  const cold = wantsCold ? poseSock(sock, name) : null;
  const knitMs = knitted - begun;
  return {
    knitMs, warmMs: warmed - begun,
    coldMs: cold === null ? null : knitMs + performance.now() - warmed,
    difference: cold === null ? 0 : worstError(lengthsOf(warm), lengthsOf(cold)),
    statuses: [warm, ...(cold === null ? [] : [cold])].map(({ pose }) => pose.status),
  };
}

/** Throat and angle may swing between two shapes that hold (see the README); the others may not. */
function lengthsOf({ measures }: PosedSock): Measures { return { ...measures, throatToHeelMm: null, legFootAngleDeg: null }; }

function describe(label: string, edits: readonly Edit[]): string[] {
  const warm = edits.map(({ warmMs }) => warmMs), cold = edits.flatMap(({ coldMs }) => coldMs ?? []);
  const failed = edits.flatMap(({ statuses }) => statuses).filter((status) => status !== 'converged');
  const both = edits.filter(({ coldMs }) => coldMs !== null);
  return [
    label, String(edits.length), median(warm).toFixed(0), Math.max(...warm).toFixed(0), median(edits.map(({ knitMs }) => knitMs)).toFixed(0),
    median(cold).toFixed(0), (median(both.map(({ warmMs, coldMs }) => warmMs / (coldMs ?? 1)))).toFixed(2),
    `${(100 * Math.max(...edits.map(({ difference }) => difference))).toPrecision(2)} %`, failed.join(', '),
  ];
}
