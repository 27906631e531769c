import type { Problem } from '../base/problem.ts';
import type { GradedRow } from '../choose/size-table.ts';
import { pageWords } from '../words/page-words.ts';
import { el } from './dom.ts';
import { passesWords, sizeTableCells, sizeTableHeads } from './size-table-words.ts';
import { drawOutline } from './sock-outline.ts';
import type { SockOutline } from '../sheet/flat-outline.ts';
import type { LengthUnit } from './units.ts';

export interface SizesToPrint {
  readonly title: string;
  readonly gauge: string;
  readonly rows: readonly GradedRow[];
  /** One a row; null where there is no shape yet. */
  readonly outlines: readonly (SockOutline | null)[];
  readonly unit: LengthUnit;
  readonly words: (problem: Problem) => string;
}

/** The longest foot has this many pixels on paper. */
const FOOT_PX = 36;

/** The table as it goes to the printer: no boxes, no buttons, no date. On the screen it is not seen. */
export function createPrintedSizes(): { show(table: SizesToPrint): void } {
  const sheet = el('section', { class: 'print-sheet', 'aria-hidden': 'true' });
  document.body.append(sheet);
  return {
    show: ({ title, gauge, rows, outlines, unit, words }) => {
      const pixelsPerMm = FOOT_PX / Math.max(1, ...rows.map(({ size }) => size.lengthMm)), heads = sizeTableHeads(unit), [first, ...others] = heads;
      const body = rows.map((row, place) => {
        const [name, ...cells] = sizeTableCells(row, unit, words), outline = outlines[place] ?? null;
        return el('tr', {}, el('th', { scope: 'row' }, String(name)), el('td', {}, outline === null ? null : drawOutline(outline, pixelsPerMm)),
          ...cells.map((cell, column) => el('td', column === cells.length - 1 ? { class: 'print-remark' } : {}, cell === null ? '–' : String(cell))));
      });
      sheet.replaceChildren(el('h1', {}, title), el('p', {}, pageWords().sizes.printedGauge(gauge)),
        el('table', {}, el('thead', {}, el('tr', {}, el('th', {}, first ?? ''), el('th'), ...others.map((head) => el('th', {}, head)))), el('tbody', {}, ...body)),
        el('p', {}, passesWords(rows)), el('p', {}, pageWords().sizes.printedNote));
    },
  };
}
