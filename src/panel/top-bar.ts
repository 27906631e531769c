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
  readonly openFile: (file: File) => void;
  readonly save: () => void;
  readonly openSizes: () => void;
  readonly openSwatches: () => void;
  readonly undo: () => void;
  readonly redo: () => void;
  readonly choose: (settings: Partial<Settings>) => void;
}

const UNITS: readonly LengthUnit[] = ['cm', 'in'];

export function createTopBar(host: HTMLElement, hooks: TopBarHooks): TopBar {
  const say = pageWords().page.bar, name = el('p', { class: 'sock-name' });
  const undo = button(say.undo, { class: 'bar-button', 'aria-keyshortcuts': 'Control+Z' }, hooks.undo);
  const redo = button(say.redo, { class: 'bar-button', 'aria-keyshortcuts': 'Control+Shift+Z Control+Y' }, hooks.redo);
  const units = unitSwitch(hooks);
  const theme = button('', { class: 'bar-button' }, () => { hooks.choose({ theme: theme.dataset['next'] === 'dark' ? 'dark' : 'light' }); });
  host.append(
    name,
    el('div', { class: 'bar-group' }, exampleChooser(hooks), openButton(hooks), button(say.save, { class: 'bar-button', 'aria-keyshortcuts': 'Control+S' }, hooks.save)),
    el('div', { class: 'bar-group' }, button(say.swatches, { class: 'bar-button' }, hooks.openSwatches), button(say.sizes, { class: 'bar-button' }, hooks.openSizes)),
    el('div', { class: 'bar-group' }, undo, redo),
    el('div', { class: 'bar-group' }, units.element, theme),
  );
  return {
    render: (state, isDark) => {
      setText(name, state.planned?.plan.name ?? '');
      undo.disabled = !state.canUndo;
      redo.disabled = !state.canRedo;
      units.show(state.settings.lengthUnit);
      setText(theme, isDark ? say.light : say.dark);
      setAttributes(theme, { 'data-next': isDark ? 'light' : 'dark', 'aria-label': isDark ? say.toLight : say.toDark });
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

function unitSwitch({ choose }: TopBarHooks): { readonly element: HTMLElement; show(unit: LengthUnit): void } {
  const say = pageWords().page.bar;
  const inputs = UNITS.map((unit) => {
    const input = el('input', { type: 'radio', name: 'length-unit', value: unit, 'aria-label': say.units[unit] });
    input.addEventListener('change', () => { if (input.checked) choose({ lengthUnit: unit }); });
    return input;
  });
  const element = el('fieldset', { class: 'segments' }, el('legend', { class: 'visually-hidden' }, say.unit),
    ...UNITS.map((unit, index) => el('label', {}, inputs[index] ?? null, unit)));
  return { element, show: (unit) => { for (const input of inputs) input.checked = input.value === unit; } };
}
