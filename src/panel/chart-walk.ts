import { LOOP } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { ChartModel } from '../sheet/chart-model.ts';

/** A step on the chart: along the course, along the wale, by passes, to an end of the row. */
export type ChartStep = 'left' | 'right' | 'up' | 'down' | 'pass-on' | 'pass-back' | 'row-start' | 'row-end';

/** The loop that a step leads to; the same one where it leads nowhere on this chart. True neighbours in the fabric, over the cut too. */
export function stepOnChart(grid: StitchGrid, chart: ChartModel, loop: number, step: ChartStep): number {
  const next = nextOf(grid, chart, loop, step);
  return next >= 0 && chart.cellOfLoop[next] >= 0 ? next : loop;
}

function nextOf(grid: StitchGrid, chart: ChartModel, loop: number, step: ChartStep): number {
  switch (step) {
    case 'left': return grid.leftOf[loop] >= 0 ? grid.leftOf[loop] : besideClosing(grid, chart, loop, -1);
    case 'right': return grid.rightOf[loop] >= 0 ? grid.rightOf[loop] : besideClosing(grid, chart, loop, 1);
    case 'up': return grid.child[loop];
    case 'down': return straightBelow(grid, chart, loop);
    case 'pass-on': return nearestOfPass(chart, loop, 1);
    case 'pass-back': return nearestOfPass(chart, loop, -1);
    case 'row-start': case 'row-end': return endOfPass(chart, loop, step);
    default: return step satisfies never;
  }
}

/** The loops of a closing are no course: they lie side by side all the same. */
function besideClosing(grid: StitchGrid, chart: ChartModel, loop: number, by: number): number {
  if (grid.kind[loop] <= LOOP.knit) return -1;
  const cell = chart.cellOfLoop[loop], column = chart.column[cell] + by;
  const beside = column < 0 || column >= chart.columnCount ? -1 : chart.cellAt[chart.row[cell] * chart.columnCount + column];
  return beside < 0 ? -1 : chart.loop[beside];
}

function straightBelow(grid: StitchGrid, chart: ChartModel, loop: number): number {
  const column = chart.column[chart.cellOfLoop[loop]];
  let below = -1;
  for (let i = grid.parentStart[loop]; i < grid.parentStart[loop + 1]; i++) {
    const parent = grid.parents[i], cell = chart.cellOfLoop[parent];
    if (grid.kind[parent] === LOOP.wrap || cell < 0) continue;
    if (below < 0 || chart.column[cell] === column) below = parent;
  }
  return below;
}

function nearestOfPass(chart: ChartModel, loop: number, by: number): number {
  const cell = chart.cellOfLoop[loop], pass = chart.pass[cell], place = chart.passes.findIndex((at) => at.pass === pass);
  const next = place < 0 ? undefined : chart.passes[place + by];
  return next === undefined ? -1 : nearestInPass(chart, next.pass, chart.column[cell]);
}

/** The loop of a pass that stands nearest to a column; -1 for a pass that the chart has not. */
export function nearestInPass(chart: ChartModel, pass: number, column: number): number {
  let best = -1, distance = Infinity;
  for (let cell = 0; cell < chart.cellCount; cell++) {
    const away = Math.abs(chart.column[cell] - column);
    if (chart.pass[cell] !== pass || away >= distance) continue;
    distance = away;
    best = chart.loop[cell];
  }
  return best;
}

function endOfPass(chart: ChartModel, loop: number, end: 'row-start' | 'row-end'): number {
  const from = chart.cellOfLoop[loop], row = chart.row[from] * chart.columnCount;
  let last = from;
  for (let column = chart.column[from]; column >= 0 && column < chart.columnCount; column += end === 'row-start' ? -1 : 1) {
    const cell = chart.cellAt[row + column];
    if (cell >= 0 && chart.pass[cell] === chart.pass[from]) last = cell;
  }
  return chart.loop[last];
}
