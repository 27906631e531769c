import { pageWords } from '../words/page-words.ts';
import { button, el, setAttributes, setText } from './dom.ts';
import type { PageState } from './page-state.ts';
import { inFigures } from './units.ts';

/** A file that was handed to the browser's downloads, or why there is none. */
export type Saved = { readonly name: string; readonly bytes: number; readonly problem: null } | { readonly name: null; readonly bytes: 0; readonly problem: string };

/** `1.2 MB`, `340 kB`: thousands, as file managers count. */
export function sizeWords(bytes: number): string {
  return bytes >= 1e6 ? `${inFigures((bytes / 1e6).toFixed(1))} MB` : `${Math.max(1, Math.round(bytes / 1e3))} kB`;
}

/** One thing that a sock can be taken away as. */
export interface Row {
  readonly element: HTMLElement;
  render(state: PageState, isReady: boolean, isPosed: boolean): void;
}

/** A button that makes a file and tells what became of it. */
export type Saver = (label: string, name: string, save: () => Promise<Saved>) => HTMLButtonElement;

export function chooser<T extends number | string>(label: string, choices: readonly T[], first: T, nameOf: (choice: T) => string): { readonly element: HTMLElement; value(): T; readonly select: HTMLSelectElement } {
  const select = el('select', {}, ...choices.map((choice) => el('option', { value: choice, selected: choice === first }, nameOf(choice))));
  return { element: el('label', { class: 'export-choice' }, el('span', {}, label), select), value: () => choices.find((choice) => String(choice) === select.value) ?? first, select };
}

export function row(title: string, about: HTMLElement, ...acts: readonly HTMLElement[]): HTMLElement {
  return el('section', { class: 'export-row', 'aria-label': title }, el('div', { class: 'export-what' }, el('h3', {}, title), about), el('div', { class: 'export-acts' }, ...acts));
}

/** How far a file is that takes a while, with a way to stop it. */
export interface Making {
  readonly element: HTMLElement;
  tell(share: number, words: string): void;
}

/** Runs work that a button begins, its progress under the row; `work` gives null where it was stopped. */
export function createMaking(title: string, stop: () => void): Making & { run(begin: HTMLButtonElement, work: () => Promise<Saved | null>, tell: (saved: Saved) => void): void } {
  const words = pageWords().files.exports, progress = el('progress', { class: 'stage-progress', max: 1, 'aria-label': title }), far = el('p', { class: 'export-far' });
  const element = el('div', { class: 'export-making', hidden: true }, el('div', {}, far, progress, button(words.film.stop, { class: 'notice-button', 'aria-label': `${title}: ${words.film.stop}` }, stop)));
  return {
    element,
    tell: (share, text) => {
      progress.value = share;
      setText(far, text);
    },
    run: (begin, work, tell) => {
      // A button that is disabled would drop the focus.
      if (!element.hidden) return;
      setAttributes(begin, { 'aria-disabled': 'true' });
      progress.value = 0;
      setText(far, words.working);
      element.hidden = false;
      // The sheet says so before the work keeps the page busy.
      setTimeout(() => {
        void work().then((saved) => { if (saved !== null) tell(saved); }, (error: unknown) => { tell({ name: null, bytes: 0, problem: words.failed(String(error)) }); }).finally(() => {
          element.hidden = true;
          setAttributes(begin, { 'aria-disabled': null });
          // The button that stops it is gone.
          if (document.activeElement === document.body) begin.focus();
        });
      });
    },
  };
}
