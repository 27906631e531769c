import type { Problem } from '../base/problem.ts';
import type { CheckedSock } from '../plan/check-sock.ts';
import { planSock } from '../plan/plan-sock.ts';
import { readSock } from '../plan/read-sock.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { pageWords } from '../words/page-words.ts';
import type { ShelfSock, SockShelf } from './sock-shelf.ts';

const EXAMPLE_FILES = ['socks/plain.json', 'socks/high-instep.json', 'socks/short-row-toe.json', 'socks/slanted-toe.json', 'socks/wide-heel.json', 'socks/child.json'] as const;

/** Invented socks in the page's own folder, by the names that they have in its language. */
export function examples(): readonly { readonly file: string; readonly name: string }[] {
  const names = pageWords().messages.examples;
  return EXAMPLE_FILES.map((file) => ({ file, name: names[file] }));
}

/** Knitted where not even an example can be fetched, and where a new one is wanted. Invented. */
export function spareSock(): SockFile {
  return { name: pageWords().messages.plainSock, gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, foot: { lengthMm: 250, ballGirthMm: 236 } };
}

/** Fetches an example; problems tell why it could not be had. */
export async function fetchExample(path: string): Promise<CheckedSock> {
  try {
    const response = await fetch(new URL(path, document.baseURI));
    if (!response.ok) return notHad(path, pageWords().messages.serverSaid(response.status));
    return readSock(await response.text());
  } catch (error) {
    return notHad(path, error instanceof Error ? error.message : String(error));
  }
}

function notHad(path: string, why: string): CheckedSock {
  const problem: Problem = { field: null, value: path, allowed: null, message: pageWords().messages.notFetched(why) };
  return { file: null, problems: [problem] };
}

export interface FirstSock {
  readonly file: SockFile;
  /** Its name in the list of socks; null for one that is not there yet. */
  readonly id: string | null;
  readonly notice: { readonly id: 'keep' | 'example'; readonly title: string; readonly problems: readonly Problem[] } | null;
}

/**
 * The sock that this window had last, else the one last changed, else one kept by an earlier version
 * of the page (`single`), else the first example, else a spare one: the page always opens with a sock.
 */
export async function findFirstSock(shelf: SockShelf, present: ShelfSock | null, single: string | null): Promise<FirstSock> {
  const isGood = ({ file, deleted }: ShelfSock): boolean => file !== null && deleted === null && planSock(file).plan !== null;
  const socks = shelf.list(), wanted = present !== null && isGood(present) ? present : socks.find(isGood);
  const damaged = present?.file === null ? { id: 'keep' as const, title: pageWords().messages.lastUnreadable, problems: present.problems } : null;
  if (wanted?.file != null) return { file: wanted.file, id: wanted.id, notice: damaged };
  const last = single === null ? null : readSock(single);
  if (last?.file != null) return { file: last.file, id: null, notice: null };
  const example = await fetchExample(EXAMPLE_FILES[0]);
  const file = example.file ?? spareSock();
  if (last !== null) return { file, id: null, notice: { id: 'keep', title: pageWords().messages.lastUnreadable, problems: last.problems } };
  if (example.file === null) return { file, id: null, notice: { id: 'example', title: pageWords().messages.noFirstExample, problems: example.problems } };
  return { file, id: null, notice: damaged };
}
