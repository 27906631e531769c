import { BED, NEEDLE } from '../machine/codes.ts';
import type { Bed } from '../plan/sock-file.ts';
import type { Side } from '../plan/step.ts';
import { pageWords } from '../words/page-words.ts';
import { button, el, setAttributes, setText } from './dom.ts';
import { createStandSheet, standChoice, standNumber } from './stand-fields.ts';

export interface MistakeEntry { readonly states: Uint8Array; readonly carriage: Side | null; readonly counter: number | null }

/** A pass, or needles set for one, that what was entered may be. */
export interface MistakeAnswer {
  readonly words: readonly string[];
  readonly take: { readonly label: string; readonly set: () => void } | null;
}

export interface MistakeHooks {
  /** The beds as the place says they are, and the pass that was done last. */
  readonly present: () => { readonly states: Uint8Array; readonly needlesPerBed: number; readonly pass: number; readonly label: (needle: number) => string };
  readonly find: (entry: MistakeEntry) => readonly MistakeAnswer[];
  readonly nextState: (state: number) => number;
  readonly read: (text: string) => { readonly states: Uint8Array } | { readonly problems: readonly string[] };
}

const nameOf = (state: number): 'empty' | 'working' | 'held' | 'unseen' => (state === NEEDLE.working ? 'working' : state === NEEDLE.held ? 'held' : state === NEEDLE.empty ? 'empty' : 'unseen');

/** Asks for the needles on her bed, and tells which pass they agree with. */
export function createStandMistake(hooks: MistakeHooks): { open(): void } {
  const { mistake: told, typed } = pageWords().stand, dialog = createStandSheet('stand-mistake', told.title);
  let states = new Uint8Array(), carriage: Side | null = null;
  const about = el('p'), beds = el('div', { class: 'stand-pick' }), answers = el('ul', { class: 'stand-list stand-answers', 'aria-live': 'polite' }), wrong = el('p', { class: 'stand-wrong', role: 'alert' });
  const input = el('input', { type: 'text', 'aria-label': told.typed, autocomplete: 'off', spellcheck: 'false' });
  const side = standChoice<'none' | Side>(told.carriage, [['none', told.notSaid], ['left', told.side.left], ['right', told.side.right]], (chosen) => {
    carriage = chosen === 'none' ? null : chosen;
    answer();
  });
  const counter = standNumber(told.counter);
  counter.input.addEventListener('input', () => { answer(); });
  /** What is judged is what is drawn: nothing, while what is typed stands there and is not understood. */
  const answer = (): void => {
    if (wrong.textContent !== '') { answers.replaceChildren(); return; }
    answers.replaceChildren(...hooks.find({ states, carriage, counter: counter.value() }).map(({ words, take }) => el('li', {},
      el('div', {}, ...words.map((word) => el('p', { dir: 'auto' }, word))),
      take === null ? null : button(take.label, { class: 'stand-button' }, () => {
        take.set();
        dialog.close();
      }))));
  };
  const draw = (): void => {
    drawPick(beds, hooks.present(), states, (i) => {
      states[i] = hooks.nextState(states[i]);
      setText(wrong, '');
      draw();
      answer();
    });
  };
  const asPlace = (): void => {
    states = hooks.present().states.slice();
    setText(wrong, '');
    draw();
    answer();
  };
  const form = el('form', { class: 'stand-typed' }, el('label', { class: 'stand-field' }, el('span', {}, told.typed), input), el('button', { class: 'stand-button', type: 'submit' }, told.read), button(told.asPlace, { class: 'stand-button' }, asPlace));
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    const read = hooks.read(input.value);
    setText(wrong, 'problems' in read ? read.problems.join(' ') : '');
    if (!('problems' in read)) states = read.states.slice();
    draw();
    answer();
  });
  dialog.body.append(about, beds, el('p', { class: 'stand-soft' }, told.example(typed.example)), form, wrong, el('div', { class: 'stand-row' }, side.element, counter.element), answers, el('p', { class: 'stand-soft' }, told.care));
  return {
    open: () => {
      setText(about, told.about(hooks.present().pass));
      carriage = null;
      side.set('none');
      counter.input.value = '';
      asPlace();
      dialog.open();
    },
  };
}

interface Pick { readonly states: Uint8Array; readonly needlesPerBed: number; readonly label: (needle: number) => string }

/** Both beds as columns to tap: each is as wide as a finger needs, so a wide bed scrolls. */
function drawPick(host: HTMLElement, { states: present, needlesPerBed, label }: Pick, states: Uint8Array, tap: (place: number) => void): void {
  const { mistake: told, face } = pageWords().stand, used = [...states.keys()].filter((i) => present[i] !== NEEDLE.empty || states[i] === NEEDLE.working || states[i] === NEEDLE.held).map((i) => i % needlesPerBed);
  const first = Math.max(0, Math.min(...used) - 2), last = Math.min(needlesPerBed - 1, Math.max(...used) + 2), { scrollLeft } = host, focused = document.activeElement?.getAttribute('data-place');
  const row = (bed: Bed): HTMLElement => {
    const name = face[bed === 'back' ? 'backBed' : 'frontBed'];
    const line = el('div', { class: `pick-bed is-${bed}`, role: 'group', 'aria-label': told.bedLabel(name) });
    for (let needle = first; needle <= last; needle++) {
      const place = BED[bed] * needlesPerBed + needle, state = nameOf(states[place]), words = label(needle + 1);
      const pick = button('', { class: `pick-needle is-${state}`, 'data-place': place, 'aria-label': `${name} ${words}: ${told.states[state]}`, tabindex: needle === first ? 0 : -1 }, () => { tap(place); });
      pick.append(el('i', { 'aria-hidden': 'true' }), el('span', { 'aria-hidden': 'true' }, words));
      line.append(pick);
    }
    line.addEventListener('keydown', (event) => { moveAlong(line, event); });
    return line;
  };
  const name = (text: string): HTMLElement => el('p', { class: 'pick-name', 'aria-hidden': 'true' }, text);
  host.replaceChildren(name(face.backBed), row('back'), row('front'), name(face.frontBed));
  host.scrollLeft = scrollLeft;
  const again = focused == null ? null : host.querySelector<HTMLElement>(`[data-place="${focused}"]`);
  if (again !== null) {
    takeStop(again);
    again.focus();
  }
}

/** The one needle of its bed on which Tab stops. */
function takeStop(needle: HTMLElement): void {
  for (const other of needle.parentElement?.children ?? []) setAttributes(other, { tabindex: other === needle ? 0 : -1 });
}

/** Arrow keys go from needle to needle: Tab has one stop a bed. */
function moveAlong(line: HTMLElement, event: KeyboardEvent): void {
  const way = event.key === 'ArrowRight' ? 'nextElementSibling' : event.key === 'ArrowLeft' ? 'previousElementSibling' : null;
  if (way === null) return;
  event.preventDefault();
  const next = document.activeElement?.[way];
  if (!(next instanceof HTMLElement) || next.parentElement !== line) return;
  takeStop(next);
  next.focus();
}
