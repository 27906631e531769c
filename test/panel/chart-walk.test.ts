import { expect, it } from 'vitest';
import { fitChart, MARGIN, panChart, placeUnder, revealCell, zoomChart } from '../../src/panel/chart-camera.ts';
import { nearestInPass, stepOnChart } from '../../src/panel/chart-walk.ts';
import type { ChartStep } from '../../src/panel/chart-walk.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { layChart } from '../../src/sheet/lay-chart.ts';

const { sock } = knitSock({
  gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, counts: { stitches: 24, legPasses: 4, footPasses: 20 }, heel: { turnDownWidth: 6 }, toe: { tipStitches: 6 },
});
const { grid, trace, plan } = sock!, chart = layChart(sock!, 'sock', 'beds');
const walk = (loop: number, ...steps: ChartStep[]): number => steps.reduce((at, step) => stepOnChart(grid, chart, at, step), loop);
const foot = trace.passes.findIndex(({ section }) => section === 'foot') + 6;

it('a round is N steps, and ends a course higher: the tube is a helix', () => {
  const start = trace.passes[foot].firstLoop, way = grid.rightOf[start] === start + 1 ? 'right' : 'left';
  const round = new Set<number>();
  let loop = start;
  for (let i = 0; i < plan.stitches; i++) round.add(loop = stepOnChart(grid, chart, loop, way));
  expect(round.size).toBe(plan.stitches);
  expect(loop).toBe(grid.child[start]);
  expect(walk(start, 'up')).toBe(loop);
});

it('up and down are the loop drawn through it and the one it was drawn through, across the wedge too', () => {
  const held = chart.threads.find(({ kind }) => kind === 'held')!, [from, to] = [chart.loop[held.from], chart.loop[held.to]];
  expect([walk(from, 'up'), walk(to, 'down')]).toEqual([to, from]);
});

it('from a decrease, down goes to the loop that stands under it', () => {
  const taken = chart.threads.filter(({ kind }) => kind === 'taken').find(({ to }) => grid.parentStart[chart.loop[to] + 1] - grid.parentStart[chart.loop[to]] === 2)!;
  const loop = chart.loop[taken.to], below = walk(loop, 'down');
  expect(chart.column[chart.cellOfLoop[below]]).toBe(chart.column[taken.to]);
  expect(below).not.toBe(chart.loop[taken.from]);
});

it('passes are one step each way; Home and End are the ends of a row', () => {
  const middle = nearestInPass(chart, foot, 3);
  expect(grid.pass[walk(middle, 'pass-on')]).toBe(foot + 1);
  expect(grid.pass[walk(middle, 'pass-back', 'pass-back')]).toBe(foot - 2);
  const ends = [walk(middle, 'row-start'), walk(middle, 'row-end')].map((loop) => chart.column[chart.cellOfLoop[loop]]), { left, right } = chart.passes[foot];
  expect(ends).toEqual([left, right]);
});

it('where the fabric ends the step stays; along the closing row it goes on', () => {
  expect(walk(0, 'down')).toBe(0);
  const first = grid.loopCount - plan.toeTipStitches, cells = [...chart.loop].filter((loop) => loop >= first).sort((a, b) => chart.column[chart.cellOfLoop[a]] - chart.column[chart.cellOfLoop[b]]);
  expect(cells.map((loop, i) => (i === cells.length - 1 ? loop : walk(loop, 'right')))).toEqual([...cells.slice(1), cells.at(-1)]);
});

it('the camera: all in sight when fitted, the place under the pointer kept when zoomed, a cell brought in from beyond', () => {
  const board = { width: 800, height: 600 }, fitted = fitChart(chart, board), at = { x: 404, y: 307 };
  expect(fitted.y).toBeGreaterThanOrEqual(MARGIN.top - 1e-9);
  expect(fitted.y + chart.rowCount * chart.cellHeightMm * fitted.scale).toBeLessThanOrEqual(board.height - MARGIN.bottom + 1e-9);
  const zoomed = zoomChart(chart, board, fitted, 3, at);
  expect(placeUnder(chart, zoomed, at.x, at.y)).toEqual(placeUnder(chart, fitted, at.x, at.y));
  const away = panChart(chart, board, zoomed, 4000, -4000), cell = chart.cellOfLoop[trace.passes[foot].firstLoop], { column, row } = { column: chart.column[cell], row: chart.row[cell] };
  const back = revealCell(chart, board, away, cell), x = back.x + (column + 0.5) * chart.cellWidthMm * back.scale, y = back.y + (chart.rowCount - row - 0.5) * chart.cellHeightMm * back.scale;
  expect(placeUnder(chart, back, x, y)).toEqual({ column, row });
  expect(x > MARGIN.left && x < board.width - MARGIN.right && y > MARGIN.top && y < board.height - MARGIN.bottom).toBe(true);
});
