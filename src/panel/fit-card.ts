import type { FitAnswer, FitQuestion, WornReading } from '../measure/fit-answer.ts';
import type { Measures } from '../measure/measures.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { pageWords } from '../words/page-words.ts';
import { drawCaution } from './caution-list.ts';
import { button, el, setText } from './dom.ts';
import { fitSummary, guessedWords, pressWords } from './fit-words.ts';
import type { MeasureHooks } from './measures-card.ts';
import type { PageState } from './page-state.ts';
import { inUnitsOf, unbroken } from './problem-words.ts';
import { langOf, told } from './told.ts';
import type { LengthUnit } from './units.ts';
import { drawSign } from './verdict-sign.ts';

export interface FitCard { render(state: PageState): void }

export interface FitHooks extends MeasureHooks {
  /** Puts the sock on the foot. */
  readonly putOn: () => void;
  readonly makeItFit: () => void;
  /** Colours the worn sock by its pressure on the skin, or by how far it stands off. */
  readonly showLayer: (layer: 'pressure' | 'gap') => void;
  readonly showHowToMeasure: () => void;
  /** Whether two files are of the same sock on the same foot; yarns and names are neither here nor there. */
  readonly isSameSock: (a: SockFile, b: SockFile) => boolean;
}

/** The line on the sock that an answer is about. */
const LINES: Partial<Record<FitQuestion, keyof Measures>> = {
  'over-heel': 'heelTipGirthMm', heel: 'heelDepthMm', 'foot-girth': 'footGirthMm', 'foot-length': 'footLengthMm', toe: 'toeLengthMm',
};

/** A reading of the worn sock, and the sock that it was taken from. */
interface LastReading { readonly file: SockFile; readonly reading: WornReading }

/** What the worn sock answers. Of another pose, or while a change is under way, the last answers stay, and say whether they still hold. */
export function createFitCard(host: HTMLElement, hooks: FitHooks): FitCard {
  const say = pageWords().fit, summary = el('h2', {}), detail = el('p', { class: 'fit-detail' });
  const putOn = button(say.putOn, { class: 'fit-button' }, hooks.putOn);
  const fit = button(say.makeItFit, { class: 'fit-button is-main' }, hooks.makeItFit);
  const answers = el('ul', { class: 'fit-answers' }), press = el('p', { class: 'fit-press' });
  const shows = el('div', { class: 'fit-shows', hidden: true },
    button(say.showPress, { class: 'text-button' }, () => { hooks.showLayer('pressure'); }),
    button(say.showGaps, { class: 'text-button' }, () => { hooks.showLayer('gap'); }));
  const guessed = el('p', { class: 'fit-guessed' });
  const bases = el('dl', {}), judged = el('details', { class: 'fit-bases', hidden: true }, el('summary', {}, say.howJudged), bases);
  const cautions = el('ul', { class: 'fit-cautions', 'aria-label': pageWords().measures.cautions });
  const card = el('section', { class: 'card fit-card', 'aria-label': say.label },
    el('div', { role: 'status' }, summary, detail), el('div', { class: 'fit-buttons' }, putOn, fit), answers, press, shows, cautions);
  host.append(card, el('section', { class: 'card fit-limits', 'aria-label': say.limitsLabel }, guessed,
    el('p', {}, say.limits), judged, button(say.howToMeasure, { class: 'text-button' }, hooks.showHowToMeasure)));

  let last: LastReading | null = null;
  let drawn = '';
  let now: PageState | null = null;
  const showLine = (answer: FitAnswer | null): void => {
    const measure = answer === null ? undefined : LINES[answer.question], posed = now?.posed ?? null;
    const points = measure === undefined || now?.settings.pose !== 'worn' ? undefined : posed?.lines[measure];
    hooks.showLine(answer === null || points === undefined ? null : { points, label: told(inUnitsOf(answer.answer, now?.settings.lengthUnit ?? 'cm')) });
  };
  return {
    render: (state) => {
      now = state;
      const { settings: { pose, lengthUnit }, problems } = state;
      last = newestReading(state) ?? last;
      const isStale = last !== null && (problems.length > 0 || !hooks.isSameSock(last.file, state.file));
      const words = fitSummary(state, last?.reading.fit ?? null, isStale);
      setText(summary, words.title);
      setText(detail, words.detail);
      card.classList.toggle('is-stale', isStale);
      hideButton(putOn, pose === 'worn', fit);
      putOn.classList.toggle('is-main', last === null);
      fit.classList.toggle('is-main', last !== null && (isStale || !isAllGood(last.reading)));
      fit.disabled = problems.length > 0 || state.planned === null;
      setText(guessed, guessedWords(state.file));
      const toMind = [...state.remarks, ...state.knitted?.cautions ?? []];
      const key = JSON.stringify([last?.reading.fit, last?.reading.summary, toMind, lengthUnit]);
      if (key === drawn) return;
      drawn = key;
      answers.replaceChildren(...(last?.reading.fit ?? []).map((answer) => drawAnswer(answer, state, showLine)));
      setText(press, last === null ? '' : unbroken(pressWords(last.reading.summary, lengthUnit)));
      shows.hidden = last === null;
      judged.hidden = last === null;
      bases.replaceChildren(...(last?.reading.fit ?? []).flatMap(({ answer, basis }) => [drawTold('dt', answer, lengthUnit), drawTold('dd', basis, lengthUnit)]));
      cautions.replaceChildren(...toMind.map((caution) => drawCaution(caution, lengthUnit)));
      cautions.hidden = toMind.length === 0;
    },
  };
}

/** Takes a button away, or shows it again; a focus that it had goes to what is wanted next. */
function hideButton(element: HTMLElement, isHidden: boolean, next: HTMLElement): void {
  const hadFocus = document.activeElement === element;
  element.hidden = isHidden;
  if (hadFocus && isHidden) next.focus();
}

function newestReading({ posed, knitted }: PageState): LastReading | null {
  return posed?.worn == null || knitted === null ? null : { file: knitted.file, reading: posed.worn };
}

function isAllGood({ fit }: WornReading): boolean {
  return fit.every(({ verdict }) => verdict === 'good');
}

/** The answer in bold behind its sign; where it is about a line on the sock, pointing at it or its focus draws that line. */
function drawAnswer(answer: FitAnswer, { settings: { lengthUnit } }: PageState, showLine: (answer: FitAnswer | null) => void): HTMLElement {
  const { question, verdict } = answer, text = inUnitsOf(answer.answer, lengthUnit), words = unbroken(told(text)), lang = langOf(text);
  const spoken = el('span', { class: 'visually-hidden' }, `${pageWords().fit.signs[verdict]}: `);
  const name = LINES[question] === undefined ? el('strong', { class: 'fit-answer', lang }, words) : el('button', { type: 'button', class: 'fit-answer', lang }, words);
  const line = el('li', { 'data-question': question, 'data-verdict': verdict },
    drawSign(verdict), el('div', {}, spoken, name, drawTold('p', answer.because, lengthUnit)));
  line.addEventListener('pointerenter', () => { showLine(answer); });
  line.addEventListener('pointerleave', () => { showLine(null); });
  name.addEventListener('focus', () => { showLine(answer); });
  name.addEventListener('blur', () => { showLine(null); });
  return line;
}

function drawTold(tag: 'p' | 'dt' | 'dd', english: string, unit: LengthUnit): HTMLElement {
  const text = inUnitsOf(english, unit);
  return el(tag, { lang: langOf(text) }, unbroken(told(text)));
}
