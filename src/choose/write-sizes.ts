import { formatNumber } from '../base/unit.ts';
import { measureRest } from '../measure/measure-rest.ts';
import type { GradedRow } from './size-table.ts';

type Column = readonly [heading: string, short: string, cell: (row: GradedRow) => string];
type Sock = NonNullable<GradedRow['sock']>;

const ofSock = (cell: (sock: Sock) => number | null, digits = 0) => ({ sock }: GradedRow): string => {
  const value = sock === null ? null : cell(sock);
  return value === null ? '' : formatNumber(value, digits);
};

/** What a table of sizes says of each, in order: heading in a file, short heading on paper, entry. Lengths in mm, at rest. */
const COLUMNS: readonly Column[] = [
  ['size', 'size', ({ size }) => size.name],
  ['foot length mm', 'foot', ({ size }) => formatNumber(size.lengthMm, 1)],
  ['ball girth mm', 'girth', ({ size }) => formatNumber(size.ballGirthMm, 1)],
  ['stitches', 'st', ofSock(({ plan }) => plan.stitches)],
  ['heel stitches', 'heel', ofSock(({ plan }) => plan.heelStitches)],
  ['turn-down width', 'W', ofSock(({ plan }) => plan.turnDownWidth)],
  ['leg passes', 'leg p', ofSock(({ plan }) => plan.legPasses)],
  ['plain passes', 'plain p', ofSock(({ plan }) => plan.plainPasses)],
  ['ankle passes', 'ankle p', ofSock(({ plan }) => plan.anklePasses)],
  ['heel passes', 'heel p', ofSock(({ plan }) => plan.heelPasses)],
  ['foot passes', 'foot p', ofSock(({ plan }) => plan.footPasses)],
  ['toe passes', 'toe p', ofSock(({ plan }) => plan.toePasses)],
  ['tip stitches', 'tip', ofSock(({ plan }) => plan.toeTipStitches)],
  ['passes in all', 'all p', ofSock(({ passes }) => passes)],
  ['sock foot length mm', 'sock foot', ofSock(({ plan }) => measureRest(plan).footLengthMm, 1)],
  ['sock foot girth mm', 'sock girth', ofSock(({ plan }) => measureRest(plan).footGirthMm, 1)],
  ['leg length mm', 'leg', ofSock(({ plan }) => measureRest(plan).legLengthMm, 1)],
  ['yarn of a sock m', 'm', ofSock(({ metres }) => metres, 1)],
  ['yarn of a sock g', 'g', ofSock(({ grams }) => grams, 1)],
  ['yarn of a pair m', 'pair m', ofSock(({ metres }) => 2 * metres, 1)],
  ['yarn of a pair g', 'pair g', ofSock(({ grams }) => 2 * grams, 1)],
  ['foot is an estimate', 'estimate', ({ size }) => (size.isEstimate ? 'yes' : 'no')],
  ['problems', 'problems', ({ problems }) => problems.map(({ message }) => message).join(' ')],
];

/** A comma-separated table (RFC 4180: a heading, lines ended by CR LF, quotation marks round what needs them, doubled inside). */
export function writeSizesCsv(rows: readonly GradedRow[]): string {
  const lines = [COLUMNS.map(([heading]) => heading), ...rows.map((row) => COLUMNS.map(([, , cell]) => cell(row)))];
  return lines.map((cells) => `${cells.map(quote).join(',')}\r\n`).join('');
}

const quote = (cell: string): string => (/[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);

/** A plain table in columns, problems below it: to be read, or pasted into a letter. */
export function writeSizesText(rows: readonly GradedRow[]): string {
  const columns = COLUMNS.slice(0, -1);
  const lines = [columns.map(([, short]) => short), ...rows.map((row) => columns.map(([, , cell]) => onOneLine(cell(row)) || '-'))];
  const widths = columns.map((_, i) => Math.max(...lines.map((cells) => cells[i].length)));
  const table = lines.map((cells) => cells.map((cell, i) => (i === 0 ? cell.padEnd(widths[i]) : cell.padStart(widths[i]))).join('  ').trimEnd());
  const notes = rows.flatMap(({ size, problems }) => problems.map(({ message }) => `${onOneLine(size.name)}: ${onOneLine(message)}`));
  return `${[...table, ...(notes.length > 0 ? ['', ...notes] : []), '', LEGEND].join('\n')}\n`;
}

const onOneLine = (text: string): string => text.replace(/\s+/g, ' ').trim();

const LEGEND = 'foot, girth: of the foot, mm. st: stitches round. W: turn-down width. p: passes. tip: stitches a bed. sock foot, sock girth, leg: of the sock at rest, mm. m, g: yarn of one sock. estimate: no published table stands behind the foot.';
