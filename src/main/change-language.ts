import { readSock } from '../plan/read-sock.ts';
import { writeSock } from '../plan/write-sock.ts';
import { pageWords } from '../words/page-words.ts';
import type { Language } from '../words/words.ts';
import type { Keeper } from './keep.ts';
import type { PageStore } from './page-store.ts';

/**
 * Keeps the sock as it stands, knittable or not, and loads the page anew in another language. Where the
 * browser keeps nothing it says so, and all stays as it is: false.
 */
export function changeLanguage(language: Language, store: PageStore, keeper: Keeper): boolean {
  const { settings, file } = store.state(), sock = writeSock(file);
  // A file that could not be read again stays the last one that could.
  const isKept = (readSock(sock).file === null || keeper.write('sock', sock)) && keeper.write('settings', JSON.stringify({ ...settings, language }));
  if (isKept) location.reload();
  else store.tell('keep', pageWords().page.settings.languageKept.title, pageWords().page.settings.languageKept.what);
  return isKept;
}
