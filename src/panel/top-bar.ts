import { pageWords } from '../words/page-words.ts';
import { button, el, setAttributes, setText } from './dom.ts';
import type { PageState } from './page-state.ts';
import { svg } from './svg.ts';

export interface TopBar { render(state: PageState): void }

/** An invented sock that comes with the page. */
export interface Example { readonly file: string; readonly name: string }

export interface TopBarHooks {
  readonly examples: readonly Example[];
  readonly openExample: (file: string) => void;
  readonly openFiles: (files: readonly File[]) => void;
  readonly save: () => void;
  /** The list of socks, behind the name of the present one. */
  readonly openSocks: () => void;
  readonly openExports: () => void;
  /** True where a link to the sock lies on the clipboard now. */
  readonly copyLink: () => Promise<boolean>;
  readonly openSizes: () => void;
  readonly openSwatches: () => void;
  readonly undo: () => void;
  readonly redo: () => void;
}

/** How long a button says that it has copied. */
const COPIED_MS = 3000;

export function createTopBar(host: HTMLElement, hooks: TopBarHooks): TopBar {
  const say = pageWords().page.bar, words = pageWords().files, name = el('span', { class: 'sock-name', dir: 'auto' });
  const door = button('', { class: 'sock-door', 'aria-haspopup': 'dialog' }, hooks.openSocks);
  door.append(name);
  const undo = signButton(say.undo, 'M6 3 2.5 6.5 6 10M3 6.5h6.5a4 4 0 0 1 0 8H6', { 'aria-keyshortcuts': 'Control+Z' }, hooks.undo);
  const redo = signButton(say.redo, 'M10 3l3.5 3.5L10 10M13 6.5H6.5a4 4 0 0 0 0 8H10', { 'aria-keyshortcuts': 'Control+Shift+Z Control+Y' }, hooks.redo);
  host.append(
    door,
    el('div', { class: 'bar-group' }, exampleChooser(hooks), openButton(hooks), button(say.save, { class: 'bar-button', 'aria-keyshortcuts': 'Control+S' }, hooks.save),
      button(words.exports.button, { class: 'bar-button', 'aria-haspopup': 'dialog' }, hooks.openExports), linkButton(hooks)),
    el('div', { class: 'bar-group' }, button(say.swatches, { class: 'bar-button' }, hooks.openSwatches), button(say.sizes, { class: 'bar-button' }, hooks.openSizes)),
    el('div', { class: 'bar-group' }, undo, redo),
  );
  return {
    render: (state) => {
      const shown = state.planned?.plan.name ?? '';
      setText(name, shown === '' ? words.unnamed : shown);
      setAttributes(door, { 'aria-label': words.mySocksOf(shown === '' ? words.unnamed : shown), title: words.mySocks });
      // The last step taken back leaves the focus where it is.
      setAttributes(undo, { 'aria-disabled': state.canUndo ? null : 'true' });
      setAttributes(redo, { 'aria-disabled': state.canRedo ? null : 'true' });
    },
  };
}

/** A button with a sign in place of its word, which its name and its hint still say. */
function signButton(name: string, path: string, attributes: Readonly<Record<string, string>>, onClick: () => void): HTMLButtonElement {
  const element = button('', { class: 'bar-button is-sign', 'aria-label': name, title: name, ...attributes }, onClick);
  element.append(svg('svg', { viewBox: '0 0 16 16', width: 16, height: 16, 'aria-hidden': 'true' },
    svg('path', { d: path, fill: 'none', stroke: 'currentColor', 'stroke-width': 1.5, 'stroke-linecap': 'round', 'stroke-linejoin': 'round' })));
  return element;
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
function openButton({ openFiles }: TopBarHooks): HTMLElement {
  const input = el('input', { type: 'file', accept: '.json,application/json', multiple: true, hidden: true, 'aria-label': pageWords().page.bar.sockFile });
  input.addEventListener('change', () => {
    openFiles([...input.files ?? []]);
    input.value = '';
  });
  return el('span', {}, button(pageWords().page.bar.open, { class: 'bar-button', 'aria-keyshortcuts': 'Control+O' }, () => { input.click(); }), input);
}

/** Says for a while that it has copied. */
function linkButton({ copyLink }: TopBarHooks): HTMLElement {
  const words = pageWords().files.link, said = el('span', { class: 'visually-hidden', role: 'status' });
  let timer: ReturnType<typeof setTimeout> | undefined;
  const copy = button(words.copy, { class: 'bar-button', title: words.about }, () => {
    void copyLink().then((isCopied) => {
      clearTimeout(timer);
      setText(copy, isCopied ? words.copied : words.copy);
      setText(said, isCopied ? words.copied : '');
      timer = setTimeout(() => {
        setText(copy, words.copy);
        setText(said, '');
      }, COPIED_MS);
    });
  });
  return el('span', {}, copy, said);
}
