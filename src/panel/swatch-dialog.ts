import type { SwatchCount } from '../plan/sock-file.ts';
import { createDialog } from './dialog.ts';
import { button, el, setText } from './dom.ts';
import type { PageState, PlannedSock, Settings } from './page-state.ts';
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
  readonly keep: (swatches: readonly SwatchCount[], gauge: SwatchReading | null) => void;
}

const MOST_SWATCHES = 12;

/** Common practice, no source. */
const ADVICE: readonly string[] = [
  'Knit it as the foot will be knitted: same yarn, same tension, plain, as a tube if you can. Half as wide again as the patch that you count, and as high, with some waste rows at both ends.',
  'Lay it down for an hour, then count. Then wash and dry it as the sock will be washed, let it rest flat for a day, unpinned and unstretched, and count again.',
  'Count in the middle, away from edges and ends. Mark the first and last stitch with a thread; half stitches count. Count the widest patch that lies flat.',
  'Count two or three swatches, or one in two or three places: how far they differ is how far the sock may.',
];

export function createSwatchDialog(hooks: SwatchHooks): SwatchDialog {
  const dialog = createDialog('swatch-dialog', 'Swatches');
  const body = el('tbody'), drawing = el('div', { class: 'swatch-picture' }), result = el('div', { class: 'swatch-reading', 'aria-live': 'polite' });
  const heads = { width: el('th', { scope: 'col' }), height: el('th', { scope: 'col' }), gauge: el('th', { scope: 'col' }) };
  const use = button('Use this gauge', { class: 'main-button' }, () => { keep(true); });
  const store = button('Keep the counts only', { class: 'notice-button', title: 'The swatches go into the sock’s file; its gauge stays.' }, () => { keep(false); });
  let lines: SwatchLine[] = [], settings: Settings | null = null, planned: PlannedSock | null = null, shown: readonly SwatchCount[] | undefined;

  const counts = (): readonly SwatchCount[] => lines.flatMap(({ draft }) => finished(draft) ?? []);
  const keep = (isUsed: boolean): void => {
    const swatches = counts();
    hooks.keep(swatches, isUsed ? hooks.average(swatches) : null);
    dialog.close();
  };
  const refresh = (): void => {
    if (settings === null) return;
    const next = settings, reading = hooks.average(counts());
    lines.forEach((line, place) => { line.render(next, place + 1); });
    add.disabled = lines.length >= MOST_SWATCHES;
    use.disabled = reading === null;
    store.disabled = lines.length > 0 && counts().length === 0;
    result.replaceChildren(...readingWords(reading, planned, next.lengthUnit).map((words, place) => el('p', { class: place === 0 ? 'swatch-gauge' : '' }, words)));
  };
  const lay = (): void => {
    body.replaceChildren(...lines.flatMap(({ rows }) => rows));
    refresh();
  };
  const addLine = (draft: SwatchDraft): SwatchLine => {
    const line: SwatchLine = createSwatchLine(draft, {
      change: refresh,
      takeOut: () => {
        lines = lines.filter((other) => other !== line);
        lay();
        (lines.at(-1) ?? { focus: () => { add.focus(); } }).focus();
      },
    });
    lines.push(line);
    return line;
  };
  const add = button('Add a swatch', { class: 'notice-button' }, () => {
    const line = addLine(emptyDraft(settings, lines.at(-1)?.draft.washed ?? true));
    lay();
    line.focus();
  });
  const table = el('table', { class: 'measures swatch-table' }, el('thead', {}, el('tr', {}, el('th', { scope: 'col' }, ''),
    el('th', { scope: 'col' }, 'stitches'), heads.width, el('th', { scope: 'col' }, 'rows'), heads.height, el('th', { scope: 'col' }, 'counted'), heads.gauge, el('td'))), body);
  dialog.body.append(
    el('div', { class: 'swatch-advice' }, drawing, el('ul', {}, ...ADVICE.map((words) => el('li', {}, words)))),
    el('div', { class: 'sizes-scroll', tabindex: 0, role: 'region', 'aria-label': 'Table of swatches' }, table), el('div', { class: 'compare-buttons' }, add), result);
  dialog.foot.append(use, store);
  return {
    open: () => {
      lines = [];
      for (const swatch of shown ?? []) addLine({ ...swatch, washed: swatch.washed ?? false });
      if (lines.length === 0) addLine(emptyDraft(settings, true));
      lay();
      dialog.open();
    },
    render: (state) => {
      shown = state.file.gauge.swatches;
      planned = state.planned;
      if (state.settings === settings) return;
      settings = state.settings;
      const { lengthUnit } = settings;
      drawing.replaceChildren(drawSwatch(lengthUnit));
      setText(heads.width, `over, ${lengthUnit}`);
      setText(heads.height, `over, ${lengthUnit}`);
      setText(heads.gauge, lengthUnit === 'cm' ? 'in 10 cm' : 'to the inch');
      refresh();
    },
  };
}

/** A patch of the usual size, nothing counted yet. */
function emptyDraft(settings: Settings | null, washed: boolean): SwatchDraft {
  const patchMm = settings?.lengthUnit === 'in' ? 101.6 : 100;
  return { stitches: null, widthMm: patchMm, rows: null, heightMm: patchMm, washed };
}
