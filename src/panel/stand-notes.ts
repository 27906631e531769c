import { pageWords } from '../words/page-words.ts';
import { button, el, setText } from './dom.ts';
import { createStandSheet } from './stand-fields.ts';

export interface NotesShow {
  /** The present stop, in words, and its note. */
  readonly title: string;
  readonly text: string;
  readonly notes: readonly { readonly stop: number; readonly title: string; readonly text: string }[];
  readonly log: string;
}

export interface NotesHooks {
  readonly show: () => NotesShow;
  /** At the present stop. */
  readonly keep: (text: string) => void;
  readonly remove: (stop: number) => void;
}

/** A note for the present pass, and all notes of the pair. */
export function createStandNotes(hooks: NotesHooks): { open(): void } {
  const { notes: told } = pageWords().stand, dialog = createStandSheet('stand-notes', told.title);
  const here = el('p', { class: 'stand-sheet-lead' }), field = el('textarea', { 'aria-label': told.field, rows: 3, maxlength: 500, dir: 'auto' }), list = el('ul', { class: 'stand-list' }), log = el('p');
  const refresh = (): void => {
    const { title, notes, log: logged } = hooks.show();
    setText(here, told.here(title));
    setText(log, logged);
    list.replaceChildren(...(notes.length === 0 ? [el('li', {}, told.none)] : notes.map((note) => el('li', {},
      el('span', { dir: 'auto' }, told.at(note.title, note.text)),
      button(told.remove, { class: 'stand-button', 'aria-label': told.removeOf(note.title) }, () => {
        hooks.remove(note.stop);
        field.value = hooks.show().text;
        refresh();
      })))));
  };
  dialog.body.append(here, field, button(told.keep, { class: 'stand-button is-main' }, () => {
    hooks.keep(field.value);
    dialog.close();
  }), el('h3', {}, told.list), list, log);
  return {
    open: () => {
      field.value = hooks.show().text;
      refresh();
      dialog.open();
      field.focus();
    },
  };
}
