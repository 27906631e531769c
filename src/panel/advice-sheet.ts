import type { Advice, AdvisedSock } from '../choose/advice.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { AdviceOutcome } from '../worker/advice-client.ts';
import { drawAdvice } from './advice-table.ts';
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
  readonly ask: (file: SockFile, onProgress: (fraction: number) => void) => Promise<AdviceOutcome>;
  readonly cancel: () => void;
  readonly use: (sock: AdvisedSock) => void;
}

const ABOUT = 'Socks that your machine can knit are weighed against your foot by their counts and gauge: heel, foot, toe and stitches round may change, all else stays as you have it.';

/** Advice, worked backwards from the foot: asked for as the sheet opens, called off as it closes. */
export function createAdviceSheet(hooks: AdviceHooks): AdviceSheet {
  const sheet = createDialog('advice-sheet', 'Make it fit', hooks.cancel);
  const status = el('p', { class: 'advice-status', role: 'status' });
  const bar = el('progress', { class: 'stage-progress', max: 1, 'aria-label': 'Socks weighed' });
  const stop = button('Cancel', { class: 'fit-button' }, hooks.cancel);
  const again = button('Try again', { class: 'fit-button' }, () => { ask(); });
  const result = el('div', { class: 'advice-result' });
  sheet.body.append(el('p', { class: 'advice-about' }, ABOUT), el('div', { class: 'advice-progress' }, status, bar, stop, again), result);
  let now: PageState | null = null;

  const show = (words: string, isUnderWay: boolean, isOver: boolean): void => {
    setText(status, words);
    bar.hidden = stop.hidden = !isUnderWay;
    again.hidden = isUnderWay || isOver;
  };
  const take = (outcome: AdviceOutcome, state: PageState): void => {
    switch (outcome.status) {
      case 'cancelled':
        show('Stopped.', false, false);
        if (sheet.element.open) again.focus();
        return;
      case 'failed': show(`This could not be worked out: ${outcome.message}.`, false, false); return;
      case 'advised':
        result.replaceChildren(drawResult(outcome.advice, state, (sock) => { sheet.close(); hooks.use(sock); }));
        // The focus stays within the sheet, where a person would go on.
        if (document.activeElement === stop) result.querySelector('button')?.focus();
        show(adviceWords(outcome.advice), false, true);
        return;
      default: outcome satisfies never;
    }
  };
  const ask = (): void => {
    const state = now;
    if (state === null) return;
    result.replaceChildren();
    bar.value = 0;
    show('Weighing socks against your foot…', true, false);
    stop.focus();
    void hooks.ask(state.file, (fraction) => { bar.value = fraction; }).then((outcome) => { take(outcome, state); });
  };
  return {
    render: (state) => { now = state; },
    open: () => { sheet.open(); ask(); },
  };
}

function adviceWords({ best, tried }: Advice): string {
  if (best.length === 0) return 'There is no advice for this sock.';
  const weighed = `${tried.toLocaleString('en')} socks weighed.`;
  return best[0]?.changes.length === 0 ? `${weighed} None suits the foot better than yours.` : weighed;
}

function drawResult(advice: Advice, { settings }: PageState, use: (sock: AdvisedSock) => void): HTMLElement {
  if (advice.best.length > 0) return drawAdvice(advice, settings.lengthUnit, use);
  return el('ul', {}, ...advice.problems.map((problem) => el('li', {}, problemWords(problem, settings))));
}
