import type { ChartModel } from '../sheet/chart-model.ts';

/** How a chart lies on the screen: pixels for a millimetre of fabric, and where its upper left corner is, CSS pixels from the board's. */
export interface ChartCamera { readonly scale: number; readonly x: number; readonly y: number }

/** Room on the board for numbers and the beds' names, CSS pixels. */
export const MARGIN = { left: 64, right: 64, top: 42, bottom: 42 };

export interface BoardSize { readonly width: number; readonly height: number }

const widthOf = (chart: ChartModel): number => chart.columnCount * chart.cellWidthMm;
const heightOf = (chart: ChartModel): number => chart.rowCount * chart.cellHeightMm;
/** Pixels that a cell may be wide. */
const WIDEST_CELL = 64;

/** All of the chart, as large as the board allows. */
export function fitChart(chart: ChartModel, board: BoardSize): ChartCamera {
  const width = Math.max(40, board.width - MARGIN.left - MARGIN.right), height = Math.max(40, board.height - MARGIN.top - MARGIN.bottom);
  const scale = Math.min(width / widthOf(chart), height / heightOf(chart), WIDEST_CELL / chart.cellWidthMm);
  return { scale, x: MARGIN.left + (width - widthOf(chart) * scale) / 2, y: MARGIN.top + (height - heightOf(chart) * scale) / 2 };
}

/** Larger or smaller about a point of the board, no smaller than a third of what fits. */
export function zoomChart(chart: ChartModel, board: BoardSize, camera: ChartCamera, factor: number, at: { readonly x: number; readonly y: number }): ChartCamera {
  const least = fitChart(chart, board).scale / 3, most = WIDEST_CELL / chart.cellWidthMm;
  const scale = Math.min(Math.max(camera.scale * factor, least), Math.max(most, least)), by = scale / camera.scale;
  return holdChart(chart, board, { scale, x: at.x - (at.x - camera.x) * by, y: at.y - (at.y - camera.y) * by });
}

export function panChart(chart: ChartModel, board: BoardSize, camera: ChartCamera, dx: number, dy: number): ChartCamera {
  return holdChart(chart, board, { ...camera, x: camera.x + dx, y: camera.y + dy });
}

/** Keeps some of the chart on the board. */
function holdChart(chart: ChartModel, board: BoardSize, { scale, x, y }: ChartCamera): ChartCamera {
  const keep = 80, between = (value: number, low: number, high: number): number => Math.min(Math.max(value, Math.min(low, high)), Math.max(low, high));
  return { scale, x: between(x, keep - widthOf(chart) * scale, board.width - keep), y: between(y, keep - heightOf(chart) * scale, board.height - keep) };
}

/** Moves a cell that is off the board, or under its numbers, into sight. */
export function revealCell(chart: ChartModel, board: BoardSize, camera: ChartCamera, cell: number): ChartCamera {
  const w = chart.cellWidthMm * camera.scale, h = chart.cellHeightMm * camera.scale;
  const left = camera.x + chart.column[cell] * w, top = camera.y + (chart.rowCount - 1 - chart.row[cell]) * h;
  const into = (low: number, size: number, from: number, to: number): number => (low < from ? from - low : low + size > to ? to - low - size : 0);
  const dx = into(left, w, MARGIN.left + w, board.width - MARGIN.right - w), dy = into(top, h, MARGIN.top + h, board.height - MARGIN.bottom - h);
  return dx === 0 && dy === 0 ? camera : { ...camera, x: camera.x + dx, y: camera.y + dy };
}

/** The place under a point of the board, as column and row; it may lie beyond the chart. */
export function placeUnder(chart: ChartModel, camera: ChartCamera, x: number, y: number): { readonly column: number; readonly row: number } {
  return {
    column: Math.floor((x - camera.x) / (chart.cellWidthMm * camera.scale)),
    row: chart.rowCount - 1 - Math.floor((y - camera.y) / (chart.cellHeightMm * camera.scale)),
  };
}
