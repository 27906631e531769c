import { acceptDrops } from '../panel/file-drop.ts';
import { downloadText } from '../panel/hand-out.ts';
import type { PageState } from '../panel/page-state.ts';
import { createSocksDialog } from '../panel/socks-dialog.ts';
import type { ListedSock } from '../panel/socks-dialog.ts';
import type { TopBarHooks } from '../panel/top-bar.ts';
import { planSock } from '../plan/plan-sock.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { withField } from '../plan/with-field.ts';
import { pageWords } from '../words/page-words.ts';
import { createFileDoor } from './file-door.ts';
import type { FileDoor } from './file-door.ts';
import { spareSock } from './first-sock.ts';
import type { PageStore } from './page-store.ts';
import { createExportRoom } from './export-room.ts';
import type { ExportTools } from './export-room.ts';
import { createLinkRoom } from './link-room.ts';
import { keepOffline } from './offline.ts';
import { fileName, saveSockFile } from './save-file.ts';
import type { DeskTools } from './sock-desk.ts';
import type { ShelfSock, SockShelf } from './sock-shelf.ts';
import { createSockSessions, tellOfKeeping } from './sock-sessions.ts';
import type { SessionTools, SockSessions } from './sock-sessions.ts';

export interface FilesTools extends SessionTools, Pick<ExportTools, 'view' | 'canvas' | 'theme' | 'growth'> {
  /** A file that is no sock and has a room of its own; true where it has been taken there. */
  readonly takeOther: (file: File) => boolean;
}

/** The person's socks: the list, and the ways in and out of it. */
export interface FilesRoom {
  readonly parts: readonly { render(state: PageState): void }[];
  /** A sock from outside comes onto the page, and into the list. */
  readonly openSock: (file: SockFile) => void;
  readonly bar: Pick<TopBarHooks, 'openExample' | 'openFiles' | 'save' | 'openSocks' | 'openExports' | 'copyLink'>;
  readonly deskTools: Pick<DeskTools, 'keep' | 'beyond'>;
  /** Once the desk stands: a link in the page's address is opened, and the page kept for the time without a network. True where the present sock is kept. */
  begin(): boolean;
}

export function createFilesRoom(firstId: string, tools: FilesTools): FilesRoom {
  const { shelf, store, deskOf } = tools, sessions = createSockSessions(firstId, tools);
  const openSock = (file: SockFile): void => { sessions.bringIn(file); };
  const door = createFileDoor(store, openSock, (file) => {
    if (shelf.find(file) === null) shelf.put(shelf.newId(), file);
    tellOfKeeping(shelf, store);
  });
  const openFiles = (given: readonly File[]): void => {
    const socks = given.filter((file) => !tools.takeOther(file));
    if (socks.length > 0) door.openFiles(socks);
  };
  acceptDrops(openFiles);
  const list = createList(sessions, door, shelf, store), exports = createExportRoom({ ...tools, state: store.state });
  const links = createLinkRoom(store, () => (store.state().problems.length > 0 ? null : deskOf().knittable()), openSock);
  return {
    parts: [list, exports],
    openSock,
    bar: {
      openExample: door.openExample, openFiles, openSocks: list.open, openExports: exports.open, copyLink: links.copy,
      save: () => {
        const file = deskOf().knittable();
        if (file !== null) saveSockFile(file);
      },
    },
    deskTools: { keep: (file) => { sessions.keep(file); }, beyond: () => sessions.beyond() },
    begin: () => {
      links.openHash();
      const { update } = pageWords().files;
      keepOffline((reload) => { store.offer('update', update.title, update.what, { label: update.reload, run: reload }); });
      return shelf.get(sessions.presentId())?.isKept === true;
    },
  };
}

interface List { render(state: PageState): void; open(): void }

function createList(sessions: SockSessions, door: FileDoor, shelf: SockShelf, store: PageStore): List {
  const dialog = createSocksDialog({
    ...listActs(sessions, shelf, store), openFiles: door.openFiles,
    list: () => shelf.list().map((sock) => listedSock(sock, sessions.presentId())),
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
    open: () => {
      shelf.refresh();
      dialog.open();
    },
  };
}

/** What can be done with each sock of the list. */
function listActs(sessions: SockSessions, shelf: SockShelf, store: PageStore): Omit<Parameters<typeof createSocksDialog>[0], 'list' | 'openFiles'> {
  const words = pageWords().files;
  return {
    open: (id) => { sessions.open(id); },
    rename: (id, name) => { sessions.rename(id, name.trim() === '' ? undefined : name.trim()); },
    duplicate: (id) => {
      const file = shelf.get(id)?.file ?? null;
      if (file === null) return null;
      const name = freeName(words.copyOf(file.name ?? ''), takenNames(shelf));
      sessions.bringIn(withField(file, 'name', name));
      return name;
    },
    save: (id) => {
      const sock = shelf.get(id);
      if (sock !== null) downloadText(`${fileName(sock.file?.name ?? '')}.json`, 'application/json', sock.text);
    },
    putAway: (id) => {
      if (id === sessions.presentId()) {
        const next = shelf.list().find((sock) => sock.id !== id && sock.deleted === null && sock.file !== null);
        if (next === undefined) sessions.bringIn(newSock(shelf));
        else sessions.open(next.id);
      }
      shelf.setDeleted(id, true);
      tellOfKeeping(shelf, store);
    },
    bringBack: (id) => {
      shelf.setDeleted(id, false);
      tellOfKeeping(shelf, store);
    },
    forget: (id) => { shelf.forget(id); },
    addNew: () => { sessions.bringIn(newSock(shelf)); },
  };
}

/** Of a name that none in the list has, so that it comes in beside them. */
function newSock(shelf: SockShelf): SockFile {
  const taken = takenNames(shelf), name = pageWords().files.newSock;
  let free = name;
  for (let number = 2; taken.has(free); number++) free = `${name} ${number}`;
  return { ...spareSock(), name: free };
}

function takenNames(shelf: SockShelf): ReadonlySet<string> {
  return new Set(shelf.list().map(({ file }) => file?.name ?? ''));
}

function listedSock({ id, file, changed, deleted, isKept }: ShelfSock, presentId: string): ListedSock {
  const words = pageWords().files, plan = file === null ? null : planSock(file).plan, name = file?.name ?? '';
  const about = plan !== null ? words.stitches(plan.stitches, plan.turnDownWidth) : file === null ? words.cannotRead : words.cannotKnit;
  return { id, about, changed, isKept, name: name === '' ? words.unnamed : name, isPresent: id === presentId, isDeleted: deleted !== null, isReadable: file !== null };
}

/** The name, with a number where it is taken. */
function freeName(name: string, taken: ReadonlySet<string>): string {
  let free = name;
  for (let number = 2; taken.has(free); number++) free = `${name} ${number}`;
  return free;
}
