import { copyText } from '../panel/hand-out.ts';
import { createLinkDialog } from '../panel/link-dialog.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { pageWords } from '../words/page-words.ts';
import type { PageStore } from './page-store.ts';
import { readSockLink, writeSockLink } from './sock-link.ts';

export interface LinkRoom {
  /** Puts a link to the sock on the clipboard, or shows it where that is not allowed. True where it was copied. */
  readonly copy: () => Promise<boolean>;
  /** Takes in the link in the page's address, if there is one. */
  readonly openHash: () => void;
}

/** Links that hold a whole sock: making them, and taking in the one in the page's own address whenever it changes. */
export function createLinkRoom(store: PageStore, sock: () => SockFile | null, take: (file: SockFile) => void): LinkRoom {
  const words = pageWords().files.link, dialog = createLinkDialog();
  const takeHash = async (): Promise<void> => {
    const outcome = await readSockLink(location.hash);
    if (outcome === null) return;
    // Taken out of the address: a reload is not to bring it in once more, and a bookmark is of the page.
    history.replaceState(history.state, '', location.pathname + location.search);
    switch (outcome.kind) {
      case 'fault': store.tell('link', words.faults[outcome.fault].title, words.faults[outcome.fault].what); return;
      case 'refused': store.tell('link', words.refused, outcome.problems); return;
      case 'sock':
        take(outcome.file);
        store.tell('link', words.opened, []);
        return;
      default: outcome satisfies never;
    }
  };
  const openHash = (): void => { void takeHash(); };
  window.addEventListener('hashchange', openHash);
  return {
    openHash,
    copy: async () => {
      const file = sock();
      if (file === null) { store.tell('link', words.none.title, words.none.what); return false; }
      const { link, fault } = await writeSockLink(file, location.href);
      if (link === null) {
        const { title, what } = fault === 'too-long' ? words.tooLongToMake : words.cannotPack;
        store.tell('link', title, what);
        return false;
      }
      store.withdraw('link');
      if (await copyText(link)) return true;
      dialog.show(link);
      return false;
    },
  };
}
