import type { NeedleNumbers } from '../sheet/needle-label.ts';
import { pageWords } from '../words/page-words.ts';
import type { Language } from '../words/words.ts';
import { button, el, setText } from './dom.ts';

export type Paper = 'a4' | 'letter';

/** How a person wants her sheet. */
export interface SheetChoices {
  /** Null: as the unit of length suggests. */
  readonly paper: Paper | null;
  /** Null: that of the page. */
  readonly language: Language | null;
  readonly hasTransfers: boolean;
  /** Names of the standard sizes that become columns. */
  readonly sizes: readonly string[];
}

export interface SheetChoicesHooks {
  readonly sizes: readonly { readonly name: string; readonly isEstimate: boolean }[];
  readonly change: (change: Partial<SheetChoices>) => void;
  readonly chooseNumbers: (numbers: NeedleNumbers) => void;
  readonly print: () => void;
  /** False where the browser does not let the page. */
  readonly copy: () => Promise<boolean>;
  /** The name it got. */
  readonly save: () => string;
}

export interface SheetNow {
  readonly choices: SheetChoices;
  readonly paper: Paper;
  readonly language: Language;
  readonly numbers: NeedleNumbers;
  /** There is a sheet to be handed out. */
  readonly isReady: boolean;
  readonly status: string;
  readonly warnings: readonly string[];
}

export interface SheetChoicesPart { render(now: SheetNow): void }

const LANGUAGES: Readonly<Record<Language, string>> = { en: 'English', de: 'Deutsch' };

/** Paper, language, needles, sizes, and the ways in which the sheet leaves the page. */
export function createSheetChoices(host: HTMLElement, hooks: SheetChoicesHooks): SheetChoicesPart {
  const { room, sizeNames } = pageWords().sheet;
  const paper = createSwitch<Paper>('sheet-paper', room.paper, room.papers, (chosen) => { hooks.change({ paper: chosen }); });
  const numbers = createSwitch<NeedleNumbers>('sheet-numbers', room.numbers, room.numbersFrom, hooks.chooseNumbers);
  const language = createSwitch<Language>('sheet-language', room.language, LANGUAGES, (chosen) => { hooks.change({ language: chosen }); });
  const transfers = el('input', { type: 'checkbox' });
  transfers.addEventListener('change', () => { hooks.change({ hasTransfers: transfers.checked }); });
  const boxes = hooks.sizes.map(({ name, isEstimate }) => {
    const input = el('input', { type: 'checkbox', value: name });
    input.addEventListener('change', () => { hooks.change({ sizes: boxes.filter((box) => box.input.checked).map((box) => box.name) }); });
    return { name, input, label: el('label', { class: 'sheet-tick' }, input, el('span', {}, sizeNames[name] ?? name, isEstimate ? el('small', {}, ` ${room.estimate}`) : null)) };
  });
  const status = el('p', { class: 'sheet-status', role: 'status' }), warnings = el('ul', { class: 'sheet-warnings', 'aria-live': 'polite' }), said = el('p', { class: 'sheet-said', role: 'status' });
  const print = button(room.print, { class: 'main-button' }, hooks.print);
  const copy = button(room.copy, { class: 'notice-button' }, () => { void hooks.copy().then((isCopied) => { setText(said, isCopied ? room.copied : room.notCopied); }); });
  const save = button(room.save, { class: 'notice-button' }, () => { setText(said, room.saved(hooks.save())); });
  host.append(
    el('h2', {}, room.heading), el('p', { class: 'sheet-about' }, room.about), status, warnings, el('div', { class: 'sheet-buttons' }, print, copy, save), said,
    paper.element, numbers.element, language.element, el('label', { class: 'sheet-tick' }, transfers, el('span', {}, room.transfers)),
    el('fieldset', { class: 'sheet-sizes' }, el('legend', {}, room.sizes), el('p', { class: 'sheet-about' }, room.sizesHelp), ...boxes.map(({ label }) => label)),
  );
  return {
    render: (now) => {
      paper.show(now.paper);
      numbers.show(now.numbers);
      language.show(now.language);
      transfers.checked = now.choices.hasTransfers;
      for (const { name, input } of boxes) input.checked = now.choices.sizes.includes(name);
      for (const element of [print, copy, save]) element.disabled = !now.isReady;
      setText(status, now.status);
      if ([...warnings.children].map((item) => item.textContent).join('\n') !== now.warnings.join('\n')) warnings.replaceChildren(...now.warnings.map((words) => el('li', {}, words)));
    },
  };
}

/** A few choices in a row, one of which holds. */
function createSwitch<T extends string>(name: string, legend: string, labels: Readonly<Record<T, string>>, choose: (chosen: T) => void): { readonly element: HTMLElement; show(chosen: T): void } {
  const inputs = (Object.keys(labels) as T[]).map((value) => {
    const input = el('input', { type: 'radio', name, value });
    input.addEventListener('change', () => { if (input.checked) choose(value); });
    return { value, input, label: el('label', {}, input, labels[value]) };
  });
  const element = el('fieldset', { class: 'sheet-choice' }, el('legend', {}, legend), el('div', { class: 'segments' }, ...inputs.map(({ label }) => label)));
  return { element, show: (chosen) => { for (const { value, input } of inputs) input.checked = value === chosen; } };
}
