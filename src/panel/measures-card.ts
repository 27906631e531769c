import type { MeasureLines, Measures } from '../measure/measures.ts';
import { pageWords } from '../words/page-words.ts';
import { el, setText } from './dom.ts';
import type { PageState } from './page-state.ts';
import { formatLengthNumber } from './units.ts';

interface MeasureRow {
  readonly measure: keyof Measures;
  /** The person's own measure beside it. */
  readonly own?: (state: PageState) => number | null;
}

const ROWS: readonly MeasureRow[] = [
  { measure: 'heelDepthMm' },
  { measure: 'heelTipGirthMm', own: ({ file }) => file.foot?.heelDiagonalMm ?? null },
  { measure: 'heelDiagonalMm' },
  { measure: 'footGirthMm', own: ({ file }) => file.foot?.ballGirthMm ?? null },
  { measure: 'footLengthMm', own: ({ planned }) => planned?.foot.lengthMm ?? null },
  { measure: 'legLengthMm' }, { measure: 'toeLengthMm' }, { measure: 'toeTipWidthMm' }, { measure: 'throatToHeelMm' }, { measure: 'legFootAngleDeg' },
];

export interface MeasuresCard { render(state: PageState): void }

export interface MeasureHooks {
  /** Draws the line of a measure on the sock, or takes it away. */
  readonly showLine: (line: { readonly points: Float64Array; readonly label: string } | null) => void;
}

/** Rest and posed values side by side; a row that is pointed at or focused draws its line on the sock. */
export function createMeasuresCard(host: HTMLElement, hooks: MeasureHooks): MeasuresCard {
  const words = pageWords().measures;
  let state: PageState | null = null;
  let active: MeasureRow | null = null;
  const posedHead = el('th', { scope: 'col' });
  const unit = el('th', { scope: 'col', class: 'measure-unit' });
  const body = el('tbody');
  const means = el('p', { class: 'measure-means' });
  const rows = ROWS.map((row) => ({ row, cells: drawRow(row, body) }));
  host.append(el('table', { class: 'measures' }, el('thead', {}, el('tr', {},
    unit, el('th', { scope: 'col', title: words.byGaugeMeans }, words.byGauge), posedHead, el('th', { scope: 'col' }, words.yourFoot))), body), means);

  const showActive = (): void => {
    const lines: MeasureLines = state?.posed?.lines ?? {};
    const points = active === null ? undefined : lines[active.measure];
    if (active === null || points === undefined || state?.posed == null) { hooks.showLine(null); return; }
    hooks.showLine({ points, label: `${words.rows[active.measure].name} ${valueWords(active.measure, state.posed.measures[active.measure], state, true)}` });
  };
  const invitation = (): string => words.invitations[state?.settings.pose ?? 'flat'];
  const activate = (row: MeasureRow | null): void => {
    if (active === row) return;
    active = row;
    setText(means, row === null ? invitation() : words.rows[row.measure].means);
    for (const each of rows) each.cells.line.classList.toggle('is-active', each.row === row);
    showActive();
  };
  setText(means, invitation());
  for (const { row, cells } of rows) {
    cells.line.addEventListener('pointerenter', () => { activate(row); });
    cells.line.addEventListener('pointerleave', () => { if (!cells.line.contains(document.activeElement)) activate(null); });
    cells.name.addEventListener('focus', () => { activate(row); });
    cells.name.addEventListener('blur', () => { activate(null); });
    cells.name.addEventListener('keydown', (event) => { if (event.key === 'Escape') activate(null); });
  }
  return {
    render: (next) => {
      const isNewPose = state?.posed !== next.posed;
      state = next;
      host.classList.toggle('is-kept', next.problems.length > 0);
      host.classList.toggle('is-waiting', next.posed === null);
      setText(unit, words.unit[next.settings.lengthUnit]);
      setText(posedHead, words.poses[next.settings.pose]);
      for (const { row, cells } of rows) fillRow(row, cells, next);
      if (active === null) setText(means, invitation());
      else if (isNewPose) showActive();
    },
  };
}

interface Cells {
  readonly line: HTMLTableRowElement;
  readonly name: HTMLButtonElement;
  readonly rest: HTMLElement;
  readonly posed: HTMLElement;
  readonly own: HTMLElement;
}

function drawRow(row: MeasureRow, body: HTMLElement): Cells {
  const id = `means-${row.measure}`, words = pageWords().measures.rows[row.measure];
  const name = el('button', { type: 'button', class: 'measure-name', 'aria-describedby': id }, words.name);
  const [rest, posed, own] = [el('td'), el('td', { class: 'measure-posed' }), el('td')];
  const head = el('th', { scope: 'row' }, name, el('span', { class: 'visually-hidden', id }, words.means));
  const line = el('tr', { 'data-measure': row.measure }, head, rest, posed, own);
  body.append(line);
  return { line, name, rest, posed, own };
}

function fillRow(row: MeasureRow, cells: Cells, state: PageState): void {
  setText(cells.rest, valueWords(row.measure, state.planned?.rest[row.measure] ?? null, state, false));
  setText(cells.posed, state.posed === null ? '…' : valueWords(row.measure, state.posed.measures[row.measure], state, false));
  const own = row.own?.(state) ?? null;
  setText(cells.own, own === null ? '' : formatLengthNumber(own, state.settings.lengthUnit));
}

function valueWords(measure: keyof Measures, value: number | null, state: PageState, hasUnit: boolean): string {
  if (value === null) return '–';
  if (measure === 'legFootAngleDeg') return `${value.toFixed(0)}°`;
  const { lengthUnit } = state.settings;
  return `${formatLengthNumber(value, lengthUnit)}${hasUnit ? ` ${lengthUnit}` : ''}`;
}
