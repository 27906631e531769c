import type { GradedRow } from '../choose/size-table.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { Problem } from '../base/problem.ts';
import { pageWords } from '../words/page-words.ts';
import { textColumns } from './text-columns.ts';
import { formatLengthNumber, inFigures } from './units.ts';
import type { LengthUnit } from './units.ts';

/** A column of the table of sizes as it leaves the page. */
interface SizeColumn {
  readonly head: (unit: LengthUnit) => string;
  /** Null where a size cannot be knitted. */
  readonly of: (row: GradedRow, unit: LengthUnit) => number | string | null;
}

const count = (head: string, of: (sock: NonNullable<GradedRow['sock']>) => number): SizeColumn => ({ head: () => head, of: ({ sock }) => (sock === null ? null : of(sock)) });

function columns(): readonly SizeColumn[] {
  const { columns: heads } = pageWords().sizes;
  return [
    { head: () => heads.size, of: ({ size }) => size.name },
    { head: heads.length, of: ({ size }, unit) => formatLengthNumber(size.lengthMm, unit) },
    { head: heads.girth, of: ({ size }, unit) => formatLengthNumber(size.ballGirthMm, unit) },
    count(heads.stitches, ({ plan }) => plan.stitches),
    count(heads.turnDown, ({ plan }) => plan.turnDownWidth),
    count(heads.legPasses, ({ plan }) => plan.legPasses),
    count(heads.heelPasses, ({ plan }) => plan.heelPasses),
    count(heads.footPasses, ({ plan }) => plan.footPasses),
    count(heads.toePasses, ({ plan }) => plan.toePasses),
    count(heads.toeTip, ({ plan }) => plan.toeTipStitches),
    count(heads.metres, (sock) => Math.round(pairOf(sock).metres)),
    count(heads.grams, (sock) => Math.round(pairOf(sock).grams)),
  ];
}

/** The sock of a row is one; people knit two. */
export function pairOf({ metres, grams }: NonNullable<GradedRow['sock']>): { readonly metres: number; readonly grams: number } {
  return { metres: 2 * metres, grams: 2 * grams };
}

/** What has to be said about a row: that it is estimated, or why it cannot be knitted. */
export function rowRemark({ size, problems }: GradedRow, words: (problem: Problem) => string): string {
  return [...(size.isEstimate ? [pageWords().sizes.estimate] : []), ...problems.map(words)].join('; ');
}

export function sizeTableHeads(unit: LengthUnit): readonly string[] {
  return [...columns().map(({ head }) => head(unit)), pageWords().sizes.columns.remark];
}

export function sizeTableCells(row: GradedRow, unit: LengthUnit, words: (problem: Problem) => string): readonly (string | number | null)[] {
  return [...columns().map(({ of }) => of(row, unit)), rowRemark(row, words)];
}

/** `30 stitches and 42 rows in 10 cm`. */
export function gaugeWords({ gauge }: SockFile, unit: LengthUnit): string {
  const { gaugeCm, gaugeInch } = pageWords().sizes, { stitchesPer10cm, rowsPer10cm } = gauge;
  const inches = (in10cm: number): string => inFigures(String(Number((in10cm * 0.254).toFixed(2))));
  return unit === 'cm' ? gaugeCm(inFigures(String(stitchesPer10cm)), inFigures(String(rowsPer10cm))) : gaugeInch(inches(stitchesPer10cm), inches(rowsPer10cm));
}

/** Passes that every size has between leg and heel, and how passes are counted. */
export function passesWords(rows: readonly GradedRow[]): string {
  const plan = rows.find(({ sock }) => sock !== null)?.sock?.plan;
  if (plan === undefined) return '';
  return pageWords().sizes.passes(plan.plainPasses, plan.anklePasses, plan.legKind === 'flat-rib');
}

export function sizeTableText(title: string, rows: readonly GradedRow[], unit: LengthUnit, words: (problem: Problem) => string): string {
  const cells = rows.map((row) => sizeTableCells(row, unit, words).map((cell) => (cell === null ? '–' : String(cell))));
  return `${title}\n\n${textColumns([sizeTableHeads(unit), ...cells])}\n${passesWords(rows)}\n`;
}
