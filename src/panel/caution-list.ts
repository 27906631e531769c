import { pageWords } from '../words/page-words.ts';
import { el } from './dom.ts';
import type { PageState } from './page-state.ts';
import { inUnitsOf } from './problem-words.ts';

export interface CautionList { render(state: PageState): void }

/** What to mind about this sock, under its measures, and, quietly, about any sock. */
export function createCautionList(measures: HTMLElement, care: HTMLElement): CautionList {
  const words = pageWords().measures, list = el('ul', { class: 'cautions', 'aria-live': 'polite', 'aria-label': words.cautions });
  measures.append(list);
  care.append(el('details', { class: 'care' }, el('summary', {}, words.care), el('ul', {}, ...words.careNotes.map((note) => el('li', {}, note)))));
  let drawn = '';
  return {
    render: ({ knitted, remarks, settings }) => {
      const cautions = [...remarks, ...knitted?.cautions ?? []];
      const key = JSON.stringify([cautions, settings.lengthUnit]);
      if (key === drawn) return;
      drawn = key;
      list.replaceChildren(...cautions.map((caution) => el('li', { 'data-field': caution.field }, inUnitsOf(caution.message, settings.lengthUnit))));
      list.hidden = cautions.length === 0;
    },
  };
}
