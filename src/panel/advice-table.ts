import type { Advice, AdvisedSock, Misfit, WeighedSock } from '../choose/advice.ts';
import type { Measures } from '../measure/measures.ts';
import type { Plan } from '../plan/plan-types.ts';
import { pageWords } from '../words/page-words.ts';
import { costWords, depthWords, fieldCount, fieldName, misfitWords } from './advice-words.ts';
import { button, el } from './dom.ts';
import { inUnitsOf, unbroken } from './problem-words.ts';
import type { LengthUnit } from './units.ts';

/** Why the best is best; then the sock as it is and up to three better ones, side by side: what changes, what each asks of the cloth, what it takes to knit. */
export function drawAdvice({ present, best }: Advice, unit: LengthUnit, measure: (plan: Plan) => Measures, use: (sock: AdvisedSock) => void): readonly HTMLElement[] {
  const say = pageWords().advice, { groups, places } = say;
  const socks: readonly (WeighedSock | null)[] = [present, ...best];
  const fields = [...new Set(best.flatMap(({ changes }) => changes.map(({ field }) => field)))];
  const kinds = [...new Set(socks.flatMap((sock) => sock?.misfits.map(({ what }) => what) ?? []))];
  const head = el('thead', {}, el('tr', {}, el('td', {}), el('th', { scope: 'col' }, say.asItIs),
    ...best.map((_sock, place) => el('th', { scope: 'col', class: place === 0 ? 'is-best' : null }, places[place] ?? ''))));
  const why = best.map(({ reason }) => unbroken(inUnitsOf(reason, unit)));
  const reasons = why.slice(1).map((words, place) => row(places[place + 1] ?? '', [el('td', { colspan: best.length + 1, class: 'advice-reason' }, words)]));
  const depths = socks.map((sock) => (sock === null ? null : measure(sock.plan).heelDepthMm)), first = present === null ? null : depths[0];
  const uses = row('', [el('td', {}), ...best.map((sock, place) => el('td', {}, useButton(sock, place, use)))]);
  return [el('p', { class: 'advice-reason' }, why[0] ?? ''), el('table', { class: 'advice' }, head,
    group(best.length + 2, null, [uses]),
    group(best.length + 2, groups.changes, fields.map((field) => fieldRow(field, present, best))),
    group(best.length + 2, groups.foot, [
      row(say.heelDepth, depths.map((depth, place) => el('td', {}, depthWords(depth, place === 0 ? null : first, unit)))),
      ...kinds.map((what) => misfitRow(what, socks, unit)),
    ]),
    group(best.length + 2, groups.knit, [
      row(say.passes, socks.map((sock) => cost(sock?.passes ?? null, present?.passes ?? null, sock === present))),
      row(say.grams, socks.map((sock) => cost(sock?.grams ?? null, present?.grams ?? null, sock === present))),
    ]),
    group(best.length + 2, groups.others, reasons))];
}

function group(columns: number, title: string | null, rows: readonly HTMLElement[]): HTMLElement {
  return el('tbody', {}, title === null || rows.length === 0 ? null : el('tr', { class: 'advice-group' }, el('th', { colspan: columns, scope: 'rowgroup' }, title)), ...rows);
}

function row(name: string, cells: readonly HTMLElement[]): HTMLElement {
  return el('tr', {}, name === '' ? el('td', {}) : el('th', { scope: 'row' }, name), ...cells);
}

/** What a sock leaves as it is stands there softly, so that a column reads whole; a heel on half of other stitches is another number, though nobody chose it. */
function fieldRow(field: string, present: WeighedSock | null, best: readonly AdvisedSock[]): HTMLElement {
  const before = present === null ? null : fieldCount(field, present.plan);
  return row(fieldName(field), [el('td', {}, before === null ? '–' : String(before)), ...best.map(({ plan }) => {
    const count = fieldCount(field, plan);
    if (count === before) return el('td', { class: 'is-same' }, String(count ?? '–'));
    return el('td', { class: 'is-changed', 'data-field': field }, before === null ? null : el('span', { class: 'visually-hidden' }, pageWords().advice.from(before)), String(count));
  })]);
}

function misfitRow(what: Misfit['what'], socks: readonly (WeighedSock | null)[], unit: LengthUnit): HTMLElement {
  return row(pageWords().advice.misfits[what], socks.map((sock) => {
    const misfit = sock?.misfits.find((each) => each.what === what);
    return misfit === undefined ? el('td', {}, '–') : el('td', {}, misfitWords(misfit, unit));
  }));
}

function cost(own: number | null, present: number | null, isPresent: boolean): HTMLElement {
  return el('td', {}, own === null ? '–' : costWords(own, isPresent ? null : present));
}

function useButton(sock: AdvisedSock, place: number, use: (sock: AdvisedSock) => void): HTMLElement {
  const { use: name, useOf, yours } = pageWords().advice;
  if (sock.changes.length === 0) return el('span', { class: 'is-same' }, yours);
  return button(name, { class: place === 0 ? 'fit-button is-main' : 'fit-button', 'aria-label': useOf[place] ?? name }, () => { use(sock); });
}
