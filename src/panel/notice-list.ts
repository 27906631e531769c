import type { Problem } from '../base/problem.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { pageWords } from '../words/page-words.ts';
import { button, el } from './dom.ts';
import type { Notice, PageState, Settings } from './page-state.ts';
import { problemWords } from './problem-words.ts';

export interface NoticeList { render(state: PageState): void }

export interface NoticeHooks {
  /** Puts the focus on the control of a field; false if there is none. */
  readonly focusField: (field: string) => boolean;
  readonly hasField: (field: string) => boolean;
  readonly dismiss: (id: Notice['id']) => void;
  readonly undo: () => void;
  /** Shows a sock beside the one on the panel. */
  readonly compareWith: (file: SockFile) => void;
}

/**
 * What is wrong with the sock on the panel, and what the page has to tell besides. Spoken by
 * screen readers as it changes; each problem of a control leads to it.
 */
export function createNoticeList(host: HTMLElement, hooks: NoticeHooks): NoticeList {
  let drawn = '';
  return {
    render: ({ problems, notices, canUndo, settings }) => {
      const key = JSON.stringify([problems, notices, canUndo, settings.lengthUnit, settings.gaugeUnit]);
      if (key === drawn) return;
      drawn = key;
      const cards = notices.map((notice) => drawNotice(notice, hooks));
      if (problems.length > 0) cards.unshift(drawProblems(problems, settings, canUndo, hooks));
      host.replaceChildren(...cards);
    },
  };
}

function drawProblems(problems: readonly Problem[], settings: Settings, canUndo: boolean, hooks: NoticeHooks): HTMLElement {
  const say = pageWords().messages, undo = canUndo ? button(say.undo, { class: 'notice-button' }, hooks.undo) : null;
  return el('section', { class: 'notice is-problem', 'aria-label': say.problemsLabel },
    el('h2', {}, say.notYet),
    el('p', {}, say.lastStays),
    el('ul', {}, ...problems.map((problem) => drawProblem(problem, settings, hooks))), undo);
}

function drawProblem(problem: Problem, settings: Settings, hooks: NoticeHooks): HTMLElement {
  const { field } = problem;
  const words = problemWords(problem, settings);
  if (field === null || !hooks.hasField(field)) return el('li', { 'data-field': field }, words);
  return el('li', { 'data-field': field }, button(words, { class: 'notice-link' }, () => { hooks.focusField(field); }));
}

function drawNotice(notice: Notice, hooks: NoticeHooks): HTMLElement {
  const { before, act } = notice, say = pageWords().messages;
  return el('section', { class: notice.canUndo === true ? 'notice is-told' : 'notice', 'aria-label': notice.title, 'data-notice': notice.id },
    el('h2', {}, notice.title),
    notice.problems.length === 0 ? null : el('ul', {}, ...notice.problems.slice(0, 8).map((problem) => el('li', {}, fileWords(problem)))),
    notice.canUndo === true ? button(say.undo, { class: 'notice-button' }, hooks.undo) : null,
    act === undefined ? null : button(act.label, { class: 'notice-button' }, act.run),
    before === undefined ? null : button(say.compareWithBefore, { class: 'notice-button' }, () => { hooks.compareWith(before); }),
    button(say.dismiss, { class: 'notice-button' }, () => { hooks.dismiss(notice.id); }));
}

/** Of a file, its own field names and units: that is where it is put right. */
function fileWords({ message, allowed }: Problem): string {
  return allowed === null || message.includes(allowed) ? message : `${message} Allowed: ${allowed}.`;
}
