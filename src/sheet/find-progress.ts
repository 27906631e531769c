import type { SectionName } from '../plan/step.ts';
import type { WorkItem } from './list-work.ts';

/** A part of the sock, and how much of it is done. */
export interface SectionProgress {
  readonly section: SectionName;
  /** Its first stop. */
  readonly first: number;
  readonly stops: number;
  readonly done: number;
}

export interface Progress {
  readonly sections: readonly SectionProgress[];
  /** Passes done and still to knit, on this sock; cast-on and closing are none. */
  readonly passesDone: number;
  readonly passesLeft: number;
  /** Stops left in the part that is being knitted, the present one included; 0 after the last. */
  readonly leftInSection: number;
}

/** How far a sock has come when everything before `stop` is done. */
export function findProgress(items: readonly WorkItem[], stop: number): Progress {
  const sections: { section: SectionName; first: number; stops: number; done: number }[] = [];
  for (const { section, index } of items) {
    const last = sections.at(-1), isDone = index < stop ? 1 : 0;
    if (last?.section === section) {
      last.stops++;
      last.done += isDone;
    } else sections.push({ section, first: index, stops: 1, done: isDone });
  }
  const passes = items.filter(({ kind }) => kind === 'pass'), passesDone = passes.filter(({ index }) => index < stop).length;
  const here = sections.find(({ first, stops }) => stop >= first && stop < first + stops);
  return { sections, passesDone, passesLeft: passes.length - passesDone, leftInSection: here === undefined ? 0 : here.stops - here.done };
}

/** Which round of its part a pass belongs to, where two passes make one; null where they do not (rows knitted flat, short rows). */
export function roundOf({ kind, section, beds, place, places }: WorkItem): { readonly round: number; readonly rounds: number; readonly half: 1 | 2 } | null {
  const isTube = section === 'leg' || section === 'ankle' || section === 'foot' || section === 'toe';
  if (kind !== 'pass' || !isTube || beds.length !== 1) return null;
  return { round: Math.ceil(place / 2), rounds: Math.ceil(places / 2), half: place % 2 === 1 ? 1 : 2 };
}

/** A pass before and after which the hands do nothing. */
export const isPlain = ({ kind, before, after }: WorkItem): boolean => kind === 'pass' && before.length === 0 && after.length === 0;
