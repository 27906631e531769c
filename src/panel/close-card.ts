import type { FormSide } from '../view/form-view.ts';
import { pageWords } from '../words/page-words.ts';
import { button, el, setAttributes, setText } from './dom.ts';
import { svg } from './svg.ts';

export interface CloseHooks {
  readonly close: () => void;
  /** Back from the large close-up, else closes. */
  readonly escape: () => void;
  /** For a projector: the close-up alone over the whole page, and back. */
  readonly enlarge: () => void;
  /** To a place in the pass, 0..1. */
  readonly goTo: (t: number) => void;
  readonly play: () => void;
  readonly step: (way: 1 | -1) => void;
  readonly nextNeedle: () => void;
  /** Other needles along the bed. */
  readonly shift: (way: 1 | -1) => void;
  readonly lookFrom: (side: FormSide) => void;
  /** Radians. */
  readonly turnBy: (azimuth: number, height: number) => void;
}

export interface CloseShow {
  readonly title: string;
  readonly t: number;
  /** What happens at this moment. */
  readonly told: string;
  readonly isPlaying: boolean;
  readonly canShift: { readonly left: boolean; readonly right: boolean };
  /** The needles' names, and which of them is followed. */
  readonly labels: readonly string[];
  readonly followed: number;
  /** In place of the picture; empty where it is there. */
  readonly instead: string;
  /** There is no pass to be seen. */
  readonly isIdle: boolean;
  readonly isLarge: boolean;
}

export interface CloseCard {
  readonly element: HTMLElement;
  /** A canvas that no picture was drawn on yet: a context that was let go is gone. */
  renewCanvas(): HTMLCanvasElement;
  render(show: CloseShow): void;
  placeLabels(places: readonly (readonly [number, number])[]): void;
  focus(): void;
}

const SIDES: readonly FormSide[] = ['knitter', 'along', 'behind'];
const ICON = {
  back: 'M11 3 5 8l6 5z', play: 'M4 2.500v11L13.500 8z', pause: 'M4.500 3h2v10h-2zM9.500 3h2v10h-2z', step: 'M5 3l6 5-6 5z', nextNeedle: 'M3 3l6 5-6 5zM11 3h2v10h-2z',
  needlesLeft: 'M2 8l5-4v3h7v2H7v3z', needlesRight: 'M14 8l-5-4v3H2v2h7v3z', close: 'M3 4l1-1 4 4 4-4 1 1-4 4 4 4-1 1-4-4-4 4-1-1 4-4z',
  large: 'M9 2h5v5h-1.600V4.700L9.700 7.400 8.600 6.300l2.700-2.700H9zM7 14H2V9h1.600v2.300l2.700-2.700 1.100 1.100-2.700 2.700H7z',
} as const;
/** Steps of the slider over a whole pass, and radians a key turns the picture by. */
const SLIDER_STEPS = 1000, TURN = Math.PI / 18;

/** A few needles from near, with what happens to them in words. */
export function createCloseCard(hooks: CloseHooks): CloseCard {
  const words = pageWords().close, title = el('h2', { class: 'close-title' });
  let canvas = createCanvas(hooks);
  const labels = el('div', { class: 'close-labels', 'aria-hidden': 'true' }), instead = el('p', { class: 'close-instead' }), told = el('p', { class: 'close-told', role: 'status' });
  const slider = el('input', { type: 'range', class: 'close-slider', min: 0, max: SLIDER_STEPS, step: 1, 'aria-label': words.slider });
  slider.addEventListener('input', () => { hooks.goTo(slider.valueAsNumber / SLIDER_STEPS); });
  const play = iconButton('play', words.play, hooks.play), left = iconButton('needlesLeft', words.needlesLeft, () => { hooks.shift(-1); }), right = iconButton('needlesRight', words.needlesRight, () => { hooks.shift(1); });
  const buttons = el('div', { class: 'close-buttons', role: 'group', 'aria-label': words.slider },
    iconButton('back', words.back, () => { hooks.step(-1); }), play, iconButton('step', words.step, () => { hooks.step(1); }), iconButton('nextNeedle', words.nextNeedle, hooks.nextNeedle));
  const large = iconButton('large', words.large.name, hooks.enlarge);
  const picture = el('div', { class: 'close-picture' }, canvas, labels, instead);
  const row = el('div', { class: 'close-row' }, buttons, slider, el('div', { class: 'close-shift' }, left, right), sideChoice(hooks.lookFrom));
  const element = el('section', { class: 'card close-card', tabindex: -1, 'aria-label': words.name, hidden: true },
    el('div', { class: 'close-head' }, title, large, iconButton('close', words.close, hooks.close)), picture, told, row, el('p', { class: 'close-pale' }, words.pale));
  listenToKeys(element, hooks);
  return {
    element,
    renewCanvas: () => {
      const fresh = createCanvas(hooks);
      canvas.replaceWith(fresh);
      canvas = fresh;
      return canvas;
    },
    render: (show) => {
      setText(title, show.title);
      setText(told, show.told);
      setText(instead, show.instead);
      setAttributes(large, { 'aria-pressed': String(show.isLarge), title: show.isLarge ? words.large.isOn : words.large.isOff });
      row.hidden = show.isIdle;
      for (const part of [canvas, labels]) part.hidden = show.instead !== '';
      slider.valueAsNumber = Math.round(show.t * SLIDER_STEPS);
      setAttributes(slider, { 'aria-valuetext': `${words.percent(Math.round(100 * show.t))}: ${show.told}` });
      if (play.dataset['shows'] !== (play.dataset['shows'] = show.isPlaying ? 'pause' : 'play')) play.replaceChildren(icon(ICON[show.isPlaying ? 'pause' : 'play']));
      const does = show.isPlaying ? words.pause : words.play;
      setAttributes(play, { 'aria-label': does, title: does });
      setAttributes(left, { 'aria-disabled': show.canShift.left ? null : 'true' });
      setAttributes(right, { 'aria-disabled': show.canShift.right ? null : 'true' });
      while (labels.childElementCount > show.labels.length) labels.lastElementChild?.remove();
      while (labels.childElementCount < show.labels.length) labels.append(el('span'));
      show.labels.forEach((label, i) => {
        setText(labels.children[i], label);
        labels.children[i].classList.toggle('is-followed', i === show.followed);
      });
    },
    placeLabels: (places) => {
      places.forEach(([x, y], i) => { (labels.children[i] as HTMLElement | undefined)?.style.setProperty('transform', `translate(-50%, 0) translate(${x.toFixed(1)}px, ${y.toFixed(1)}px)`); });
    },
    focus: () => { play.focus(); },
  };
}

function icon(path: string): SVGElement {
  return svg('svg', { viewBox: '0 0 16 16', width: 16, height: 16, 'aria-hidden': 'true' }, svg('path', { d: path, fill: 'currentColor' }));
}

function iconButton(name: keyof typeof ICON, label: string, onClick: () => void): HTMLButtonElement {
  const element = button('', { class: 'way-button close-button', 'data-does': name, 'aria-label': label, title: label }, onClick);
  element.append(icon(ICON[name]));
  return element;
}

function sideChoice(lookFrom: (side: FormSide) => void): HTMLElement {
  const { from, sides } = pageWords().close, select = el('select', {}, ...SIDES.map((side) => el('option', { value: side }, sides[side])));
  select.addEventListener('change', () => { lookFrom(SIDES.find((side) => side === select.value) ?? 'knitter'); });
  return el('label', { class: 'way-speed' }, el('span', {}, from), select);
}

/** A hand on the picture turns it, and so do arrow keys. */
function createCanvas({ turnBy }: CloseHooks): HTMLCanvasElement {
  const canvas = el('canvas', { class: 'close-canvas', tabindex: 0, role: 'img', 'aria-label': pageWords().close.picture });
  let from: readonly [number, number] | null = null;
  canvas.addEventListener('pointerdown', (event) => {
    from = [event.clientX, event.clientY];
    canvas.setPointerCapture(event.pointerId);
  });
  canvas.addEventListener('pointermove', ({ clientX, clientY }) => {
    if (from === null) return;
    turnBy(-(clientX - from[0]) * 0.008, (clientY - from[1]) * 0.008);
    from = [clientX, clientY];
  });
  for (const end of ['pointerup', 'pointercancel'] as const) canvas.addEventListener(end, () => { from = null; });
  canvas.addEventListener('keydown', (event) => {
    const turns: Readonly<Record<string, readonly [number, number]>> = { ArrowLeft: [-TURN, 0], ArrowRight: [TURN, 0], ArrowUp: [0, TURN], ArrowDown: [0, -TURN] };
    if (event.ctrlKey || event.metaKey || event.altKey || !(event.key in turns)) return;
    turnBy(...turns[event.key]);
    event.preventDefault();
  });
  return canvas;
}

/** Keys of a clicker. */
const CLICKS: Readonly<Partial<Record<string, 1 | -1>>> = { PageDown: 1, PageUp: -1 };
const OWN_KEYS: readonly string[] = ['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown', ' ', 'Home', 'End', 'PageUp', 'PageDown'];

/** Keys of the card stay in it: elsewhere in the room they go from pass to pass. */
function listenToKeys(card: HTMLElement, { escape, step }: CloseHooks): void {
  card.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const way = event.target instanceof HTMLInputElement || event.target instanceof HTMLSelectElement ? undefined : CLICKS[event.key];
    if (way !== undefined) {
      event.preventDefault();
      step(way);
    }
    if (event.key === 'Escape') {
      event.preventDefault();
      escape();
    } else if (!OWN_KEYS.includes(event.key)) return;
    event.stopPropagation();
  });
}
