import type { ColourScale } from '../view/colour-scale.ts';
import type { ClothLayer, FootLook } from '../view/sock-view-types.ts';
import { layerChoices, shownLayer } from './cloth-layers.ts';
import { pageWords } from '../words/page-words.ts';
import { el, setAttributes, setText } from './dom.ts';
import { legendWords, spreadWords, tickWords, unitWords } from './map-words.ts';
import type { LookBar } from './look-bar.ts';
import type { MapLayer } from './map-words.ts';
import type { PageState } from './page-state.ts';
import type { LengthUnit } from './units.ts';

export interface MapCard { readonly element: HTMLElement; render(state: PageState): void }

export interface MapHooks {
  /** The scale of a layer, for a sock of so many passes. */
  readonly scaleOf: (layer: MapLayer, lastPass: number) => ColourScale;
  /** Where a value lies on a scale: steps from its first one. */
  readonly placeOf: (scale: ColourScale, value: number) => number;
  readonly chooseLayer: (layer: ClothLayer) => void;
  readonly chooseFootLook: (look: FootLook) => void;
}

const FOOT_LOOKS: readonly FootLook[] = ['inside', 'glass', 'hidden'];

/** The switch of what the cloth's colours tell, and the legend where they tell numbers; beside a worn sock, how its foot is seen; and the close look. */
export function createMapCard(host: HTMLElement, hooks: MapHooks, look: LookBar): MapCard {
  const say = pageWords().stage;
  const layers = choiceBox<ClothLayer>(say.colours, hooks.chooseLayer), feet = choiceBox<FootLook>(say.foot, hooks.chooseFootLook);
  feet.fill(FOOT_LOOKS.map((value) => ({ value, name: say.footLooks[value], isOff: false })));
  const legend = createLegend(hooks);
  const card = el('div', { class: 'map-card' }, legend.element, look.element, el('div', { class: 'map-switch' }, feet.element, layers.element, look.toggle));
  host.append(card);
  return {
    element: card,
    render: (state) => {
      const layer = shownLayer(state);
      layers.fill(layerChoices(state).map(({ layer: value, name, why }) => ({ value, name: why === null ? name : say.layerOff(name, why), isOff: why !== null })));
      layers.set(layer);
      feet.set(state.settings.footLook);
      feet.element.hidden = state.settings.pose !== 'worn';
      card.classList.toggle('is-open', layer !== 'yarn');
      legend.show(layer === 'yarn' ? null : layer, state);
      look.render(state);
    },
  };
}

interface Choice<T extends string> { readonly value: T; readonly name: string; readonly isOff: boolean }
interface ChoiceBox<T extends string> { readonly element: HTMLElement; fill(choices: readonly Choice<T>[]): void; set(value: T): void }

function choiceBox<T extends string>(name: string, choose: (value: T) => void): ChoiceBox<T> {
  const select = el('select');
  let shown: readonly Choice<T>[] = [];
  select.addEventListener('change', () => {
    const chosen = shown.find(({ value }) => value === select.value);
    if (chosen !== undefined) choose(chosen.value);
  });
  return {
    element: el('label', { class: 'map-choice' }, el('span', {}, name), select),
    fill: (choices) => {
      if (select.options.length !== choices.length) select.replaceChildren(...choices.map(({ value }) => el('option', { value })));
      shown = choices;
      choices.forEach(({ name: words, isOff }, i) => {
        const option = select.options[i];
        if (option === undefined) return;
        setText(option, words);
        option.disabled = isOff;
      });
    },
    set: (value) => { if (select.value !== value) select.value = value; },
  };
}

interface Legend { readonly element: HTMLElement; show(layer: MapLayer | null, state: PageState): void }

function createLegend({ scaleOf, placeOf }: MapHooks): Legend {
  const title = el('p', { class: 'map-title' }), less = el('span'), rest = el('span'), more = el('span'), spread = el('p', { class: 'map-spread' });
  const bar = el('div', { class: 'map-bar' }, less, rest, more);
  const marks = el('ol', { class: 'map-marks', 'aria-hidden': 'true' }), ticks = el('ol', { class: 'map-ticks', 'aria-hidden': 'true' });
  const picture = el('div', { role: 'img' }, marks, bar, ticks);
  const element = el('div', { class: 'map-legend', role: 'group', 'aria-label': pageWords().stage.legend, hidden: true }, title, picture, spread);
  let drawn: { readonly layer: MapLayer; readonly unit: LengthUnit; readonly lastPass: number } | null = null;
  const draw = (layer: MapLayer, unit: LengthUnit, lastPass: number): void => {
    const scale = scaleOf(layer, lastPass), { maps, scaleMarks } = pageWords().stage, words = maps[layer], { steps } = scale, last = steps.length - 1;
    const placed = (at: number, text: string): HTMLElement => {
      const item = el('li', {}, text);
      item.style.left = placeInBar(at, steps.length);
      return item;
    };
    const unitName = unitWords(scale.unit, unit);
    setText(title, unitName === '' ? words.title : `${words.title}, ${unitName}`);
    setText(less, words.less);
    setText(rest, words.middle);
    setText(more, words.more);
    bar.classList.toggle('is-rising', words.middle === '');
    bar.style.backgroundImage = `linear-gradient(to right, ${scale.unit === 'bed' ? halves(scale) : steps.map(({ colour }, step) => `${colour} ${placeInBar(step, steps.length)}`).join(', ')})`;
    ticks.hidden = scale.unit === 'bed';
    ticks.replaceChildren(...steps.map(({ value }, step) => placed(step, tickWords(value, scale.unit, unit, { isLowest: step === 0 && value < 0, isHighest: step === last }))));
    marks.replaceChildren(...(scale.marks ?? []).map(({ value, words: text }) => placed(placeOf(scale, value), text === 'firm' || text === 'medical' ? scaleMarks[text] : text)));
    marks.hidden = scale.marks === undefined;
    setAttributes(picture, { 'aria-label': legendWords(scale, words, unit) });
  };
  return {
    element,
    show: (layer, state) => {
      element.hidden = layer === null;
      if (layer === null) return;
      const unit = state.settings.lengthUnit, lastPass = (state.knitted?.trace.passes.length ?? 1) - 1;
      if (drawn?.layer !== layer || drawn.unit !== unit || drawn.lastPass !== lastPass) draw(layer, unit, lastPass);
      drawn = { layer, unit, lastPass };
      setText(spread, spreadWords(layer, state));
    },
  };
}

/** One or the other, and nothing between them. */
function halves({ steps }: ColourScale): string {
  return steps.map(({ colour }, step) => `${colour} ${(100 * step) / steps.length}% ${(100 * (step + 1)) / steps.length}%`).join(', ');
}

/** Percent of the bar that its last colours go on beyond the scale's ends: they stand for all that lies there. */
const END = 7;

function placeInBar(step: number, steps: number): string {
  return `${END + ((100 - 2 * END) * step) / (steps - 1)}%`;
}
