import { pageWords } from '../words/page-words.ts';
import { button, el, setAttributes, setText } from './dom.ts';
import type { BedPicture } from './stand-beds.ts';
import { drawBeds } from './stand-beds.ts';
import { svg } from './svg.ts';

export interface StandSection { readonly name: string; readonly stops: number; readonly done: number; readonly isHere: boolean }

/** Everything that is read while knitting, in words; the room makes it from the place. */
export interface StandShow {
  /** Which sock of the pair, and whose. */
  readonly heading: string;
  readonly part: string;
  /** What the knitter's pass counter shows, in very large figures, its name, and how many passes the sock has. */
  readonly counter: string;
  readonly count: string;
  readonly of: string;
  readonly round: string;
  readonly inPart: string;
  readonly acts: readonly string[];
  readonly watch: string;
  readonly note: string;
  readonly next: string;
  readonly held: string;
  readonly knits: string;
  readonly carriage: string;
  readonly picture: BedPicture | null;
  readonly sections: readonly StandSection[];
  readonly left: string;
}

export interface FaceHooks {
  readonly forward: () => void;
  readonly back: () => void;
}

export interface StandFace {
  readonly element: HTMLElement;
  /** What takes taps. */
  readonly zone: HTMLElement;
  show(show: StandShow): void;
  /** Something to tell once; an empty text takes it away. */
  say(text: string): void;
  ring(at: { readonly x: number; readonly y: number } | null): void;
}

/** Sizes of the act's letters, px: as large as fit, never below what reads at arm's length. */
const LARGEST_PX = 76, LEAST_WIDE_PX = 36, LEAST_NARROW_PX = 28, SMALLEST_WIDE_PX = 28, SMALLEST_NARROW_PX = 20, NARROW_PX = 700, LOW_PX = 620;
/** A part that takes less of the bar has no room for its name. */
const NAMED_SHARE = 0.06;

export function createStandFace(host: HTMLElement, tools: HTMLElement, hooks: FaceHooks): StandFace {
  const { face } = pageWords().stand;
  const text = (name: string, tag: 'p' | 'span' | 'h2' = 'p'): HTMLElement => el(tag, { class: `stand-${name}`, dir: 'auto' });
  const heading = text('heading'), part = text('part', 'h2'), counter = text('counter-name', 'span'), count = text('count', 'span'), of = text('of', 'span'), round = text('round'), inPart = text('in-part');
  const acts = el('ol', { class: 'stand-acts' }), watch = text('watch'), note = text('note'), next = text('next'), held = text('held'), knits = text('knits'), carriage = text('carriage'), left = text('left');
  const bar = el('div', { class: 'stand-bar', 'aria-hidden': 'true' }), beds = el('div', { class: 'stand-beds-box' }), said = el('p', { class: 'stand-said', role: 'status' }), ring = el('div', { class: 'stand-ring', hidden: true, 'aria-hidden': 'true' },
    svg('svg', { viewBox: '0 0 100 100' }, svg('circle', { cx: 50, cy: 50, r: 44 }), svg('circle', { class: 'ring-grown', cx: 50, cy: 50, r: 44, pathLength: 1 })), el('span', {}, face.undo));
  const words = el('div', { class: 'stand-words', 'aria-live': 'polite', 'aria-atomic': 'true' }, acts, watch, note);
  const forward = el('button', { type: 'button', class: 'stand-forward' }, face.forward, el('small', {}, face.undo));
  const zone = el('div', { class: 'stand-zone', tabindex: 0, role: 'group', 'aria-label': face.label },
    el('div', { class: 'stand-top' }, el('div', { class: 'stand-what' }, heading, part, words, next),
      el('div', { class: 'stand-counter' }, el('p', { class: 'stand-figures' }, counter, count, of), inPart, round, carriage, knits)),
    beds, el('div', { class: 'stand-facts' }, held, left), bar, said);
  const element = el('div', { class: 'stand-face' }, tools, zone,
    el('div', { class: 'stand-buttons' }, button(face.back, { class: 'stand-back' }, hooks.back), forward), ring);
  // Fingers and mice are heard on the whole face; a click without either is a key or a screen reader.
  forward.addEventListener('click', (event) => { if (event.detail === 0) hooks.forward(); });
  host.append(element);
  let shown: StandShow | null = null;
  const draw = (): void => {
    if (shown === null) return;
    fitLetters(zone, words);
    const { clientWidth, clientHeight } = beds;
    beds.replaceChildren(...(shown.picture === null || clientWidth === 0 ? [] : [drawBeds(shown.picture, clientWidth, Math.max(130, clientHeight))]));
  };
  new ResizeObserver(draw).observe(zone);
  return {
    element, zone,
    show: (show) => {
      shown = show;
      for (const [at, value] of [[heading, show.heading], [part, show.part], [counter, show.counter], [count, show.count], [of, show.of], [round, show.round], [inPart, show.inPart], [watch, show.watch], [note, show.note],
        [next, show.next], [held, show.held], [knits, show.knits], [carriage, show.carriage], [left, show.left]] as const) setText(at, value);
      if ([...acts.children].map((item) => item.textContent).join('\n') !== show.acts.join('\n')) acts.replaceChildren(...show.acts.map((act) => el('li', { dir: 'auto' }, act)));
      const all = show.sections.reduce((sum, { stops }) => sum + stops, 0);
      bar.replaceChildren(...show.sections.map(({ name, stops, done, isHere }) => {
        const fill = el('i');
        fill.style.inlineSize = `${100 * done / stops}%`;
        const section = el('div', { class: `stand-section${isHere ? ' is-here' : ''}` }, el('span', {}, isHere || stops > NAMED_SHARE * all ? name : '\u00a0'), el('b', {}, fill));
        section.style.flexGrow = String(stops);
        return section;
      }));
      draw();
    },
    say: (text) => {
      if (said.textContent === text) return;
      setText(said, text);
      // On a narrow screen it takes room from the words.
      draw();
    },
    ring: (at) => {
      setAttributes(ring, { hidden: at === null });
      if (at === null) return;
      const { left: x, top: y } = element.getBoundingClientRect();
      ring.style.insetInlineStart = 'auto';
      ring.style.left = `${at.x - x}px`;
      ring.style.top = `${at.y - y}px`;
    },
  };
}

/** The largest letters with which the words fit their box; a long telling gets the room of the picture, and smaller ones at last. */
function fitLetters(zone: HTMLElement, words: HTMLElement): void {
  const isNarrow = window.innerWidth < NARROW_PX || window.innerHeight < LOW_PX, least = isNarrow ? LEAST_NARROW_PX : LEAST_WIDE_PX, smallest = isNarrow ? SMALLEST_NARROW_PX : SMALLEST_WIDE_PX;
  const isFitting = (): boolean => words.scrollHeight <= words.clientHeight + 1 && words.scrollWidth <= words.clientWidth + 1;
  const tryDown = (from: number, to: number): boolean => {
    for (let px = from; px >= to; px -= 4) {
      words.style.setProperty('--act', `${px}px`);
      if (isFitting()) return true;
    }
    return false;
  };
  zone.classList.remove('is-long');
  let isScrolled = false;
  if (!tryDown(LARGEST_PX, least)) {
    zone.classList.add('is-long');
    isScrolled = !tryDown(LARGEST_PX, least) && !tryDown(least, smallest);
  }
  words.classList.toggle('is-scrolled', isScrolled);
  // What scrolls can be reached by Tab.
  setAttributes(words, { tabindex: isScrolled ? 0 : null });
}
