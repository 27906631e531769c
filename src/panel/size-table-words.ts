import type { GradedRow } from '../choose/size-table.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { Problem } from '../base/problem.ts';
import { textColumns } from './text-columns.ts';
import { formatLengthNumber } from './units.ts';
import type { LengthUnit } from './units.ts';

/** A column of the table of sizes as it leaves the page. */
interface SizeColumn {
  readonly head: (unit: LengthUnit) => string;
  /** Null where a size cannot be knitted. */
  readonly of: (row: GradedRow, unit: LengthUnit) => number | string | null;
}

const count = (head: string, of: (sock: NonNullable<GradedRow['sock']>) => number): SizeColumn => ({ head: () => head, of: ({ sock }) => (sock === null ? null : of(sock)) });

const COLUMNS: readonly SizeColumn[] = [
  { head: () => 'Size', of: ({ size }) => size.name },
  { head: (unit) => `Foot length, ${unit}`, of: ({ size }, unit) => formatLengthNumber(size.lengthMm, unit) },
  { head: (unit) => `Ball girth, ${unit}`, of: ({ size }, unit) => formatLengthNumber(size.ballGirthMm, unit) },
  count('Stitches', ({ plan }) => plan.stitches),
  count('Turn-down', ({ plan }) => plan.turnDownWidth),
  count('Leg passes', ({ plan }) => plan.legPasses),
  count('Heel passes', ({ plan }) => plan.heelPasses),
  count('Foot passes', ({ plan }) => plan.footPasses),
  count('Toe passes', ({ plan }) => plan.toePasses),
  count('Toe tip', ({ plan }) => plan.toeTipStitches),
  count('Yarn for a pair, m', (sock) => Math.round(pairOf(sock).metres)),
  count('Yarn for a pair, g', (sock) => Math.round(pairOf(sock).grams)),
];

/** The sock of a row is one; people knit two. */
export function pairOf({ metres, grams }: NonNullable<GradedRow['sock']>): { readonly metres: number; readonly grams: number } {
  return { metres: 2 * metres, grams: 2 * grams };
}

/** What has to be said about a row: that it is estimated, or why it cannot be knitted. */
export function rowRemark({ size, problems }: GradedRow, words: (problem: Problem) => string): string {
  return [...(size.isEstimate ? ['estimate'] : []), ...problems.map(words)].join('; ');
}

export function sizeTableHeads(unit: LengthUnit): readonly string[] {
  return [...COLUMNS.map(({ head }) => head(unit)), 'Remark'];
}

export function sizeTableCells(row: GradedRow, unit: LengthUnit, words: (problem: Problem) => string): readonly (string | number | null)[] {
  return [...COLUMNS.map(({ of }) => of(row, unit)), rowRemark(row, words)];
}

/** `30 stitches and 42 rows in 10 cm`. */
export function gaugeWords({ gauge }: SockFile, unit: LengthUnit): string {
  const inches = (in10cm: number): string => String(Number((in10cm * 0.254).toFixed(2)));
  return unit === 'cm' ? `${gauge.stitchesPer10cm} stitches and ${gauge.rowsPer10cm} rows in 10 cm`
    : `${inches(gauge.stitchesPer10cm)} stitches and ${inches(gauge.rowsPer10cm)} rows to the inch`;
}

/** Passes that every size has between leg and heel, and how passes are counted. */
export function passesWords(rows: readonly GradedRow[]): string {
  const plan = rows.find(({ sock }) => sock !== null)?.sock?.plan;
  if (plan === undefined) return '';
  const between = plan.plainPasses > 0 ? `${plan.plainPasses} plain rows and ${plan.anklePasses} passes of tube` : `${plan.anklePasses} passes of tube`;
  return `Two passes make a round of the tube${plan.legKind === 'flat-rib' ? '; the leg is knitted flat, a pass a row' : ''}. Between leg and heel: ${between}. One sock has half of the yarn.`;
}

export function sizeTableText(title: string, rows: readonly GradedRow[], unit: LengthUnit, words: (problem: Problem) => string): string {
  const cells = rows.map((row) => sizeTableCells(row, unit, words).map((cell) => (cell === null ? '–' : String(cell))));
  return `${title}\n\n${textColumns([sizeTableHeads(unit), ...cells])}\n${passesWords(rows)}\n`;
}
