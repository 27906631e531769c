import { withField } from '../plan/with-field.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { pageWords } from '../words/page-words.ts';
import { beginHistory, record } from './history.ts';
import type { History } from './history.ts';
import type { Cupboard } from './keep.ts';
import type { PageStore } from './page-store.ts';
import type { Beyond, SockDesk } from './sock-desk.ts';
import type { ShelfSock, SockShelf } from './sock-shelf.ts';

/** Which of the socks lies on the page, and the ways from one to another. Each has its own undo and redo while the page is open. */
export interface SockSessions {
  presentId(): string;
  /** Another sock of the list; one that cannot be read stays where it is. */
  open(id: string): void;
  /** A sock from outside comes in as one of its own. One that is in the list already, to the letter, is opened there. */
  bringIn(file: SockFile): void;
  /** The sock on the desk has changed. */
  keep(file: SockFile): void;
  /** A sock that need not be on the desk gets another name. */
  rename(id: string, name: string | undefined): void;
  beyond(): Beyond;
}

export interface SessionTools {
  readonly shelf: SockShelf;
  readonly store: PageStore;
  readonly deskOf: () => SockDesk;
  /** Where the present sock's name is kept: for this window, and for the next visit. */
  readonly places: readonly Cupboard[];
  /** Another sock comes onto the page. */
  readonly onOpen: () => void;
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

export function createSockSessions(firstId: string, tools: SessionTools): SockSessions {
  return new Sessions(firstId, tools);
}

class Sessions implements SockSessions {
  private readonly tools: SessionTools;
  private readonly sessions = new Map<string, Session>();
  private present = '';
  private cameOver: string | null = null;
  private goesOnTo: string | null = null;
  private entered: SockFile | null = null;

  constructor(firstId: string, tools: SessionTools) {
    this.tools = tools;
    this.settleOn(firstId);
  }

  presentId(): string { return this.present; }

  open(id: string): void { this.goTo(id, {}); }

  bringIn(file: SockFile): void {
    const { shelf } = this.tools, known = shelf.find(file), from = this.present;
    if (known?.id === from) return;
    if (known !== null) { this.goTo(known.id, { cameOver: from }); return; }
    this.leave();
    this.enter(shelf.newId(), { history: beginHistory(file), keptText: null, cameOver: from, goesOnTo: null });
  }

  keep(file: SockFile): void {
    const { shelf, store } = this.tools, kept = shelf.put(this.present, file), { twoWindows } = pageWords().files;
    if (kept !== this.present) {
      this.settleOn(kept);
      store.tell('socks', twoWindows.title, twoWindows.what);
    }
    tellOfKeeping(shelf, store);
  }

  rename(id: string, name: string | undefined): void {
    const { shelf, store, deskOf } = this.tools, session = this.sessions.get(id), file = shelf.get(id)?.file ?? null;
    if (id === this.present) { deskOf().propose(withField(store.state().file, 'name', name), null); return; }
    if (file === null) return;
    const renamed = withField(file, 'name', name), kept = shelf.put(id, renamed);
    if (session !== undefined && kept === id) this.sessions.set(id, { ...session, history: record(session.history, renamed, null), keptText: shelf.get(id)?.text ?? null });
    tellOfKeeping(shelf, store);
  }

  beyond(): Beyond {
    const { cameOver: before, goesOnTo: after, present: here } = this;
    // A change after the way back forgets where it came from, as any redo.
    const isBack = (): boolean => this.tools.deskOf().history().present === this.entered;
    return {
      undo: this.isThere(before) ? () => { this.goTo(before, { goesOnTo: here }); } : null,
      redo: this.isThere(after) && isBack() ? () => { this.goTo(after, { cameOver: here }); } : null,
    };
  }

  private settleOn(id: string): void {
    this.present = id;
    this.tools.store.update({ sockId: id });
    for (const place of this.tools.places) place.write(PRESENT, id);
  }

  private goTo(id: string, change: Partial<Session>): void {
    if (id === this.present) return;
    this.leave();
    const session = this.sessionOf(id);
    if (session !== null) this.enter(id, { ...session, ...change });
  }

  private leave(): void {
    const { present, cameOver, goesOnTo, tools: { deskOf, shelf } } = this;
    this.sessions.set(present, { history: deskOf().history(), keptText: shelf.get(present)?.text ?? null, cameOver, goesOnTo });
  }

  private enter(id: string, { history, cameOver, goesOnTo }: Session): void {
    this.cameOver = cameOver;
    this.goesOnTo = goesOnTo;
    this.entered = history.present;
    this.settleOn(id);
    this.tools.onOpen();
    this.tools.deskOf().replace(history);
  }

  private sessionOf(id: string): Session | null {
    const sock = this.tools.shelf.get(id), session = this.sessions.get(id);
    if (session !== undefined && (sock === null || sock.text === session.keptText)) return session;
    if (sock?.file == null) return null;
    // Another window has changed it: undo goes back to what it was here.
    if (session !== undefined) return { ...session, history: record(session.history, sock.file, null) };
    return { history: beginHistory(sock.file), keptText: null, cameOver: null, goesOnTo: null };
  }

  private isThere(id: string | null): id is string {
    if (id === null) return false;
    const sock = this.tools.shelf.get(id);
    return sock === null ? this.sessions.has(id) : sock.file !== null && sock.deleted === null;
  }
}

/** Says when a sock lives in this window only, and why; and no more once all are kept. */
export function tellOfKeeping(shelf: SockShelf, store: PageStore): void {
  const trouble = shelf.trouble(), { notKept } = pageWords().files;
  if (trouble === null) store.withdraw('keep');
  else store.tell('keep', notKept.title, trouble === 'full' ? notKept.full : notKept.off);
}
