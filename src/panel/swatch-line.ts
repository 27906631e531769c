import type { SwatchCount } from '../plan/sock-file.ts';
import { pageWords } from '../words/page-words.ts';
import { button, el, setText } from './dom.ts';
import { createNumberField } from './number-field.ts';
import type { Settings } from './page-state.ts';
import { gaugeScale, inFigures, lengthScale } from './units.ts';

/** A swatch as it is being counted: what is not put in yet is missing. */
export interface SwatchDraft {
  readonly stitches: number | null;
  readonly widthMm: number | null;
  readonly rows: number | null;
  readonly heightMm: number | null;
  readonly washed: boolean;
}

/** Limits of the file (plan/sock-schema.ts), which a test holds these to. */
export const SWATCH_LIMITS = { stitches: [1, 1000], widthMm: [10, 1000], rows: [1, 2000], heightMm: [10, 1000] } as const;
type Counted = keyof typeof SWATCH_LIMITS;

export interface SwatchLine {
  readonly rows: readonly HTMLTableRowElement[];
  readonly draft: SwatchDraft;
  render(settings: Settings, number: number): void;
  focus(): void;
}

export interface SwatchLineHooks {
  readonly change: () => void;
  readonly takeOut: () => void;
}

let linesMade = 0;

/** A row of the table of swatches. */
export function createSwatchLine(first: SwatchDraft, hooks: SwatchLineHooks): SwatchLine {
  const say = pageWords().swatches;
  let draft = first, settings: Settings | null = null, place = 1;
  linesMade += 1;
  const problemId = `swatch-problem-${linesMade}`;
  const take = (key: Counted) => (value: number | null): void => {
    const isLength = key.endsWith('Mm');
    draft = { ...draft, [key]: value === null || settings === null ? null : isLength ? lengthScale(settings.lengthUnit).toFile(value) : value };
    if (settings !== null) render(settings, place);
    hooks.change();
  };
  const fields = { stitches: createNumberField('', take('stitches')), widthMm: createNumberField('', take('widthMm')), rows: createNumberField('', take('rows')), heightMm: createNumberField('', take('heightMm')) };
  const head = el('th', { scope: 'row' }), result = el('td', { class: 'swatch-result' });
  const washed = el('select', { class: 'swatch-washed' }, el('option', { value: 'no' }, say.before), el('option', { value: 'yes' }, say.after));
  washed.addEventListener('change', () => {
    draft = { ...draft, washed: washed.value === 'yes' };
    hooks.change();
  });
  const out = button('×', { class: 'notice-button is-sign' }, hooks.takeOut);
  const problem = el('td', { colspan: 8, id: problemId }), problemRow = el('tr', { class: 'size-problem', hidden: true }, problem);
  const row = el('tr', { class: 'swatch-row' }, head, ...Object.values(fields).map(({ input }) => el('td', {}, input)), el('td', {}, washed), result, el('td', {}, out));

  const render = (next: Settings, number: number): void => {
    settings = next;
    place = number;
    const scale = lengthScale(next.lengthUnit);
    setText(head, `${number}`);
    for (const key of Object.keys(fields) as Counted[]) {
      const value = draft[key], isLength = key.endsWith('Mm');
      fields[key].show(value === null ? null : isLength ? scale.toShown(value) : value);
      fields[key].setLabel(say.fieldOf(say.fields[key], number, isLength ? next.lengthUnit : null));
    }
    washed.value = draft.washed ? 'yes' : 'no';
    washed.setAttribute('aria-label', say.counted(number));
    out.setAttribute('aria-label', say.takeOut(number));
    const wrong = (Object.keys(fields) as Counted[]).filter((key) => isBeyond(draft[key], SWATCH_LIMITS[key]));
    for (const key of Object.keys(fields) as Counted[]) fields[key].mark(wrong.includes(key) ? problemId : null);
    problemRow.hidden = wrong.length === 0;
    setText(problem, wrong.map((key) => limitWords(key, next)).join(' '));
    const count = finished(draft);
    setText(result, count === null ? '' : `${perTen(count.stitches, count.widthMm, next)} × ${perTen(count.rows, count.heightMm, next)}`);
  };
  return { rows: [row, problemRow], get draft() { return draft; }, render, focus: () => { fields.stitches.input.focus(); } };
}

function isBeyond(value: number | null, [least, most]: readonly [number, number]): boolean {
  return value !== null && (value < least || value > most);
}

function limitWords(key: Counted, { lengthUnit }: Settings): string {
  const [least, most] = SWATCH_LIMITS[key], say = pageWords().swatches, isLength = key.endsWith('Mm');
  const shown = (limit: number): string => inFigures(String(isLength ? lengthScale(lengthUnit).toShown(limit) : limit));
  return say.limits(say.fields[key], shown(least), shown(most), isLength ? lengthUnit : null);
}

/** A swatch of which all is put in, and within the limits. */
export function finished({ stitches, widthMm, rows, heightMm, washed }: SwatchDraft): SwatchCount | null {
  if (stitches === null || widthMm === null || rows === null || heightMm === null) return null;
  const counted = { stitches, widthMm, rows, heightMm };
  return (Object.keys(counted) as Counted[]).some((key) => isBeyond(counted[key], SWATCH_LIMITS[key])) ? null : { ...counted, washed };
}

/** In 10 cm, or to the inch where the page is in inches. */
function perTen(count: number, mm: number, { lengthUnit }: Settings): string {
  const scale = gaugeScale(lengthUnit === 'cm' ? '10cm' : 'inch', 100);
  return inFigures(scale.toShown((100 * count) / mm).toFixed(lengthUnit === 'cm' ? 1 : 2));
}
