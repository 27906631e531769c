import { marksIn } from '../../src/sheet/chart-marks.ts';
import type { ChartMark } from '../../src/sheet/chart-marks.ts';
import type { ChartModel } from '../../src/sheet/chart-model.ts';

/** One sign a mark, the later in the list the more telling. */
const SIGNS: Readonly<Record<ChartMark, string>> = {
  castOn: '_', ribKnit: 'i', purl: '-', held: 'n', wrap: 'o', cornerLeft: 'r', cornerRight: '7', gather: 'g', turn: 't', heelShift: 'h', moved: 'm',
  decreaseLeft: '<', decreaseRight: '>', graft: 'x', bindOff: 'c', joined: 'v', seamLeft: '(', seamRight: ')',
};

/** A chart as text: rows from the top, pass numbers with the carriage's way at the sides, `.` a plain stitch, `,` one beside the part, `|` a thread. */
export function drawChartText(chart: ChartModel): string {
  const lines: string[] = [];
  for (let row = chart.rowCount - 1; row >= 0; row--) {
    const signs = Array.from({ length: chart.columnCount }, (_, column) => signAt(chart, column, row)).join('');
    const numbers = (margin: 'left' | 'right'): string => chart.passes.filter((pass) => pass.row === row && pass.margin === margin).map(({ pass, from }) => `${pass}${from === 'left' ? '>' : '<'}`).join(' ');
    lines.push(`${numbers('left').padStart(5)} ${signs} ${numbers('right')}`.trimEnd());
  }
  return lines.join('\n');
}

function signAt(chart: ChartModel, column: number, row: number): string {
  const cell = chart.cellAt[row * chart.columnCount + column];
  if (cell >= 0) {
    const mark = marksIn(chart.marks[cell]).at(-1);
    return mark === undefined ? (chart.isBeside[cell] === 1 ? ',' : '.') : SIGNS[mark];
  }
  return chart.threads.some(({ from, to }) => chart.column[from] === column && chart.row[from] < row && chart.row[to] > row) ? '|' : ' ';
}
