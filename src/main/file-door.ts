import { MOST_BYTES, readSock } from '../plan/read-sock.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { pageWords } from '../words/page-words.ts';
import { fetchExample } from './first-sock.ts';
import type { PageStore } from './page-store.ts';

/** The ways by which another sock comes in. None of them loses the present one. */
export interface FileDoor {
  openFile(file: File): void;
  openExample(path: string): void;
}

export function createFileDoor(store: PageStore, take: (file: SockFile) => void): FileDoor {
  const openText = (name: string, text: string): void => {
    const { file, problems } = readSock(text);
    if (file === null) { store.tell('file', pageWords().messages.notASock(name), problems); return; }
    store.withdraw('file');
    take(file);
  };
  return {
    openFile: (file) => {
      if (file.size > MOST_BYTES) {
        store.tell('file', pageWords().messages.tooLarge(file.name), pageWords().messages.mostBytes);
        return;
      }
      file.text().then(
        (text) => { openText(file.name, text); },
        (error: unknown) => { store.tell('file', pageWords().messages.unreadable(file.name), String(error)); },
      );
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
