import type { Problem } from '../base/problem.ts';
import type { GradedRow, SizeRow } from '../choose/size-table.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { GradeOutcome } from '../worker/client.ts';
import { pageWords } from '../words/page-words.ts';
import { createDialog } from './dialog.ts';
import { button, el, setText } from './dom.ts';
import { copyText, downloadText } from './hand-out.ts';
import type { PageState, Settings } from './page-state.ts';
import { problemWords } from './problem-words.ts';
import { createSizeLine } from './size-line.ts';
import type { SizeLine } from './size-line.ts';
import { createPrintedSizes } from './printed-sizes.ts';
import { gaugeWords, passesWords, sizeTableText } from './size-table-words.ts';
import type { SockOutline } from '../sheet/flat-outline.ts';
import type { LengthUnit } from './units.ts';

export interface SizesDialog {
  open(): void;
  render(state: PageState): void;
}

/** A size of the table, and where its numbers are from. */
export interface StandardRow extends SizeRow { readonly source: string }

export interface SizesHooks {
  readonly standardSizes: readonly StandardRow[];
  /** The last sock that could be knitted. */
  readonly sock: () => SockFile | null;
  readonly grade: (file: SockFile, sizes: readonly SizeRow[]) => Promise<GradeOutcome>;
  /** Of a sock laid flat; null where none came of it, or another was asked for. */
  readonly outline: (file: SockFile) => Promise<SockOutline | null>;
  /** Nothing is wanted any more. */
  readonly stop: () => void;
  readonly openSock: (file: SockFile) => void;
  readonly writeCsv: (rows: readonly GradedRow[]) => string;
  /** Letters and figures of a sock's name, for a file. */
  readonly fileName: (name: string) => string;
}

/** The longest foot of the table has this many pixels in its picture; the pouch of a heel and the leg stand out beyond it. */
const FOOT_PX = 52;

export function createSizesDialog(hooks: SizesHooks): SizesDialog {
  const texts = pageWords().sizes, dialog = createDialog('sizes-dialog', texts.title, () => { work.stop(); });
  const about = el('p', { class: 'sizes-about' }), notes = el('p', { class: 'sizes-notes' }), status = el('span', { class: 'sizes-status', role: 'status' }), said = el('span', { class: 'sizes-said', role: 'status' });
  const head = createHead(), body = el('tbody'), printed = createPrintedSizes();
  let settings: Settings | null = null, source: SockFile | null = null;

  const words = (problem: Problem): string => (settings === null ? problem.message : problemWords(problem, settings));
  const unit = (): LengthUnit => settings?.lengthUnit ?? 'cm';
  const refresh = (): void => {
    if (source === null) return;
    const name = source.name ?? texts.sock, gauge = gaugeWords(source, unit()), rows = list.graded();
    setText(about, texts.about(name, gauge));
    setText(notes, texts.notes(passesWords(rows)));
    printed.show({ title: name, gauge, rows, outlines: list.lines().map((line) => line.outline), unit: unit(), words });
  };
  const say = (text: string): void => {
    setText(status, text);
    refresh();
  };
  const list = createSizeList(body, hooks.standardSizes, {
    change: () => { if (source !== null) work.grade(source); },
    open: (file) => { dialog.close(); hooks.openSock(file); },
  });
  const work = createSizesWork(hooks, list.lines, say);
  const table = el('table', { class: 'measures sizes-table' }, head.element, body);
  dialog.body.append(about, el('div', { class: 'sizes-scroll', tabindex: 0, role: 'region', 'aria-label': texts.table }, table), notes);
  dialog.foot.append(button(texts.add, { class: 'notice-button' }, list.add), button(texts.standard, { class: 'notice-button' }, list.standard), status, said, ...createHandOut((text) => { setText(said, text); }, {
    text: () => sizeTableText(`${source?.name ?? texts.sock}, ${source === null ? '' : gaugeWords(source, unit())}`, list.graded(), unit(), words),
    csv: () => hooks.writeCsv(list.graded()),
    name: () => hooks.fileName(source?.name ?? ''),
  }));
  return {
    open: () => {
      source = hooks.sock();
      setText(said, '');
      say(source === null ? texts.noSock : '');
      dialog.open();
      if (list.lines().length === 0) list.standard();
      else if (source !== null) work.grade(source);
    },
    render: (state) => {
      if (state.settings === settings) return;
      settings = state.settings;
      head.render(settings);
      list.render(settings);
      refresh();
    },
  };
}

interface SizeList {
  readonly lines: () => readonly SizeLine[];
  /** Of the lines that have been worked out. */
  readonly graded: () => readonly GradedRow[];
  readonly add: () => void;
  /** All as they were at first. */
  readonly standard: () => void;
  readonly render: (settings: Settings) => void;
}

/** A new size begins with the last one's foot; the very first with a usual one (chosen). */
const FIRST_SIZE: Omit<SizeRow, 'name'> = { lengthMm: 255, ballGirthMm: 238, legLengthMm: null, isEstimate: false };

function createSizeList(body: HTMLElement, sizes: readonly StandardRow[], { change, open }: { readonly change: () => void; readonly open: (file: SockFile) => void }): SizeList {
  let lines: SizeLine[] = [], settings: Settings | null = null;
  const lay = (): void => {
    body.replaceChildren(...lines.flatMap((line) => line.rows));
    if (settings !== null) for (const line of lines) line.render(settings);
    change();
  };
  const makeLine = (size: SizeRow, source: string | null): SizeLine => {
    const line: SizeLine = createSizeLine(size, source, {
      change,
      open: ({ file }) => { open(file); },
      takeOut: () => {
        const place = lines.indexOf(line);
        lines = lines.filter((other) => other !== line);
        lay();
        lines[Math.min(place, lines.length - 1)]?.focus();
      },
    });
    return line;
  };
  return {
    lines: () => lines,
    graded: () => lines.flatMap((line) => line.graded ?? []),
    add: () => {
      const line = makeLine({ ...FIRST_SIZE, ...lines.at(-1)?.size, name: pageWords().sizes.mySize, isEstimate: false }, null);
      lines = [...lines, line];
      lay();
      line.focus();
    },
    standard: () => {
      lines = sizes.map(({ source, ...size }) => makeLine(size, source));
      lay();
    },
    render: (next) => {
      settings = next;
      for (const line of lines) line.render(next);
    },
  };
}

/** Two lines of heads: feet and passes have several columns each. */
function createHead(): { readonly element: HTMLElement; render(settings: Settings): void } {
  const { heads, footIn } = pageWords().sizes;
  const foot = el('th', { scope: 'colgroup', colspan: 2, class: 'size-over' });
  const head = (text: string): HTMLElement => el('th', { scope: 'col' }, text);
  const element = el('thead', {},
    el('tr', {}, el('td', { colspan: 2 }), foot, el('td', { colspan: 2 }), el('th', { scope: 'colgroup', colspan: 4, class: 'size-over' }, heads.passes), el('td', { colspan: 3 })),
    el('tr', {}, head(heads.size), el('th', { scope: 'col' }, el('span', { class: 'visually-hidden' }, heads.shape)),
      ...[heads.length, heads.ballGirth, heads.stitches, heads.turnDown, heads.leg, heads.heel, heads.foot, heads.toe, heads.toeTip, heads.yarn].map(head), el('td')));
  return { element, render: ({ lengthUnit }) => { setText(foot, footIn(lengthUnit)); } };
}

interface Work { grade(source: SockFile): void; stop(): void }

/** Counts for all rows at once, then their shapes one after another; anything new puts an end to the old. */
function createSizesWork(hooks: SizesHooks, lines: () => readonly SizeLine[], say: (words: string) => void): Work {
  let turn = 0;
  /** Outlines by what they hang on, so that a changed row does not draw the others again. */
  const known = new Map<string, SockOutline>();
  const fill = async (mine: number): Promise<void> => {
    const socks = lines().flatMap((line) => (line.graded?.sock == null ? [] : [{ line, file: line.graded.sock.file, key: keyOf(line.graded.sock.file) }]));
    const pixelsPerMm = FOOT_PX / Math.max(...socks.map(({ line }) => line.size.lengthMm));
    for (const line of lines()) line.showOutline(known.get(socks.find((sock) => sock.line === line)?.key ?? '') ?? null, pixelsPerMm);
    const wanted = socks.filter(({ key }) => !known.has(key));
    for (const [done, { line, file, key }] of wanted.entries()) {
      say(pageWords().sizes.shapes(socks.length - wanted.length + done, socks.length));
      const outline = await hooks.outline(file);
      if (mine !== turn) return;
      if (outline === null) continue;
      known.set(key, outline);
      line.showOutline(outline, pixelsPerMm);
    }
    say('');
  };
  return {
    grade: (source) => {
      turn += 1;
      const mine = turn, asked = lines();
      void hooks.grade(source, asked.map(({ size }) => size)).then((outcome) => {
        if (mine !== turn || outcome.status === 'cancelled') return;
        if (outcome.status === 'failed') { say(pageWords().sizes.failed(outcome.message)); return; }
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
  const { compare, sizes } = pageWords();
  return [
    button(compare.copy, { class: 'notice-button' }, () => {
      void copyText(table.text()).then((isCopied) => { say(isCopied ? compare.copied : compare.notCopied); });
    }),
    button(sizes.csv, { class: 'notice-button', 'aria-label': sizes.csvLabel }, () => { downloadText(sizes.csvFile(table.name()), 'text/csv', table.csv()); }),
    button(sizes.print, { class: 'notice-button' }, () => { window.print(); }),
  ];
}
