import type { GradedRow, SizeRow } from '../choose/size-table.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { GradeOutcome } from '../worker/client.ts';
import { createDialog } from './dialog.ts';
import { button, el, setText } from './dom.ts';
import { copyText, downloadText } from './hand-out.ts';
import type { PageState, Settings } from './page-state.ts';
import { problemWords } from './problem-words.ts';
import { createSizeLine } from './size-line.ts';
import type { SizeLine } from './size-line.ts';
import { createPrintedSizes } from './printed-sizes.ts';
import { gaugeWords, passesWords, sizeTableCsv, sizeTableText } from './size-table-words.ts';
import { extentOf } from './sock-outline.ts';
import type { SockOutline } from './sock-outline.ts';

export interface SizesDialog {
  open(): void;
  render(state: PageState): void;
}

export interface SizesHooks {
  readonly standardSizes: readonly SizeRow[];
  /** The last sock that could be knitted. */
  readonly sock: () => SockFile | null;
  readonly grade: (file: SockFile, sizes: readonly SizeRow[]) => Promise<GradeOutcome>;
  /** Of a sock laid flat; null where none came of it, or another was asked for. */
  readonly outline: (file: SockFile) => Promise<SockOutline | null>;
  /** Nothing is wanted any more. */
  readonly stop: () => void;
  readonly openSock: (file: SockFile) => void;
  /** Letters and figures of a sock's name, for a file. */
  readonly fileName: (name: string) => string;
}

/** The longest foot of the table has this many pixels in its picture. */
const PICTURE_PX = 54;

export function createSizesDialog(hooks: SizesHooks): SizesDialog {
  const dialog = createDialog('sizes-dialog', 'Sizes', () => { work.stop(); });
  const about = el('p', { class: 'sizes-about' });
  const body = el('tbody'), status = el('span', { class: 'sizes-status', role: 'status' }), notes = el('p', { class: 'sizes-notes' });
  const printed = createPrintedSizes();
  let settings: Settings | null = null, source: SockFile | null = null, lines: SizeLine[] = [];

  const graded = (): readonly GradedRow[] => lines.flatMap((line) => line.graded ?? []);
  const words = (problem: Parameters<typeof problemWords>[0]): string => (settings === null ? problem.message : problemWords(problem, settings));
  const title = (): string => (source === null || settings === null ? '' : `${source.name ?? 'Sock'}, in sizes: ${gaugeWords(source, settings.lengthUnit)}`);
  const refresh = (): void => {
    if (settings === null || source === null) return;
    setText(about, `“${source.name ?? 'Sock'}” at ${gaugeWords(source, settings.lengthUnit)}, with its own shares of heel and toe, its ease and its yarn. Change a foot, add your own, open a row as the sock on the panel.`);
    setText(notes, `${passesWords(graded())} Estimates have no published table behind them: measure the foot if you can.`);
    printed.show({ title: source.name ?? 'Sock', gauge: gaugeWords(source, settings.lengthUnit), rows: graded(), outlines: lines.map((line) => line.outline), unit: settings.lengthUnit, words });
  };
  const work = createSizesWork(hooks, () => lines, (text) => { setText(status, text); refresh(); });
  const regrade = (): void => { if (source !== null) work.grade(source); };
  const lay = (): void => {
    body.replaceChildren(...lines.flatMap((line) => line.rows));
    if (settings !== null) for (const line of lines) line.render(settings);
  };
  const addLine = (size: SizeRow): SizeLine => {
    const line: SizeLine = createSizeLine(size, {
      change: regrade,
      open: ({ file }) => { dialog.close(); hooks.openSock(file); },
      takeOut: () => {
        const place = lines.indexOf(line);
        lines = lines.filter((other) => other !== line);
        lay();
        regrade();
        (lines[Math.min(place, lines.length - 1)] ?? null)?.focus();
      },
    });
    lines.push(line);
    return line;
  };
  const standard = (): void => {
    lines = [];
    hooks.standardSizes.forEach(addLine);
    lay();
  };
  const handOut = createHandOut((text) => { setText(status, text); }, {
    text: () => sizeTableText(title(), graded(), settings?.lengthUnit ?? 'cm', words),
    csv: () => sizeTableCsv(graded(), settings?.lengthUnit ?? 'cm', words),
    name: () => hooks.fileName(source?.name ?? ''),
  });
  const table = el('table', { class: 'measures sizes-table' }, drawHead(), body);
  dialog.body.append(about, el('div', { class: 'sizes-scroll', tabindex: 0, role: 'region', 'aria-label': 'Table of sizes' }, table), notes);
  dialog.foot.append(
    button('Add a size', { class: 'notice-button' }, () => {
      const last = lines.at(-1)?.size;
      const line = addLine({ name: 'My size', lengthMm: last?.lengthMm ?? 255, ballGirthMm: last?.ballGirthMm ?? 238, legLengthMm: last?.legLengthMm ?? null, isEstimate: false });
      lay();
      regrade();
      line.focus();
    }),
    button('Standard sizes again', { class: 'notice-button' }, () => { standard(); regrade(); }),
    status, ...handOut);
  return {
    open: () => {
      source = hooks.sock();
      if (lines.length === 0) standard();
      refresh();
      dialog.open();
      if (source === null) setText(status, 'There is no sock yet that can be knitted.');
      else regrade();
    },
    render: (state) => {
      if (state.settings === settings) return;
      settings = state.settings;
      for (const line of lines) line.render(settings);
      setText(lengthHead, `foot, ${settings.lengthUnit}`);
      refresh();
    },
  };
}

const lengthHead = el('th', { scope: 'colgroup', colspan: 2 }, 'foot, cm');

/** Two lines of heads: passes and feet have several columns each. */
function drawHead(): HTMLElement {
  const head = (text: string): HTMLElement => el('th', { scope: 'col' }, text);
  const over = (text: string, span: number): HTMLElement => el('th', { scope: 'colgroup', colspan: span, class: 'size-over' }, text);
  return el('thead', {},
    el('tr', {}, el('td'), el('td'), lengthHead, over('', 2), over('passes', 4), over('', 3)),
    el('tr', {}, head('size'), el('th', { scope: 'col' }, el('span', { class: 'visually-hidden' }, 'shape')), ...['length', 'ball girth', 'stitches', 'turn-down', 'leg', 'heel', 'foot', 'toe', 'toe tip', 'yarn, a pair'].map(head), el('td')));
}

interface Work { grade(source: SockFile): void; stop(): void }

/** Counts for all rows at once, then their shapes one after another; anything new puts an end to the old. */
function createSizesWork(hooks: SizesHooks, lines: () => readonly SizeLine[], say: (words: string) => void): Work {
  let turn = 0;
  /** Outlines by what they hang on, so that a changed row does not draw the others again. */
  const known = new Map<string, SockOutline>();
  const draw = (): void => {
    const longest = Math.max(1, ...lines().map(({ outline }) => (outline === null ? 0 : extentOf(outline).width)));
    for (const line of lines()) line.showOutline(line.outline, PICTURE_PX / longest);
  };
  const fill = async (mine: number): Promise<void> => {
    const socks = lines().flatMap((line) => (line.graded?.sock == null ? [] : [{ line, file: line.graded.sock.file, key: keyOf(line.graded.sock.file) }]));
    for (const { line, key } of socks) line.showOutline(known.get(key) ?? null, 1);
    draw();
    const wanted = socks.filter(({ key }) => !known.has(key));
    for (const [done, { line, file, key }] of wanted.entries()) {
      say(`Shapes: ${socks.length - wanted.length + done} of ${socks.length}`);
      const outline = await hooks.outline(file);
      if (mine !== turn) return;
      if (outline === null) continue;
      known.set(key, outline);
      line.showOutline(outline, 1);
      draw();
    }
    say('');
  };
  return {
    grade: (source) => {
      turn += 1;
      const mine = turn, asked = lines();
      void hooks.grade(source, asked.map(({ size }) => size)).then((outcome) => {
        if (mine !== turn || outcome.status === 'cancelled') return;
        if (outcome.status === 'failed') { say(`The sizes could not be worked out: ${outcome.message}`); return; }
        outcome.rows.forEach((row, place) => { asked[place]?.grade(row); });
        say('');
        void fill(mine);
      });
    },
    stop: () => {
      turn += 1;
      hooks.stop();
    },
  };
}

/** All that a shape laid flat hangs on. */
function keyOf({ name: _name, yarns: _yarns, ...file }: SockFile): string {
  return JSON.stringify(file);
}

function createHandOut(say: (words: string) => void, table: { readonly text: () => string; readonly csv: () => string; readonly name: () => string }): HTMLElement[] {
  return [
    button('Copy as text', { class: 'notice-button' }, () => {
      void copyText(table.text()).then((isCopied) => { say(isCopied ? 'Copied.' : 'The browser did not let the page copy.'); });
    }),
    button('CSV', { class: 'notice-button', 'aria-label': 'Download as CSV' }, () => { downloadText(`${table.name()}-sizes.csv`, 'text/csv', table.csv()); }),
    button('Print', { class: 'notice-button' }, () => { window.print(); }),
  ];
}
