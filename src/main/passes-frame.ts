import { el } from '../panel/dom.ts';
import { pageWords } from '../words/page-words.ts';

/** The places of the room of passes. */
export interface PassesFrame {
  readonly note: HTMLElement;
  readonly beds: HTMLElement;
  readonly work: HTMLElement;
  readonly finished: HTMLElement;
  readonly way: HTMLElement;
  /** How far the hanging fabric is worked out, over its picture. */
  readonly growth: HTMLElement;
  /** What is shown of a sock. */
  readonly all: readonly HTMLElement[];
}

export function buildPassesFrame(host: HTMLElement): PassesFrame {
  const words = pageWords().timeline;
  const card = (kind: string, name: string): HTMLElement => el('section', { class: `card ${kind}-card`, 'aria-label': name });
  const beds = card('beds', words.beds), work = card('work', words.work), finished = card('finished', words.finished), way = card('way', words.way);
  const note = el('p', { class: 'passes-note', role: 'status' }), growth = el('p', { class: 'growth-words' });
  host.append(note, beds, growth, way, el('div', { class: 'passes-side' }, work, finished));
  return { note, beds, work, finished, way, growth, all: [beds, work, finished, way, growth] };
}
