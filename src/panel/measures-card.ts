import type { MeasureLines, Measures } from '../measure/measures.ts';
import type { PoseName } from '../shape/pose.ts';
import { el, setText } from './dom.ts';
import type { PageState } from './page-state.ts';
import { formatLengthNumber } from './units.ts';

interface MeasureRow {
  readonly measure: keyof Measures;
  readonly name: string;
  /** What is measured, in a sentence. */
  readonly means: string;
  /** The person's own measure beside it. */
  readonly own?: (state: PageState) => number | null;
}

const ROWS: readonly MeasureRow[] = [
  { measure: 'heelDepthMm', name: 'Heel depth', means: 'Along the middle of the heel, from its first row to its narrowest.' },
  { measure: 'heelTipGirthMm', name: 'Heel-tip girth', means: 'The shortest way round heel tip and instep: what a high instep has to pass. An empty heel gathers, so it comes out shorter than by gauge; a foot opens it. The tape goes round a little lower on the heel, and may show more.', own: ({ file }) => file.foot?.heelDiagonalMm ?? null },
  { measure: 'heelDiagonalMm', name: 'Marked diagonal', means: 'Round the instep, down both slanted edges of the heel and across its narrowest row. An empty heel gathers, so it comes out shorter than by gauge.' },
  { measure: 'footGirthMm', name: 'Foot girth', means: 'Round the middle third of the foot.', own: ({ file }) => file.foot?.ballGirthMm ?? null },
  { measure: 'footLengthMm', name: 'Foot length', means: 'From the heel to the tip of the toe.', own: ({ planned }) => planned?.foot.lengthMm ?? null },
  { measure: 'legLengthMm', name: 'Leg length', means: 'Down the side of the leg.' },
  { measure: 'toeLengthMm', name: 'Toe length', means: 'From the last round of the foot to the tip.' },
  { measure: 'toeTipWidthMm', name: 'Toe tip', means: 'Across the last round.' },
  { measure: 'throatToHeelMm', name: 'Throat to heel', means: 'Straight through, from the middle of the instep to the tip of the heel.' },
  { measure: 'legFootAngleDeg', name: 'Leg to foot', means: 'The angle between leg and foot; 180° is a straight line.' },
];

const INVITATION = 'Point at a measure to see its line. By gauge is along the cloth, unstretched; an empty heel gathers, so its lines then come out shorter.';

const ON_BEDS = 'What hangs on the machine is drawn wide by its needles and not measured. By gauge is along the cloth of the finished sock, unstretched.';

const ON_FOOT = 'Point at a measure to see its line. Worn is on a smooth foot of your measures: a guide to how far the sock must give, not a fitting.';

const INVITATIONS: Readonly<Record<PoseName, string>> = { flat: INVITATION, tube: INVITATION, beds: ON_BEDS, worn: ON_FOOT };

const POSE_HEADS: Readonly<Record<PoseName, string>> = { flat: 'laid flat', tube: 'as tube', beds: 'on beds', worn: 'worn' };

export interface MeasuresCard { render(state: PageState): void }

export interface MeasureHooks {
  /** Draws the line of a measure on the sock, or takes it away. */
  readonly showLine: (line: { readonly points: Float64Array; readonly label: string } | null) => void;
}

/** Rest and posed values side by side; a row that is pointed at or focused draws its line on the sock. */
export function createMeasuresCard(host: HTMLElement, hooks: MeasureHooks): MeasuresCard {
  let state: PageState | null = null;
  let active: MeasureRow | null = null;
  const posedHead = el('th', { scope: 'col' });
  const unit = el('th', { scope: 'col', class: 'measure-unit' });
  const body = el('tbody');
  const means = el('p', { class: 'measure-means' });
  const rows = ROWS.map((row) => ({ row, cells: drawRow(row, body) }));
  host.append(el('table', { class: 'measures' }, el('thead', {}, el('tr', {},
    unit, el('th', { scope: 'col', title: 'Along the cloth, before it stretches: counts times gauge' }, 'by gauge'), posedHead, el('th', { scope: 'col' }, 'your foot'))), body), means);

  const showActive = (): void => {
    const lines: MeasureLines = state?.posed?.lines ?? {};
    const points = active === null ? undefined : lines[active.measure];
    if (active === null || points === undefined || state?.posed == null) { hooks.showLine(null); return; }
    hooks.showLine({ points, label: `${active.name} ${valueWords(active.measure, state.posed.measures[active.measure], state, true)}` });
  };
  const invitation = (): string => INVITATIONS[state?.settings.pose ?? 'flat'];
  const activate = (row: MeasureRow | null): void => {
    if (active === row) return;
    active = row;
    setText(means, row?.means ?? invitation());
    for (const each of rows) each.cells.line.classList.toggle('is-active', each.row === row);
    showActive();
  };
  setText(means, INVITATION);
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
      setText(unit, next.settings.lengthUnit === 'cm' ? 'cm' : 'inches');
      setText(posedHead, POSE_HEADS[next.settings.pose]);
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
  const id = `means-${row.measure}`;
  const name = el('button', { type: 'button', class: 'measure-name', 'aria-describedby': id }, row.name);
  const [rest, posed, own] = [el('td'), el('td', { class: 'measure-posed' }), el('td')];
  const head = el('th', { scope: 'row' }, name, el('span', { class: 'visually-hidden', id }, row.means));
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
