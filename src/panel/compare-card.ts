import type { ComparedRow, SockComparison } from '../choose/comparison.ts';
import type { Arrangement, ClothLayer } from '../view/sock-view-types.ts';
import { pageWords } from '../words/page-words.ts';
import { drawCaution } from './caution-list.ts';
import { createVariantList } from './variant-list.ts';
import type { VariantHooks } from './variant-list.ts';
import { comparedNumber, comparisonText, differenceWords, isSame, otherName, shareOf, unitWords } from './compared-words.ts';
import { button, el, setAttributes, setText } from './dom.ts';
import { copyText } from './hand-out.ts';
import type { CompanionState, PageState, Settings } from './page-state.ts';
import { problemLang, problemWords } from './problem-words.ts';
import { told } from './told.ts';
import { createToePair } from './toe-pair.ts';

export interface CompareCard { render(state: PageState): void }

export interface CompareHooks extends VariantHooks {
  /** Keeps the sock on the panel to compare with. */
  readonly keepThis: () => void;
  readonly swap: () => void;
  readonly letGo: () => void;
  readonly arrange: (arrangement: Arrangement) => void;
  readonly chooseLayer: (layer: ClothLayer) => void;
  /** What the colours tell now. */
  readonly layerOf: (state: PageState) => ClothLayer;
  /** The sock on the panel first, the kept one second; null while there is nothing to compare. */
  readonly compare: (state: PageState) => SockComparison | null;
}

const ARRANGEMENTS: readonly Arrangement[] = ['beside', 'over'];
/** Of all that colours can tell, what concerns two socks; the list in the picture has the rest. */
const LAYERS = ['yarn', 'longer', 'wider'] as const satisfies readonly ClothLayer[];
/** A difference of so much of the larger number, and more, has a bar of full length; chosen by eye. */
const FULL_BAR = 0.2;

/** A second sock against the one on the panel: which it is, how the two lie, and what differs. */
export function createCompareCard(host: HTMLElement, hooks: CompareHooks): CompareCard {
  const say = pageWords().compare;
  const start = el('div', { class: 'compare-start' },
    el('p', {}, say.about),
    button(say.keepThis, { class: 'main-button' }, hooks.keepThis),
    el('p', { class: 'compare-note' }, say.then));
  const pair = createPair(hooks);
  const toes = createToePair(), table = createDifferences();
  const others = createVariantList(hooks);
  const more = el('details', { class: 'compare-more' }, el('summary', {}, say.withAnother));
  const card = el('section', { class: 'card compare-card', 'aria-label': say.label, tabindex: -1 }, start, pair.element, toes.element, table.element, more, others.element);
  host.append(card);
  let wasEmpty: boolean | null = null;
  return {
    render: (state) => {
      const { companion } = state, isEmpty = companion === null, hadFocus = card.contains(document.activeElement);
      start.hidden = !isEmpty;
      more.hidden = isEmpty;
      if (wasEmpty !== isEmpty) {
        if (isEmpty) card.append(others.element);
        else more.append(others.element);
        more.open = false;
        wasEmpty = isEmpty;
        // The button that was pressed is gone, or under another fold.
        if (hadFocus) card.focus({ preventScroll: true });
      }
      others.render(state);
      pair.render(state);
      toes.render(state);
      table.render(state, isEmpty ? null : hooks.compare(state));
    },
  };
}

interface Pair { readonly element: HTMLElement; render(state: PageState): void }

/** The names of the two, how they lie to each other, and what is wrong with the second. */
function createPair(hooks: CompareHooks): Pair {
  const say = pageWords().compare, mine = el('dd', { dir: 'auto' }), other = el('dd', { dir: 'auto' }), status = el('p', { class: 'compare-status', role: 'status' });
  const problems = el('ul', { class: 'compare-problems', 'aria-label': say.problems });
  const lie = createSwitch(say.lie, 'arrangement', ARRANGEMENTS.map((value) => [value, say.arrangements[value]] as const), hooks.arrange);
  const colours = createSwitch<ClothLayer>(say.differs, 'difference-layer', LAYERS.map((value) => [value, say.layers[value]] as const), hooks.chooseLayer);
  const swap = button(say.swap.name, { class: 'notice-button', title: say.swap.hint }, hooks.swap);
  const element = el('div', { class: 'compare-pair' },
    el('dl', { class: 'compare-names' }, el('dt', {}, say.thisSock), mine, el('dt', {}, say.other), other), status, lie.element, colours.element,
    el('div', { class: 'compare-buttons' }, swap, button(say.keepOne.name, { class: 'notice-button', title: say.keepOne.hint }, hooks.keepThis), button(say.letGo, { class: 'notice-button' }, hooks.letGo)),
    problems);
  let drawn = '';
  return {
    element,
    render: (state) => {
      const { companion, planned, settings, shape } = state;
      element.hidden = companion === null;
      if (companion === null) return;
      setText(mine, planned?.plan.name ?? '');
      setText(other, otherName(companion.name, planned?.plan.name));
      const words = shape.kind === 'kept' ? say.ofLastKnittable : companionWords(companion);
      setText(status, words);
      status.hidden = words === '';
      lie.show(state.settings.arrangement, companion.problems.length > 0 || settings.pose === 'beds');
      colours.show(hooks.layerOf(state), state.difference == null);
      swap.disabled = companion.file === null || companion.problems.length > 0;
      const key = JSON.stringify([companion.problems, settings.lengthUnit, settings.gaugeUnit]);
      if (key === drawn) return;
      drawn = key;
      problems.hidden = companion.problems.length === 0;
      problems.replaceChildren(...companion.problems.map((problem) => el('li', { 'data-field': problem.field, lang: problemLang(problem, settings) }, problemWords(problem, settings))));
    },
  };
}

interface Switch<T extends string> { readonly element: HTMLElement; show(value: T, isOff: boolean): void }

function createSwitch<T extends string>(legend: string, name: string, choices: readonly (readonly [T, string])[], choose: (value: T) => void): Switch<T> {
  const inputs = choices.map(([value, words]) => {
    const input = el('input', { type: 'radio', name, value });
    input.addEventListener('change', () => { if (input.checked) choose(value); });
    return { value, input, label: el('label', {}, input, words) };
  });
  return {
    element: el('fieldset', { class: 'segments' }, el('legend', { class: 'visually-hidden' }, legend), ...inputs.map(({ label }) => label)),
    show: (shown, isOff) => {
      for (const { value, input } of inputs) {
        input.checked = value === shown;
        input.disabled = isOff;
      }
    },
  };
}

function companionWords({ shape, problems, file }: CompanionState): string {
  const { unreadable, unknittable, relaxing } = pageWords().compare;
  if (file === null) return unreadable;
  if (problems.length > 0) return unknittable;
  return shape.kind === 'relaxing' ? relaxing : '';
}

interface Differences { readonly element: HTMLElement; render(state: PageState, comparison: SockComparison | null): void }

/** The table: what differs, the largest first if wished; what is the same is folded away. */
function createDifferences(): Differences {
  const say = pageWords().compare, remarks = el('ul', { class: 'compare-remarks', 'aria-label': say.remarks });
  const unit = el('th', { scope: 'col', class: 'measure-unit' }), body = el('tbody'), said = el('span', { role: 'status' });
  const order = button(say.largestFirst, { class: 'notice-button', 'aria-pressed': 'false' }, () => {
    setAttributes(order, { 'aria-pressed': String(order.getAttribute('aria-pressed') === 'false') });
    draw();
  });
  const sames = button('', { class: 'notice-button', 'aria-expanded': 'false' }, () => {
    setAttributes(sames, { 'aria-expanded': String(sames.getAttribute('aria-expanded') === 'false') });
    draw();
  });
  const copy = button(say.copy, { class: 'notice-button' }, () => {
    if (shown === null) return;
    void copyText(comparisonText([shown.first, shown.second], shown.rows, shown.settings.lengthUnit)).then((isCopied) => {
      setText(said, isCopied ? say.copied : say.notCopied);
    });
  });
  const table = el('table', { class: 'measures compare-table' }, el('thead', {}, el('tr', {}, unit,
    el('th', { scope: 'col' }, say.heads.first), el('th', { scope: 'col' }, say.heads.second), el('th', { scope: 'col', title: say.heads.means }, say.heads.difference))), body);
  const element = el('div', { class: 'compare-differences' }, remarks, el('div', { class: 'compare-buttons' }, order, sames), table, el('div', { class: 'compare-buttons' }, copy, said));
  let shown: { readonly rows: readonly ComparedRow[]; readonly settings: Settings; readonly first: string; readonly second: string } | null = null;
  let drawn = '';
  const draw = (): void => {
    if (shown === null) return;
    const { rows, settings } = shown, isBySize = order.getAttribute('aria-pressed') === 'true', hasSames = sames.getAttribute('aria-expanded') === 'true';
    const same = rows.filter((row) => isSame(row, settings.lengthUnit)), differing = rows.filter((row) => !same.includes(row));
    const inOrder = isBySize ? [...differing].sort((a, b) => shareOf(b) - shareOf(a)) : differing;
    const listed = isBySize ? [...inOrder, ...(hasSames ? same : [])] : rows.filter((row) => hasSames || !same.includes(row));
    const draw = (row: ComparedRow): HTMLElement => drawRow(row, settings, Math.min(1, shareOf(row) / FULL_BAR), isBySize);
    body.replaceChildren(...listed.flatMap((row, place) => {
      const group = groupOf(row), isNew = !isBySize && group !== '' && group !== (place === 0 ? '' : groupOf(listed[place - 1]));
      return isNew ? [drawGroup(group), draw(row)] : [draw(row)];
    }));
    if (rows.length > 0 && differing.length === 0 && !hasSames) body.append(el('tr', {}, el('td', { colspan: 4, class: 'compare-alike' }, say.alike)));
    sames.hidden = same.length === 0;
    setText(sames, hasSames ? say.hideAlike : say.showAlike(same.length));
    setText(unit, pageWords().measures.unit[settings.lengthUnit]);
  };
  return {
    element,
    render: ({ settings, planned, companion }, comparison) => {
      element.hidden = comparison === null;
      if (comparison === null) return;
      const first = planned?.plan.name ?? '', second = otherName(companion?.name ?? '', first), key = JSON.stringify([comparison, settings.lengthUnit, first, second]);
      if (key === drawn) return;
      drawn = key;
      setText(said, '');
      shown = { rows: comparison.rows, settings, first, second };
      remarks.hidden = comparison.remarks.length === 0;
      remarks.replaceChildren(...comparison.remarks.map((remark) => drawCaution(remark, settings.lengthUnit)));
      draw();
    },
  };
}

/** What stands before the colon of a label: `By gauge`, `Laid flat`; nothing for counts and yarn. */
function groupOf({ label }: ComparedRow): string {
  return /^(.*?): /.exec(told(label))?.[1] ?? '';
}

function drawGroup(group: string): HTMLElement {
  return el('tr', { class: 'compare-group' }, el('th', { scope: 'rowgroup', colspan: 4 }, group));
}

function drawRow(row: ComparedRow, { lengthUnit }: Settings, share: number, hasGroup: boolean): HTMLElement {
  const unit = unitWords(row.unit), group = groupOf(row), bar = el('span', { class: 'compare-bar', 'aria-hidden': 'true' });
  const name = group === '' ? told(row.label) : told(row.label).slice(group.length + 2), capital = `${name.charAt(0).toUpperCase()}${name.slice(1)}`;
  bar.style.width = `${Math.round(100 * share)}%`;
  return el('tr', { 'data-row': row.name },
    el('th', { scope: 'row' }, capital, unit === '' ? null : el('span', { class: 'control-unit' }, `, ${unit}`),
      hasGroup && group !== '' ? el('span', { class: 'compare-of' }, ` ${pageWords().compare.group(group)}`) : null),
    el('td', {}, comparedNumber(row.first, row.unit, lengthUnit)), el('td', {}, comparedNumber(row.second, row.unit, lengthUnit)),
    el('td', { class: 'compare-difference' }, differenceWords(row, lengthUnit) || '=', bar));
}
