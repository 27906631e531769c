import { STANDARD_SIZES } from '../foot/standard-sizes.ts';
import { standardRows } from '../choose/standard-rows.ts';
import type { GradedRow } from '../choose/size-table.ts';
import { el } from '../panel/dom.ts';
import { copyText, downloadText } from '../panel/hand-out.ts';
import type { PageState } from '../panel/page-state.ts';
import { createSheetChoices } from '../panel/sheet-choices.ts';
import type { Paper, SheetChoices } from '../panel/sheet-choices.ts';
import { layPages, USUAL_PAGES } from '../panel/sheet-pages.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { buildSheet } from '../sheet/build-sheet.ts';
import type { SheetSize } from '../sheet/sheet-context.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { writeSheetText } from '../sheet/write-sheet-text.ts';
import { pageLanguage, pageWords } from '../words/page-words.ts';
import { WORDS } from '../words/words.ts';
import type { Language } from '../words/words.ts';
import { client } from '../worker/client.ts';
import type { WorkClient } from '../worker/client.ts';
import { openWorker } from '../worker/open-worker.ts';
import type { Room, RoomTools } from './rooms.ts';
import { fileName } from './save-file.ts';
import { readSheetChoices } from './sheet-choices-kept.ts';

/** How much larger than paper a page is shown at most; chosen by eye. */
const LARGEST = 1.3;

/** The sheet as pages of paper, with the choices beside it. */
export function createSheetRoom({ host, store, keeper, choose }: RoomTools): Room {
  const told = pageWords().sheet.room;
  let choices = readSheetChoices(keeper.read('sheet')), shown: { readonly key: readonly unknown[]; readonly sheet: Sheet; readonly pages: number } | null = null;
  const side = el('aside', { class: 'sheet-choices', 'aria-label': told.heading }), pages = el('div', { class: 'sheet-pages' }), press = el('div', { class: 'sheet-press', 'aria-hidden': 'true' });
  const desk = el('div', { class: 'sheet-desk', tabindex: 0, role: 'region', 'aria-label': told.pages }, pages);
  const grader = createGrader(() => { render(store.state()); });
  const change = (changed: Partial<SheetChoices>): void => {
    choices = { ...choices, ...changed };
    keeper.write('sheet', JSON.stringify(choices));
    render(store.state());
  };
  const textName = (): string => `${fileName(shown?.sheet.title ?? '')}-${languageOf(choices) === 'de' ? 'strickblatt' : 'sheet'}.txt`;
  const part = createSheetChoices(side, {
    sizes: STANDARD_SIZES, change, chooseNumbers: (needleNumbers) => { choose({ needleNumbers }); },
    print: () => { window.print(); },
    copy: () => (shown === null ? Promise.resolve(false) : copyText(writeSheetText(shown.sheet))),
    save: () => {
      if (shown !== null) downloadText(textName(), 'text/plain;charset=utf-8', writeSheetText(shown.sheet));
      return textName();
    },
  });
  host.append(el('div', { class: 'sheet-room' }, side, desk, press));
  fitToWidth(desk, pages);
  const render = (state: PageState): void => {
    const { knitted, settings, problems } = state, paper = paperOf(choices, state), language = languageOf(choices), words = WORDS[language];
    const graded = grader.of(knitted?.file ?? null, choices.sizes);
    const key = [knitted, graded.rows, settings.lengthUnit, settings.needleNumbers, paper, language, choices.hasTransfers];
    if (knitted !== null && (shown === null || key.some((value, i) => value !== shown?.key[i]))) {
      const sheet = buildSheet(knitted, { words, numbers: settings.needleNumbers, unit: settings.lengthUnit, hasTransfers: choices.hasTransfers, sizes: sizesOf(graded.rows, words.sheet.sizeNames) });
      const laid = layPages(press, { sheet, paper, words, language });
      pages.replaceChildren(...laid);
      shown = { key, sheet, pages: laid.length };
    }
    part.render({
      choices, paper, language, numbers: settings.needleNumbers, isReady: shown !== null,
      status: shown === null ? (problems.length > 0 ? told.none : told.waiting) : told.count(shown.pages, told.papers[paper]),
      warnings: [
        ...(problems.length > 0 && shown !== null ? [told.kept] : []),
        ...(shown === null || shown.pages <= USUAL_PAGES ? [] : [choices.hasTransfers || choices.sizes.length > 0 ? told.tooLong : told.tooLongAnyway]),
        ...(graded.isWaiting ? [told.grading] : []), ...(graded.failure === null ? [] : [told.gradeFails(graded.failure)]),
        ...graded.rows.filter(({ sock }) => sock === null).map(({ size, problems: why }) => told.sizeFails(pageWords().sheet.sizeNames[size.name] ?? size.name, why.map(({ message }) => message).join(' '))),
      ],
    });
  };
  return { render, leave: grader.stop };
}

const languageOf = ({ language }: SheetChoices): Language => language ?? pageLanguage();
const paperOf = ({ paper }: SheetChoices, { settings }: PageState): Paper => paper ?? (settings.lengthUnit === 'in' ? 'letter' : 'a4');

function sizesOf(rows: readonly GradedRow[], names: Readonly<Record<string, string>>): SheetSize[] {
  return rows.flatMap(({ size, sock }) => (sock === null ? [] : [{ ...size, name: names[size.name] ?? size.name, plan: sock.plan, metres: sock.metres, grams: sock.grams }]));
}

interface Graded { readonly rows: readonly GradedRow[]; readonly isWaiting: boolean; readonly failure: string | null }

/** Sizes of a sock, worked out beside the page; the latest question wins. */
function createGrader(answered: () => void): { of(file: SockFile | null, names: readonly string[]): Graded; stop(): void } {
  let work: WorkClient | null = null, asked: { readonly file: SockFile; readonly names: string } | null = null, turn = 0;
  let graded: Graded = { rows: [], isWaiting: false, failure: null };
  const ask = (file: SockFile, names: readonly string[]): void => {
    const mine = ++turn;
    asked = { file, names: names.join('\n') };
    graded = { ...graded, isWaiting: true, failure: null };
    work ??= client(openWorker);
    void work.grade(file, standardRows().filter(({ name }) => names.includes(name))).then((outcome) => {
      if (mine !== turn || outcome.status === 'cancelled') return;
      graded = outcome.status === 'graded' ? { rows: outcome.rows, isWaiting: false, failure: null } : { rows: [], isWaiting: false, failure: outcome.message };
      answered();
    });
  };
  return {
    of: (file, names) => {
      if (file === null || names.length === 0) {
        turn += 1;
        asked = null;
        if (graded.rows.length > 0 || graded.isWaiting) graded = { rows: [], isWaiting: false, failure: null };
      } else if (asked?.file !== file || asked.names !== names.join('\n')) ask(file, names);
      return graded;
    },
    stop: () => {
      turn += 1;
      asked = null;
      work?.dispose();
      work = null;
    },
  };
}

/** Pages as wide as there is room for, within reason; narrow screens let their words flow instead (sheet-room.css). */
function fitToWidth(desk: HTMLElement, pages: HTMLElement): void {
  const gap = 40;
  new ResizeObserver(() => {
    const paper = pages.querySelector('.paper');
    // Letter is the wider one: 215.9 mm at 96 pixels to the inch.
    const wide = paper?.classList.contains('is-a4') === true ? 793.7 : 816;
    pages.style.setProperty('--zoom', Math.max(0.6, Math.min(LARGEST, (desk.clientWidth - gap) / wide)).toFixed(3));
  }).observe(desk);
}
