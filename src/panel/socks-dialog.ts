import { pageWords } from '../words/page-words.ts';
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

/** The person's socks: one line each, the one on the page marked. What is deleted can be put back. */
export function createSocksDialog(hooks: SocksHooks): SocksDialog {
  const words = pageWords().files, dialog = createDialog('socks-dialog', words.mySocks);
  const list = el('ul', { class: 'socks-list' }), gone = el('ul', { class: 'socks-list' }), goneTitle = el('summary'), goneBox = el('details', { class: 'socks-gone' }, goneTitle, gone);
  const said = el('p', { class: 'socks-said', role: 'status' }), back = button(words.putBack, { class: 'notice-button' }, () => undefined);
  const input = el('input', { type: 'file', accept: '.json,application/json', multiple: true });
  input.addEventListener('change', () => {
    const files = [...input.files ?? []];
    input.value = '';
    if (files.length === 0) return;
    dialog.close();
    hooks.openFiles(files);
  });
  let renamed: string | null = null;
  const tell = (what: string, putBack: (() => void) | null = null): void => {
    setText(said, what);
    back.hidden = putBack === null;
    back.onclick = putBack;
  };
  const render = (): void => {
    if (!dialog.element.open) return;
    const focused = document.activeElement instanceof HTMLElement ? document.activeElement.dataset['focus'] ?? '' : '';
    const socks = hooks.list(), deleted = socks.filter(({ isDeleted }) => isDeleted);
    list.replaceChildren(...socks.filter(({ isDeleted }) => !isDeleted).map((sock) => (sock.id === renamed ? renameRow(sock) : sockRow(sock))));
    gone.replaceChildren(...deleted.map(goneRow));
    goneBox.hidden = deleted.length === 0;
    setText(goneTitle, words.deletedLately(deleted.length));
    if (focused !== '') [...dialog.element.querySelectorAll<HTMLElement>('[data-focus]')].find((element) => element.dataset['focus'] === focused)?.focus();
  };
  const act = (label: string, { id, name }: ListedSock, run: () => void): HTMLButtonElement =>
    button(label, { class: 'notice-button', 'aria-label': words.actOn(label, name), 'data-focus': `${label} ${id}` }, () => {
      run();
      render();
    });
  const putBack = (sock: ListedSock): void => {
    hooks.bringBack(sock.id);
    tell(words.broughtBack(sock.name));
    render();
  };
  const remove = (sock: ListedSock): void => {
    hooks.putAway(sock.id);
    tell(words.removed(sock.name), () => { putBack(sock); });
    render();
    back.focus();
  };
  const sockRow = (sock: ListedSock): HTMLElement => {
    const open = sock.isReadable
      ? button(sock.name, { class: 'socks-name', dir: 'auto', 'aria-label': words.openNamed(sock.name), 'aria-current': sock.isPresent ? 'true' : null, 'data-focus': `open ${sock.id}` }, () => {
        dialog.close();
        hooks.open(sock.id);
      })
      : el('strong', { class: 'socks-name', dir: 'auto' }, sock.name);
    const rename = (): void => { renamed = sock.id; };
    const duplicate = (): void => {
      const copy = hooks.duplicate(sock.id);
      if (copy !== null) tell(words.copied(copy));
    };
    return el('li', { class: sock.isPresent ? 'socks-row is-present' : 'socks-row', 'data-sock': sock.id }, el('div', { class: 'socks-what' }, open, aboutLine(sock)),
      el('div', { class: 'socks-acts' },
        ...(sock.isReadable ? [focusAfter(act(words.rename, sock, rename), () => list.querySelector('input')), act(words.duplicate, sock, duplicate)] : []),
        act(words.save, sock, () => { hooks.save(sock.id); }), act(words.remove, sock, () => { remove(sock); })));
  };
  const aboutLine = (sock: ListedSock): HTMLElement => {
    const date = new Intl.DateTimeFormat(document.documentElement.lang, { dateStyle: 'medium', timeStyle: 'short' }).format(sock.changed);
    return el('p', { class: 'socks-about' }, ...(sock.isPresent ? [el('span', { class: 'socks-mark' }, words.onPage)] : []), ...(sock.isKept ? [] : [el('span', { class: 'socks-mark is-loose' }, words.notKeptMark)]),
      [sock.about, sock.changed > 0 ? words.changed(date) : ''].filter((part) => part !== '').join(' · '));
  };
  const renameRow = (sock: ListedSock): HTMLElement => {
    const box = el('input', { type: 'text', class: 'socks-rename', dir: 'auto', value: sock.name === words.unnamed ? '' : sock.name, maxlength: 200, 'aria-label': words.nameOfSock });
    const end = (isKept: boolean): void => {
      renamed = null;
      if (isKept) hooks.rename(sock.id, box.value);
      render();
      [...list.querySelectorAll<HTMLElement>('[data-focus]')].find((element) => element.dataset['focus'] === `${words.rename} ${sock.id}`)?.focus();
    };
    box.addEventListener('keydown', (event) => {
      if (event.key !== 'Enter' && event.key !== 'Escape') return;
      // Escape leaves the name, not the list.
      event.preventDefault();
      event.stopPropagation();
      end(event.key === 'Enter');
    });
    return el('li', { class: 'socks-row', 'data-sock': sock.id }, el('div', { class: 'socks-what' }, box),
      el('div', { class: 'socks-acts' }, button(words.keepName, { class: 'notice-button' }, () => { end(true); }), button(words.leaveName, { class: 'notice-button' }, () => { end(false); })));
  };
  const goneRow = (sock: ListedSock): HTMLElement => el('li', { class: 'socks-row', 'data-sock': sock.id },
    el('div', { class: 'socks-what' }, el('span', { class: 'socks-name', dir: 'auto' }, sock.name), el('p', { class: 'socks-about' }, sock.about)),
    el('div', { class: 'socks-acts' }, act(words.putBack, sock, () => { putBack(sock); }), act(words.save, sock, () => { hooks.save(sock.id); }), act(words.forGood, sock, () => { hooks.forget(sock.id); })));

  dialog.body.append(el('p', { class: 'sizes-about' }, words.mySocksAbout), list, goneBox);
  dialog.foot.append(
    button(words.newSock, { class: 'bar-button' }, () => { dialog.close(); hooks.addNew(); }),
    button(words.openFiles, { class: 'bar-button' }, () => { input.click(); }), said, back);
  return {
    open: () => {
      renamed = null;
      tell('');
      dialog.open();
      render();
      list.querySelector<HTMLElement>('[aria-current]')?.focus();
    },
    render,
  };
}

/** After a press the focus goes to what has come up instead. */
function focusAfter(pressed: HTMLButtonElement, find: () => HTMLInputElement | null): HTMLButtonElement {
  pressed.addEventListener('click', () => {
    const box = find();
    box?.focus();
    box?.select();
  });
  return pressed;
}
