import type { StretchSummary } from '../measure/measure-stretch.ts';
import type { ClothLayer } from '../view/sock-view-types.ts';
import type { StretchStep } from '../view/stretch-scale.ts';
import { el, setAttributes, setText } from './dom.ts';
import type { PageState } from './page-state.ts';
import { formatPercent } from './units.ts';

export interface StretchCard { readonly element: HTMLElement; render(state: PageState): void }

const LAYERS: readonly (readonly [ClothLayer, string])[] = [
  ['yarn', 'Yarn'], ['stretch-width', 'Width stretch'], ['stretch-length', 'Length stretch'],
];

/** Words of a layer that shows a stretch: below, at and above the size at rest. */
interface LayerWords {
  readonly less: string;
  readonly more: string;
  readonly along: string;
  readonly of: (summary: StretchSummary) => { readonly median: number; readonly low: number; readonly high: number };
}

const WORDS: Readonly<Record<Exclude<ClothLayer, 'yarn'>, LayerWords>> = {
  'stretch-width': {
    less: 'narrower', more: 'wider', along: 'along the courses',
    of: (s) => ({ median: s.widthMedianPercent, low: s.width5Percent, high: s.width95Percent }),
  },
  'stretch-length': {
    less: 'shorter', more: 'longer', along: 'along the wales',
    of: (s) => ({ median: s.lengthMedianPercent, low: s.length5Percent, high: s.length95Percent }),
  },
};

/** The switch of what the cloth's colours tell, and the legend where they tell numbers. */
export function createStretchCard(host: HTMLElement, scale: readonly StretchStep[], choose: (layer: ClothLayer) => void): StretchCard {
  const inputs = LAYERS.map(([layer, name]) => {
    const input = el('input', { type: 'radio', name: 'layer', value: layer });
    input.addEventListener('change', () => { if (input.checked) choose(layer); });
    return { layer, input, label: el('label', {}, input, name) };
  });
  const layers = el('fieldset', { class: 'segments' }, el('legend', { class: 'visually-hidden' }, 'Colours of the sock'),
    ...inputs.map(({ label }) => label));
  const legend = createLegend(scale);
  const card = el('div', { class: 'stretch-card' }, legend.element, layers);
  host.append(card);
  return {
    element: card,
    render: ({ settings, posed }) => {
      for (const { layer, input } of inputs) input.checked = layer === settings.layer;
      card.classList.toggle('is-open', settings.layer !== 'yarn');
      legend.show(settings.layer === 'yarn' ? null : WORDS[settings.layer], posed?.stretch.summary ?? null);
    },
  };
}

interface Legend { readonly element: HTMLElement; show(words: LayerWords | null, summary: StretchSummary | null): void }

function createLegend(scale: readonly StretchStep[]): Legend {
  const less = el('span'), rest = el('span', {}, 'at rest'), more = el('span'), spread = el('p', { class: 'stretch-spread' });
  const bar = el('div', { class: 'stretch-bar' }, less, rest, more);
  bar.style.backgroundImage = `linear-gradient(to right, ${scale.map(({ colour }, step) => `${colour} ${placeInBar(step, scale.length)}`).join(', ')})`;
  const ticks = el('ol', { class: 'stretch-ticks', 'aria-hidden': 'true' }, ...scale.map(({ percent }, step) => {
    const tick = el('li', {}, tickWords(percent, step, scale.length));
    tick.style.left = placeInBar(step, scale.length);
    return tick;
  }));
  const picture = el('div', { role: 'img' }, bar, ticks);
  const element = el('div', { class: 'stretch-legend', role: 'group', 'aria-label': 'Legend', hidden: true }, picture, spread);
  return {
    element,
    show: (words, summary) => {
      element.hidden = words === null;
      if (words === null) return;
      setText(less, words.less);
      setText(more, words.more);
      setAttributes(picture, { 'aria-label': legendWords(scale, words) });
      setText(spread, spreadWords(words, summary));
    },
  };
}

/** Percent of the bar that its last colours go on beyond the scale's ends: they stand for all that lies there. */
const END = 7;

function placeInBar(step: number, steps: number): string {
  return `${END + ((100 - 2 * END) * step) / (steps - 1)}%`;
}

function tickWords(percent: number, step: number, steps: number): string {
  const words = percent === 0 ? '0 %' : formatPercent(percent);
  if (step === 0) return `≤ ${words}`;
  return step === steps - 1 ? `≥ ${words}` : words;
}

/** The legend for those who do not see it. */
function legendWords(scale: readonly StretchStep[], { less, more, along }: LayerWords): string {
  const lowest = formatPercent(scale[0]?.percent ?? 0), highest = formatPercent(scale.at(-1)?.percent ?? 0);
  return `Stretch ${along}, against the size at rest. Blue: ${less}, darkest at ${lowest} % and beyond. Pale grey: as at rest. Orange to brown: ${more}, darkest at ${highest} % and beyond.`;
}

function spreadWords({ of }: LayerWords, summary: StretchSummary | null): string {
  if (summary === null) return 'The cloth is not at rest yet';
  const { median, low, high } = of(summary);
  return `Nine tenths of the cloth: ${formatPercent(low)} to ${formatPercent(high)} %; median ${formatPercent(median)} %`;
}
