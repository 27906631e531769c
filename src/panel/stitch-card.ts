import type { PlannedYarn } from '../plan/plan-types.ts';
import type { StitchFacts, StitchStep } from '../sheet/read-stitch.ts';
import { pageWords } from '../words/page-words.ts';
import type { YarnPlace } from '../yarn/find-yarn-place.ts';
import { button, el, setAttributes, setText } from './dom.ts';
import { metreWords, ownWords, placeWords, refWords, titleWords } from './stitch-words.ts';
import { svg } from './svg.ts';
import type { LengthUnit } from './units.ts';

/** What the card tells of a stitch. */
export interface StitchView {
  readonly facts: StitchFacts;
  readonly round: { readonly round: number; readonly rounds: number } | null;
  readonly labelOf: (needle: number) => string;
  /** Another stitch of the same sock. */
  readonly factsOf: (loop: number) => StitchFacts;
  /** Steps that lead to a stitch. */
  readonly ways: ReadonlySet<StitchStep>;
  readonly yarn: PlannedYarn | null;
  /** `waiting` while it is being measured; null while no shape is known that the yarn could be measured in. */
  readonly metre: YarnPlace | 'waiting' | null;
  readonly lengthUnit: LengthUnit;
  /** Whether the picture shows the stitch, so that it can be shown close. */
  readonly isInPicture: boolean;
}

export interface StitchHooks {
  readonly pick: (loop: number) => void;
  readonly letGo: () => void;
  readonly step: (step: StitchStep) => void;
  readonly showClose: () => void;
  readonly goToPass: () => void;
  readonly showInChart: () => void;
}

export interface StitchCard {
  readonly element: HTMLElement;
  /** Shown in this place of the page; null hides it. */
  show(host: HTMLElement | null, view: StitchView | null): void;
  focus(): void;
}

const KEYS: Readonly<Partial<Record<string, StitchStep>>> = { ArrowLeft: 'yarn-back', ArrowRight: 'yarn-on', ArrowUp: 'up', ArrowDown: 'down' };
const ARROWS: Readonly<Record<StitchStep, string>> = { 'yarn-back': 'M10 3 4 8l6 5', 'yarn-on': 'M6 3l6 5-6 5', up: 'M3 10l5-6 5 6', down: 'M3 6l5 6 5-6' };
const STEPS: readonly StitchStep[] = ['yarn-back', 'up', 'down', 'yarn-on'];

/** The card of the picked stitch: where it is, what it hangs in and what hangs in it, its yarn; and the ways from it to others. */
export function createStitchCard(hooks: StitchHooks): StitchCard {
  const words = pageWords().stitch;
  const title = el('h2'), place = el('p', { class: 'stitch-place' }), facts = el('dl', { class: 'stitch-facts' });
  const heading = el('div', { class: 'stitch-head', tabindex: 0, role: 'group', 'aria-label': words.walk, 'aria-description': words.keys, title: words.keys }, title, place);
  const steps = STEPS.map((step) => ({ step, element: stepButton(step, hooks.step) }));
  const close = button(words.close, { class: 'stitch-button', title: words.closeTip }, hooks.showClose);
  const ways = el('div', { class: 'stitch-ways' }, close, button(words.toPass, { class: 'stitch-button', title: words.toPassTip }, hooks.goToPass), button(words.toChart, { class: 'stitch-button', title: words.toChartTip }, hooks.showInChart));
  const element = el('section', { class: 'stitch-card', 'aria-label': words.card, hidden: true },
    button('×', { class: 'stitch-close', 'aria-label': words.letGo, title: words.letGo }, hooks.letGo),
    heading, facts, el('div', { class: 'stitch-foot' }, el('div', { class: 'stitch-steps', role: 'group', 'aria-label': words.walk }, ...steps.map((one) => one.element)), ways));
  const told = el('p', { class: 'visually-hidden', 'aria-live': 'polite' });
  element.append(told);
  let drawn = '';
  heading.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.shiftKey) return;
    const step = KEYS[event.key];
    if (step !== undefined) hooks.step(step);
    else if (event.key === 'Enter') hooks.showClose();
    else return;
    event.preventDefault();
    event.stopPropagation();
  });
  return {
    element,
    show: (host, view) => {
      element.hidden = host === null || view === null;
      if (host === null || view === null) return;
      moveTo(host, element);
      setText(title, titleWords(view));
      setText(place, placeWords(view));
      setText(told, `${titleWords(view)}. ${placeWords(view)}`);
      // A link must stay while a finger is on it; one that is followed is drawn anew, and its focus goes where arrow keys lead on.
      const key = factsKey(view), isInFacts = facts.contains(document.activeElement);
      if (key !== drawn) drawFacts(facts, view, hooks.pick);
      if (key !== drawn && isInFacts) heading.focus();
      drawn = key;
      close.disabled = !view.isInPicture;
      for (const { step, element: arrow } of steps) setAttributes(arrow, { 'aria-disabled': !view.ways.has(step) ? 'true' : null });
    },
    focus: () => { heading.focus(); },
  };
}

/** An element that is moved loses the focus that lies in it. */
function moveTo(host: HTMLElement, element: HTMLElement): void {
  if (element.parentElement === host) return;
  const focused = element.contains(document.activeElement) && document.activeElement instanceof HTMLElement ? document.activeElement : null;
  host.append(element);
  focused?.focus();
}

function stepButton(step: StitchStep, take: (step: StitchStep) => void): HTMLElement {
  const name = pageWords().stitch.steps[step];
  const element = button('', { class: 'stitch-step', 'data-step': step, 'aria-label': name, title: name }, () => { take(step); });
  element.append(svg('svg', { viewBox: '0 0 16 16', width: 14, height: 14, 'aria-hidden': 'true' }, svg('path', { d: ARROWS[step], fill: 'none', stroke: 'currentColor', 'stroke-width': 2, 'stroke-linecap': 'round', 'stroke-linejoin': 'round' })));
  return element;
}

/** All that the rows of the card are made from, as text. */
function factsKey(view: StitchView): string {
  const { facts, yarn, metre, lengthUnit, factsOf } = view;
  const refs = [facts.host, ...facts.parents, ...facts.wrapsKnitted, ...facts.wraps, facts.child].map((loop) => (loop < 0 ? '' : refWords(factsOf(loop), view)));
  return JSON.stringify([facts, refs, yarn, metre, lengthUnit]);
}

/** Rows of the card; those that say nothing of this stitch are left out. */
function drawFacts(list: HTMLElement, view: StitchView, pick: (loop: number) => void): void {
  const { facts, yarn, metre, lengthUnit, factsOf } = view, words = pageWords().stitch, { rows } = words;
  const links = (loops: readonly number[], none: string, after = ''): (Node | string)[] => {
    if (loops.length === 0) return [none];
    const parts = loops.flatMap((loop, i) => [i === 0 ? '' : ', ', button(refWords(factsOf(loop), view), { class: 'stitch-link' }, () => { pick(loop); })]);
    return after === '' ? parts : [...parts, ` ${after}`];
  };
  const waited = facts.child < 0 || facts.kind === 'wrap' || facts.kind === 'cornerWrap' ? 0 : factsOf(facts.child).pass - facts.pass - 1;
  const isWaiting = waited > 0 && facts.wraps.length > 0;
  const drawn: readonly (readonly [string, readonly (Node | string)[]])[] = [
    ...(facts.host >= 0 ? [[rows.host, links([facts.host], '')] as const]
      : [[facts.kind === 'graft' ? rows.joins : rows.from, links([...facts.parents, ...facts.wrapsKnitted], words.nothingBelow)] as const]),
    ...(facts.wraps.length === 0 ? [] : [[rows.wraps, links(facts.wraps, '')] as const]),
    [facts.host >= 0 ? rows.knitted : rows.into, links(facts.child < 0 ? [] : [facts.child], words.nothingAbove, isWaiting ? words.waits(waited) : '')],
    [rows.yarn, yarn === null ? [] : [swatch(yarn), el('span', { dir: 'auto' }, yarn.name), metre === null || metre === 'waiting' ? '' : `, ${ownWords(metre, lengthUnit)}`]],
    [rows.metre, [metre === null ? words.metreMissing : metre === 'waiting' ? words.measuring : metreWords(metre)]],
  ];
  list.replaceChildren(...drawn.flatMap(([name, parts]) => [el('dt', {}, name), el('dd', {}, ...parts)]));
}

function swatch({ colour }: PlannedYarn): HTMLElement {
  const element = el('i', { class: 'stitch-swatch', 'aria-hidden': 'true' });
  element.style.background = colour;
  return element;
}
