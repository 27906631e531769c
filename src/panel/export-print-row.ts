import { pageWords } from '../words/page-words.ts';
import { button, el, setText } from './dom.ts';
import { chooser, createMaking, row, type Row, type Saved, sizeWords } from './export-rows.ts';
import { createNumberField } from './number-field.ts';
import { formatLength, type LengthUnit, lengthScale } from './units.ts';

export interface PrintChoice {
  readonly widthMm: number;
  /** Pixels to the inch. */
  readonly perInch: number;
  readonly hasGround: boolean;
}

/** What a print comes to, told before it is made. */
export interface PrintPlan {
  readonly width: number;
  readonly height: number;
  readonly heightMm: number;
  /** Of the file, roughly. */
  readonly bytes: number;
  /** The widest that can be drawn at that density. */
  readonly mostWidthMm: number;
}

export interface PrintHooks {
  /** Null where this browser cannot draw. */
  readonly plan: (choice: PrintChoice) => PrintPlan | null;
  readonly save: (choice: PrintChoice, onProgress: (share: number) => void) => Promise<Saved | null>;
  readonly stop: () => void;
}

const DENSITIES = [150, 300] as const;
const FIRST_WIDTH_MM = { cm: 200, in: 203.2 } as const, LEAST_WIDTH_MM = 20, MOST_WIDTH_MM = 2000;

/** The view as a picture of a size on paper. */
export function printRow(hooks: PrintHooks, tell: (saved: Saved) => void): Row {
  const { print: words } = pageWords().files.exports, about = el('p', {}), warning = el('p', { class: 'export-warning', id: 'print-warning', role: 'status' });
  let unit: LengthUnit = 'cm', widthMm: number | null = null, isPosed = false;
  const width = createNumberField('', (value) => {
    widthMm = value === null ? 0 : lengthScale(unit).toFile(value);
    describe();
  });
  const name = el('span', {}), density = chooser(words.density, DENSITIES, 300, words.perInch), ground = el('input', { type: 'checkbox', checked: true });
  const making = createMaking(words.title, hooks.stop);
  const choice = (): PrintChoice => ({ widthMm: widthMm ?? FIRST_WIDTH_MM[unit], perInch: density.value(), hasGround: ground.checked });
  const save = button(words.save, { class: 'notice-button', 'aria-label': `${words.title}: ${words.save}` }, () => {
    making.run(save, () => hooks.save(choice(), (share) => { making.tell(share, words.far(Math.round(100 * share))); }), tell);
  });
  /** Why a picture of this size cannot be had; empty where it can. */
  const fault = (plan: PrintPlan): string => {
    const most = Math.min(MOST_WIDTH_MM, plan.mostWidthMm), asked = choice().widthMm;
    if (asked >= LEAST_WIDTH_MM && asked <= most) return '';
    const bounds = [formatLength(LEAST_WIDTH_MM, unit), formatLength(Math.floor(most), unit)] as const;
    return asked > most && most < MOST_WIDTH_MM ? words.tooWide(...bounds, density.value()) : words.outside(...bounds);
  };
  const describe = (): void => {
    const plan = hooks.plan(choice()), wrong = plan === null ? '' : fault(plan), isFit = plan !== null && wrong === '';
    setText(name, words.width(unit));
    width.setLabel(`${words.title}: ${words.width(unit)}`);
    width.show(lengthScale(unit).toShown(choice().widthMm));
    width.mark(wrong === '' ? null : 'print-warning');
    setText(about, isFit ? words.about(plan.width, plan.height, formatLength(choice().widthMm, unit), formatLength(plan.heightMm, unit), sizeWords(plan.bytes)) : plan === null ? words.none : words.idle);
    setText(warning, wrong);
    if (making.element.hidden) save.disabled = !isPosed || !isFit;
  };
  for (const each of [density.select, ground]) each.addEventListener('change', describe);
  return {
    element: el('div', {}, row(words.title, el('div', {}, about, warning),
      el('label', { class: 'export-choice' }, name, width.input), density.element, el('label', { class: 'export-choice' }, ground, el('span', {}, words.ground)), save), making.element),
    render: ({ settings }, _isReady, isShapeThere) => {
      unit = settings.lengthUnit;
      isPosed = isShapeThere;
      describe();
    },
  };
}
