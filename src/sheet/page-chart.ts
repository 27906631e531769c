import type { ChartModel } from './chart-model.ts';
import { measureChart } from './write-chart.ts';
import type { ChartWindow } from './write-chart.ts';

/** What both A4 and Letter paper leave inside margins of 14 mm, and the foot of a page kept for its legend or a line of words, mm. */
export const PRINT_PAGE = { width: 180, height: 245 };

/** Cells that two pages have in common, so that they can be laid onto each other. */
export const PAGE_OVERLAP = 2;

/** Widest cell with which the chart stands on one page, mm, rounded down to a hundredth. */
export function fitCellWidth(chart: ChartModel): number {
  const none = measureChart(chart, 0), one = measureChart(chart, 1);
  const widest = Math.min((PRINT_PAGE.width - none.width) / (one.width - none.width), (PRINT_PAGE.height - none.height) / (one.height - none.height));
  return Math.floor(widest * 100) / 100;
}

/** The windows of a chart with cells of this width, page by page: from the left, the lowest first. Whole cells only. */
export function pageChart(chart: ChartModel, cellWidthMm: number): ChartWindow[] {
  const none = measureChart(chart, 0), one = measureChart(chart, cellWidthMm);
  const cellsAcross = Math.floor((PRINT_PAGE.width - none.width) / ((one.width - none.width) / chart.columnCount) + 1e-9);
  const cellsUp = Math.floor((PRINT_PAGE.height - none.height) / ((one.height - none.height) / chart.rowCount) + 1e-9);
  return spansOf(chart.columnCount, cellsAcross).flatMap(([left, right]) => spansOf(chart.rowCount, cellsUp).map(([bottom, top]) => ({ left, right, bottom, top })));
}

/** As few spans of at most `most` cells as cover all, as long as each other, each two in common with the next. */
function spansOf(cells: number, most: number): (readonly [number, number])[] {
  if (most <= PAGE_OVERLAP) throw new RangeError(`page-chart: cells too large for a page, of which ${most} find room`);
  if (cells <= most) return [[0, cells]];
  const count = Math.ceil((cells - PAGE_OVERLAP) / (most - PAGE_OVERLAP)), step = (cells - PAGE_OVERLAP) / count;
  return Array.from({ length: count }, (_, i) => [Math.round(i * step), Math.round((i + 1) * step) + PAGE_OVERLAP] as const);
}
