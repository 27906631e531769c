import type { Trace } from '../machine/trace.ts';
import type { Bed } from '../plan/sock-file.ts';
import type { Program, SectionName, Side, Step } from '../plan/step.ts';

/** One stop of the work at the machine: the cast-on, a pass with what the hands do round it, or the closing. */
export interface WorkItem {
  /** Place in the list: the cast-on is 0, pass p is p, the closing comes after the last pass. */
  readonly index: number;
  readonly kind: 'cast-on' | 'pass' | 'closing';
  readonly section: SectionName;
  /** Side on which the carriage stands before the pass and after it; at cast-on and closing it stays where it is. */
  readonly from: Side;
  readonly to: Side;
  /** Beds that knit; none at the closing. */
  readonly beds: readonly Bed[];
  /** Before the carriage moves, in order: needles held or returned, transfers, another yarn. At the closing all that is left to do. */
  readonly before: readonly Step[];
  /** After the pass: wraps. */
  readonly after: readonly Step[];
  /** Loops knitted in the pass, or cast on. */
  readonly knitted: number;
  readonly yarn: number;
  /** Which pass of its section this is, from 1, and how many the section has. 1 of 1 at cast-on and closing. */
  readonly place: number;
  readonly places: number;
}

const otherSide = (side: Side): Side => (side === 'left' ? 'right' : 'left');

/** A program as a knitter works through it: one entry for the cast-on, one a pass, one for the closing. */
export function listWork({ steps }: Program, { passes }: Trace): WorkItem[] {
  const counts = new Map<SectionName, number>();
  for (const { section } of passes) counts.set(section, (counts.get(section) ?? 0) + 1);
  const items: WorkItem[] = [];
  const places = new Map<SectionName, number>();
  let next = 0;
  passes.forEach((record, index) => {
    const step = steps[record.step], before = steps.slice(next, record.step);
    next = record.step + 1;
    while (steps[next]?.do === 'wrap') next++;
    const place = (places.get(record.section) ?? 0) + 1;
    places.set(record.section, place);
    const isPass = step.do === 'knit';
    items.push({
      index, kind: isPass ? 'pass' : 'cast-on', section: record.section, from: record.from, to: isPass ? otherSide(record.from) : record.from,
      beds: isPass ? step.beds : ['front', 'back'], before, after: steps.slice(record.step + 1, next),
      knitted: record.knitted, yarn: record.yarn, place, places: counts.get(record.section) ?? 1,
    });
  });
  const last = items.at(-1);
  if (last === undefined) throw new Error('list-work: a program without a cast-on');
  return [...items, {
    index: items.length, kind: 'closing', section: 'closing', from: last.to, to: last.to, beds: [], before: steps.slice(next), after: [],
    knitted: 0, yarn: last.yarn, place: 1, places: 1,
  }];
}
