import { pageWords } from '../words/page-words.ts';
import { createDialog } from './dialog.ts';
import { el } from './dom.ts';

/** A link to be copied by hand, where the browser keeps the page from the clipboard. */
export function createLinkDialog(): { show(link: string): void } {
  const words = pageWords().files.link, dialog = createDialog('link-dialog', words.label);
  const box = el('textarea', { class: 'link-box', readonly: true, rows: 5, 'aria-label': words.label });
  dialog.body.append(el('p', { class: 'sizes-about' }, words.about), el('p', {}, words.byHand), box);
  return {
    show: (link) => {
      box.value = link;
      dialog.open();
      box.focus();
      box.select();
    },
  };
}
