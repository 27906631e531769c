import { MOST_BYTES, readSock } from '../plan/read-sock.ts';
import type { SockFile } from '../plan/sock-file.ts';
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
    if (file === null) { store.tell('file', `“${name}” is not a sock that can be opened; yours is still here`, problems); return; }
    store.withdraw('file');
    take(file);
  };
  return {
    openFile: (file) => {
      if (file.size > MOST_BYTES) {
        store.tell('file', `“${file.name}” is too large; your sock is still here`, 'A sock file has at most 5 MB.');
        return;
      }
      file.text().then(
        (text) => { openText(file.name, text); },
        (error: unknown) => { store.tell('file', `“${file.name}” could not be read; your sock is still here`, String(error)); },
      );
    },
    openExample: (path) => {
      void fetchExample(path).then(({ file, problems }) => {
        if (file === null) { store.tell('example', 'The example could not be opened; your sock is still here', problems); return; }
        store.withdraw('example');
        take(file);
      });
    },
  };
}
