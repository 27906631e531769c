import { createSocksDialog } from '../panel/socks-dialog.ts';
import type { ListedSock } from '../panel/socks-dialog.ts';
import { downloadText } from '../panel/hand-out.ts';
import type { PageState } from '../panel/page-state.ts';
import { planSock } from '../plan/plan-sock.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { pageWords } from '../words/page-words.ts';
import type { FileDoor } from './file-door.ts';
import { SPARE_SOCK } from './first-sock.ts';
import type { MySocks } from './my-socks.ts';
import { fileName } from './save-file.ts';
import type { ShelfSock, SockShelf } from './sock-shelf.ts';

export interface FilesRoom {
  render(state: PageState): void;
  openSocks(): void;
}

/** The list of socks, and what can be done with each. */
export function createFilesRoom(shelf: SockShelf, mySocks: MySocks, door: FileDoor): FilesRoom {
  const words = pageWords().files;
  const dialog = createSocksDialog({
    list: () => shelf.list().map((sock) => listedSock(sock, mySocks.presentId())),
    open: mySocks.open, rename: mySocks.rename, duplicate: mySocks.duplicate, putAway: mySocks.putAway, bringBack: mySocks.bringBack,
    forget: shelf.forget, openFiles: door.openFiles,
    save: (id) => {
      const sock = shelf.get(id);
      if (sock !== null) downloadText(`${fileName(sock.file?.name ?? '')}.json`, 'application/json', sock.text);
    },
    addNew: () => { mySocks.bringIn(newSock(shelf, words.newSock)); },
  });
  window.addEventListener('storage', () => {
    shelf.refresh();
    dialog.render();
  });
  let shown: SockFile | null = null;
  return {
    render: ({ file }) => {
      if (file === shown) return;
      shown = file;
      dialog.render();
    },
    openSocks: () => {
      shelf.refresh();
      dialog.open();
    },
  };
}

/** Of a name that none in the list has, so that it comes in beside them. */
function newSock(shelf: SockShelf, name: string): SockFile {
  const taken = new Set(shelf.list().map(({ file }) => file?.name));
  let free = name;
  for (let number = 2; taken.has(free); number++) free = `${name} ${number}`;
  return { ...SPARE_SOCK, name: free };
}

function listedSock({ id, file, changed, deleted, isKept }: ShelfSock, presentId: string): ListedSock {
  const words = pageWords().files, plan = file === null ? null : planSock(file).plan;
  const about = plan !== null ? words.stitches(plan.stitches, plan.turnDownWidth) : file === null ? words.cannotRead : words.cannotKnit;
  return {
    id, about, changed, isKept, name: (file?.name ?? '') === '' ? words.unnamed : file?.name ?? '',
    isPresent: id === presentId, isDeleted: deleted !== null, isReadable: file !== null,
  };
}
