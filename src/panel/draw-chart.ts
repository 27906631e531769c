import { thinLabels } from '../base/thin-labels.ts';
import type { ChartMark } from '../sheet/chart-marks.ts';
import type { ChartModel, ChartPass } from '../sheet/chart-model.ts';
import type { ChartLabels, NeedleLabel } from '../sheet/label-chart.ts';
import { pageWords } from '../words/page-words.ts';
import type { BoardSize, ChartCamera } from './chart-camera.ts';
import { MARGIN } from './chart-camera.ts';
import type { MarkStamps } from './chart-stamps.ts';

/** Colours of the page's theme, and of the yarns, as CSS has them. */
export interface ChartColours {
  readonly card: string;
  readonly raised: string;
  readonly field: string;
  readonly ink: string;
  readonly soft: string;
  readonly line: string;
  readonly accent: string;
  readonly yarns: readonly string[];
  /** Yarn colours as a wash over the card. */
  readonly washes: readonly string[];
}

/** A chart and all that is shown on it. */
export interface ChartPicture {
  readonly chart: ChartModel;
  readonly labels: ChartLabels;
  readonly marksOfBits: (bits: number) => readonly ChartMark[];
  readonly isTinted: boolean;
  /** The pass that is gone through; what comes after it is shaded if `isProgress`. */
  readonly pass: number | null;
  readonly isProgress: boolean;
  /** Cell that is pointed at anywhere; -1 for none. */
  readonly spot: number;
  /** Cell of the picked stitch, -1 for none, and of what belongs to it. */
  readonly picked: number;
  readonly relatives: readonly number[];
}

interface Drawing {
  readonly context: CanvasRenderingContext2D;
  readonly picture: ChartPicture;
  readonly colours: ChartColours;
  readonly board: BoardSize;
  readonly w: number;
  readonly h: number;
  readonly x: (column: number) => number;
  /** Of a row's lower edge. */
  readonly y: (row: number) => number;
  /** Columns and rows in sight, ends left out. */
  readonly columns: readonly [number, number];
  readonly rows: readonly [number, number];
}

/** Cells lower than this many pixels have no lines of their own, and marks become shades. */
const FINE_CELL = 5;
/** Height of a number, CSS pixels. */
const FIGURE = 11;

/** Draws what is in sight of a chart, once. */
export function drawChart(context: CanvasRenderingContext2D, picture: ChartPicture, camera: ChartCamera, board: BoardSize, colours: ChartColours, stamps: MarkStamps): void {
  const { chart } = picture, w = chart.cellWidthMm * camera.scale, h = chart.cellHeightMm * camera.scale;
  const clamp = (value: number, most: number): number => Math.min(Math.max(value, 0), most);
  const drawing: Drawing = {
    context, picture, colours, board, w, h,
    x: (column) => camera.x + column * w, y: (row) => camera.y + (chart.rowCount - row) * h,
    columns: [clamp(Math.floor(-camera.x / w), chart.columnCount), clamp(Math.ceil((board.width - camera.x) / w), chart.columnCount)],
    rows: [clamp(chart.rowCount - Math.ceil((board.height - camera.y) / h), chart.rowCount), clamp(chart.rowCount - Math.floor(-camera.y / h), chart.rowCount)],
  };
  context.fillStyle = colours.card;
  context.fillRect(0, 0, board.width, board.height);
  fillCells(drawing);
  drawGrid(drawing);
  drawThreads(drawing);
  if (h >= FINE_CELL) stampMarks(drawing, stamps);
  else shadeMarks(drawing);
  drawBeds(drawing);
  drawPass(drawing);
  drawPicked(drawing);
  drawSpot(drawing);
  drawSides(drawing);
  drawNeedles(drawing);
}

/** Calls `run` for each stretch of a row's cells in sight that `keyOf` gives one key; a negative key is left out. */
function eachRun({ picture: { chart }, columns, rows }: Drawing, keyOf: (cell: number) => number, run: (key: number, row: number, from: number, to: number) => void): void {
  for (let row = rows[0]; row < rows[1]; row++) {
    let from = 0, key = -1;
    for (let column = columns[0]; column <= columns[1]; column++) {
      const cell = column < columns[1] ? chart.cellAt[row * chart.columnCount + column] : -1, next = cell < 0 ? -1 : keyOf(cell);
      if (next === key) continue;
      if (key >= 0) run(key, row, from, column);
      key = next;
      from = column;
    }
  }
}

function fillCells(drawing: Drawing): void {
  const { context, picture: { chart, isTinted }, colours, x, y, w, h } = drawing;
  // Under the cells, a pixel wider all round: pale yarn on pale paper has an edge however small it is drawn.
  context.fillStyle = colours.soft;
  eachRun(drawing, () => 0, (_, row, from, to) => { context.fillRect(x(from) - 0.7, y(row + 1) - 0.7, (to - from) * w + 1.4, h + 1.4); });
  const fills = isTinted ? colours.washes : colours.yarns.map(() => colours.raised), beside = fills.length;
  eachRun(drawing, (cell) => (chart.isBeside[cell] === 1 && !isTinted ? beside : chart.yarn[cell]), (key, row, from, to) => {
    context.fillStyle = fills[key] ?? colours.field;
    context.fillRect(x(from), y(row + 1), (to - from) * w, h);
  });
}

/** Fine lines where cells are large enough, stronger ones at every fifth and tenth needle and pass. */
function drawGrid(drawing: Drawing): void {
  const { context, picture: { labels }, colours, x, y, h } = drawing;
  const lines = [0, 1, 2].map(() => new Path2D());
  eachRun(drawing, () => 0, (_, row, from, to) => {
    const top = y(row + 1);
    for (let column = from; column <= to; column++) {
      const path = lines[column === from || column === to ? 0 : labels.columnLines[column]];
      path.moveTo(x(column), top);
      path.lineTo(x(column), top + h);
    }
    for (const line of [row, row + 1]) {
      const path = lines[line === row ? 0 : labels.rowLines[line]];
      path.moveTo(x(from), y(line));
      path.lineTo(x(to), y(line));
    }
  });
  // From afar the tenths alone, and pale.
  const isFine = h >= FINE_CELL, styles = [[colours.soft, 0.4, 1], [colours.soft, 1, 1], [colours.ink, isFine ? 1 : 0.5, isFine ? 1.4 : 0.8]] as const;
  styles.forEach(([colour, alpha, width], i) => {
    if (i < 2 && !isFine) return;
    context.strokeStyle = colour;
    context.globalAlpha = alpha;
    context.lineWidth = width;
    context.stroke(lines[i]);
  });
  context.globalAlpha = 1;
}

function drawThreads({ context, picture: { chart }, colours, x, y, h }: Drawing): void {
  for (const kind of ['resting', 'held', 'taken'] as const) {
    context.beginPath();
    for (const thread of chart.threads) {
      if (thread.kind !== kind) continue;
      const inset = kind === 'taken' ? 0.5 : 0, { from, to } = thread;
      context.moveTo(x(chart.column[from] + 0.5), y(chart.row[from] + 1 - inset));
      context.lineTo(x(chart.column[to] + 0.5), y(chart.row[to] + inset));
    }
    context.strokeStyle = kind === 'resting' ? colours.soft : colours.ink;
    context.lineWidth = kind === 'taken' ? 1.5 : h < FINE_CELL ? 0.7 : 1;
    context.setLineDash(kind === 'resting' ? [2, 4] : []);
    context.stroke();
  }
  context.setLineDash([]);
}

function stampMarks({ context, picture: { chart, marksOfBits }, colours, x, y, w, h, columns, rows }: Drawing, stamps: MarkStamps): void {
  const stampsOf = new Map<number, readonly CanvasImageSource[]>(), scale = stamps.pixelRatio, round = (at: number): number => Math.round(at * scale) / scale;
  for (let row = rows[0]; row < rows[1]; row++) {
    for (let column = columns[0]; column < columns[1]; column++) {
      const cell = chart.cellAt[row * chart.columnCount + column], bits = cell < 0 ? 0 : chart.marks[cell];
      if (bits === 0) continue;
      let images = stampsOf.get(bits);
      if (images === undefined) stampsOf.set(bits, images = marksOfBits(bits).map((mark) => stamps.stamp(mark, w, h, colours.ink)));
      for (const image of images) context.drawImage(image, round(x(column)), round(y(row + 1)), stamps.cssWidth(w), stamps.cssWidth(h));
    }
  }
}

/** From afar a mark is a shade: dark where a loop is held, moved or joined, light for the purl ribs. */
function shadeMarks(drawing: Drawing): void {
  const { context, picture: { chart, marksOfBits }, colours, x, y, w, h } = drawing, shades = new Map<number, number>();
  const shadeOf = (bits: number): number => {
    let shade = shades.get(bits);
    if (shade === undefined) {
      const marks = marksOfBits(bits);
      shade = marks.length === 0 || (marks.length === 1 && marks[0] === 'ribKnit') ? -1 : marks.length === 1 && marks[0] === 'purl' ? 0 : 1;
      shades.set(bits, shade);
    }
    return shade;
  };
  context.fillStyle = colours.ink;
  eachRun(drawing, (cell) => shadeOf(chart.marks[cell]), (shade, row, from, to) => {
    context.globalAlpha = shade === 0 ? 0.14 : 0.75;
    context.fillRect(x(from), y(row + 1), (to - from) * w, h);
  });
  context.globalAlpha = 1;
}

function drawBeds({ context, picture: { chart }, colours, x, y }: Drawing): void {
  if (chart.part === 'heel') return;
  context.strokeStyle = colours.ink;
  context.lineWidth = 2;
  context.setLineDash([8, 5]);
  context.beginPath();
  for (const column of chart.bedEdges) {
    context.moveTo(x(column), y(0) + 6);
    context.lineTo(x(column), y(chart.rowCount) - 6);
  }
  context.stroke();
  context.setLineDash([]);
}

/** The pass that is gone through has a frame; with the shade on, what is not yet knitted lies under a veil. */
function drawPass(drawing: Drawing): void {
  const { context, picture: { chart, pass, isProgress }, colours, x, y, w, h } = drawing;
  if (pass === null) return;
  if (isProgress) {
    context.fillStyle = colours.card;
    context.globalAlpha = 0.72;
    eachRun(drawing, (cell) => (chart.pass[cell] > pass ? 0 : -1), (_, row, from, to) => { context.fillRect(x(from) + 0.5, y(row + 1), (to - from) * w - 1, h); });
    context.globalAlpha = 1;
  }
  context.strokeStyle = colours.accent;
  context.lineWidth = 2;
  eachRun(drawing, (cell) => (chart.pass[cell] === pass ? 0 : -1), (_, row, from, to) => { context.strokeRect(x(from) - 1, y(row + 1) - 1, (to - from) * w + 2, h + 2); });
}

/** A frame round the picked stitch, and a broken one round what it was drawn through and what is drawn through it. */
function drawPicked({ context, picture: { chart, picked, relatives }, colours, x, y, w, h }: Drawing): void {
  const frame = (cell: number, dash: readonly number[], thick: number): void => {
    const left = x(chart.column[cell]), top = y(chart.row[cell] + 1), grow = Math.max(1.5, (7 - h) / 2);
    for (const [colour, width] of [[colours.card, thick + 2.5], [colours.ink, thick]] as const) {
      context.setLineDash(colour === colours.ink ? [...dash] : []);
      context.strokeStyle = colour;
      context.lineWidth = width;
      context.strokeRect(left - grow, top - grow, w + 2 * grow, h + 2 * grow);
    }
    context.setLineDash([]);
  };
  for (const cell of relatives) frame(cell, [3, 2.5], 1.6);
  if (picked >= 0) frame(picked, [], 2.6);
}

/** A ring round the cell, with hair lines to the numbers. */
function drawSpot({ context, picture: { chart, spot }, colours, x, y, w, h, board }: Drawing): void {
  if (spot < 0) return;
  const left = x(chart.column[spot]), top = y(chart.row[spot] + 1), grow = Math.max(2, (9 - h) / 2);
  context.strokeStyle = colours.accent;
  context.lineWidth = 1;
  context.globalAlpha = 0.65;
  context.beginPath();
  for (const [x1, y1, x2, y2] of [[0, top + h / 2, left, top + h / 2], [left + w, top + h / 2, board.width, top + h / 2], [left + w / 2, 0, left + w / 2, top], [left + w / 2, top + h, left + w / 2, board.height]]) {
    context.moveTo(x1, y1);
    context.lineTo(x2, y2);
  }
  context.stroke();
  context.globalAlpha = 1;
  context.lineWidth = 4.5;
  context.strokeStyle = colours.card;
  context.strokeRect(left - grow, top - grow, w + 2 * grow, h + 2 * grow);
  context.lineWidth = 2.5;
  context.strokeStyle = colours.accent;
  context.strokeRect(left - grow, top - grow, w + 2 * grow, h + 2 * grow);
}

/** At the sides, over whatever was scrolled under them: yarn, the carriage's way, the pass. */
function drawSides(drawing: Drawing): void {
  const { context, picture: { chart, labels }, colours, x, y, h, board } = drawing;
  // Beside the chart while there is room, and at the board's edges when it runs under them.
  const hasRight = chart.passes.some(({ margin }) => margin === 'right');
  const edges = { left: Math.max(MARGIN.left - 8, x(0) - 8), right: Math.min(board.width - MARGIN.right + 8, x(chart.columnCount) + 8) };
  context.fillStyle = colours.card;
  context.globalAlpha = 0.9;
  context.fillRect(edges.left - MARGIN.left, 0, MARGIN.left, board.height);
  if (hasRight) context.fillRect(edges.right, 0, MARGIN.right, board.height);
  context.globalAlpha = 1;
  context.textBaseline = 'middle';
  for (const margin of ['left', 'right'] as const) {
    const passes = chart.passes.filter((pass) => pass.margin === margin), edge = edges[margin];
    const shown = thinLabels(passes.map(({ pass, row }) => ({ at: y(row + 0.5), half: FIGURE / 2, strength: pass === 0 ? 2 : labels.rowLines[row + 1] })));
    passes.forEach((pass, i) => {
      context.fillStyle = colours.yarns[pass.yarn] ?? colours.soft;
      context.fillRect(edge + (margin === 'left' ? -5 : 1), y(pass.row + 1), 4, Math.max(0.6, h - (h > 4 ? 0.6 : 0)));
      if (shown[i]) drawPassNumber(drawing, pass, edge, false);
    });
  }
  // Over their neighbours, which may have no room beside them.
  const { pass: shown, spot } = drawing.picture, spotPass = spot < 0 ? -1 : chart.pass[spot];
  for (const pass of chart.passes) if (pass.pass === shown || pass.pass === spotPass) drawPassNumber(drawing, pass, edges[pass.margin], true);
}

function drawPassNumber({ context, picture: { labels }, colours, y }: Drawing, { pass, row, margin, from }: ChartPass, edge: number, isShown: boolean): void {
  const side = margin === 'left' ? -1 : 1, middle = y(row + 0.5), strength = labels.rowLines[row + 1], inner = edge + side * 9;
  context.font = `${strength === 2 || isShown ? 600 : 400} ${FIGURE}px system-ui, sans-serif`;
  context.textAlign = side < 0 ? 'right' : 'left';
  if (isShown) {
    context.fillStyle = colours.accent;
    context.fillRect(side < 0 ? edge - 55 : edge + 7, middle - 8, 48, 16);
  }
  context.fillStyle = isShown ? colours.card : strength === 0 ? colours.soft : colours.ink;
  const way = from === 'left' ? 1 : -1, at = inner + side * 4;
  context.beginPath();
  context.moveTo(at - way * 3.5, middle - 3.2);
  context.lineTo(at + way * 3.5, middle);
  context.lineTo(at - way * 3.5, middle + 3.2);
  if (pass > 0) context.fill();
  context.fillText(String(pass), inner + side * 11, middle + 0.5);
}

/** Above and below, over whatever was scrolled under them. */
function drawNeedles(drawing: Drawing): void {
  const { context, picture: { chart, labels, spot }, colours, x, y, columns, board } = drawing;
  const column = spot < 0 ? -1 : chart.column[spot];
  // The numbers stay beside the chart while it is in sight, and at the board's edge when it runs over.
  const places = { head: Math.max(MARGIN.top - 8, y(chart.rowCount)) - 10, foot: Math.min(board.height - MARGIN.bottom + 8, y(0)) + 11 };
  context.fillStyle = colours.card;
  context.globalAlpha = 0.9;
  context.fillRect(0, places.head - 24, board.width, 32);
  context.fillRect(0, places.foot - 9, board.width, chart.hasFlatLeg ? 32 : 18);
  context.globalAlpha = 1;
  context.textAlign = 'center';
  nameBeds(drawing, places.head - 16, places.foot + 16);
  const write = ({ column: at, text, strength }: NeedleLabel, place: number, half: number, isSpot: boolean): void => {
    context.font = `${strength === 2 || isSpot ? 600 : 400} ${FIGURE}px system-ui, sans-serif`;
    if (isSpot) {
      context.fillStyle = colours.accent;
      context.fillRect(x(at + 0.5) - half - 2, place - 8, 2 * half + 4, 16);
    }
    context.fillStyle = isSpot ? colours.card : strength === 0 ? colours.soft : colours.ink;
    context.fillText(text, x(at + 0.5), place + 0.5);
  };
  for (const edge of ['head', 'foot'] as const) {
    const needles = labels.needles.filter((label) => label.edge === edge && label.column >= columns[0] && label.column < columns[1]), place = places[edge];
    context.font = `600 ${FIGURE}px system-ui, sans-serif`;
    const measured = needles.map(({ column: at, text, strength }) => ({ at: x(at + 0.5), half: context.measureText(text).width / 2 + 3, strength }));
    const shown = thinLabels(measured);
    needles.forEach((label, i) => { if (shown[i]) write(label, place, measured[i].half, false); });
    needles.forEach((label, i) => { if (label.column === column) write(label, place, measured[i].half, true); });
  }
}

/** Over each stretch in sight the bed that knits it; under a leg that both beds knit at once, that they do. What has no room is left out. */
function nameBeds({ context, picture: { chart }, colours, x, board }: Drawing, head: number, foot: number): void {
  const told = pageWords().chart, clamp = (at: number): number => Math.min(Math.max(at, 0), board.width);
  context.font = `600 ${FIGURE}px system-ui, sans-serif`;
  context.fillStyle = colours.ink;
  const write = (texts: readonly string[], first: number, end: number, at: number): void => {
    const [from, to] = [clamp(x(first)), clamp(x(end))], text = texts.find((one) => context.measureText(one).width + 8 <= to - from);
    if (text !== undefined) context.fillText(text, (from + to) / 2, at);
  };
  for (const { left, right, bed, carries } of chart.stretches) write([...(carries === null ? [] : [told.stretch(told.bed[bed], told.carries[carries])]), told.bed[bed]], left, right, head);
  if (chart.hasFlatLeg) write([told.ribBeds], 0, chart.columnCount, foot);
}
