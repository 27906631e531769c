import type { Tolerance } from '../choose/read-tolerance.ts';
import type { Plan } from '../plan/plan-types.ts';
import { pageWords } from '../words/page-words.ts';
import { el } from './dom.ts';
import type { PageState } from './page-state.ts';
import { inFigures } from './units.ts';
import type { LengthUnit } from './units.ts';

export interface ToleranceCard { render(state: PageState): void }

/** What it does to the sock when the gauge that is knitted is not quite the gauge that was planned. */
export function createToleranceCard(host: HTMLElement, readTolerance: (plan: Plan) => Tolerance): ToleranceCard {
  const holder = el('div', {});
  host.append(el('details', { class: 'care tolerance' }, el('summary', {}, pageWords().measures.tolerance.title), holder));
  let drawn: { readonly plan: Plan; readonly unit: LengthUnit } | null = null;
  return {
    render: ({ planned, settings: { lengthUnit: unit } }) => {
      if (planned === null || (drawn?.plan === planned.plan && drawn.unit === unit)) return;
      drawn = { plan: planned.plan, unit };
      holder.replaceChildren(...drawTolerance(readTolerance(planned.plan), unit));
    },
  };
}

function drawTolerance({ error, rows }: Tolerance, unit: LengthUnit): readonly HTMLElement[] {
  const { smallUnit, tolerance: words } = pageWords().measures, stitches = words.stitches(error.stitchesPer10cm), rowsOff = words.rows(error.rowsPer10cm);
  const head = el('tr', {}, el('th', { scope: 'col' }, smallUnit[unit]), el('th', { scope: 'col' }, stitches), el('th', { scope: 'col' }, rowsOff));
  const body = rows.map((row) => el('tr', { 'data-tolerance': row.measure }, el('th', { scope: 'row' }, words.names[row.measure]),
    el('td', {}, offWords(row.fewerStitchesMm, row.moreStitchesMm, unit)), el('td', {}, offWords(row.fewerRowsMm, row.moreRowsMm, unit))));
  return [
    el('p', {}, words.means(stitches, rowsOff)),
    el('table', { class: 'measures' }, el('thead', {}, head), el('tbody', {}, ...body)),
  ];
}

/** The larger of the two ways to be off; what is not touched by it has a dash. */
export function offWords(fewerMm: number, moreMm: number, unit: LengthUnit): string {
  const mm = Math.max(Math.abs(fewerMm), Math.abs(moreMm));
  if (mm < 0.05) return '–';
  return `± ${inFigures(unit === 'cm' ? mm.toFixed(1) : (mm / 25.4).toFixed(2))}`;
}
