import { pageWords } from '../words/page-words.ts';
import { el, setAttributes, setText } from './dom.ts';
import type { SliderRange } from './slider-hand.ts';

/** A number of the sock that the learner may move; null where the sock has none now. */
export interface LessonSlider { readonly path: string; readonly value: number | null; readonly range: SliderRange }

export interface LessonSliders { render(sliders: readonly LessonSlider[]): void }

export interface SliderHand {
  readonly move: (path: string, value: number) => void;
  readonly finish: () => void;
}

/** Large sliders with their numbers: the browser's own, so that keys, touch and screen readers find what they know. */
export function createLessonSliders(host: HTMLElement, hand: SliderHand): LessonSliders {
  let drawn = '', rows: { readonly path: string; readonly input: HTMLInputElement; readonly output: HTMLElement }[] = [];
  return {
    render: (sliders) => {
      const key = sliders.map(({ path }) => path).join(' ');
      if (key !== drawn) {
        drawn = key;
        rows = sliders.map(({ path }) => drawSlider(path, hand));
        host.replaceChildren(...rows.map(({ path, input, output }) => el('label', { class: 'lesson-slider' }, el('span', {}, pageWords().lesson.sliders[path] ?? path), output, input)));
      }
      sliders.forEach(({ value, range }, i) => {
        const { input, output } = rows[i];
        setAttributes(input, { min: range.min, max: range.max, step: range.step, disabled: value === null || range.max <= range.min });
        if (value !== null) input.valueAsNumber = value;
        setText(output, value === null ? '–' : value.toLocaleString(pageWords().lesson.voice));
      });
    },
  };
}

function drawSlider(path: string, { move, finish }: SliderHand): { readonly path: string; readonly input: HTMLInputElement; readonly output: HTMLElement } {
  const input = el('input', { type: 'range', 'data-path': path });
  input.addEventListener('input', () => { move(path, input.valueAsNumber); });
  input.addEventListener('change', finish);
  return { path, input, output: el('output', { class: 'lesson-value' }) };
}
