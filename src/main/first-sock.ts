import type { Problem } from '../base/problem.ts';
import type { CheckedSock } from '../plan/check-sock.ts';
import { planSock } from '../plan/plan-sock.ts';
import { readSock } from '../plan/read-sock.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { pageWords } from '../words/page-words.ts';
import type { ShelfSock, SockShelf } from './sock-shelf.ts';

/** Invented socks in the page's own folder. */
export const EXAMPLES = [
  { file: 'socks/plain.json', name: 'Plain, with a striped leg' },
  { file: 'socks/high-instep.json', name: 'For a high instep' },
  { file: 'socks/short-row-toe.json', name: 'With a short-row toe' },
  { file: 'socks/slanted-toe.json', name: 'With a slanted, rounded toe' },
  { file: 'socks/wide-heel.json', name: 'With a broad heel and a plateau' },
  { file: 'socks/child.json', name: 'For a child' },
] as const;

/** Knitted where not even an example can be fetched. Invented. */
export const SPARE_SOCK: SockFile = {
  name: 'Plain sock', gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, foot: { lengthMm: 250, ballGirthMm: 236 },
};

/** Fetches an example; problems tell why it could not be had. */
export async function fetchExample(path: string): Promise<CheckedSock> {
  try {
    const response = await fetch(new URL(path, document.baseURI));
    if (!response.ok) return notHad(path, `the server answered ${response.status}`);
    return readSock(await response.text());
  } catch (error) {
    return notHad(path, error instanceof Error ? error.message : String(error));
  }
}

function notHad(path: string, why: string): CheckedSock {
  const problem: Problem = { field: null, value: path, allowed: null, message: `The example could not be fetched: ${why}.` };
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
  const damaged = present?.file === null ? { id: 'keep' as const, title: pageWords().files.damagedSock, problems: present.problems } : null;
  if (wanted?.file != null) return { file: wanted.file, id: wanted.id, notice: damaged };
  const last = single === null ? null : readSock(single);
  if (last?.file != null) return { file: last.file, id: null, notice: null };
  const example = await fetchExample(EXAMPLES[0].file);
  const file = example.file ?? SPARE_SOCK;
  if (last !== null) return { file, id: null, notice: { id: 'keep', title: pageWords().files.damagedSock, problems: last.problems } };
  if (example.file === null) return { file, id: null, notice: { id: 'example', title: 'The example sock could not be opened', problems: example.problems } };
  return { file, id: null, notice: damaged };
}
