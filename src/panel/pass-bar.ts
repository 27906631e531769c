import type { PassRecord } from '../machine/trace.ts';
import type { KnittedSock } from '../pipeline/result.ts';
import { pageLanguage, pageWords } from '../words/page-words.ts';
import { button, el, setAttributes, setText } from './dom.ts';
import type { PageState } from './page-state.ts';
import { drawPassRibbon } from './pass-ribbon.ts';

export interface PassBar { render(state: PageState): void }

export interface PassHooks {
  /** After which pass the sock is to hang on the beds. */
  readonly choosePass: (pass: number) => void;
  readonly usualPass: (sock: KnittedSock) => number;
}

/** On the beds: a slider through all passes, over the yarns of those passes, with the pass and its part of the sock in words. */
export function createPassBar(host: HTMLElement, hooks: PassHooks): PassBar {
  const say = pageWords().stage.pass, slider = el('input', { type: 'range', class: 'pass-slider', min: 0, step: 1, 'aria-label': say.slider });
  const ribbon = el('div', { class: 'pass-ribbon', 'aria-hidden': 'true' });
  const words = el('output', { class: 'pass-words', 'aria-hidden': 'true' });
  const step = (by: number): void => {
    const pass = Math.min(Number(slider.max), Math.max(0, slider.valueAsNumber + by));
    if (pass !== slider.valueAsNumber) hooks.choosePass(pass);
  };
  slider.addEventListener('input', () => { hooks.choosePass(slider.valueAsNumber); });
  const bar = el('div', { class: 'pass-bar', role: 'group', 'aria-label': say.label, hidden: true },
    button('‹', { class: 'view-button is-sign', 'aria-label': say.back }, () => { step(-1); }),
    el('div', { class: 'pass-track' }, ribbon, slider),
    button('›', { class: 'view-button is-sign', 'aria-label': say.on }, () => { step(1); }),
    words);
  host.append(bar);
  let drawn: KnittedSock | null = null;
  return {
    render: ({ settings, knitted, bedsPass }) => {
      bar.hidden = settings.pose !== 'beds' || knitted === null;
      if (bar.hidden || knitted === null) return;
      if (knitted !== drawn) {
        drawn = knitted;
        ribbon.replaceChildren(...drawPassRibbon(knitted.trace, knitted.plan.yarns));
      }
      const { passes } = knitted.trace, last = passes.length - 1, pass = Math.min(last, bedsPass ?? hooks.usualPass(knitted));
      const text = passWords(passes[pass], last);
      setAttributes(slider, { max: last, 'aria-valuetext': text });
      slider.valueAsNumber = pass;
      setText(words, text);
    },
  };
}

/** `pass 142 of 240, heel turning out`; before the first: `cast-on, before the first of 240 passes`. */
export function passWords(record: Pick<PassRecord, 'pass' | 'section'> | undefined, last: number): string {
  const { stage: { pass: say }, passes: { sections } } = pageWords();
  if (record === undefined || record.pass === 0) return say.castOn(last);
  return say.at(record.pass, last, inSentence(sections[record.section]).replace(',', ''));
}

/** A heading as part of a sentence: in German its nouns keep their capitals. */
function inSentence(heading: string): string {
  return pageLanguage() === 'de' ? heading : heading.toLowerCase();
}
