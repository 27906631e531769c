import type { Problem } from '../base/problem.ts';
import type { CheckedSock } from '../plan/check-sock.ts';
import { readSock } from '../plan/read-sock.ts';
import { pageWords } from '../words/page-words.ts';
import type { SockFile } from '../plan/sock-file.ts';

const EXAMPLE_FILES = ['socks/plain.json', 'socks/high-instep.json', 'socks/short-row-toe.json', 'socks/slanted-toe.json', 'socks/wide-heel.json', 'socks/child.json'] as const;

/** Invented socks in the page's own folder, by the names that they have in its language. */
export function examples(): readonly { readonly file: string; readonly name: string }[] {
  const names = pageWords().messages.examples;
  return EXAMPLE_FILES.map((file) => ({ file, name: names[file] }));
}

/** Knitted where not even an example can be fetched. Invented. */
const SPARE_SOCK: SockFile = {
  gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, foot: { lengthMm: 250, ballGirthMm: 236 },
};

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
  readonly notice: { readonly id: 'keep' | 'example'; readonly title: string; readonly problems: readonly Problem[] } | null;
}

/** The sock of the last visit, else the first example, else a spare one: the page always opens with a sock. */
export async function findFirstSock(kept: string | null): Promise<FirstSock> {
  const last = kept === null ? null : readSock(kept);
  if (last?.file != null) return { file: last.file, notice: null };
  const example = await fetchExample(EXAMPLE_FILES[0]);
  const file = example.file ?? { name: pageWords().messages.plainSock, ...SPARE_SOCK };
  if (last !== null) return { file, notice: { id: 'keep', title: pageWords().messages.lastUnreadable, problems: last.problems } };
  if (example.file === null) return { file, notice: { id: 'example', title: pageWords().messages.noFirstExample, problems: example.problems } };
  return { file, notice: null };
}
