import { describe, expect, it, test } from 'vitest';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import type { KnittedSock } from '../../src/pipeline/result.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import type { ChartPart } from '../../src/sheet/chart-model.ts';
import { layChart } from '../../src/sheet/lay-chart.ts';
import { fitCellWidth, PAGE_OVERLAP, pageChart, PRINT_PAGE } from '../../src/sheet/page-chart.ts';
import { writeChart } from '../../src/sheet/write-chart.ts';
import type { ChartStyle } from '../../src/sheet/write-chart.ts';
import { WORDS } from '../../src/words/words.ts';
import { allOf, readSvg } from './read-svg.ts';
import type { SvgElement } from './read-svg.ts';

function knit(file: SockFile): KnittedSock {
  const { sock, problems } = knitSock(file);
  if (sock === null) throw new Error(JSON.stringify(problems));
  return sock;
}

const GAUGE = { stitchesPer10cm: 30, rowsPer10cm: 42 };
const SOCK = knit({ name: 'A <pair> & "more"', gauge: GAUGE, counts: { stitches: 48, legPasses: 12, footPasses: 40 }, heel: { turnDownWidth: 8 } });

const styleOf = (sock: KnittedSock, more: Partial<ChartStyle> = {}): ChartStyle => ({
  words: WORDS.en, numbers: 'middle', needlesPerBed: sock.trace.needlesPerBed, yarns: sock.plan.yarns, name: sock.plan.name, cellWidthMm: 5, isTinted: false, ...more,
});
const write = (part: ChartPart, more: Partial<ChartStyle> = {}, sock = SOCK): SvgElement => readSvg(writeChart(layChart(sock, part, 'beds'), styleOf(sock, more)));

interface Cell { readonly pass: number; readonly isBeside: boolean; readonly x: number; readonly y: number; readonly w: number; readonly h: number }

function cellsOf(svg: SvgElement): Cell[] {
  const groups = allOf(svg).filter(({ attributes }) => attributes['data-pass'] !== undefined);
  return groups.flatMap((group) => group.children.map(({ attributes: { x, y, width, height } }): Cell => ({
    pass: Number(group.attributes['data-pass']), isBeside: group.attributes['class'] === 'beside', x: Number(x), y: Number(y), w: Number(width), h: Number(height),
  })));
}

const usesOf = (svg: SvgElement): string[] => allOf(svg).filter(({ tag, attributes }) => tag === 'g' && attributes['class'] === 'marks').flatMap(({ children }) => children.map(({ attributes }) => attributes['href']));
const countOf = (list: readonly string[], wanted: string): number => list.filter((one) => one === wanted).length;

describe('the chart as a drawing', () => {
  it('is well-formed, in millimetres, with the sock\'s name as it was given', () => {
    for (const part of ['sock', 'heel', 'toe'] as const) {
      const svg = write(part), { width, height, viewBox } = svg.attributes;
      expect([`0 0 ${width.replace('mm', '')} ${height.replace('mm', '')}`, width.endsWith('mm')]).toEqual([viewBox, true]);
      expect(svg.children[0]).toMatchObject({ tag: 'title', text: `A <pair> & "more": chart, ${part === 'sock' ? 'whole sock' : part}` });
    }
  });

  it('has a cell for every loop, of the gauge\'s proportions, none over another', () => {
    const cells = cellsOf(write('sock')), loops = SOCK.trace.passes.reduce((sum, { knitted }) => sum + knitted, 0);
    // Grafted loops have cells too: as many as the toe has stitches a bed.
    expect(cells.length).toBe(loops + SOCK.plan.toeTipStitches);
    for (const { w, h } of cells) expect(h / w).toBeCloseTo(GAUGE.stitchesPer10cm / GAUGE.rowsPer10cm, 3);
    expect(new Set(cells.map(({ x, y }) => `${x} ${y}`)).size).toBe(cells.length);
    for (const { pass, knitted } of SOCK.trace.passes.slice(0, -1)) expect(cells.filter((cell) => cell.pass === pass).length).toBe(knitted);
  });

  // Geometry: n / 2 stitches sideways over n rows, at the angle atan(2 b / a) to the rows (FACTS).
  it.each([[30, 42, 48, 8], [24, 36, 56, 12], [40, 50, 72, 10]])('gauge %i x %i, %i stitches turned down to %i: the mitre lies at its angle', (stitchesPer10cm, rowsPer10cm, stitches, turnDownWidth) => {
    const sock = knit({ gauge: { stitchesPer10cm, rowsPer10cm }, counts: { stitches, legPasses: 4, footPasses: 30 }, heel: { turnDownWidth } });
    const cells = cellsOf(write('heel', {}, sock)).filter(({ isBeside }) => !isBeside), n = stitches / 2 - turnDownWidth, { h: row } = cells[0];
    const wanted = Math.atan((2 / rowsPer10cm) / (1 / stitchesPer10cm));
    const passes = [...new Set(cells.map(({ pass }) => pass))].map((pass) => {
      const own = cells.filter((cell) => cell.pass === pass);
      return { left: Math.min(...own.map(({ x }) => x)), right: Math.max(...own.map(({ x, w }) => x + w)), top: own[0].y };
    });
    const mitres = [passes.slice(0, n), passes.slice(n)].flatMap((half) => [half.map(({ left, top }) => [left, top] as const), half.map(({ right, top }) => [right, top] as const)]);
    for (const edge of mitres) {
      const [[x1, y1], [x2, y2]] = [edge[0], edge.at(-1)!], across = Math.abs(x2 - x1), up = Math.abs(y2 - y1);
      // Read from step to step, the edge is known to a row; places are written to a thousandth of a millimetre.
      expect(wanted).toBeGreaterThan(Math.atan((up - row - 0.01) / across));
      expect(wanted).toBeLessThan(Math.atan((up + row + 0.01) / across));
    }
  });

  it('puts a mark for every one of the program\'s', () => {
    const uses = usesOf(write('sock')), { wraps, cornerWraps, decreases } = SOCK.trace;
    expect(countOf(uses, '#mark-wrap')).toBe(wraps);
    expect(countOf(uses, '#mark-cornerLeft') + countOf(uses, '#mark-cornerRight')).toBe(cornerWraps);
    expect(countOf(uses, '#mark-decreaseLeft') + countOf(uses, '#mark-decreaseRight')).toBe(decreases);
    expect(countOf(uses, '#mark-held')).toBe(SOCK.plan.heelStitches - SOCK.plan.turnDownWidth);
    expect([countOf(uses, '#mark-gather'), countOf(uses, '#mark-turn')]).toEqual([24, 24]);
  });

  it('names every mark that it has, and defines it once', () => {
    for (const part of ['sock', 'heel', 'toe'] as const) {
      const svg = write(part), defined = allOf(svg).filter(({ attributes }) => attributes['id'] !== undefined).map(({ attributes }) => `#${attributes['id']}`);
      expect(new Set(usesOf(svg))).toEqual(new Set(defined));
      const legend = allOf(svg).find(({ attributes }) => attributes['class'] === 'legend')!, lines = legend.children.filter(({ tag }) => tag === 'text');
      expect(legend.children.filter(({ tag }) => tag === 'use').map(({ attributes }) => attributes['href'])).toEqual(defined);
      // Nothing of it falls off the paper, and no line lies on another.
      const height = Number(svg.attributes['height'].replace('mm', ''));
      for (const { attributes: { y } } of lines) expect(Number(y)).toBeLessThan(height);
      expect(new Set(lines.map(({ attributes: { x, y } }) => `${x} ${y}`)).size).toBe(lines.length);
    }
  });

  it('carries everything in black: the wash of the yarn can be left out', () => {
    const marks = allOf(write('sock')).filter(({ tag, attributes }) => tag === 'use' || attributes['class'] === 'marks');
    for (const { attributes } of marks) expect([attributes['fill'], attributes['stroke']]).toEqual([undefined, undefined]);
    const fills = (isTinted: boolean): Set<string | undefined> => new Set(allOf(write('sock', { isTinted })).filter(({ attributes }) => attributes['data-pass'] !== undefined).map(({ attributes }) => attributes['fill']));
    expect(fills(false)).toEqual(new Set(['#ffffff']));
    expect(fills(true).has('#ffffff')).toBe(false);
  });

  it('numbers needles as the knitter counts them, and says the scale', () => {
    const texts = (numbers: 'middle' | 'left'): string[] => allOf(write('heel', { numbers })).filter(({ tag }) => tag === 'text').map(({ text }) => text);
    expect(texts('middle')).toEqual(expect.arrayContaining(['L12', 'R12']));
    // 180 needles a bed, 24 stitches in the middle: needles 79 to 102 (geometry).
    expect(texts('left')).toEqual(expect.arrayContaining(['79', '102']));
    // 5 mm for a stitch of 10 / 3 mm.
    expect(texts('middle')).toEqual(expect.arrayContaining(['One stitch is 5.00 x 3.57 mm on paper, 1.50 times the cloth’s.']));
  });

  it('names the bed over each half, what it carries, and that the rib is on both', () => {
    const names = (part: ChartPart, more: Partial<ChartStyle> = {}): [string, string][] => allOf(write(part, more)).filter(({ attributes }) => attributes['class'] === 'bed-names')
      .flatMap(({ children }) => children.map(({ text, attributes: { x } }): [string, string] => [text, x]));
    const { heelBed } = SOCK.plan, other = heelBed === 'front' ? 'back' : 'front', of = { [heelBed]: 'heel', [other]: 'instep' };
    // 48 columns of 5 mm after a margin of 15: the middles of the halves, and of all.
    expect(names('sock')).toEqual([[`front bed: ${of['front']}`, '75'], [`back bed: ${of['back']}`, '195'], ['leg: rib on both beds', '135']]);
    expect(names('toe')).toEqual([[`front bed: ${of['front']}`.replace('heel', 'sole'), '75'], [`back bed: ${of['back']}`.replace('heel', 'sole'), '195']]);
    // The heel between two columns of the other bed.
    expect(names('heel')).toEqual([[`${heelBed} bed`, '80']]);
    expect(names('heel', { words: WORDS.de })).toEqual([[heelBed === 'front' ? 'vorderes Bett' : 'hinteres Bett', '80']]);
    expect(names('sock', { cellWidthMm: 0.4 })).toEqual([]);
  });

  it('says on which row the marks of the heel stand, and when the corner wraps are laid', () => {
    // The corners are laid after the passes that close the heel: the steps before each corner wrap, counted off the program.
    let passes = -1;
    const laid = SOCK.program.steps.flatMap((step) => {
      if (step.do === 'knit' || step.do === 'cast-on') passes++;
      return step.do === 'wrap' && step.at.bed !== SOCK.plan.heelBed ? [passes] : [];
    });
    expect(laid.length).toBe(SOCK.trace.cornerWraps);
    const texts = (part: ChartPart): string[] => allOf(write(part)).filter(({ tag }) => tag === 'text').map(({ text }) => text);
    for (const part of ['sock', 'heel'] as const) {
      expect(texts(part).filter((text) => text.startsWith('Held, wrapped:')).length).toBe(1);
      expect(texts(part).find((text) => text.startsWith('Corner wrap:'))).toMatch(new RegExp(`laid after passes ${laid.join(' and ')}\\.$`));
    }
    expect(texts('toe').some((text) => text.startsWith('Held, wrapped') || text.startsWith('Corner wrap:'))).toBe(false);
  });

  it('is German where German is asked for', () => {
    const svg = write('heel', { words: WORDS.de });
    expect(svg.children[0].text).toBe('A <pair> & "more": Musterplan, Ferse');
    expect(allOf(svg).some(({ text }) => text === 'Mit dem Arbeitsfaden umwickelt')).toBe(true);
  });
});

describe('on paper', () => {
  it.each(['sock', 'heel', 'toe'] as const)('%s: fitted, it stands on one page and fills it one way', (part) => {
    const chart = layChart(SOCK, part, 'beds'), cellWidthMm = fitCellWidth(chart);
    expect(pageChart(chart, cellWidthMm)).toEqual([{ left: 0, right: chart.columnCount, bottom: 0, top: chart.rowCount }]);
    const { width, height } = readSvg(writeChart(chart, styleOf(SOCK, { cellWidthMm, hasLegend: false }))).attributes;
    const [w, h] = [width, height].map((value) => Number(value.replace('mm', '')));
    expect(w <= PRINT_PAGE.width && h <= PRINT_PAGE.height).toBe(true);
    expect(Math.max(w / PRINT_PAGE.width, h / PRINT_PAGE.height)).toBeGreaterThan(0.97);
  });

  it('large, it goes over pages that overlap by two cells, and shows each cell on one of them at least', () => {
    const chart = layChart(SOCK, 'sock', 'beds'), windows = pageChart(chart, 6);
    expect(windows.length).toBeGreaterThan(3);
    const seen = new Set<string>();
    windows.forEach((window, i) => {
      const page = readSvg(writeChart(chart, styleOf(SOCK, { cellWidthMm: 6, window, hasLegend: false, pageWords: `Page ${i}`, overlap: { columns: PAGE_OVERLAP, rows: PAGE_OVERLAP } })));
      const [w, h] = [page.attributes['width'], page.attributes['height']].map((value) => Number(value.replace('mm', '')));
      expect(w <= PRINT_PAGE.width && h <= PRINT_PAGE.height, `page ${i}: ${w} x ${h}`).toBe(true);
      const cells = cellsOf(page);
      for (let column = window.left; column < window.right; column++) for (let row = window.bottom; row < window.top; row++) if (chart.cellAt[row * chart.columnCount + column] >= 0) seen.add(`${column} ${row}`);
      expect(cells.length).toBe([...chart.loop].filter((_, cell) => chart.column[cell] >= window.left && chart.column[cell] < window.right && chart.row[cell] >= window.bottom && chart.row[cell] < window.top).length);
      const isLast = window.right === chart.columnCount && window.top === chart.rowCount;
      expect(allOf(page).some(({ attributes }) => attributes['class'] === 'overlap')).toBe(!isLast);
    });
    expect(seen.size).toBe(chart.cellCount);
    const lefts = [...new Set(windows.map(({ left }) => left))], rights = [...new Set(windows.map(({ right }) => right))];
    lefts.slice(1).forEach((left, i) => { expect(rights[i] - left).toBe(PAGE_OVERLAP); });
  });

  test('a cell too large for any page is refused', () => {
    expect(() => pageChart(layChart(SOCK, 'heel', 'beds'), 80)).toThrow(RangeError);
  });
});
