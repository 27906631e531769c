import type { GradedRow, SizeRow } from '../choose/size-table.ts';
import { pageWords } from '../words/page-words.ts';
import { button, el, setAttributes, setText } from './dom.ts';
import { createNumberField } from './number-field.ts';
import type { Settings } from './page-state.ts';
import { problemWords } from './problem-words.ts';
import { pairOf } from './size-table-words.ts';
import { drawOutline } from './sock-outline.ts';
import type { SockOutline } from '../sheet/flat-outline.ts';
import { lengthScale } from './units.ts';

export interface SizeLineHooks {
  /** The size has been changed by hand. */
  readonly change: () => void;
  readonly open: (row: NonNullable<GradedRow['sock']>) => void;
  readonly takeOut: () => void;
}

/** One size in the table: what it is graded to may be changed, what comes of it is read. */
export interface SizeLine {
  readonly rows: readonly HTMLTableRowElement[];
  readonly size: SizeRow;
  readonly graded: GradedRow | null;
  readonly outline: SockOutline | null;
  grade(graded: GradedRow | null): void;
  showOutline(outline: SockOutline | null, pixelsPerMm: number): void;
  render(settings: Settings): void;
  focus(): void;
}

/** Columns of the table, which a problem spans. */
export const SIZE_COLUMNS = 13;

let linesMade = 0;

/** `source` says where the size's numbers are from, as long as they stand; null for a size of one's own. */
export function createSizeLine(first: SizeRow, source: string | null, hooks: SizeLineHooks): SizeLine {
  let size = first, graded: GradedRow | null = null, outline: SockOutline | null = null, settings: Settings | null = null;
  const problemId = `size-problem-${++linesMade}`;
  const change = (changed: Partial<SizeRow>): void => {
    // A foot that somebody has given is no estimate of ours. A name changes no count, and may be copied at once.
    size = { ...size, isEstimate: 'name' in changed ? size.isEstimate : false, ...changed };
    if (graded !== null && 'name' in changed) graded = { ...graded, size };
    if (settings !== null) render(settings);
    hooks.change();
  };
  const takeLength = (key: 'lengthMm' | 'ballGirthMm') => (value: number | null): void => {
    if (value !== null && settings !== null) change({ [key]: lengthScale(settings.lengthUnit).toFile(value) });
  };
  const name = el('input', { type: 'text', class: 'size-name', autocomplete: 'off', value: size.name, 'aria-label': pageWords().sizes.nameLabel });
  name.addEventListener('change', () => { change({ name: name.value.trim() || size.name }); });
  const length = createNumberField('', takeLength('lengthMm')), girth = createNumberField('', takeLength('ballGirthMm'));
  const estimate = el('span', { class: 'size-estimate' }, pageWords().sizes.estimate), picture = el('td', { class: 'size-shape' });
  const counts = Array.from({ length: 8 }, (_, place) => el('td', { class: place === 7 ? 'size-yarn' : null }));
  const open = button(pageWords().sizes.open, { class: 'notice-button' }, () => { if (graded?.sock != null) hooks.open(graded.sock); });
  const out = button('×', { class: 'notice-button is-sign' }, hooks.takeOut);
  const problem = el('td', { colspan: SIZE_COLUMNS, id: problemId }), problemRow = el('tr', { class: 'size-problem', hidden: true }, problem);
  const row = el('tr', { class: 'size-row' }, el('th', { scope: 'row' }, name, estimate), picture,
    el('td', {}, length.input), el('td', {}, girth.input), ...counts, el('td', { class: 'size-buttons' }, open, out));

  const render = (next: Settings): void => {
    settings = next;
    const scale = lengthScale(next.lengthUnit), say = pageWords().sizes;
    length.show(scale.toShown(size.lengthMm));
    girth.show(scale.toShown(size.ballGirthMm));
    length.setLabel(say.lengthOf(size.name, next.lengthUnit));
    girth.setLabel(say.girthOf(size.name, next.lengthUnit));
    estimate.hidden = !size.isEstimate;
    const isOfTable = size.lengthMm === first.lengthMm && size.ballGirthMm === first.ballGirthMm;
    setAttributes(name, { title: isOfTable ? source : null });
    open.setAttribute('aria-label', say.openSize(size.name));
    out.setAttribute('aria-label', say.takeOut(size.name));
    fillCounts(counts, graded);
    open.disabled = graded?.sock == null;
    const problems = graded?.problems ?? [], isAt = (key: string): boolean => problems.some(({ field }) => field?.endsWith(`.${key}`) === true);
    problemRow.hidden = problems.length === 0;
    setText(problem, problems.map((each) => problemWords(each, next)).join(' '));
    row.classList.toggle('is-impossible', graded !== null && graded.sock === null);
    length.mark(isAt('lengthMm') ? problemId : null);
    girth.mark(isAt('ballGirthMm') ? problemId : null);
  };
  return {
    rows: [row, problemRow],
    get size() { return size; },
    get graded() { return graded; },
    get outline() { return outline; },
    grade: (next) => {
      graded = next;
      if (settings !== null) render(settings);
    },
    showOutline: (next, pixelsPerMm) => {
      outline = next;
      picture.replaceChildren(...(next === null ? [] : [drawOutline(next, pixelsPerMm)]));
    },
    render,
    focus: () => { name.focus(); name.select(); },
  };
}

function fillCounts(cells: readonly HTMLElement[], graded: GradedRow | null): void {
  const counts = graded?.sock == null ? null : countsOf(graded.sock);
  cells.forEach((cell, place) => { setText(cell, counts?.[place] ?? (graded === null ? '…' : '–')); });
}

/** Stitches, turn-down, passes of leg, heel, foot and toe, tip, and the yarn for two. */
function countsOf(sock: NonNullable<GradedRow['sock']>): readonly string[] {
  const { plan } = sock, { metres, grams } = pairOf(sock);
  const counts = [plan.stitches, plan.turnDownWidth, plan.legPasses, plan.heelPasses, plan.footPasses, plan.toePasses, plan.toeTipStitches];
  return [...counts.map(String), pageWords().sizes.yarn(metres.toFixed(0), grams.toFixed(0))];
}
