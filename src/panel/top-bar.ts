import { pageWords } from '../words/page-words.ts';
import { button, el, setAttributes, setText } from './dom.ts';
import type { PageState, Settings } from './page-state.ts';
import type { LengthUnit } from './units.ts';

export interface TopBar { render(state: PageState, isDark: boolean): void }

/** An invented sock that comes with the page. */
export interface Example { readonly file: string; readonly name: string }

export interface TopBarHooks {
  readonly examples: readonly Example[];
  readonly openExample: (file: string) => void;
  readonly openFiles: (files: readonly File[]) => void;
  readonly save: () => void;
  /** The list of socks, behind the name of the present one. */
  readonly openSocks: () => void;
  /** True where a link to the sock lies on the clipboard now. */
  readonly copyLink: () => Promise<boolean>;
  readonly openSizes: () => void;
  readonly openSwatches: () => void;
  readonly undo: () => void;
  readonly redo: () => void;
  readonly choose: (settings: Partial<Settings>) => void;
}

/** How long a button says that it has copied. */
const COPIED_MS = 3000;

const UNITS: readonly (readonly [LengthUnit, string, string])[] = [['cm', 'cm', 'Centimetres'], ['in', 'in', 'Inches']];

export function createTopBar(host: HTMLElement, hooks: TopBarHooks): TopBar {
  const words = pageWords().files, name = el('span', { class: 'sock-name', dir: 'auto' });
  const door = button('', { class: 'sock-door', 'aria-haspopup': 'dialog' }, hooks.openSocks);
  door.append(name);
  const undo = button('Undo', { class: 'bar-button', 'aria-keyshortcuts': 'Control+Z' }, hooks.undo);
  const redo = button('Redo', { class: 'bar-button', 'aria-keyshortcuts': 'Control+Shift+Z Control+Y' }, hooks.redo);
  const units = unitSwitch(hooks);
  const theme = button('', { class: 'bar-button' }, () => { hooks.choose({ theme: theme.dataset['next'] === 'dark' ? 'dark' : 'light' }); });
  host.append(
    door,
    el('div', { class: 'bar-group' }, exampleChooser(hooks), openButton(hooks), button('Save', { class: 'bar-button', 'aria-keyshortcuts': 'Control+S' }, hooks.save), linkButton(hooks)),
    el('div', { class: 'bar-group' }, button('Swatches…', { class: 'bar-button' }, hooks.openSwatches), button('Sizes…', { class: 'bar-button' }, hooks.openSizes)),
    el('div', { class: 'bar-group' }, undo, redo),
    el('div', { class: 'bar-group' }, units.element, theme),
  );
  return {
    render: (state, isDark) => {
      const shown = state.planned?.plan.name ?? '';
      setText(name, shown === '' ? words.unnamed : shown);
      setAttributes(door, { 'aria-label': words.mySocksOf(shown === '' ? words.unnamed : shown), title: words.mySocks });
      undo.disabled = !state.canUndo;
      redo.disabled = !state.canRedo;
      units.show(state.settings.lengthUnit);
      setText(theme, isDark ? 'Light' : 'Dark');
      setAttributes(theme, { 'data-next': isDark ? 'light' : 'dark', 'aria-label': isDark ? 'Change to light colours' : 'Change to dark colours' });
    },
  };
}

function exampleChooser({ examples, openExample }: TopBarHooks): HTMLElement {
  const select = el('select', { class: 'bar-button', 'aria-label': 'Open an example sock' }, el('option', { value: '' }, 'Examples'),
    ...examples.map(({ file, name }) => el('option', { value: file }, name)));
  select.addEventListener('change', () => {
    if (select.value !== '') openExample(select.value);
    select.value = '';
  });
  return select;
}

/** A button of ours in front of the browser's own file input, which cannot be dressed. */
function openButton({ openFiles }: TopBarHooks): HTMLElement {
  const input = el('input', { type: 'file', accept: '.json,application/json', multiple: true, hidden: true, 'aria-label': 'Sock file' });
  input.addEventListener('change', () => {
    openFiles([...input.files ?? []]);
    input.value = '';
  });
  return el('span', {}, button('Open…', { class: 'bar-button', 'aria-keyshortcuts': 'Control+O' }, () => { input.click(); }), input);
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

function unitSwitch({ choose }: TopBarHooks): { readonly element: HTMLElement; show(unit: LengthUnit): void } {
  const inputs = UNITS.map(([unit, , spoken]) => {
    const input = el('input', { type: 'radio', name: 'length-unit', value: unit, 'aria-label': spoken });
    input.addEventListener('change', () => { if (input.checked) choose({ lengthUnit: unit }); });
    return input;
  });
  const element = el('fieldset', { class: 'segments' }, el('legend', { class: 'visually-hidden' }, 'Unit of length'),
    ...UNITS.map(([, name], index) => el('label', {}, inputs[index] ?? null, name)));
  return { element, show: (unit) => { for (const input of inputs) input.checked = input.value === unit; } };
}
