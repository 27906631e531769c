import type { Advice, AdvisedSock } from '../choose/advice.ts';
import type { Measures } from '../measure/measures.ts';
import type { Plan } from '../plan/plan-types.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { AdviceOutcome } from '../worker/advice-client.ts';
import { pageWords } from '../words/page-words.ts';
import { drawAdvice } from './advice-table.ts';
import { fixedWords, weighedWords } from './advice-words.ts';
import { createDialog } from './dialog.ts';
import { button, el, setText } from './dom.ts';
import type { PageState } from './page-state.ts';
import { problemWords } from './problem-words.ts';

export interface AdviceSheet {
  render(state: PageState): void;
  /** Opens the sheet and asks for advice for the sock on the panel. */
  open(): void;
}

export interface AdviceHooks {
  readonly ask: (file: SockFile, keepsCounts: boolean, onProgress: (fraction: number) => void) => Promise<AdviceOutcome>;
  readonly cancel: () => void;
  readonly use: (sock: AdvisedSock) => void;
  /** Of a sock by its counts and gauge. */
  readonly measure: (plan: Plan) => Measures;
}

/** Advice, worked backwards from the foot: asked for as the sheet opens, called off as it closes. */
export function createAdviceSheet(hooks: AdviceHooks): AdviceSheet {
  const say = pageWords().advice, sheet = createDialog('advice-sheet', say.title, hooks.cancel);
  const status = el('p', { class: 'advice-status', role: 'status' });
  const bar = el('progress', { class: 'stage-progress', max: 1, 'aria-label': say.progress });
  const stop = button(say.cancel, { class: 'fit-button' }, hooks.cancel);
  const again = button(say.again, { class: 'fit-button' }, () => { ask(); });
  const result = el('div', { class: 'advice-result' });
  const isFree = el('input', { type: 'checkbox' }), fixed = el('span');
  isFree.addEventListener('change', () => { ask(); });
  const free = el('label', { class: 'advice-free' }, isFree, fixed);
  sheet.body.append(el('p', { class: 'advice-about' }, say.about), free, el('div', { class: 'advice-progress' }, status, bar, stop, again), result);
  let now: PageState | null = null;

  const show = (words: string, isUnderWay: boolean, isOver: boolean): void => {
    setText(status, words);
    bar.hidden = stop.hidden = !isUnderWay;
    again.hidden = isUnderWay || isOver;
  };
  const take = (outcome: AdviceOutcome, state: PageState): void => {
    switch (outcome.status) {
      case 'cancelled':
        show(say.stopped, false, false);
        if (sheet.element.open) again.focus();
        return;
      case 'failed': show(say.failed(outcome.message), false, false); return;
      case 'advised':
        result.replaceChildren(...drawResult(outcome.advice, state, hooks.measure, (sock) => { sheet.close(); hooks.use(sock); }));
        // The focus stays within the sheet, where a person would go on.
        if (document.activeElement === stop) result.querySelector('button')?.focus();
        show(weighedWords(outcome.advice), false, true);
        return;
      default: outcome satisfies never;
    }
  };
  const ask = (): void => {
    const state = now;
    if (state === null) return;
    result.replaceChildren();
    bar.value = 0;
    show(say.weighing, true, false);
    if (document.activeElement !== isFree) stop.focus();
    void hooks.ask(state.file, !isFree.checked, (fraction) => { bar.value = fraction; }).then((outcome) => { take(outcome, state); });
  };
  return {
    render: (state) => { now = state; },
    open: () => {
      const words = now === null ? null : fixedWords(now.file);
      setText(fixed, words ?? '');
      free.hidden = words === null;
      isFree.checked = false;
      sheet.open();
      ask();
    },
  };
}

function drawResult(advice: Advice, { settings }: PageState, measure: AdviceHooks['measure'], use: (sock: AdvisedSock) => void): readonly HTMLElement[] {
  if (advice.best.length > 0) return drawAdvice(advice, settings.lengthUnit, measure, use);
  return [el('ul', {}, ...advice.problems.map((problem) => el('li', {}, problemWords(problem, settings))))];
}
