import type { Sheet, SheetBlock, SheetPart, SheetTable } from '../sheet/sheet.ts';
import type { Words } from '../words/words.ts';
import { el, setText } from './dom.ts';
import { drawBlock } from './sheet-blocks.ts';
import type { Paper } from './sheet-choices.ts';

/** Pixels left free at the foot of a page: a printer's letters may run a little wider than the screen's. Chosen by eye. */
const RESERVE_PX = 10;
/** A list is set in more columns only where each keeps so many rows, and is broken over pages only where the first part does. Chosen by eye. */
const LEAST_ROWS = 3;
/** Rows that a broken list keeps for the next page. */
const LEAST_OVER = 2;
const MOST_COLUMNS = 9;
/** Pages that a sheet should do with: where it does not, it is set tighter, letters as large as before. */
export const USUAL_PAGES = 4;

export interface PagesToLay { readonly sheet: Sheet; readonly paper: Paper; readonly words: Words; readonly language: string }

/**
 * Lays a sheet out on pages of paper, each an element with as much on it as fits. The host must be in the document and
 * as wide as it likes; its contents are replaced. A table goes with the words before it, and lists may go on overleaf.
 */
export function layPages(host: HTMLElement, toLay: PagesToLay): readonly HTMLElement[] {
  const usual = layOnce(host, toLay, false);
  if (usual.length <= USUAL_PAGES) return usual;
  const tight = layOnce(host, toLay, true);
  return tight.length < usual.length ? tight : usual;
}

function layOnce(host: HTMLElement, { sheet, paper, words, language }: PagesToLay, isTight: boolean): readonly HTMLElement[] {
  const { room } = words.sheet, press = createPress(host, { kind: `paper is-${paper}${isTight ? ' is-tight' : ''}`, language, title: sheet.title });
  press.open(el('header', { class: 'sheet-title' }, el('h1', { dir: 'auto' }, sheet.title), el('p', {}, sheet.subtitle)));
  for (const part of sheet.parts) layPart(press, part, room.continued(part.title));
  const pages = press.pages();
  pages.forEach((page, i) => {
    const label = room.page(i + 1, pages.length);
    page.setAttribute('aria-label', label);
    for (const number of page.querySelectorAll('.paper-number')) setText(number, label);
  });
  return pages;
}

/** The page that is being filled. */
interface Press {
  open(first: HTMLElement | null): void;
  /** What stands on the open page. */
  readonly flow: () => HTMLElement;
  /** Pixels left on it; below 0 where what stands there is too much. */
  readonly spare: () => number;
  readonly isFresh: () => boolean;
  /** Columns of lists that go on overleaf, by their names: they keep them there. */
  readonly broken: Map<string, number>;
  readonly pages: () => readonly HTMLElement[];
}

function createPress(host: HTMLElement, { kind, language, title }: { readonly kind: string; readonly language: string; readonly title: string }): Press {
  const pages: HTMLElement[] = [];
  let flow = el('div'), body = el('div');
  host.replaceChildren();
  return {
    open: (first) => {
      flow = el('div', { class: 'paper-flow' }, first);
      body = el('div', { class: 'paper-body' }, flow);
      const page = el('section', { class: kind, lang: language }, body,
        // As high as it will be: a line, whatever number it gets.
        el('footer', { class: 'paper-foot' }, el('span', { class: 'paper-name', dir: 'auto' }, title), el('span', { class: 'paper-number' }, '0')));
      pages.push(page);
      host.append(page);
    },
    flow: () => flow,
    spare: () => body.clientHeight - flow.offsetHeight - RESERVE_PX,
    isFresh: () => flow.childElementCount === 0,
    broken: new Map(),
    pages: () => pages,
  };
}

function layPart(press: Press, part: SheetPart, continued: string): void {
  let place: HTMLElement | null = null, isBegun = false;
  /** Where the part's next block goes: on a new page the part's name again. */
  const holder = (): HTMLElement => {
    if (place !== null) return place;
    place = el('div', { class: 'part-body' });
    if (!isBegun && part.at.length > 0) place.append(el('dl', { class: 'sheet-readings' }, ...part.at.map(([label, value]) => el('div', {}, el('dt', {}, label), el('dd', {}, value)))));
    press.flow().append(el('section', { class: 'sheet-part', 'data-part': part.id }, el('h2', {}, isBegun ? continued : part.title), place));
    return place;
  };
  const turnPage = (): void => {
    if (!isBegun) place?.parentElement?.remove();
    place = null;
    press.open(null);
  };
  for (const unit of unitsOf(part.blocks)) {
    let rest: readonly SheetBlock[] = unit;
    while (rest.length > 0) {
      const isFresh = press.isFresh(), left = layUnit(press, holder(), rest, isFresh);
      if (left !== rest) isBegun = true;
      if (left.length > 0) turnPage();
      rest = left;
    }
  }
}

/** Words and the table that they lead to stay together. */
function unitsOf(blocks: readonly SheetBlock[]): SheetBlock[][] {
  const units: SheetBlock[][] = [];
  blocks.forEach((block, i) => {
    const before = blocks[i - 1];
    if (block.kind === 'table' && before?.kind === 'text') units.at(-1)?.push(block);
    else units.push([block]);
  });
  return units;
}

/** Puts as much of a unit on the page as fits; what is left for the next page, the unit itself where nothing does. On a fresh page it always puts something. */
function layUnit(press: Press, holder: HTMLElement, unit: readonly SheetBlock[], isFresh: boolean): readonly SheetBlock[] {
  const lead = unit.slice(0, -1).map((block) => drawBlock(block)), last = unit[unit.length - 1];
  holder.append(...lead);
  const columns = last.kind === 'table' && last.isList ? (press.broken.get(last.id) ?? countColumns(holder, last)) : 1, whole = drawBlock(last, columns);
  holder.append(whole);
  if (press.spare() >= 0) return [];
  whole.remove();
  const split = last.kind === 'table' && last.isList ? splitList(press, holder, last, columns) : null;
  if (split !== null) return [split];
  if (isFresh) {
    holder.append(whole);
    return [];
  }
  for (const element of lead) element.remove();
  return unit;
}

/** As many columns as the width has room for. Columns are as wide as their widest row, which for a few is guessed from one of them all. */
function countColumns(holder: HTMLElement, table: SheetTable): number {
  const widthOf = (columns: number): number => {
    const trial = drawBlock(table, columns);
    trial.classList.add('is-trial');
    holder.append(trial);
    const width = trial.querySelector('.sheet-columns')?.getBoundingClientRect().width;
    trial.remove();
    return width ?? 0;
  };
  const room = holder.clientWidth, most = Math.min(MOST_COLUMNS, Math.ceil(table.rows.length / LEAST_ROWS));
  let columns = Math.max(1, Math.min(most, Math.floor(room / Math.max(1, widthOf(1))) + 1));
  while (columns > 1 && widthOf(columns) > room) columns -= 1;
  return columns;
}

/** Puts the first rows of a list on the page, as many as fit; the list of the others, or null where too few fit. */
function splitList(press: Press, holder: HTMLElement, table: SheetTable, columns: number): SheetTable | null {
  const draw = (rows: number): HTMLElement => drawBlock({ ...table, rows: table.rows.slice(0, rows * columns) }, columns);
  const spareWith = (rows: number): number => {
    const part = draw(rows);
    holder.append(part);
    const spare = press.spare();
    part.remove();
    return spare;
  };
  // The greatest number of rows that fits: rows are alike, so that two short lists tell nearly how many.
  let few = LEAST_ROWS - 1, many = Math.ceil(table.rows.length / columns) - LEAST_OVER + 1, left = spareWith(few);
  let rowPx = many - few > 1 ? Math.max(1, left - spareWith(few + 1)) : 1;
  while (many - few > 1) {
    const next = Math.min(many - 1, Math.max(few + 1, few + Math.floor(left / rowPx))), spare = spareWith(next);
    if (spare >= 0) {
      rowPx = Math.max(1, (left - spare) / (next - few));
      few = next;
      left = spare;
    } else many = next;
  }
  if (few < LEAST_ROWS) return null;
  holder.append(draw(few));
  press.broken.set(table.id, columns);
  return { ...table, rows: table.rows.slice(few * columns) };
}
