import { drawChartLegend } from '../panel/chart-legend.ts';
import { el } from '../panel/dom.ts';
import { MARK_PATHS } from '../sheet/chart-marks.ts';
import type { ChartModel } from '../sheet/chart-model.ts';
import { fitCellWidth, PAGE_OVERLAP, pageChart } from '../sheet/page-chart.ts';
import { marksOf, writeChart } from '../sheet/write-chart.ts';
import type { ChartStyle } from '../sheet/write-chart.ts';

export interface ChartToPrint { readonly chart: ChartModel; readonly style: Omit<ChartStyle, 'cellWidthMm'>; readonly cellWidthMm: number | null }

/** Puts the chart on paper, and nothing else of the page, whenever the browser prints while `chartToPrint` gives one. */
export function createChartPrint(chartToPrint: () => ChartToPrint | null): void {
  const sheet = el('section', { class: 'chart-print', 'aria-hidden': 'true' });
  document.body.append(sheet);
  window.addEventListener('beforeprint', () => {
    const wanted = chartToPrint();
    document.body.classList.toggle('prints-chart', wanted !== null);
    sheet.replaceChildren(...(wanted === null ? [] : layPages(wanted)));
  });
  window.addEventListener('afterprint', () => {
    document.body.classList.remove('prints-chart');
    sheet.replaceChildren();
  });
}

function layPages({ chart, style, cellWidthMm }: ChartToPrint): HTMLElement[] {
  const width = cellWidthMm ?? fitCellWidth(chart), windows = pageChart(chart, width), told = style.words.chart;
  const pages = windows.map((window, i) => {
    const page = el('div', { class: 'chart-page' });
    const pageWords = windows.length === 1 ? {} : { pageWords: `${told.page(i + 1, windows.length)}. ${told.overlap}` };
    page.innerHTML = writeChart(chart, { ...style, ...pageWords, cellWidthMm: width, window, overlap: { columns: PAGE_OVERLAP, rows: PAGE_OVERLAP }, hasLegend: false });
    return page;
  });
  return [...pages, el('div', { class: 'chart-print-legend' }, el('h2', {}, told.legend), ...drawChartLegend(chart, marksOf(chart), MARK_PATHS))];
}
