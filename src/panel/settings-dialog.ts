import { pageLanguage, pageWords } from '../words/page-words.ts';
import type { Language } from '../words/words.ts';
import { createDialog } from './dialog.ts';
import { button, el } from './dom.ts';
import type { PageState, Settings } from './page-state.ts';
import { svg } from './svg.ts';

export interface SettingsDialog { render(state: PageState): void }

export interface SettingsHooks {
  readonly choose: (settings: Partial<Settings>) => void;
  /** Builds the page anew in another language; false where that would lose something, and nothing is changed. */
  readonly changeLanguage: (language: Language) => boolean;
}

/** Each in itself: a person who landed in a language she does not read finds her own. */
const LANGUAGES: readonly (readonly [Language, string])[] = [['en', 'English'], ['de', 'Deutsch']];

/** What a person chooses about the page itself, behind one button of the top bar. */
export function createSettingsDialog(bar: HTMLElement, hooks: SettingsHooks): SettingsDialog {
  const words = pageWords().page, say = words.settings, dialog = createDialog('settings-dialog', say.title);
  const languages = radios('language', say.language, LANGUAGES, (language) => {
    if (!hooks.changeLanguage(language)) languages.show(pageLanguage());
  });
  for (const [language, input] of languages.inputs) input.labels?.[0]?.setAttribute('lang', language);
  const units = radios('length-unit', words.bar.unit, (['cm', 'in'] as const).map((unit) => [unit, words.bar.units[unit]] as const), (lengthUnit) => { hooks.choose({ lengthUnit }); });
  const needles = radios('needle-numbers', say.needles, (['middle', 'left'] as const).map((way) => [way, say.needleNumbers[way]] as const), (needleNumbers) => { hooks.choose({ needleNumbers }); });
  const themes = radios('theme', say.theme, (['auto', 'light', 'dark'] as const).map((theme) => [theme, say.themes[theme]] as const), (theme) => { hooks.choose({ theme }); });
  dialog.body.append(languages.element, el('p', { class: 'settings-note' }, say.languageNote), units.element, needles.element, themes.element, el('p', { class: 'settings-note' }, say.motion));
  const opener = button('', { class: 'bar-button is-icon', 'aria-label': words.bar.settings, title: words.bar.settings, 'aria-haspopup': 'dialog' }, () => { dialog.open(); });
  opener.append(drawCog());
  bar.append(el('div', { class: 'bar-group' }, opener));
  return {
    render: ({ settings }) => {
      languages.show(pageLanguage());
      units.show(settings.lengthUnit);
      needles.show(settings.needleNumbers);
      themes.show(settings.theme);
    },
  };
}

/** A wheel with eight teeth. */
function drawCog(): SVGSVGElement {
  return svg('svg', { viewBox: '0 0 20 20', width: 18, height: 18, 'aria-hidden': 'true', fill: 'none', stroke: 'currentColor', 'stroke-width': 1.6, 'stroke-linecap': 'round' },
    svg('circle', { cx: 10, cy: 10, r: 5 }), svg('circle', { cx: 10, cy: 10, r: 1.6 }),
    svg('path', { d: 'M10 1.8v3M10 15.2v3M1.8 10h3M15.2 10h3M4.2 4.2l2.1 2.1M13.7 13.7l2.1 2.1M15.8 4.2l-2.1 2.1M6.3 13.7l-2.1 2.1' }));
}

interface Radios<T extends string> {
  readonly element: HTMLElement;
  readonly inputs: ReadonlyMap<T, HTMLInputElement>;
  show(value: T): void;
}

/** One of a few, in a box with its name. */
function radios<T extends string>(name: string, legend: string, choices: readonly (readonly [T, string])[], choose: (value: T) => void): Radios<T> {
  const inputs = new Map<T, HTMLInputElement>();
  const labels = choices.map(([value, words]) => {
    const input = el('input', { type: 'radio', name, value });
    input.addEventListener('change', () => { if (input.checked) choose(value); });
    inputs.set(value, input);
    return el('label', {}, input, words);
  });
  return {
    element: el('fieldset', { class: 'settings-choice' }, el('legend', {}, legend), el('div', { class: 'segments' }, ...labels)),
    inputs,
    show: (shown) => { for (const [value, input] of inputs) input.checked = value === shown; },
  };
}
