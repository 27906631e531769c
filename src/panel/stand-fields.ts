import { createDialog } from './dialog.ts';
import type { Dialog } from './dialog.ts';
import { el } from './dom.ts';

/** A sheet in the stand's own colours and sizes. */
export function createStandSheet(kind: string, title: string): Dialog {
  // A pedal sends the keys that press a button: the focus goes to what they step, not back to the tool.
  const dialog = createDialog(kind, title, () => { document.querySelector<HTMLElement>('.stand-zone')?.focus(); });
  dialog.element.classList.add('stand-sheet');
  return dialog;
}

/** A labelled choice from a list. */
export function standChoice<T extends string>(label: string, choices: readonly (readonly [T, string])[], onChange: (value: T) => void): { readonly element: HTMLElement; readonly select: HTMLSelectElement; set(value: T): void } {
  const select = el('select', { 'aria-label': label }, ...choices.map(([value, words]) => el('option', { value }, words)));
  select.addEventListener('change', () => {
    const chosen = choices.find(([value]) => value === select.value);
    if (chosen !== undefined) onChange(chosen[0]);
  });
  return { select, element: el('label', { class: 'stand-field' }, el('span', {}, label), select), set: (value) => { select.value = value; } };
}

/** A labelled box for a number; null while it holds none. */
export function standNumber(label: string, attributes: Readonly<Record<string, string | number>> = {}): { readonly element: HTMLElement; readonly input: HTMLInputElement; value(): number | null } {
  const input = el('input', { type: 'text', inputmode: 'decimal', autocomplete: 'off', 'aria-label': label, ...attributes });
  return {
    input, element: el('label', { class: 'stand-field' }, el('span', { dir: 'auto' }, label), input),
    value: () => {
      const number = Number(input.value.trim().replace(',', '.'));
      return input.value.trim() === '' || !Number.isFinite(number) || number < 0 ? null : number;
    },
  };
}

/** A labelled tick. */
export function standTick(label: string, onChange: (isOn: boolean) => void): { readonly element: HTMLElement; readonly input: HTMLInputElement } {
  const input = el('input', { type: 'checkbox' });
  input.addEventListener('change', () => { onChange(input.checked); });
  return { input, element: el('label', { class: 'stand-tick' }, input, el('span', {}, label)) };
}
