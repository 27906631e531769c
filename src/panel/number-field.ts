import { el, setAttributes } from './dom.ts';
import { parseNumber } from './number-row.ts';
import { inFigures } from './units.ts';

/** Milliseconds without a key press after which a typed number is taken up. */
const TYPING_PAUSE_MS = 350;

/** A box for a number in a dialog: taken up as typed, after a pause; what is no number is marked and changes nothing. */
export interface NumberField {
  readonly input: HTMLInputElement;
  /** Null leaves the box empty. Does nothing while a person types in it. */
  show(value: number | null): void;
  setLabel(label: string): void;
  /** Marks the box for a reason that stands elsewhere; null takes the mark away. */
  mark(problemId: string | null): void;
}

/** `take` gets null where the box has been emptied or holds no number. */
export function createNumberField(label: string, take: (value: number | null) => void): NumberField {
  const input = el('input', { type: 'text', inputmode: 'decimal', class: 'small-number', role: 'spinbutton', autocomplete: 'off', 'aria-label': label });
  let timer: ReturnType<typeof setTimeout> | undefined;
  const takeUp = (): void => {
    clearTimeout(timer);
    timer = undefined;
    const value = parseNumber(input.value);
    setAttributes(input, { 'aria-invalid': value === null && input.value.trim() !== '' ? 'true' : null, 'aria-valuenow': value });
    take(value);
  };
  input.addEventListener('input', () => {
    clearTimeout(timer);
    timer = setTimeout(takeUp, TYPING_PAUSE_MS);
  });
  input.addEventListener('change', () => { if (timer !== undefined) takeUp(); });
  input.addEventListener('keydown', (event) => { if (event.key === 'Enter' && timer !== undefined) takeUp(); });
  return {
    input,
    show: (value) => {
      if (document.activeElement === input) return;
      const text = value === null ? '' : inFigures(String(value));
      if (input.value !== text) input.value = text;
      setAttributes(input, { 'aria-valuenow': value });
    },
    setLabel: (words) => { setAttributes(input, { 'aria-label': words }); },
    mark: (problemId) => { setAttributes(input, { 'aria-invalid': problemId === null ? null : 'true', 'aria-describedby': problemId }); },
  };
}
