import { pageWords } from '../words/page-words.ts';
import type { ChartCut, ChartPart } from '../sheet/chart-model.ts';
import { button, el } from './dom.ts';

/** How a person wants the chart; kept for the next visit. */
export interface ChartChoices {
  readonly part: ChartPart;
  readonly cut: ChartCut;
  readonly isTinted: boolean;
  readonly isProgress: boolean;
  /** Width of a cell on paper, mm; null fits the chart to a page. */
  readonly cellWidthMm: number | null;
}

export interface ChartBar { readonly element: HTMLElement; render(choices: ChartChoices): void }

export interface ChartBarHooks {
  readonly choose: (change: Partial<ChartChoices>) => void;
  readonly zoomBy: (factor: number) => void;
  readonly fit: () => void;
  readonly save: () => void;
  readonly print: () => void;
}

export const CELL_WIDTHS_MM: readonly number[] = [3, 4, 5, 6, 8, 10];
const ZOOM_STEP = 1.3;

/** What is shown and how, over the chart. */
export function createChartBar(hooks: ChartBarHooks): ChartBar {
  const told = pageWords().chart;
  const part = segments('chart-part', told.partLabel, told.part, (chosen) => { hooks.choose({ part: chosen }); });
  const cut = segments('chart-cut', told.cutLabel, told.cut, (chosen) => { hooks.choose({ cut: chosen }); });
  const tint = checkbox(told.tint, (isTinted) => { hooks.choose({ isTinted }); }), progress = checkbox(told.progress, (isProgress) => { hooks.choose({ isProgress }); });
  const paper = el('select', {}, el('option', { value: '' }, told.fitPage), ...CELL_WIDTHS_MM.map((mm) => el('option', { value: mm }, `${mm} mm`)));
  paper.addEventListener('change', () => { hooks.choose({ cellWidthMm: paper.value === '' ? null : Number(paper.value) }); });
  const element = el('div', { class: 'chart-bar' }, part.element, cut.element,
    el('div', { class: 'view-buttons', role: 'group', 'aria-label': told.zoomLabel },
      button('−', { class: 'view-button is-sign', 'aria-label': told.zoomOut }, () => { hooks.zoomBy(1 / ZOOM_STEP); }),
      button('+', { class: 'view-button is-sign', 'aria-label': told.zoomIn }, () => { hooks.zoomBy(ZOOM_STEP); }),
      button(told.fit, { class: 'view-button' }, hooks.fit)),
    tint.element, progress.element,
    el('div', { class: 'chart-paper', role: 'group', 'aria-label': told.paperLabel }, el('label', {}, told.cellWidth, ' ', paper),
      button(told.save, { class: 'bar-button' }, hooks.save), button(told.print, { class: 'bar-button' }, hooks.print)));
  return {
    element,
    render: (choices) => {
      part.check(choices.part);
      cut.check(choices.cut);
      cut.element.hidden = choices.part !== 'sock';
      tint.input.checked = choices.isTinted;
      progress.input.checked = choices.isProgress;
      paper.value = choices.cellWidthMm === null ? '' : String(choices.cellWidthMm);
    },
  };
}

function segments<K extends string>(name: string, label: string, options: Readonly<Record<K, string>>, choose: (chosen: K) => void): { element: HTMLElement; check(chosen: K): void } {
  const inputs = (Object.keys(options) as K[]).map((key) => {
    const input = el('input', { type: 'radio', name, value: key });
    input.addEventListener('change', () => { if (input.checked) choose(key); });
    return { key, input };
  });
  return {
    element: el('fieldset', { class: 'segments' }, el('legend', { class: 'visually-hidden' }, label), ...inputs.map(({ key, input }) => el('label', {}, input, options[key]))),
    check: (chosen) => { for (const { key, input } of inputs) input.checked = key === chosen; },
  };
}

function checkbox(label: string, choose: (isChecked: boolean) => void): { element: HTMLElement; input: HTMLInputElement } {
  const input = el('input', { type: 'checkbox' });
  input.addEventListener('change', () => { choose(input.checked); });
  return { element: el('label', { class: 'chart-check' }, input, label), input };
}
