import type { Trace } from '../machine/trace.ts';
import type { PlannedYarn } from '../plan/plan-types.ts';
import { pageWords } from '../words/page-words.ts';
import { button, el, setAttributes } from './dom.ts';
import { createPassField } from './pass-field.ts';
import { markAt, type SectionMark } from './section-marks.ts';
import { drawSectionRibbon } from './section-ribbon.ts';
import { svg } from './svg.ts';

/** Passes a second. */
export const SPEEDS = [1, 2, 5, 10, 25] as const;

export interface WayHooks {
  readonly goTo: (stop: number) => void;
  readonly stepBy: (stops: number) => void;
  readonly play: (direction: 1 | -1) => void;
  readonly setSpeed: (passesPerSecond: number) => void;
}

export interface WayView {
  readonly stop: number;
  /** The closing. */
  readonly last: number;
  /** Which way it plays; 0 while it stands. */
  readonly playing: 1 | 0 | -1;
  readonly speed: number;
  /** Title of the stop. */
  readonly title: string;
  readonly marks: readonly SectionMark[];
  readonly trace: Trace;
  readonly yarns: readonly PlannedYarn[];
  /** Pass of the picked stitch, then those of what belongs to it; none where none is picked. */
  readonly picked: readonly number[];
}

export interface WayBar { render(view: WayView): void }

const ICON = {
  start: 'M3 3v10M13 3 6 8l7 5z', back: 'M11 3 5 8l6 5z', playBack: 'M13 3 7 8l6 5zM7 3 1 8l6 5z', play: 'M4 2.500v11L13.500 8z',
  pause: 'M4.500 3h2v10h-2zM9.500 3h2v10h-2z', on: 'M5 3l6 5-6 5z', end: 'M13 3v10M3 3l7 5-7 5z',
} as const;

/** Buttons to step and play, a scrubber over all passes, and the parts of the work to jump to. */
export function createWayBar(host: HTMLElement, hooks: WayHooks): WayBar {
  const words = pageWords().timeline, field = createPassField(hooks.goTo);
  const scrubber = el('input', { type: 'range', class: 'way-slider', min: 0, step: 1, 'aria-label': words.scrubber });
  scrubber.addEventListener('input', () => { hooks.goTo(scrubber.valueAsNumber); });
  const ribbon = el('div', { class: 'way-ribbon', 'aria-hidden': 'true' }), pins = el('div', { class: 'way-pins', 'aria-hidden': 'true' }), parts = el('ol', { class: 'way-parts', 'aria-label': words.partsLabel });
  const buttons = createButtons(hooks), speed = createSpeed(hooks.setSpeed);
  host.append(
    el('div', { class: 'way-row' }, el('div', { class: 'way-buttons', role: 'group', 'aria-label': words.way }, ...buttons.elements), speed.element, ...field.elements),
    el('div', { class: 'way-track' }, ribbon, pins, scrubber), parts, el('p', { class: 'way-keys' }, words.keys));
  let drawn: readonly SectionMark[] | null = null, chips: readonly HTMLElement[] = [];
  return {
    render: (view) => {
      const { stop, last, marks } = view;
      if (marks !== drawn) {
        drawn = marks;
        ribbon.replaceChildren(...drawSectionRibbon(marks, view.trace, view.yarns));
        chips = marks.map((mark) => partButton(mark, hooks.goTo));
        parts.replaceChildren(...chips.map((chip) => el('li', {}, chip)));
      }
      const here = markAt(marks, stop);
      chips.forEach((chip, i) => { setAttributes(chip, { 'aria-current': marks[i] === here ? 'step' : null }); });
      setAttributes(scrubber, { max: last, 'aria-valuetext': view.title });
      scrubber.valueAsNumber = stop;
      drawPins(pins, view);
      buttons.render(view);
      speed.render(view.speed);
      field.setLast(last - 1);
    },
  };
}

/** Where along the way the picked stitch was knitted, and what belongs to it. */
function drawPins(host: HTMLElement, { picked, last }: WayView): void {
  const pins = [...new Set(picked)].map((pass, i) => {
    const pin = el('i', { class: i === 0 ? 'way-pin is-picked' : 'way-pin' });
    pin.style.left = `${(100 * pass) / Math.max(1, last)}%`;
    return pin;
  });
  host.replaceChildren(...pins);
}

/** `Heel in 57–78`; the closing is no pass, and has no number. */
function partButton({ part, stop, end }: SectionMark, goTo: (stop: number) => void): HTMLElement {
  const { parts, partFrom } = pageWords().timeline;
  const chip = button('', { class: 'way-part', 'data-stop': stop, title: part === 'closing' ? parts[part] : partFrom(parts[part], stop, end) }, () => { goTo(stop); });
  chip.append(parts[part]);
  if (part !== 'closing') chip.append(' ', el('small', {}, stop === end ? String(stop) : `${stop}–${end}`));
  return chip;
}

function createButtons(hooks: WayHooks): { readonly elements: readonly HTMLElement[]; render(view: WayView): void } {
  const words = pageWords().timeline;
  const make = (name: keyof typeof ICON & keyof typeof words, onClick: () => void): HTMLButtonElement => {
    const element = button('', { class: 'way-button', 'data-way': name, 'aria-label': words[name], title: words[name] }, onClick);
    element.append(icon(ICON[name]));
    return element;
  };
  const start = make('start', () => { hooks.goTo(0); }), back = make('back', () => { hooks.stepBy(-1); }), playBack = make('playBack', () => { hooks.play(-1); });
  const play = make('play', () => { hooks.play(1); }), on = make('on', () => { hooks.stepBy(1); }), end = make('end', () => { hooks.goTo(Infinity); });
  return {
    elements: [start, back, playBack, play, on, end],
    render: ({ stop, last, playing }) => {
      for (const [element, name, way] of [[playBack, 'playBack', -1], [play, 'play', 1]] as const) {
        const shown = playing === way ? 'pause' : name;
        if (element.dataset['shows'] === shown) continue;
        element.dataset['shows'] = shown;
        element.replaceChildren(icon(ICON[shown]));
        setAttributes(element, { 'aria-label': words[shown], title: words[shown] });
      }
      // A focused button keeps its focus: it only says that it leads nowhere.
      for (const element of [start, back]) setAttributes(element, { 'aria-disabled': stop === 0 ? 'true' : null });
      for (const element of [on, end]) setAttributes(element, { 'aria-disabled': stop === last ? 'true' : null });
    },
  };
}

function icon(path: string): SVGElement {
  return svg('svg', { viewBox: '0 0 16 16', width: 16, height: 16, 'aria-hidden': 'true' }, svg('path', { d: path, fill: 'currentColor', stroke: 'currentColor', 'stroke-width': 1.2, 'stroke-linejoin': 'round' }));
}

function createSpeed(setSpeed: (passesPerSecond: number) => void): { readonly element: HTMLElement; render(speed: number): void } {
  const words = pageWords().timeline;
  const select = el('select', {}, ...SPEEDS.map((speed) => el('option', { value: speed }, words.speedOf(speed))));
  select.addEventListener('change', () => { setSpeed(Number(select.value)); });
  return { element: el('label', { class: 'way-speed' }, el('span', {}, words.speed), select), render: (speed) => { select.value = String(speed); } };
}

