import type { Problem } from '../base/problem.ts';
import { MOST_BYTES, readSock } from '../plan/read-sock.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { pageWords } from '../words/page-words.ts';
import { fetchExample } from './first-sock.ts';
import type { PageStore } from './page-store.ts';

/** The ways by which another sock comes in. None of them loses the present one. */
export interface FileDoor {
  openFile(file: File): void;
  /** The first that can be read comes onto the page, the others into the list. */
  openFiles(files: readonly File[]): void;
  openExample(path: string): void;
}

export function createFileDoor(store: PageStore, take: (file: SockFile) => void, takeToList: (file: SockFile) => void = take): FileDoor {
  const openFile = (file: File): void => {
    void readFile(file).then(({ sock, title, problems }) => {
      if (sock === null) { store.tell('file', title, problems); return; }
      store.withdraw('file');
      take(sock);
    });
  };
  return {
    openFile,
    openFiles: (files) => {
      if (files.length < 2) { files.forEach(openFile); return; }
      void Promise.all(files.map(readFile)).then((read) => {
        const socks = read.flatMap(({ sock }) => (sock === null ? [] : [sock])), { severalFiles } = pageWords().files;
        // The list is filled before the page changes: what cannot be kept is told of once, at the end.
        socks.slice(1).forEach(takeToList);
        socks.slice(0, 1).forEach(take);
        store.tell('file', severalFiles(socks.length, files.length - socks.length), read.flatMap(({ sock, name, problems }) => (sock === null ? problems.slice(0, 1).map((problem) => ({ ...problem, message: `“${name}”: ${problem.message}` })) : [])));
      });
    },
    openExample: (path) => {
      void fetchExample(path).then(({ file, problems }) => {
        if (file === null) { store.tell('example', pageWords().messages.noExample, problems); return; }
        store.withdraw('example');
        take(file);
      });
    },
  };
}

interface ReadFile { readonly name: string; readonly sock: SockFile | null; readonly title: string; readonly problems: readonly Problem[] }

/** Never fails: what is wrong comes back as problems under a title. */
async function readFile(file: File): Promise<ReadFile> {
  const { name } = file, say = pageWords().messages, refuse = (title: string, message: string): ReadFile => ({ name, sock: null, title, problems: [{ field: null, value: name, allowed: null, message }] });
  if (file.size > MOST_BYTES) return refuse(say.tooLarge(name), say.mostBytes);
  try {
    const { file: sock, problems } = readSock(await file.text());
    return { name, sock, title: say.notASock(name), problems };
  } catch (error) {
    return refuse(say.unreadable(name), String(error));
  }
}
