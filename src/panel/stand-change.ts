import { pageWords } from '../words/page-words.ts';
import { button, el } from './dom.ts';
import { createStandSheet } from './stand-fields.ts';

/** What the sock on the panel would mean for the one that is being knitted. */
export interface ChangeShow {
  /** What differs, field by field; empty where the two are the same. */
  readonly changes: readonly string[];
  /** What follows, or why it cannot be. */
  readonly words: readonly string[];
  /** Null where there is nothing to take, or it contradicts what is knitted. */
  readonly take: (() => void) | null;
}

/** Changing the plan while knitting is an act of its own. */
export function createStandChange(show: () => ChangeShow): { open(): void } {
  const { change: told } = pageWords().stand, dialog = createStandSheet('stand-change', told.title);
  return {
    open: () => {
      const { changes, words, take } = show();
      dialog.body.replaceChildren(
        ...(changes.length === 0 ? [] : [el('ul', { class: 'stand-list' }, ...changes.map((change) => el('li', { dir: 'auto' }, change)))]),
        ...words.map((word) => el('p', { dir: 'auto' }, word)),
        ...(take === null ? [] : [button(told.take, { class: 'stand-button is-main' }, () => {
          take();
          dialog.close();
        })]));
      dialog.open();
    },
  };
}
