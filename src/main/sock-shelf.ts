import type { Problem } from '../base/problem.ts';
import { checkSock } from '../plan/check-sock.ts';
import { readSock } from '../plan/read-sock.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { writeSock } from '../plan/write-sock.ts';
import type { Cupboard } from './keep.ts';

/** A sock of the person's list. */
export interface ShelfSock {
  readonly id: string;
  /** Null where what is kept cannot be read. */
  readonly file: SockFile | null;
  /** Why it cannot be read. */
  readonly problems: readonly Problem[];
  /** The sock's file as text; of one that cannot be read, whatever is kept. */
  readonly text: string;
  /** When it was changed and, of one that was put away, when that was: milliseconds of the clock. */
  readonly changed: number;
  readonly deleted: number | null;
  /** False where it could not be written: then it lives as long as this window. */
  readonly isKept: boolean;
}

/**
 * A person's socks, each under a key of its own, so that two windows that keep different socks never
 * meet. Each writing leaves a stamp: where another window's stamp is found, its sock stays, and the
 * one to be written becomes a sock of its own.
 */
export interface SockShelf {
  /** Every sock, the last changed first; those that were put away are among them. */
  list(): readonly ShelfSock[];
  get(id: string): ShelfSock | null;
  /** A sock not put away whose file is the same to the letter. */
  find(file: SockFile): ShelfSock | null;
  /** A fresh name for a sock to come. */
  newId(): string;
  /** Keeps a sock's file and gives the name that it is now kept under: another one where another window had changed it. */
  put(id: string, file: SockFile): string;
  /** Puts a sock away, or brings it back. */
  setDeleted(id: string, isDeleted: boolean): void;
  /** Lets a sock that was put away go for good. */
  forget(id: string): void;
  /** Looks again at what is kept: another window may have changed it. */
  refresh(): void;
  /** Whether every sock is kept, and if not, why. */
  trouble(): 'full' | 'off' | null;
}

const KEY = 'socks.';
/** Socks that were put away and are still kept; the oldest go first. */
const MOST_DELETED = 20;

interface Entry { readonly sock: ShelfSock; readonly stamp: string }

/** `random` gives letters that no other window has; `now` is the clock. */
export function createSockShelf(cupboard: Cupboard, random: () => string, now: () => number): SockShelf {
  return new Shelf(cupboard, random, now);
}

class Shelf implements SockShelf {
  readonly newId: () => string;
  private readonly cupboard: Cupboard;
  private readonly now: () => number;
  private readonly entries = new Map<string, Entry>();
  private readonly mark: string;
  private stamps = 0;

  constructor(cupboard: Cupboard, random: () => string, now: () => number) {
    this.cupboard = cupboard;
    this.newId = random;
    this.now = now;
    this.mark = random();
    this.refresh();
  }

  list(): ShelfSock[] {
    return [...this.entries.values()].map(({ sock }) => sock).sort((a, b) => b.changed - a.changed || (a.id < b.id ? -1 : 1));
  }

  get(id: string): ShelfSock | null { return this.entries.get(id)?.sock ?? null; }

  find(file: SockFile): ShelfSock | null {
    const text = writeSock(file);
    return this.list().find((sock) => sock.deleted === null && sock.text === text) ?? null;
  }

  put(id: string, file: SockFile): string {
    const own = this.isForeign(id) ? this.newId() : id, text = writeSock(file), before = this.get(own);
    // A sock that is only looked at stays where it is in the list.
    if (before?.text === text && before.isKept && before.deleted === null) return own;
    if (this.write({ id: own, file, problems: [], text, changed: this.now(), deleted: null, isKept: true })) this.retry();
    // What this window showed was the other one's sock before the other changed it.
    if (own !== id) this.refresh();
    return own;
  }

  setDeleted(id: string, isDeleted: boolean): void {
    this.refresh();
    const sock = this.get(id);
    if (sock === null) return;
    // On a full disk the longer record may not fit: then it is gone from there, and waits in this window to be brought back.
    if (!this.write({ ...sock, deleted: isDeleted ? this.now() : null }) && isDeleted) this.cupboard.remove(KEY + id);
    const away = this.list().filter(({ deleted }) => deleted !== null).sort((a, b) => (b.deleted ?? 0) - (a.deleted ?? 0));
    for (const old of away.slice(MOST_DELETED)) this.drop(old.id);
    this.retry();
  }

  forget(id: string): void {
    this.refresh();
    // Another window may have brought it back.
    if (this.get(id)?.deleted === null) return;
    this.drop(id);
    this.retry();
  }

  refresh(): void {
    const kept = new Set<string>();
    for (const key of this.cupboard.keys()) {
      const id = key.slice(KEY.length), text = key.startsWith(KEY) ? this.cupboard.read(key) : null;
      if (text === null) continue;
      kept.add(id);
      if (this.get(id)?.isKept !== false) this.entries.set(id, readRecord(id, text));
    }
    for (const { id, isKept } of this.list()) if (isKept && !kept.has(id)) this.entries.delete(id);
  }

  trouble(): 'full' | 'off' | null {
    return this.list().every(({ isKept, deleted }) => isKept || deleted !== null) ? null : this.cupboard.trouble() ?? 'full';
  }

  private write(sock: ShelfSock): boolean {
    this.stamps += 1;
    const stamp = `${this.mark}.${this.stamps}`, before = this.entries.get(sock.id)?.stamp ?? '';
    const isKept = this.cupboard.write(KEY + sock.id, writeRecord(sock, stamp));
    this.entries.set(sock.id, { sock: { ...sock, isKept }, stamp: isKept ? stamp : before });
    return isKept;
  }

  /** Whether another window has written this sock since it was read or written here. */
  private isForeign(id: string): boolean {
    const text = this.cupboard.read(KEY + id);
    return text !== null && readRecord(id, text).stamp !== this.entries.get(id)?.stamp;
  }

  /** Room may have come free for socks that live in this window only. */
  private retry(): void {
    for (const sock of this.list()) if (!sock.isKept && sock.deleted === null && !this.isForeign(sock.id) && !this.write(sock)) return;
  }

  private drop(id: string): void {
    this.entries.delete(id);
    this.cupboard.remove(KEY + id);
  }
}

function writeRecord({ text, file, changed, deleted }: ShelfSock, stamp: string): string {
  return JSON.stringify({ stamp, changed, ...(deleted === null ? {} : { deleted }), ...(file === null ? { text } : { file }) });
}

function readRecord(id: string, record: string): Entry {
  const fields = fieldsOf(record), stamp = typeof fields['stamp'] === 'string' ? fields['stamp'] : record;
  const time = (key: string): number | null => (typeof fields[key] === 'number' && Number.isFinite(fields[key]) ? fields[key] : null);
  const given = fields['file'], kept = typeof fields['text'] === 'string' ? fields['text'] : record;
  const { file, problems } = given === undefined ? readSock(kept) : checkSock(given);
  const text = file !== null ? writeSock(file) : given === undefined ? kept : JSON.stringify(given, null, 2);
  return { stamp, sock: { id, file, problems, text, changed: time('changed') ?? 0, deleted: time('deleted'), isKept: true } };
}

function fieldsOf(record: string): Readonly<Record<string, unknown>> {
  try {
    const value: unknown = JSON.parse(record);
    return typeof value === 'object' && value !== null && !Array.isArray(value) ? { ...value } : {};
  } catch { return {}; }
}
