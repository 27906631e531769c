import { pageWords } from '../words/page-words.ts';
import { button, el, setAttributes, setText } from './dom.ts';

export interface PassField {
  readonly element: HTMLElement;
  /** The last pass of the sock. */
  setLast(pass: number): void;
}

/** A pass by its number. What is typed and is no pass stays in the field, and the sock stays where it is. */
export function createPassField(goTo: (pass: number) => void): PassField {
  const words = pageWords().timeline;
  const input = el('input', { type: 'text', inputmode: 'numeric', autocomplete: 'off', size: 4, id: 'pass-number', 'aria-describedby': 'pass-number-told' });
  const told = el('p', { class: 'way-told', id: 'pass-number-told', role: 'alert' });
  let last = 0;
  const say = (text: string): void => {
    setText(told, text);
    setAttributes(input, { 'aria-invalid': text === '' ? null : 'true' });
  };
  const go = (): void => {
    const pass = readPass(input.value, last);
    if (pass === null) {
      say(words.badPass(input.value.trim(), last));
      input.focus();
      return;
    }
    say('');
    input.value = '';
    goTo(pass);
  };
  input.addEventListener('keydown', (event) => { if (event.key === 'Enter') go(); });
  input.addEventListener('input', () => { if (readPass(input.value, last) !== null || input.value.trim() === '') say(''); });
  return {
    element: el('div', { class: 'way-number' }, el('label', { for: 'pass-number' }, words.passNumber), input, button(words.go, { class: 'notice-button' }, go), told),
    setLast: (pass) => { last = pass; },
  };
}

/** Null for what is no pass from 0, the cast-on, to the last. */
export function readPass(text: string, last: number): number | null {
  const digits = text.trim();
  return /^\d+$/.test(digits) && Number(digits) <= last ? Number(digits) : null;
}
