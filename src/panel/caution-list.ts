import { el } from './dom.ts';
import type { PageState } from './page-state.ts';
import { inUnitsOf } from './problem-words.ts';

export interface CautionList { render(state: PageState): void }

const CARE: readonly string[] = [
  'A top that leaves marks is too tight. With swelling, numb feet, diabetes or poor circulation, ask a clinician before wearing it, and have no ridges at the toe.',
  'Socks slip on smooth floors.',
  'Needle hooks and latches are sharp; keep fingers clear of the carriage, and weights where they cannot fall on feet.',
];

/** What to mind about this sock, under its measures, and, quietly, about any sock. */
export function createCautionList(measures: HTMLElement, care: HTMLElement): CautionList {
  const list = el('ul', { class: 'cautions', 'aria-live': 'polite', 'aria-label': 'Cautions for this sock' });
  measures.append(list);
  care.append(el('details', { class: 'care' }, el('summary', {}, 'Care at the machine and in wear'), el('ul', {}, ...CARE.map((words) => el('li', {}, words)))));
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
