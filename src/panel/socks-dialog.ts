import { pageLanguage, pageWords } from '../words/page-words.ts';
import { createDialog } from './dialog.ts';
import { button, el, setText } from './dom.ts';

/** A sock as a line of the list shows it. */
export interface ListedSock {
  readonly id: string;
  readonly name: string;
  /** Its counts, or why it has none. */
  readonly about: string;
  /** Milliseconds of the clock. */
  readonly changed: number;
  readonly isPresent: boolean;
  readonly isDeleted: boolean;
  /** False where it lives in this window only. */
  readonly isKept: boolean;
  readonly isReadable: boolean;
}

export interface SocksHooks {
  readonly list: () => readonly ListedSock[];
  readonly open: (id: string) => void;
  readonly rename: (id: string, name: string) => void;
  /** Gives the copy's name, null where there is nothing to copy. */
  readonly duplicate: (id: string) => string | null;
  readonly save: (id: string) => void;
  readonly putAway: (id: string) => void;
  readonly bringBack: (id: string) => void;
  readonly forget: (id: string) => void;
  readonly addNew: () => void;
  readonly openFiles: (files: readonly File[]) => void;
}

export interface SocksDialog {
  open(): void;
  /** The list may have changed. */
  render(): void;
}

/** What a line of the list is made of, and what it sets going. */
interface Rows {
  readonly hooks: SocksHooks;
  readonly close: () => void;
  readonly render: () => void;
  /** Says what was done to a sock, by the name that it has at any time, with a way back where there is one. */
  readonly tell: (id: string, what: (name: string) => string, putBack?: () => void) => void;
  /** The sock whose name is being typed. */
  readonly setRenamed: (id: string | null) => void;
  /** Puts the focus on what has this mark, once it is there. */
  readonly focusOn: (mark: string) => void;
}

const BOX = 'name', BACK = 'back';

/** The person's socks: one line each, the one on the page marked. What is deleted can be put back. */
export function createSocksDialog(hooks: SocksHooks): SocksDialog {
  const words = pageWords().files, dialog = createDialog('socks-dialog', words.mySocks);
  const list = el('ul', { class: 'socks-list' }), gone = el('ul', { class: 'socks-list' }), goneTitle = el('summary'), goneBox = el('details', { class: 'socks-gone' }, goneTitle, gone);
  const said = el('p', { class: 'socks-said', role: 'status' }), back = button(words.putBack, { class: 'notice-button', 'data-focus': BACK }, () => undefined);
  let renamed: string | null = null;
  const focusOn = (mark: string): void => {
    [...dialog.element.querySelectorAll<HTMLElement>('[data-focus]')].find((element) => element.dataset['focus'] === mark)?.focus();
  };
  let told: { readonly id: string; readonly what: (name: string) => string } | null = null;
  const say = (): void => { setText(said, told === null ? '' : told.what(hooks.list().find(({ id }) => id === told?.id)?.name ?? '')); };
  const tell = (next: typeof told, putBack?: () => void): void => {
    told = next;
    say();
    back.hidden = putBack === undefined;
    back.onclick = putBack ?? null;
  };
  const render = (): void => {
    if (!dialog.element.open) return;
    const focused = document.activeElement instanceof HTMLElement ? document.activeElement.dataset['focus'] ?? '' : '';
    const socks = hooks.list(), deleted = socks.filter(({ isDeleted }) => isDeleted);
    list.replaceChildren(...socks.filter(({ isDeleted }) => !isDeleted).map((sock) => (sock.id === renamed ? renameRow(sock, rows) : sockRow(sock, rows))));
    gone.replaceChildren(...deleted.map((sock) => goneRow(sock, rows)));
    goneBox.hidden = deleted.length === 0;
    setText(goneTitle, words.deletedLately(deleted.length));
    say();
    if (focused !== '') focusOn(focused);
  };
  const rows: Rows = { hooks, close: dialog.close, render, focusOn, tell: (id, what, putBack) => { tell({ id, what }, putBack); }, setRenamed: (id) => { renamed = id; } };
  dialog.body.append(el('p', { class: 'sizes-about' }, words.mySocksAbout), list, goneBox);
  dialog.foot.append(
    button(words.newSock, { class: 'bar-button' }, () => { dialog.close(); hooks.addNew(); }),
    button(words.openFiles, { class: 'bar-button' }, () => { chooseFiles((files) => { dialog.close(); hooks.openFiles(files); }); }), said, back);
  return {
    open: () => {
      renamed = null;
      tell(null);
      dialog.open();
      render();
      list.querySelector<HTMLElement>('[aria-current]')?.focus();
    },
    render,
  };
}

function chooseFiles(take: (files: readonly File[]) => void): void {
  const input = el('input', { type: 'file', accept: '.json,application/json', multiple: true });
  input.addEventListener('change', () => { if ((input.files?.length ?? 0) > 0) take([...input.files ?? []]); });
  input.click();
}

function act(label: string, { id, name }: ListedSock, { render }: Rows, run: () => void): HTMLButtonElement {
  return button(label, { class: 'notice-button', 'aria-label': pageWords().files.actOn(label, name), 'data-focus': `${label} ${id}` }, () => {
    run();
    render();
  });
}

function putBack(sock: ListedSock, { hooks, tell, render, focusOn }: Rows): void {
  hooks.bringBack(sock.id);
  tell(sock.id, pageWords().files.broughtBack);
  render();
  focusOn(`open ${sock.id}`);
}

function remove(sock: ListedSock, rows: Rows): void {
  rows.hooks.putAway(sock.id);
  rows.tell(sock.id, pageWords().files.removed, () => { putBack(sock, rows); });
  rows.render();
  rows.focusOn(BACK);
}

function sockRow(sock: ListedSock, rows: Rows): HTMLElement {
  const words = pageWords().files, { hooks } = rows, { id } = sock;
  const open = button(sock.name, { class: 'socks-name', dir: 'auto', 'aria-label': words.openNamed(sock.name), 'aria-current': sock.isPresent ? 'true' : null, 'data-focus': `open ${id}` }, () => {
    rows.close();
    hooks.open(id);
  });
  const rename = (): void => {
    rows.setRenamed(id);
    rows.render();
    rows.focusOn(BOX);
  };
  const duplicate = (): void => {
    const copy = hooks.duplicate(id) === null ? undefined : hooks.list().find(({ isPresent }) => isPresent);
    if (copy !== undefined) rows.tell(copy.id, words.copied);
  };
  return el('li', { class: sock.isPresent ? 'socks-row is-present' : 'socks-row', 'data-sock': id },
    el('div', { class: 'socks-what' }, sock.isReadable ? open : el('strong', { class: 'socks-name', dir: 'auto' }, sock.name), aboutLine(sock)),
    el('div', { class: 'socks-acts' },
      ...(sock.isReadable ? [act(words.rename, sock, rows, rename), act(words.duplicate, sock, rows, duplicate)] : []),
      act(words.save, sock, rows, () => { hooks.save(id); }), act(words.remove, sock, rows, () => { remove(sock, rows); })));
}

function aboutLine({ about, changed, isPresent, isKept }: ListedSock): HTMLElement {
  const words = pageWords().files, date = new Intl.DateTimeFormat(pageLanguage(), { dateStyle: 'medium', timeStyle: 'short' }).format(changed);
  return el('p', { class: 'socks-about' },
    isPresent ? el('span', { class: 'socks-mark' }, words.onPage) : null, isKept ? null : el('span', { class: 'socks-mark is-loose' }, words.notKeptMark),
    [about, changed > 0 ? words.changed(date) : ''].filter((part) => part !== '').join(' · '));
}

function renameRow(sock: ListedSock, rows: Rows): HTMLElement {
  const words = pageWords().files;
  const box = el('input', { type: 'text', class: 'socks-rename', dir: 'auto', value: sock.name === words.unnamed ? '' : sock.name, maxlength: 200, 'aria-label': words.nameOfSock, 'data-focus': BOX });
  const end = (isKept: boolean): void => {
    rows.setRenamed(null);
    if (isKept) rows.hooks.rename(sock.id, box.value);
    rows.render();
    rows.focusOn(`${words.rename} ${sock.id}`);
  };
  box.addEventListener('focus', () => { box.select(); });
  box.addEventListener('keydown', (event) => {
    if (event.key !== 'Enter' && event.key !== 'Escape') return;
    // Escape leaves the name, not the list.
    event.preventDefault();
    event.stopPropagation();
    end(event.key === 'Enter');
  });
  return el('li', { class: 'socks-row', 'data-sock': sock.id }, el('div', { class: 'socks-what' }, box),
    el('div', { class: 'socks-acts' }, button(words.keepName, { class: 'notice-button' }, () => { end(true); }), button(words.leaveName, { class: 'notice-button' }, () => { end(false); })));
}

function goneRow(sock: ListedSock, rows: Rows): HTMLElement {
  const words = pageWords().files, { hooks } = rows;
  return el('li', { class: 'socks-row', 'data-sock': sock.id },
    el('div', { class: 'socks-what' }, el('span', { class: 'socks-name', dir: 'auto' }, sock.name), el('p', { class: 'socks-about' }, sock.about)),
    el('div', { class: 'socks-acts' }, act(words.putBack, sock, rows, () => { putBack(sock, rows); }), act(words.save, sock, rows, () => { hooks.save(sock.id); }),
      act(words.forGood, sock, rows, () => { hooks.forget(sock.id); })));
}
