import { pageWords } from '../words/page-words.ts';
import type { ChartMark } from '../sheet/chart-marks.ts';
import type { ChartModel } from '../sheet/chart-model.ts';
import { el } from './dom.ts';
import { svg } from './svg.ts';

/** Pixels of a sample cell's width. */
const SAMPLE = 22;

/** What the marks and lines of a chart mean: those that it has, and no others. */
export function drawChartLegend(chart: ChartModel, marks: readonly ChartMark[], paths: Readonly<Record<ChartMark, string>>): HTMLElement[] {
  const told = pageWords().chart, height = Math.round((SAMPLE * chart.cellHeightMm) / chart.cellWidthMm);
  const entries = marks.map((mark) => el('li', {},
    svg('svg', { width: SAMPLE + 1, height: height + 1, viewBox: `-.5 -.5 ${SAMPLE + 1} ${height + 1}`, 'aria-hidden': 'true' },
      svg('rect', { width: SAMPLE, height, class: 'legend-cell' }), svg('path', { d: paths[mark], transform: `scale(${SAMPLE} ${height})`, 'fill-rule': 'evenodd', fill: 'currentColor' })),
    el('span', {}, told.marks[mark])));
  const kinds = [...new Set(chart.threads.map(({ kind }) => kind))];
  const placed = [...(marks.includes('held') ? [told.waits] : []), ...(chart.cornerPasses.length > 0 ? [told.cornerLaid(chart.cornerPasses)] : [])];
  return [el('ul', { class: 'legend-marks' }, ...entries), el('ul', { class: 'legend-notes' }, ...[...placed, ...kinds.map((kind) => told.threads[kind]), told.numbers, told.arrow, told.outside].map((note) => el('li', {}, note)))];
}
