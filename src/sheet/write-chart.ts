import { thinLabels } from '../base/thin-labels.ts';
import type { Words } from '../words/words.ts';
import type { PlannedYarn } from '../plan/plan-types.ts';
import { MARK_PATHS, marksIn } from './chart-marks.ts';
import type { ChartMark } from './chart-marks.ts';
import type { ChartModel, ChartPass, ChartThread } from './chart-model.ts';
import { labelChart } from './label-chart.ts';
import type { ChartLabels } from './label-chart.ts';
import type { NeedleNumbers } from './needle-label.ts';

/** The cells of a chart from column `left` to before `right`, and from row `bottom` to before `top`. */
export interface ChartWindow { readonly left: number; readonly right: number; readonly bottom: number; readonly top: number }

export interface ChartStyle {
  readonly words: Words;
  readonly numbers: NeedleNumbers;
  readonly needlesPerBed: number;
  readonly yarns: readonly PlannedYarn[];
  readonly name: string;
  /** Width of a cell on paper, mm; its height follows the fabric's proportions. */
  readonly cellWidthMm: number;
  /** Whether cells are filled with a wash of their yarn's colour. */
  readonly isTinted: boolean;
  /** Part of the chart to draw; all of it unless told. */
  readonly window?: ChartWindow;
  /** Columns and rows at the window's right and top that the next pages show too. */
  readonly overlap?: { readonly columns: number; readonly rows: number };
  /** Said under the title, in a sentence or more: which page this is. */
  readonly pageWords?: string;
  readonly hasLegend?: boolean;
}

/** Millimetres round the cells: pass numbers at the sides, needle numbers above and below, title, a line of the legend. Chosen by eye. */
const SIDE = 15, EDGE = 7, TITLE = 13, LEGEND_LINE = 5.2, LEGEND_WIDTH = 72;
/** Lines under the legend's marks: three kinds of thread, five notes, and a little air. A note is some 140 mm long. */
const NOTE_LINES = 8.5, NOTE_WIDTH = 140;
const FONT = 2.3;

/** Where things stand on the paper, mm. */
interface Paper {
  readonly chart: ChartModel;
  readonly style: ChartStyle;
  readonly window: ChartWindow;
  readonly labels: ChartLabels;
  readonly cellW: number;
  readonly cellH: number;
  readonly x: (column: number) => number;
  /** Of a row's lower edge. */
  readonly y: (row: number) => number;
  readonly width: number;
  readonly height: number;
}

const mm = (value: number): string => String(Number(value.toFixed(3)));
const escapeText = (text: string): string => text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;');
const wholeOf = ({ columnCount, rowCount }: ChartModel): ChartWindow => ({ left: 0, right: columnCount, bottom: 0, top: rowCount });

/** Size on paper of a chart, or of a window of it, mm, without a legend. */
export function measureChart(chart: ChartModel, cellWidthMm: number, window: ChartWindow = wholeOf(chart)): { readonly width: number; readonly height: number } {
  const cellH = (cellWidthMm * chart.cellHeightMm) / chart.cellWidthMm;
  return { width: (window.right - window.left) * cellWidthMm + 2 * SIDE, height: (window.top - window.bottom) * cellH + 2 * EDGE + TITLE };
}

/** The chart as an SVG file, in millimetres on paper. Black carries everything; colours only repeat which yarn it is. */
export function writeChart(chart: ChartModel, style: ChartStyle): string {
  const used = marksOf(chart), paper = layPaper(chart, style, used.length), { width, height } = paper, cells = cellsIn(paper);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${mm(width)}mm" height="${mm(height)}mm" viewBox="0 0 ${mm(width)} ${mm(height)}" font-family="sans-serif" font-size="${FONT}">`,
    `<title>${escapeText(titleOf(paper))}</title>`,
    `<defs>${used.map((mark) => `<path id="mark-${mark}" fill-rule="evenodd" d="${MARK_PATHS[mark]}"/>`).join('')}</defs>`,
    `<rect width="${mm(width)}" height="${mm(height)}" fill="#fff"/>`,
    ...writeHeading(paper), ...writeCells(paper, cells), ...writeLines(paper, cells), ...writeOverlap(paper), ...writeThreads(paper), ...writeMarks(paper, cells),
    ...writePasses(paper), ...writeNeedles(paper), ...writeBeds(paper), ...(style.hasLegend === false ? [] : writeLegend(paper, used)),
    '</svg>', '',
  ].join('\n');
}

/** The marks that a chart has, in the order of its legend. */
export function marksOf(chart: ChartModel): ChartMark[] {
  let bits = 0;
  for (const mark of chart.marks) bits |= mark;
  return marksIn(bits);
}

function layPaper(chart: ChartModel, style: ChartStyle, markCount: number): Paper {
  const window = style.window ?? wholeOf(chart), cellW = style.cellWidthMm, cellH = (cellW * chart.cellHeightMm) / chart.cellWidthMm;
  const { width, height } = measureChart(chart, cellW, window), wide = Math.max(width, style.hasLegend === false ? 110 : NOTE_WIDTH);
  const legendLines = style.hasLegend === false ? 0 : Math.ceil(markCount / Math.max(1, Math.floor(wide / LEGEND_WIDTH))) + NOTE_LINES;
  return {
    chart, style, window, cellW, cellH, labels: labelChart(chart, style.needlesPerBed, style.numbers),
    x: (column) => SIDE + (column - window.left) * cellW, y: (row) => TITLE + EDGE + (window.top - row) * cellH,
    width: wide, height: height + legendLines * LEGEND_LINE,
  };
}

const titleOf = ({ chart, style }: Paper): string => style.words.chart.title(style.name, style.words.chart.part[chart.part]);

function writeHeading(paper: Paper): string[] {
  const { chart, style, cellW, cellH } = paper, told = style.words.chart;
  const scale = told.scale(cellW.toFixed(2), cellH.toFixed(2), (cellW / chart.cellWidthMm).toFixed(2));
  return [
    `<text x="${SIDE}" y="5.4" font-size="4" font-weight="bold">${escapeText(titleOf(paper))}</text>`,
    `<text x="${SIDE}" y="9.4">${escapeText([style.pageWords, scale].filter((text) => text !== undefined).join(' '))}</text>`,
  ];
}

/** Cells of the window, in the order of knitting. */
function cellsIn({ chart, window }: Paper): number[] {
  const cells: number[] = [];
  for (let cell = 0; cell < chart.cellCount; cell++) {
    const column = chart.column[cell], row = chart.row[cell];
    if (column >= window.left && column < window.right && row >= window.bottom && row < window.top) cells.push(cell);
  }
  return cells;
}

/** One rectangle a loop, in groups of a pass. */
function writeCells({ chart, style, cellW, cellH, x, y }: Paper, cells: readonly number[]): string[] {
  const size = `width="${mm(cellW)}" height="${mm(cellH)}"`, lines = ['<g class="cells" stroke="#8a8a8a" stroke-width=".1">'];
  let open = '';
  for (const cell of cells) {
    const isBeside = chart.isBeside[cell] === 1, colour = style.yarns[chart.yarn[cell]]?.colour ?? '#ffffff';
    const fill = style.isTinted ? paleOf(colour) : isBeside ? '#ececec' : '#ffffff';
    const group = `<g data-pass="${chart.pass[cell]}"${isBeside ? ' class="beside"' : ''} fill="${fill}">`;
    if (group !== open) {
      if (open !== '') lines.push('</g>');
      lines.push(group);
      open = group;
    }
    lines.push(`<rect x="${mm(x(chart.column[cell]))}" y="${mm(y(chart.row[cell] + 1))}" ${size}/>`);
  }
  return [...lines, ...(open === '' ? [] : ['</g>']), '</g>'];
}

/** A third of the yarn's colour on white paper: black marks stay legible on it. */
function paleOf(colour: string): string {
  const part = (at: number): string => Math.round(255 - (255 - Number.parseInt(colour.slice(at, at + 2), 16)) * 0.35).toString(16).padStart(2, '0');
  return `#${part(1)}${part(3)}${part(5)}`;
}

function writeLines({ chart, labels, cellW, cellH, x, y }: Paper, cells: readonly number[]): string[] {
  const paths = ['', '', ''];
  for (const cell of cells) {
    const column = chart.column[cell], row = chart.row[cell];
    paths[labels.columnLines[column]] += `M${mm(x(column))} ${mm(y(row))}v${mm(-cellH)}`;
    paths[labels.rowLines[row + 1]] += `M${mm(x(column))} ${mm(y(row + 1))}h${mm(cellW)}`;
  }
  const edges = chart.bedEdges.filter((column) => chart.part !== 'heel' && x(column) >= SIDE).map((column) => `M${mm(x(column))} ${mm(y(0))}V${mm(y(chart.rowCount))}`).join('');
  return [
    `<path class="fifths" d="${paths[1]}" fill="none" stroke="#444" stroke-width=".2"/>`, `<path class="tenths" d="${paths[2]}" fill="none" stroke="#000" stroke-width=".36"/>`,
    ...(edges === '' ? [] : [`<path class="beds" d="${edges}" fill="none" stroke="#000" stroke-width=".5" stroke-dasharray="1.6 .8"/>`]),
  ];
}

const THREAD_STROKE: Readonly<Record<ChartThread['kind'], string>> = {
  held: 'stroke-width=".22"', resting: 'stroke-width=".14" stroke-dasharray=".6 .9"', taken: 'stroke-width=".3"',
};

function writeThreads({ chart, window, x, y }: Paper): string[] {
  const inWindow = (cell: number): boolean => chart.column[cell] >= window.left && chart.column[cell] < window.right;
  return (['held', 'resting', 'taken'] as const).map((kind) => {
    const d = chart.threads.filter((thread) => thread.kind === kind && inWindow(thread.from) && inWindow(thread.to)).flatMap(({ from, to }) => {
      const low = Math.max(window.bottom, chart.row[from] + 1), high = Math.min(window.top, chart.row[to]);
      if (high < window.bottom || low > window.top || (kind !== 'taken' && high <= low)) return [];
      // A loop taken inward has its next row right above its neighbour: the line goes from middle to middle.
      const [a, b] = kind === 'taken' ? [low - 0.5, high + 0.5] : [low, high];
      return [`M${mm(x(chart.column[from] + 0.5))} ${mm(y(a))}L${mm(x(chart.column[to] + 0.5))} ${mm(y(b))}`];
    }).join('');
    return d === '' ? '' : `<path class="${kind}" d="${d}" fill="none" stroke="#000" ${THREAD_STROKE[kind]}/>`;
  }).filter((line) => line !== '');
}

function writeMarks({ chart, cellW, cellH, x, y }: Paper, cells: readonly number[]): string[] {
  const scale = `scale(${mm(cellW)} ${mm(cellH)})`;
  return ['<g class="marks">', ...cells.flatMap((cell) => marksIn(chart.marks[cell]).map((mark) =>
    `<use href="#mark-${mark}" transform="translate(${mm(x(chart.column[cell]))} ${mm(y(chart.row[cell] + 1))}) ${scale}"/>`)), '</g>'];
}

/** Pass numbers, the carriage's way and the yarn: at the left of the window and at its right. */
function writePasses(paper: Paper): string[] {
  const { chart, labels, window, y } = paper;
  return ['<g class="passes">', ...(['left', 'right'] as const).flatMap((margin) => {
    const passes = chart.passes.filter((pass) => pass.margin === margin && pass.row >= window.bottom && pass.row < window.top);
    const shown = thinLabels(passes.map(({ pass, row }) => ({ at: y(row + 0.5), half: FONT / 2, strength: pass === 0 ? 2 : labels.rowLines[row + 1] })));
    return passes.flatMap((pass, i) => writePass(paper, pass, shown[i]));
  }), '</g>'];
}

function writePass({ style, labels, window, cellH, x, y }: Paper, { pass, row, margin, from, yarn }: ChartPass, isNumbered: boolean): string[] {
  const isLeft = margin === 'left', edge = x(isLeft ? window.left : window.right), side = isLeft ? -1 : 1, middle = y(row + 0.5);
  const colour = style.yarns[yarn]?.colour ?? '#fff', way = from === 'left' ? 1 : -1, at = edge + side * 4;
  const lines = [`<rect x="${mm(isLeft ? edge - 2.2 : edge + 0.6)}" y="${mm(y(row + 1))}" width="1.6" height="${mm(cellH)}" fill="${colour}" stroke="#000" stroke-width=".08"/>`];
  if (!isNumbered) return lines;
  if (pass > 0) lines.push(`<path d="M${mm(at - way * 0.9)} ${mm(middle - 0.75)}l${mm(way * 1.8)} .75l${mm(way * -1.8)} .75z"/>`);
  const weight = labels.rowLines[row + 1] === 2 ? ' font-weight="bold"' : '';
  return [...lines, `<text x="${mm(edge + side * 5.8)}" y="${mm(middle + 0.8)}" text-anchor="${isLeft ? 'end' : 'start'}"${weight}>${pass}</text>`];
}

function writeNeedles({ chart, labels, window, x, y }: Paper): string[] {
  return [`<g class="needles" data-part="${chart.part}">`, ...(['head', 'foot'] as const).flatMap((edge) => {
    const needles = labels.needles.filter((label) => label.edge === edge && label.column >= window.left && label.column < window.right);
    // A figure is some 0.6 of its height wide.
    const shown = thinLabels(needles.map(({ column, text, strength }) => ({ at: x(column + 0.5), half: (0.32 * text.length + 0.2) * FONT, strength })));
    const place = edge === 'head' ? y(window.top) - 1.4 : y(window.bottom) + 1.2 + FONT;
    return needles.filter((_, i) => shown[i]).map(({ column, text, strength }) =>
      `<text x="${mm(x(column + 0.5))}" y="${mm(place)}" text-anchor="middle"${strength === 2 ? ' font-weight="bold"' : ''}>${text}</text>`);
  }), '</g>'];
}

/** Which bed knits the columns, over them; under a leg that both beds knit at once, that they do. What has no room is left out. */
function writeBeds({ chart, style, window, x, y }: Paper): string[] {
  const told = style.words.chart, left = x(window.left), right = x(window.right);
  const write = (text: string, from: number, to: number, at: number): string[] =>
    (0.6 * text.length * FONT > to - from ? [] : [`<text x="${mm((from + to) / 2)}" y="${mm(at)}" text-anchor="middle" font-weight="bold">${escapeText(text)}</text>`]);
  const stretches = chart.stretches.flatMap(({ left: first, right: end, bed, carries }) => {
    const from = Math.max(left, x(first)), to = Math.min(right, x(end)), name = told.bed[bed];
    const [whole = ''] = carries === null ? [] : write(told.stretch(name, told.carries[carries]), from, to, y(window.top) - 4.6);
    return whole === '' ? write(name, from, to, y(window.top) - 4.6) : [whole];
  });
  const leg = chart.hasFlatLeg && window.bottom === 0 ? write(told.ribBeds, left, right, y(window.bottom) + 6.4) : [];
  return ['<g class="bed-names">', ...stretches, ...leg, '</g>'];
}

/** Strips that the pages to the right and above show too, with a corner at their beginning to lay the next page to. */
function writeOverlap({ style, window, chart, x, y }: Paper): string[] {
  const { columns = 0, rows = 0 } = style.overlap ?? {}, lines: string[] = [];
  const wash = 'fill="#000" fill-opacity=".12"';
  if (columns > 0 && window.right < chart.columnCount) {
    const at = x(window.right - columns), foot = y(window.bottom), head = y(window.top);
    lines.push(`<rect class="overlap" x="${mm(at)}" y="${mm(head - 3)}" width="${mm(x(window.right) - at)}" height="${mm(foot - head + 6)}" ${wash}/>`);
    lines.push(`<path class="overlap-mark" d="M${mm(at)} ${mm(head - 4)}l-1.6 -2h3.2zM${mm(at)} ${mm(foot + 4)}l-1.6 2h3.2z"/>`);
  }
  if (rows > 0 && window.top < chart.rowCount) {
    const at = y(window.top - rows), left = x(window.left), right = x(window.right);
    lines.push(`<rect class="overlap" x="${mm(left - 3)}" y="${mm(y(window.top))}" width="${mm(right - left + 6)}" height="${mm(at - y(window.top))}" ${wash}/>`);
    lines.push(`<path class="overlap-mark" d="M${mm(left - 12)} ${mm(at)}l-2 -1.6v3.2zM${mm(right + 12)} ${mm(at)}l2 -1.6v3.2z"/>`);
  }
  return lines;
}

function writeLegend({ chart, style, window, cellW, cellH, width, y }: Paper, used: readonly ChartMark[]): string[] {
  const told = style.words.chart, perLine = Math.max(1, Math.floor(width / LEGEND_WIDTH)), top = y(window.bottom) + EDGE + LEGEND_LINE;
  const w = Math.min(4, cellW), h = (w * cellH) / cellW;
  const place = (at: number): { x: number; y: number } => ({ x: SIDE / 3 + (at % perLine) * LEGEND_WIDTH, y: top + Math.floor(at / perLine) * LEGEND_LINE });
  const entries = used.map((mark, at) => {
    const p = place(at), corner = `translate(${mm(p.x)} ${mm(p.y - h)}) scale(${mm(w)} ${mm(h)})`;
    return `<rect x="${mm(p.x)}" y="${mm(p.y - h)}" width="${mm(w)}" height="${mm(h)}" fill="#fff" stroke="#8a8a8a" stroke-width=".1"/><use href="#mark-${mark}" transform="${corner}"/><text x="${mm(p.x + 5.4)}" y="${mm(p.y - 0.4)}">${escapeText(told.marks[mark])}</text>`;
  });
  const kinds = [...new Set(chart.threads.map(({ kind }) => kind))];
  const placed = [...(used.includes('held') ? [told.waits] : []), ...(chart.cornerPasses.length > 0 ? [told.cornerLaid(chart.cornerPasses)] : [])];
  const notes = [...placed, ...kinds.map((kind) => told.threads[kind]), told.arrow, told.outside, told.numbers];
  const below = Math.ceil(used.length / perLine);
  return ['<g class="legend">', ...entries, ...notes.map((note, i) => `<text x="${mm(SIDE / 3)}" y="${mm(top + below * LEGEND_LINE + i * LEGEND_LINE * 0.8)}">${escapeText(note)}</text>`), '</g>'];
}
