import type { SheetBlock, SheetTable } from '../sheet/sheet.ts';
import { el } from './dom.ts';

/** A block of a sheet as it stands on paper. `rows`: of a list, only these, in so many columns side by side. */
export function drawBlock(block: SheetBlock, columns = 1): HTMLElement {
  switch (block.kind) {
    case 'text': return el('p', {}, block.text);
    case 'list': return el('ul', {}, ...block.items.map((item) => el('li', {}, item)));
    case 'facts': return el('dl', { class: 'sheet-facts' }, ...block.rows.flatMap(([label, value]) => [el('dt', {}, label), el('dd', { dir: 'auto' }, value)]));
    case 'table': return drawTable(block, columns);
  }
}

function drawTable({ id, caption, head, rows }: SheetTable, columns: number): HTMLElement {
  const perColumn = Math.ceil(rows.length / columns), places = Array.from({ length: Math.ceil(rows.length / perColumn) }, (_, i) => i * perColumn);
  const parts = places.map((from) => el('table', { 'aria-label': caption },
    el('thead', {}, el('tr', {}, ...head.map((name) => el('th', { scope: 'col', dir: 'auto' }, name)))),
    el('tbody', {}, ...rows.slice(from, from + perColumn).map(drawRow))));
  const element = el('figure', { class: 'sheet-table', 'data-table': id }, el('figcaption', {}, caption), el('div', { class: 'sheet-columns' }, ...parts));
  element.style.setProperty('--columns', String(columns));
  return element;
}

function drawRow([first, ...cells]: readonly string[]): HTMLElement {
  return el('tr', {}, el('th', { scope: 'row', dir: 'auto' }, first), ...cells.map((cell) => el('td', { dir: 'auto' }, cell)));
}
