import { readLesson, type ReadLesson } from '../sheet/read-lesson.ts';
import { pageLanguage, pageWords } from '../words/page-words.ts';
import type { Keeper } from './keep.ts';
import { fileName } from './save-file.ts';

/** A lesson's text, and what was read from it. */
export interface ShelvedLesson extends ReadLesson {
  readonly text: string;
  /** Name of its file; null for the built-in one. */
  readonly name: string | null;
}

/** The lesson and the step at which it was left, for the next visit. */
export interface LessonPlace { readonly name: string | null; readonly text: string | null; readonly step: number }

const KEY = 'lesson';

/** What is opened as a lesson, not as a sock. */
export function isLessonFile({ name, type }: Pick<File, 'name' | 'type'>): boolean {
  return /\.(md|markdown|mdown|txt)$/i.test(name) || type === 'text/markdown';
}

export function shelve(text: string, name: string | null): ShelvedLesson {
  return { ...readLesson(text, pageWords().lesson), text, name };
}

/** The built-in lesson in the page's language; throws with the reason where it cannot be had. */
export async function fetchLesson(): Promise<ShelvedLesson> {
  const response = await fetch(new URL(`lessons/heel.${pageLanguage()}.md`, document.baseURI));
  if (!response.ok) throw new Error(String(response.status));
  return shelve(await response.text(), null);
}

/** Keeps the place in a lesson, and the text of one from a file; false where the browser does not let it. */
export function keepPlace(keeper: Keeper, place: LessonPlace): boolean {
  return keeper.write(KEY, JSON.stringify(place));
}

export function readPlaceKept(keeper: Keeper): LessonPlace {
  try {
    const { name, text, step } = JSON.parse(keeper.read(KEY) ?? '{}') as Partial<Record<string, unknown>>;
    const isFromFile = typeof name === 'string' && typeof text === 'string';
    return { name: isFromFile ? name : null, text: isFromFile ? text : null, step: typeof step === 'number' && Number.isInteger(step) && step >= 0 ? step : 0 };
  } catch { return { name: null, text: null, step: 0 }; }
}

/** Hands the lesson's text to the browser's downloads, as it was written. */
export function saveLesson({ text, name, lesson }: ShelvedLesson): void {
  const url = URL.createObjectURL(new Blob([text], { type: 'text/markdown' }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name ?? `${fileName(lesson?.title ?? 'lesson')}.md`;
  link.click();
  setTimeout(() => { URL.revokeObjectURL(url); }, 10_000);
}
