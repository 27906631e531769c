import type { SwatchAverage } from '../choose/average-swatches.ts';
import type { SwatchCount } from '../plan/sock-file.ts';
import { pageWords } from '../words/page-words.ts';
import { createDialog } from './dialog.ts';
import { button, el, setText } from './dom.ts';
import type { PageState, Settings } from './page-state.ts';
import { drawSwatch } from './swatch-drawing.ts';
import { createSwatchLine, finished } from './swatch-line.ts';
import type { SwatchDraft, SwatchLine } from './swatch-line.ts';
import { readingWords } from './swatch-words.ts';
import type { SwatchReading } from './swatch-words.ts';

export interface SwatchDialog {
  open(): void;
  render(state: PageState): void;
}

export interface SwatchHooks {
  /** Null where there is nothing to average. */
  readonly average: (swatches: readonly SwatchCount[]) => SwatchReading | null;
  /** Writes swatches into the sock's file, and the gauge that they give if it is to be used. */
  readonly keep: (swatches: readonly SwatchCount[], gauge: SwatchAverage | null) => void;
}

/** As many as a file holds (plan/sock-schema.ts). */
export const MOST_SWATCHES = 12;

export function createSwatchDialog(hooks: SwatchHooks): SwatchDialog {
  const say = pageWords().swatches, dialog = createDialog('swatch-dialog', say.title);
  const drawing = el('div', { class: 'swatch-picture' }), result = el('div', { class: 'swatch-reading', 'aria-live': 'polite' });
  let settings: Settings | null = null, kept: readonly SwatchCount[] = [], filledFrom: string | null = null;
  const keep = (isUsed: boolean): void => {
    const swatches = list.counts();
    hooks.keep(swatches, isUsed ? hooks.average(swatches)?.average ?? null : null);
    dialog.close();
  };
  const use = button(say.use, { class: 'main-button' }, () => { keep(true); });
  const store = button(say.keep, { class: 'notice-button', title: say.keepHint }, () => { keep(false); });
  const refresh = (): void => {
    const swatches = list.counts(), reading = hooks.average(swatches);
    use.disabled = reading === null;
    store.disabled = JSON.stringify(swatches) === JSON.stringify(kept);
    result.replaceChildren(...readingWords(reading, settings?.lengthUnit ?? 'cm').map((words, place) => el('p', { class: place === 0 ? 'swatch-gauge' : null }, words)));
  };
  const list = createSwatchList(refresh);
  dialog.body.append(el('div', { class: 'swatch-advice' }, drawing, el('ul', {}, ...say.advice.map((words) => el('li', {}, words)))), list.element, result);
  dialog.foot.append(use, store);
  return {
    open: () => {
      // Counts typed and not kept are still there, as long as the sock's own swatches are what they were.
      const key = JSON.stringify(kept);
      if (key !== filledFrom || JSON.stringify(list.counts()) === key) list.fill(kept);
      filledFrom = key;
      dialog.open();
    },
    render: (state) => {
      kept = state.file.gauge.swatches ?? [];
      if (state.settings === settings) return;
      settings = state.settings;
      drawing.replaceChildren(drawSwatch(settings.lengthUnit));
      list.render(settings);
      refresh();
    },
  };
}

interface SwatchList {
  readonly element: HTMLElement;
  /** Of the swatches of which all is put in. */
  readonly counts: () => readonly SwatchCount[];
  readonly fill: (swatches: readonly SwatchCount[]) => void;
  readonly render: (settings: Settings) => void;
}

function createSwatchList(change: () => void): SwatchList {
  const say = pageWords().swatches, body = el('tbody'), heads = { width: el('th', { scope: 'col' }), height: el('th', { scope: 'col' }), gauge: el('th', { scope: 'col' }) };
  let lines: SwatchLine[] = [], settings: Settings | null = null;
  const lay = (): void => {
    body.replaceChildren(...lines.flatMap(({ rows }) => rows));
    lines.forEach((line, place) => { if (settings !== null) line.render(settings, place + 1); });
    add.disabled = lines.length >= MOST_SWATCHES;
    change();
  };
  const makeLine = (draft: SwatchDraft): SwatchLine => {
    const line: SwatchLine = createSwatchLine(draft, {
      change,
      takeOut: () => {
        lines = lines.filter((other) => other !== line);
        lay();
        (lines.at(-1) ?? { focus: () => { add.focus(); } }).focus();
      },
    });
    return line;
  };
  const add = button(say.add, { class: 'notice-button' }, () => {
    const line = makeLine(emptyDraft(settings, lines.at(-1)?.draft.washed ?? true));
    lines = [...lines, line];
    lay();
    line.focus();
  });
  const head = (text: string): HTMLElement => el('th', { scope: 'col' }, text);
  const table = el('table', { class: 'measures swatch-table' }, el('thead', {}, el('tr', {},
    head(''), head(say.heads.stitches), heads.width, head(say.heads.rows), heads.height, head(say.heads.counted), heads.gauge, el('td'))), body);
  return {
    element: el('div', {}, el('div', { class: 'sizes-scroll', tabindex: 0, role: 'region', 'aria-label': say.table }, table), el('div', { class: 'compare-buttons' }, add)),
    counts: () => lines.flatMap(({ draft }) => finished(draft) ?? []),
    fill: (swatches) => {
      lines = swatches.map((swatch) => makeLine({ ...swatch, washed: swatch.washed ?? false }));
      if (lines.length === 0) lines = [makeLine(emptyDraft(settings, true))];
      lay();
    },
    render: (next) => {
      settings = next;
      setText(heads.width, say.over(next.lengthUnit));
      setText(heads.height, say.over(next.lengthUnit));
      setText(heads.gauge, say.per[next.lengthUnit]);
      lines.forEach((line, place) => { line.render(next, place + 1); });
    },
  };
}

/** A patch of the usual size, nothing counted yet. */
function emptyDraft(settings: Settings | null, washed: boolean): SwatchDraft {
  const patchMm = settings?.lengthUnit === 'in' ? 101.6 : 100;
  return { stitches: null, widthMm: patchMm, rows: null, heightMm: patchMm, washed };
}
