import { NEEDLE } from '../machine/codes.ts';
import type { WorkWords } from '../sheet/describe-work.ts';
import type { WorkItem } from '../sheet/list-work.ts';
import { pageWords } from '../words/page-words.ts';
import type { BedScene } from './bed-model.ts';
import { el, setText } from './dom.ts';

/** A stop in words: what to do, why, what to watch, what comes next, and where the work stands. */
export interface WorkView {
  readonly item: WorkItem;
  readonly words: WorkWords;
  /** The next stop; null after the last one. */
  readonly next: WorkWords | null;
  readonly scene: BedScene;
  readonly yarn: { readonly name: string; readonly colour: string } | null;
}

export interface WorkCard {
  /** `isSpoken`: the title is read out too. */
  render(view: WorkView, isSpoken: boolean): void;
}

export function createWorkCard(host: HTMLElement): WorkCard {
  const { why: whyLabel, watch: watchLabel, next: nextLabel, counters, counter, nothingNext } = pageWords().timeline;
  const title = el('h2', { class: 'work-title' }), acts = el('ol', { class: 'work-acts' });
  const why = el('span'), watch = el('span'), next = el('span');
  const whyLine = el('p', { class: 'work-why' }, el('strong', {}, whyLabel), ' ', why), watchLine = el('p', { class: 'work-watch' }, el('strong', {}, watchLabel), ' ', watch);
  const values = { pass: el('dd'), part: el('dd'), round: el('dd'), carriage: el('dd'), held: el('dd'), working: el('dd'), yarn: el('dd') };
  const names = Object.keys(values) as (keyof typeof values)[];
  const list = el('dl', { class: 'work-counters', 'aria-label': counters }, ...names.map((name) => el('div', { class: `is-${name}` }, el('dt', {}, counter[name]), values[name])));
  const spoken = el('p', { class: 'visually-hidden', 'aria-live': 'polite' });
  // Its words scroll where they have no room, by keyboard too.
  host.tabIndex = 0;
  host.append(title, list, acts, watchLine, whyLine, el('p', { class: 'work-next' }, el('strong', {}, nextLabel), ' ', next), spoken);
  let told = '', timer: ReturnType<typeof setTimeout> | undefined;
  return {
    render: ({ item, words, next: following, scene, yarn }, isSpoken) => {
      setText(title, words.title);
      const text = words.acts.join('\n');
      if (text !== told) {
        told = text;
        acts.replaceChildren(...words.acts.map((act) => el('li', {}, act)));
      }
      setText(why, words.why);
      setText(watch, words.watch);
      whyLine.hidden = words.why === '';
      watchLine.hidden = words.watch === '';
      setText(next, following === null ? nothingNext : nextWords(following));
      const counted = countStop(item, scene);
      for (const name of names) if (name !== 'yarn') setText(values[name], counted[name]);
      fillYarn(values.yarn, yarn);
      clearTimeout(timer);
      // A hand on the scrubber is not followed word by word.
      if (isSpoken) timer = setTimeout(() => { setText(spoken, words.title); }, SPEAK_AFTER_MS);
    },
  };
}

const SPEAK_AFTER_MS = 250;

/** Title and the first handling. */
function nextWords({ title, acts }: WorkWords): string {
  return acts.length === 0 ? title : `${title}. ${acts[0]}`;
}

/** The name is the person's own and may run the other way. */
function fillYarn(cell: HTMLElement, yarn: WorkView['yarn']): void {
  const key = yarn === null ? '' : `${yarn.name} ${yarn.colour}`;
  if (cell.dataset['yarn'] === key) return;
  cell.dataset['yarn'] = key;
  const swatch = el('i', { class: 'swatch' });
  swatch.style.background = yarn?.colour ?? '';
  cell.replaceChildren(...(yarn === null ? [] : [swatch, el('span', { dir: 'auto' }, yarn.name)]));
}

/** Sections in which passes alternate between the beds: two make a round. */
const TUBES: readonly string[] = ['leg', 'ankle', 'foot', 'toe'];

/** What a knitter's counters show. */
export function countStop(item: WorkItem, { needles }: Pick<BedScene, 'needles'>): Readonly<Record<'pass' | 'part' | 'round' | 'carriage' | 'held' | 'working', string>> {
  const words = pageWords().timeline, isTube = item.kind === 'pass' && item.beds.length === 1 && TUBES.includes(item.section);
  const { side } = words, count = (state: number): string => String(needles.filter((at) => at.state === state).length);
  return {
    pass: item.kind === 'closing' ? String(item.index - 1) : String(item.index),
    part: words.passOfPart(item.place, item.places),
    round: isTube ? words.roundOf(Math.ceil(item.place / 2), Math.ceil(item.places / 2)) : item.kind === 'pass' ? words.noRounds : '–',
    carriage: item.from === item.to ? words.carriageAt(side[item.to]) : words.carriageGoes(side[item.from], side[item.to]),
    held: count(NEEDLE.held),
    working: count(NEEDLE.working),
  };
}
