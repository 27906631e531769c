import type { Problem } from '../base/problem.ts';
import { problemWords } from './control-row.ts';
import { button, el } from './dom.ts';
import type { Notice, PageState } from './page-state.ts';

export interface NoticeList { render(state: PageState): void }

export interface NoticeHooks {
  /** Puts the focus on the control of a field; false if there is none. */
  readonly focusField: (field: string) => boolean;
  readonly hasField: (field: string) => boolean;
  readonly dismiss: (id: Notice['id']) => void;
  readonly undo: () => void;
}

/**
 * What is wrong with the sock on the panel, and what the page has to tell besides. Spoken by
 * screen readers as it changes; each problem of a control leads to it.
 */
export function createNoticeList(host: HTMLElement, hooks: NoticeHooks): NoticeList {
  let drawn = '';
  return {
    render: ({ problems, notices, canUndo }) => {
      const key = JSON.stringify([problems, notices, canUndo]);
      if (key === drawn) return;
      drawn = key;
      const cards = notices.map((notice) => drawNotice(notice, hooks));
      if (problems.length > 0) cards.unshift(drawProblems(problems, canUndo, hooks));
      host.replaceChildren(...cards);
    },
  };
}

function drawProblems(problems: readonly Problem[], canUndo: boolean, hooks: NoticeHooks): HTMLElement {
  const undo = canUndo ? button('Undo', { class: 'notice-button' }, hooks.undo) : null;
  return el('section', { class: 'notice is-problem', 'aria-label': 'What keeps this sock from being knitted' },
    el('h2', {}, 'This cannot be knitted yet'),
    el('p', {}, 'The last sock that could stays in the picture.'),
    el('ul', {}, ...problems.map((problem) => drawProblem(problem, hooks))), undo);
}

function drawProblem(problem: Problem, hooks: NoticeHooks): HTMLElement {
  const { field } = problem;
  const words = problemWords(problem);
  if (field === null || !hooks.hasField(field)) return el('li', { 'data-field': field }, field === null ? words : `${field}: ${words}`);
  return el('li', { 'data-field': field }, button(words, { class: 'notice-link' }, () => { hooks.focusField(field); }));
}

function drawNotice(notice: Notice, hooks: NoticeHooks): HTMLElement {
  return el('section', { class: 'notice', 'aria-label': notice.title, 'data-notice': notice.id },
    el('h2', {}, notice.title),
    notice.problems.length === 0 ? null : el('ul', {}, ...notice.problems.slice(0, 8).map((problem) => el('li', {}, problemWords(problem)))),
    button('Dismiss', { class: 'notice-button' }, () => { hooks.dismiss(notice.id); }));
}
