import type { SockFile } from '../plan/sock-file.ts';
import { withField } from '../plan/with-field.ts';
import { pageWords } from '../words/page-words.ts';
import { beginHistory, record } from './history.ts';
import type { History } from './history.ts';
import type { Cupboard } from './keep.ts';
import type { PageStore } from './page-store.ts';
import type { Beyond, SockDesk } from './sock-desk.ts';
import type { ShelfSock, SockShelf } from './sock-shelf.ts';

/** Which of the socks lies on the page, and the ways between them. Each has its own undo and redo while the page is open. */
export interface MySocks {
  presentId(): string;
  /** Another sock of the list; one that cannot be read stays where it is. */
  open(id: string): void;
  /** A sock from outside comes in as one of its own. One that is in the list already, to the letter, is opened there. */
  bringIn(file: SockFile): void;
  /** Into the list, without opening it. */
  addToList(file: SockFile): void;
  rename(id: string, name: string): void;
  /** Opens the copy, and gives its name. */
  duplicate(id: string): string | null;
  /** Puts a sock away; the present one makes room for the last changed of the others, or for a new one. */
  putAway(id: string): void;
  bringBack(id: string): void;
  /** The sock on the desk has changed. */
  keep(file: SockFile): void;
  beyond(): Beyond;
}

export interface MySocksTools {
  readonly shelf: SockShelf;
  readonly store: PageStore;
  readonly deskOf: () => SockDesk;
  /** Where the present sock's name is kept: for this window, and for the next visit. */
  readonly places: readonly Cupboard[];
  /** Another sock comes onto the page. */
  readonly onOpen: () => void;
  /** For a list from which the last one went. */
  readonly spareSock: SockFile;
}

const PRESENT = 'present';

interface Session {
  readonly history: History<SockFile>;
  /** What the list kept of it when it was left. */
  readonly keptText: string | null;
  /** The sock that was on the page when this one came in, and the one that came in over this and was taken back by undo. */
  readonly cameOver: string | null;
  readonly goesOnTo: string | null;
}

export function findPresent(shelf: SockShelf, places: readonly Cupboard[]): ShelfSock | null {
  const named = places.map((place) => shelf.get(place.read(PRESENT) ?? '')).find((sock) => sock != null && sock.deleted === null);
  return named ?? null;
}

export function createMySocks(firstId: string, tools: MySocksTools): MySocks {
  const { shelf, store, deskOf, places, onOpen, spareSock } = tools, sessions = new Map<string, Session>();
  let present = '', cameOver: string | null = null, goesOnTo: string | null = null, entered: SockFile | null = null;

  const settleOn = (id: string): void => {
    present = id;
    store.update({ sockId: id });
    for (const place of places) place.write(PRESENT, id);
  };
  settleOn(firstId);
  const leave = (): void => { sessions.set(present, { history: deskOf().history(), keptText: shelf.get(present)?.text ?? null, cameOver, goesOnTo }); };
  const enter = (id: string, session: Session): void => {
    ({ cameOver, goesOnTo } = session);
    entered = session.history.present;
    settleOn(id);
    onOpen();
    deskOf().replace(session.history);
  };
  const sessionOf = (id: string): Session | null => {
    const sock = shelf.get(id), session = sessions.get(id);
    if (session !== undefined && (sock === null || sock.text === session.keptText)) return session;
    if (sock?.file == null) return null;
    // Another window has changed it: undo goes back to what it was here.
    if (session !== undefined) return { ...session, history: record(session.history, sock.file, null) };
    return { history: beginHistory(sock.file), keptText: null, cameOver: null, goesOnTo: null };
  };
  const open = (id: string, change: Partial<Session> = {}): void => {
    if (id === present) return;
    leave();
    const session = sessionOf(id);
    if (session !== null) enter(id, { ...session, ...change });
  };
  const bringIn = (file: SockFile): void => {
    const known = shelf.find(file), from = present;
    if (known?.id === present) return;
    if (known !== null) { open(known.id, { cameOver: from }); return; }
    leave();
    enter(shelf.newId(), { history: beginHistory(file), keptText: null, cameOver: from, goesOnTo: null });
  };
  const isThere = (id: string | null): id is string => id !== null && (sessions.has(id) || shelf.get(id)?.file != null) && shelf.get(id)?.deleted == null;
  const tellOfKeeping = (): void => {
    const trouble = shelf.trouble(), { notKept } = pageWords().files;
    if (trouble === null) store.withdraw('keep');
    else store.tell('keep', notKept.title, trouble === 'full' ? notKept.full : notKept.off);
  };
  return {
    presentId: () => present,
    open,
    bringIn,
    addToList: (file) => {
      if (shelf.find(file) === null) shelf.put(shelf.newId(), file);
      tellOfKeeping();
    },
    rename: (id, name) => {
      const trimmed = name.trim() === '' ? undefined : name.trim();
      if (id === present) { deskOf().propose(withField(store.state().file, 'name', trimmed), null); return; }
      const file = shelf.get(id)?.file ?? null, session = sessions.get(id);
      if (file === null) return;
      const renamed = withField(file, 'name', trimmed);
      const kept = shelf.put(id, renamed);
      if (session !== undefined && kept === id) sessions.set(id, { ...session, history: record(session.history, renamed, null), keptText: shelf.get(id)?.text ?? null });
      tellOfKeeping();
    },
    duplicate: (id) => {
      const file = shelf.get(id)?.file ?? null;
      if (file === null) return null;
      const name = pageWords().files.copyOf(file.name ?? '', takenNames(shelf));
      bringIn(withField(file, 'name', name));
      return name;
    },
    putAway: (id) => {
      if (id === present) {
        const next = shelf.list().find((sock) => sock.id !== id && sock.deleted === null && sock.file !== null);
        if (next === undefined) bringIn(withField(spareSock, 'name', pageWords().files.newSock));
        else open(next.id);
      }
      shelf.setDeleted(id, true);
      tellOfKeeping();
    },
    bringBack: (id) => {
      shelf.setDeleted(id, false);
      tellOfKeeping();
    },
    keep: (file) => {
      const kept = shelf.put(present, file);
      if (kept !== present) {
        settleOn(kept);
        store.tell('socks', pageWords().files.twoWindows.title, pageWords().files.twoWindows.what);
      }
      tellOfKeeping();
    },
    beyond: () => {
      const [before, after] = [cameOver, goesOnTo], here = present;
      return {
        undo: isThere(before) ? () => { open(before, { goesOnTo: here }); } : null,
        // A change after the way back forgets where it came from, as any redo.
        redo: isThere(after) && deskOf().history().present === entered ? () => { open(after, { cameOver: here }); } : null,
      };
    },
  };
}

function takenNames(shelf: SockShelf): ReadonlySet<string> {
  return new Set(shelf.list().map(({ file }) => file?.name ?? ''));
}
