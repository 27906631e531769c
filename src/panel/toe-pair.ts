import { pageWords } from '../words/page-words.ts';
import { el } from './dom.ts';
import type { PageState } from './page-state.ts';
import { drawToePair } from './toe-drawing.ts';
import type { SidedToe } from './toe-drawing.ts';
import { outlineToe, toeShapeOf } from './toe-outline.ts';

export interface ToePair { readonly element: HTMLElement; render(state: PageState): void }

/** The toes of two socks over each other, from above, where they differ: a sock in profile does not show which is rounder. */
export function createToePair(): ToePair {
  const drawing = el('div'), say = pageWords().compare.toes;
  const element = el('figure', { class: 'toe-figure toe-pair', title: say.hint }, drawing, el('figcaption', { 'aria-hidden': 'true' },
    say.title, el('span', { class: 'toe-key' }, say.first), ', ', el('span', { class: 'toe-key is-other' }, say.second)));
  let drawn = '';
  return {
    element,
    render: ({ knitted, companion }) => {
      const other = companion?.knitted ?? null;
      const toes = knitted === null || other === null ? null : ([knitted, other] as const).map(({ file, plan }): SidedToe => ({ toe: toeShapeOf(plan), side: file.foot?.side ?? 'right' }));
      const [first, second] = toes ?? [], isDrawn = first !== undefined && second !== undefined && !isAlike(first, second);
      element.hidden = !isDrawn;
      const key = JSON.stringify(toes);
      if (!isDrawn || key === drawn) return;
      drawn = key;
      drawing.replaceChildren(drawToePair(first, second));
    },
  };
}

function isAlike(first: SidedToe, second: SidedToe): boolean {
  const [a, b] = [first, second].map(({ toe, side }) => JSON.stringify([outlineToe(toe), toe.steps.some(({ ends }) => ends === 'outer') ? side : null]));
  return a === b;
}
