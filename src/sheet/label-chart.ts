import type { ChartModel } from './chart-model.ts';
import { labelNeedle } from './needle-label.ts';
import type { NeedleNumbers } from './needle-label.ts';

/** How much a number or a line stands out: 2 every tenth and the middle of the bed, 1 every fifth, 0 the others. */
export type Strength = 0 | 1 | 2;

export interface NeedleLabel { readonly edge: 'foot' | 'head'; readonly column: number; readonly text: string; readonly strength: Strength }

/** Numbers and stronger lines of a chart. */
export interface ChartLabels {
  readonly needles: readonly NeedleLabel[];
  /** By line between columns, the left edge first. */
  readonly columnLines: Uint8Array;
  /** By line between rows, the lowest first: a tenth pass has it over itself, and the other pass of its round is numbered with it. */
  readonly rowLines: Uint8Array;
}

const strengthOf = (number: number): Strength => (number % 10 === 0 ? 2 : number % 5 === 0 ? 1 : 0);

/** Needles as the knitter counts them, with every fifth and tenth needle and pass brought out. */
export function labelChart(chart: ChartModel, needlesPerBed: number, numbers: NeedleNumbers): ChartLabels {
  const { columnCount, rowCount } = chart, columnLines = new Uint8Array(columnCount + 1), rowLines = new Uint8Array(rowCount + 1);
  const needles = chart.needles.map(({ edge, column, needle }): NeedleLabel => {
    const text = labelNeedle(needle, needlesPerBed, numbers);
    return { edge, column, text, strength: strengthOf(numberIn(text)) };
  });
  const tube = new Map(chart.needles.filter(({ edge }) => edge === 'head').map((at) => [at.column, at]));
  for (let column = 1; column < columnCount; column++) {
    const [a, b] = [tube.get(column - 1), tube.get(column)];
    if (a === undefined || b === undefined || a.bed !== b.bed) continue;
    const [left, right] = [labelNeedle(a.needle, needlesPerBed, numbers), labelNeedle(b.needle, needlesPerBed, numbers)];
    // Counted outwards, the line stands beyond the fifth.
    columnLines[column] = /^\D/.exec(left)?.[0] === /^\D/.exec(right)?.[0] ? strengthOf(Math.min(numberIn(left), numberIn(right))) : 2;
  }
  for (const { pass, row } of chart.passes) if (pass > 0) rowLines[row + 1] = Math.max(rowLines[row + 1], strengthOf(pass));
  return { needles, columnLines, rowLines };
}

const numberIn = (label: string): number => Number(label.replace(/\D/g, ''));
