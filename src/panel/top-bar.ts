import { pageWords } from '../words/page-words.ts';
import { button, el, setText } from './dom.ts';
import type { PageState } from './page-state.ts';

export interface TopBar { render(state: PageState): void }

/** An invented sock that comes with the page. */
export interface Example { readonly file: string; readonly name: string }

export interface TopBarHooks {
  readonly examples: readonly Example[];
  readonly openExample: (file: string) => void;
  readonly openFile: (file: File) => void;
  readonly save: () => void;
  readonly openSizes: () => void;
  readonly openSwatches: () => void;
  readonly undo: () => void;
  readonly redo: () => void;
}

export function createTopBar(host: HTMLElement, hooks: TopBarHooks): TopBar {
  const say = pageWords().page.bar, name = el('p', { class: 'sock-name', dir: 'auto' });
  const undo = button(say.undo, { class: 'bar-button', 'aria-keyshortcuts': 'Control+Z' }, hooks.undo);
  const redo = button(say.redo, { class: 'bar-button', 'aria-keyshortcuts': 'Control+Shift+Z Control+Y' }, hooks.redo);
  host.append(
    name,
    el('div', { class: 'bar-group' }, exampleChooser(hooks), openButton(hooks), button(say.save, { class: 'bar-button', 'aria-keyshortcuts': 'Control+S' }, hooks.save)),
    el('div', { class: 'bar-group' }, button(say.swatches, { class: 'bar-button' }, hooks.openSwatches), button(say.sizes, { class: 'bar-button' }, hooks.openSizes)),
    el('div', { class: 'bar-group' }, undo, redo),
  );
  return {
    render: (state) => {
      setText(name, state.planned?.plan.name ?? '');
      undo.disabled = !state.canUndo;
      redo.disabled = !state.canRedo;
    },
  };
}

function exampleChooser({ examples, openExample }: TopBarHooks): HTMLElement {
  const select = el('select', { class: 'bar-button', 'aria-label': pageWords().page.bar.examplesLabel }, el('option', { value: '' }, pageWords().page.bar.examples),
    ...examples.map(({ file, name }) => el('option', { value: file }, name)));
  select.addEventListener('change', () => {
    if (select.value !== '') openExample(select.value);
    select.value = '';
  });
  return select;
}

/** A button of ours in front of the browser's own file input, which cannot be dressed. */
function openButton({ openFile }: TopBarHooks): HTMLElement {
  const input = el('input', { type: 'file', accept: '.json,application/json', hidden: true, 'aria-label': pageWords().page.bar.sockFile });
  input.addEventListener('change', () => {
    const file = input.files?.[0];
    if (file !== undefined) openFile(file);
    input.value = '';
  });
  return el('span', {}, button(pageWords().page.bar.open, { class: 'bar-button', 'aria-keyshortcuts': 'Control+O' }, () => { input.click(); }), input);
}
