import type { GUI } from 'lil-gui';
import type { Plan } from '../plan/plan-types.ts';
import type { SockFile, ToeRate } from '../plan/sock-file.ts';
import { pageWords } from '../words/page-words.ts';
import type { ControlRow, RowInput } from './control-row.ts';
import type { ControlContext } from './control-spec.ts';
import { button, el, setAttributes, setText } from './dom.ts';
import { writeField } from './field-path.ts';
import { problemWords } from './problem-words.ts';
import { drawToe } from './toe-drawing.ts';
import { toeShapeOf } from './toe-outline.ts';

/** What the editor proposes: a step of undo of its own. */
export type EditFile = (edit: (context: ControlContext) => SockFile) => void;

const FIELD = 'toe.schedule';
const RATES_AT_MOST = 12;

interface RateRow {
  readonly element: HTMLElement;
  readonly passes: HTMLInputElement;
  readonly times: HTMLInputElement;
}

/** The rates of a decreased toe, one after the other, and what they make of its outline. */
export function createToeSchedule(folder: GUI, edit: EditFile): ControlRow {
  const words = pageWords().controls.schedule, list = el('ol', { class: 'rates' });
  const line = el('p', { class: 'control-line', id: 'toe-schedule-line', hidden: true });
  const add = button(words.add, { class: 'panel-button' }, () => {
    edit(({ file }) => writeField(file, FIELD, [...ratesOf(file), { passes: 2, times: 1 }]));
    rows.at(-1)?.passes.focus();
  });
  const editor = el('div', { class: 'rate-editor', role: 'group', 'aria-label': words.label }, list, line, el('div', { class: 'panel-buttons' }, add));
  const drawing = el('figure', { class: 'toe-figure' });
  folder.$children.append(editor, drawing);
  let rows: RateRow[] = [];
  let drawn = '';

  const set = (index: number, change: Partial<ToeRate>): void => {
    edit(({ file }) => writeField(file, FIELD, ratesOf(file).map((rate, place) => (place === index ? { ...rate, ...change } : rate))));
  };
  const fit = (count: number): void => {
    if (count === rows.length) return;
    rows = Array.from({ length: count }, (_, index) => drawRate(index, count === 1, set, () => {
      edit(({ file }) => writeField(file, FIELD, ratesOf(file).filter((_rate, place) => place !== index)));
      (rows[Math.min(index, rows.length - 1)]?.passes ?? add).focus();
    }));
    list.replaceChildren(...rows.map(({ element }) => element));
  };
  return {
    field: FIELD,
    focus: () => { rows[0]?.passes.focus(); },
    render: (input) => {
      const { file, plan } = input.context, rates = file.toe?.kind === 'short-row' ? [] : ratesOf(file);
      editor.hidden = rates.length === 0;
      fit(rates.length);
      rates.forEach((rate, index) => { fillRate(rows[index], rate); });
      add.disabled = rates.length >= RATES_AT_MOST;
      showProblem(input, rates.length, line, rows);
      drawing.hidden = plan === null;
      const toe = plan === null ? null : { toe: toeShapeOf(plan), side: file.foot?.side ?? 'right' }, key = JSON.stringify(toe);
      if (toe === null || key === drawn) return;
      drawn = key;
      drawing.replaceChildren(...drawToe(toe));
    },
  };
}

export function ratesOf({ toe }: SockFile): readonly ToeRate[] {
  return toe?.schedule ?? [];
}

/** Where a schedule starts from: the toe as it is, its later half decreased faster, which rounds it. */
export function firstRates({ passesPerDecrease, toeDecreases }: Pick<Plan, 'passesPerDecrease' | 'toeDecreases'>): readonly ToeRate[] {
  const slow = Math.ceil(toeDecreases / 2), rest = toeDecreases - slow;
  const first = { passes: passesPerDecrease, times: Math.max(1, slow) };
  return rest < 1 ? [first] : [first, { passes: Math.max(2, passesPerDecrease - 2), times: rest }];
}

function drawRate(index: number, isOnly: boolean, set: (index: number, change: Partial<ToeRate>) => void, takeOut: () => void): RateRow {
  const words = pageWords().controls.schedule;
  const passes = numberBox(words.passesOf(index + 1), 2, 40, 2, (value) => { set(index, { passes: value }); });
  const times = numberBox(words.timesOf(index + 1), 1, 200, 1, (value) => { set(index, { times: value }); });
  const element = el('li', { class: 'rate' }, el('span', {}, index === 0 ? words.every : words.thenEvery), passes, el('span', {}, words.passes), times, el('span', {}, words.times),
    isOnly ? null : button('×', { class: 'rate-out', 'aria-label': words.takeOutRate(index + 1), title: words.takeOut }, takeOut));
  return { element, passes, times };
}

/** Taken up with Enter, on leaving it, and with each press of an arrow key. */
function numberBox(name: string, min: number, max: number, step: number, take: (value: number) => void): HTMLInputElement {
  const box = el('input', { type: 'number', min, max, step, 'aria-label': name, autocomplete: 'off' });
  box.addEventListener('change', () => { if (Number.isFinite(box.valueAsNumber)) take(box.valueAsNumber); });
  return box;
}

function fillRate(row: RateRow | undefined, rate: ToeRate): void {
  if (row === undefined) return;
  for (const key of ['passes', 'times'] as const) {
    if (row[key].valueAsNumber !== rate[key]) row[key].value = String(rate[key]);
  }
}

/** What is wrong with the list as a whole, or with a number in it. */
function showProblem({ problemOf, context: { settings } }: RowInput, count: number, line: HTMLElement, rows: readonly RateRow[]): void {
  const own = problemOf(FIELD), problems = rows.slice(0, count).map((row, index) => (['passes', 'times'] as const).map((key) => {
    const problem = problemOf(`${FIELD}.${index}.${key}`);
    setAttributes(row[key], { 'aria-invalid': problem === null ? null : 'true', 'aria-describedby': problem ?? own === null ? null : line.id });
    return problem;
  })).flat();
  const problem = own ?? problems.find((each) => each !== null) ?? null;
  setText(line, problem === null ? '' : problemWords(problem, settings));
  line.hidden = problem === null;
}

/** `every 4 passes 6 times, then every 2 passes 5 times`. */
export function scheduleWords(rates: readonly ToeRate[]): string {
  return rates.map(({ passes, times }, index) => pageWords().controls.schedule.rate(passes, times, index === 0)).join(', ');
}
