import type { Problem } from '../base/problem.ts';
import { makeProblem } from '../base/make-problem.ts';
import { checkSock } from '../plan/check-sock.ts';
import { planSock } from '../plan/plan-sock.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { Words } from '../words/words.ts';

/** Something to remember at a stop of the work, on both socks. */
export interface PlaceNote { readonly stop: number; readonly text: string }

/** How far the knitting of a pair has come. Plain data: it is kept at every step, and it is the place file. */
export interface KnitPlace {
  readonly heelwrightPlace: 1;
  readonly id: string;
  /** The sock that is being knitted: a copy, which no change elsewhere touches. */
  readonly file: SockFile;
  /** Which sock of the pair. */
  readonly sock: 1 | 2;
  /** The second sock: the same, or with left and right exchanged. */
  readonly second: 'same' | 'mirrored';
  /** The stop that comes next, as `listWork` counts them: all before it are done. One past the closing: the sock is done. */
  readonly stop: number;
  readonly notes: readonly PlaceNote[];
  /** When the first step was taken and the last one, as ISO 8601 texts; null before the first. */
  readonly startedAt: string | null;
  readonly lastAt: string | null;
}

/** Longest note, in UTF-16 units. */
export const LONGEST_NOTE = 500;
/** Most notes of a place. */
export const MOST_NOTES = 500;
/** No sock has more stops (a file's limits give some 4,600 at most). */
const MOST_STOPS = 100_000;

/** Nothing is knitted yet. `second` follows from the toe: one that slants has a left and a right. */
export function beginPlace(id: string, file: SockFile): KnitPlace {
  return { heelwrightPlace: 1, id, file, sock: 1, second: (file.toe?.slantStitches ?? 0) > 0 ? 'mirrored' : 'same', stop: 0, notes: [], startedAt: null, lastAt: null };
}

export const isBegun = ({ stop, sock }: KnitPlace): boolean => stop > 0 || sock === 2;

/** The pair is done: there is no step on. `stops`: of one sock, the closing included. */
export const isPairDone = ({ sock, stop }: KnitPlace, stops: number): boolean => sock === 2 && stop >= stops;

/** A stop done; after the first sock the second one. */
export function stepOn(place: KnitPlace, stops: number, at: string): KnitPlace {
  if (isPairDone(place, stops)) return place;
  const next = place.stop >= stops ? { sock: 2 as const, stop: 0 } : { stop: place.stop + 1 };
  return { ...place, ...next, startedAt: place.startedAt ?? at, lastAt: at };
}

/** A stop undone; from the second sock's cast-on back to the first sock's end. */
export function stepBack(place: KnitPlace, stops: number): KnitPlace {
  if (place.stop > 0) return { ...place, stop: Math.min(place.stop, stops) - 1 };
  return place.sock === 2 ? { ...place, sock: 1, stop: stops } : place;
}

/** The note of a stop, put in place of an earlier one there; an empty text takes it out. */
export function withNote(place: KnitPlace, stop: number, text: string): KnitPlace {
  const said = text.trim().slice(0, LONGEST_NOTE), others = place.notes.filter((note) => note.stop !== stop);
  const notes = said === '' ? others : [...others, { stop, text: said }].sort((a, b) => a.stop - b.stop);
  return { ...place, notes: notes.slice(0, MOST_NOTES) };
}

export const noteAt = ({ notes }: KnitPlace, stop: number): string => notes.find((note) => note.stop === stop)?.text ?? '';

export const writePlace = (place: KnitPlace): string => JSON.stringify(place);

export type ReadPlace = { readonly place: KnitPlace; readonly problems: readonly [] } | { readonly place: null; readonly problems: readonly Problem[] };

/** Reads a place file. Never throws: what is wrong with it comes back as problems, each with its field. */
export function readPlace(text: string, words: Words): ReadPlace {
  const told = words.stand.place;
  const fail = (...problems: Problem[]): ReadPlace => ({ place: null, problems });
  let value: unknown;
  try { value = JSON.parse(text); } catch { return fail(makeProblem(null, text, told.allowed, told.notJson)); }
  if (typeof value !== 'object' || value === null) return fail(makeProblem(null, value, told.allowed, told.notPlace));
  const given = value as Readonly<Record<string, unknown>>, version = given['heelwrightPlace'];
  if (version !== 1) return fail(makeProblem('heelwrightPlace', version, '1', typeof version === 'number' && version > 1 ? told.newer : told.notPlace));
  return readFields(given, words);
}

function readFields(given: Readonly<Record<string, unknown>>, words: Words): ReadPlace {
  const checked = checkSock(given['file']), told = words.stand.place;
  const planned = checked.file === null ? null : planSock(checked.file);
  const { file } = checked, problems = planned === null ? checked.problems : planned.plan === null ? planned.problems : [];
  const { sock, second, stop, id } = given, notes = readNotes(given['notes']);
  const wrong: Problem[] = problems.map((problem) => ({ ...problem, field: problem.field === null ? 'file' : `file.${problem.field}` }));
  const refuse = (field: string, allowed: string): void => { wrong.push(makeProblem(field, given[field], allowed, told.wrongField(field))); };
  if (sock !== 1 && sock !== 2) refuse('sock', '1, 2');
  if (second !== 'same' && second !== 'mirrored') refuse('second', 'same, mirrored');
  if (!isStop(stop)) refuse('stop', told.wholeNumber);
  if (notes === null) refuse('notes', told.notesAllowed);
  if (file === null || wrong.length > 0 || notes === null) return { place: null, problems: wrong };
  return {
    problems: [],
    place: {
      heelwrightPlace: 1, id: typeof id === 'string' && id !== '' ? id.slice(0, 60) : 'opened', file, sock: sock === 2 ? 2 : 1,
      second: second === 'mirrored' ? 'mirrored' : 'same', stop: isStop(stop) ? stop : 0, notes,
      startedAt: textOrNull(given['startedAt']), lastAt: textOrNull(given['lastAt']),
    },
  };
}

const isStop = (value: unknown): value is number => typeof value === 'number' && Number.isInteger(value) && value >= 0 && value <= MOST_STOPS;
const textOrNull = (value: unknown): string | null => (typeof value === 'string' ? value.slice(0, 40) : null);

function readNotes(value: unknown): PlaceNote[] | null {
  if (!Array.isArray(value) || value.length > MOST_NOTES) return null;
  const notes: PlaceNote[] = [];
  for (const entry of value as readonly unknown[]) {
    const { stop, text } = (entry ?? {}) as Readonly<Record<string, unknown>>;
    if (!isStop(stop) || typeof text !== 'string') return null;
    notes.push({ stop, text: text.slice(0, LONGEST_NOTE) });
  }
  return notes;
}
