import { readSock } from '../plan/read-sock.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { writeSock } from '../plan/write-sock.ts';
import { pageWords } from '../words/page-words.ts';
import type { Language } from '../words/words.ts';
import type { Keeper } from './keep.ts';
import type { PageStore } from './page-store.ts';

export interface LanguageTools {
  readonly store: PageStore;
  readonly keeper: Keeper;
  /** Keeps the present sock; false where the browser does not let the page. */
  readonly keepSock: (file: SockFile) => boolean;
}

/**
 * Keeps the sock as it stands, knittable or not, and loads the page anew in another language. Where the
 * browser keeps nothing it says so, and all stays as it is: false.
 */
export function changeLanguage(language: Language, { store, keeper, keepSock }: LanguageTools): boolean {
  const { settings, file } = store.state();
  // A file that could not be read again stays the last one that could.
  const isKept = (readSock(writeSock(file)).file === null || keepSock(file)) && keeper.write('settings', JSON.stringify({ ...settings, language }));
  if (isKept) location.reload();
  else store.tell('keep', pageWords().page.settings.languageKept.title, pageWords().page.settings.languageKept.what);
  return isKept;
}
