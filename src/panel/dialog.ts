import { pageWords } from '../words/page-words.ts';
import { button, el } from './dom.ts';

/** A sheet over the page, which waits until it is closed. Escape closes it, and the focus goes back to where it was. */
export interface Dialog {
  readonly element: HTMLDialogElement;
  readonly body: HTMLElement;
  readonly foot: HTMLElement;
  open(): void;
  close(): void;
}

/** `kind` is a class of the sheet, from which the title's id is made too. */
export function createDialog(kind: string, title: string, onClose: () => void = () => undefined): Dialog {
  const body = el('div', { class: 'sheet-body' }), foot = el('footer', { class: 'sheet-foot' }), id = `${kind}-title`;
  const element = el('dialog', { class: `sheet ${kind}`, 'aria-labelledby': id },
    el('header', { class: 'sheet-head' }, el('h2', { id }, title),
      button(pageWords().fit.close, { class: 'bar-button' }, () => { element.close(); })),
    body, foot);
  element.addEventListener('close', onClose);
  // A press on the dimmed page beside the sheet; a drag of a selection that ends there is none.
  let isPressedBeside = false;
  element.addEventListener('pointerdown', (event) => { isPressedBeside = event.target === element; });
  element.addEventListener('click', (event) => { if (isPressedBeside && event.target === element) element.close(); });
  document.body.append(element);
  return { element, body, foot, open: () => { if (!element.open) element.showModal(); }, close: () => { element.close(); } };
}
