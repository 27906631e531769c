import type { GUI, NumberController } from 'lil-gui';
import { pageWords } from '../words/page-words.ts';
import { addLine, dressName, sayOfField } from './control-row.ts';
import type { ControlRow, FieldRange, Hand, RowInput, ShowLine } from './control-row.ts';
import type { ControlContext, NumberSpec } from './control-spec.ts';
import { button, setAttributes, setText } from './dom.ts';
import { readField } from './field-path.ts';
import { attachSlider } from './slider-hand.ts';
import type { SliderRange } from './slider-hand.ts';
import { inFigures } from './units.ts';
import type { Scale } from './units.ts';

/** Milliseconds without a key press after which a typed number is taken up. */
const TYPING_PAUSE_MS = 350;

const NO_RANGE: SliderRange = { min: 0, max: 1, step: 1 };

interface Shown {
  readonly value: number | null;
  readonly scale: Scale;
  /** All that may be typed. */
  readonly range: SliderRange;
  /** What the slider spans. */
  readonly span: SliderRange;
  readonly isByHand: boolean;
}

/** A number with a slider to drag, a box to type in and, where the plan can find it, a switch between the two. */
export function addNumber(folder: GUI, spec: NumberSpec, hand: Hand): ControlRow {
  const bound = { value: 0 };
  const controller = folder.add(bound, 'value', 0, 1, 1) as NumberController;
  const { $slider: slider, $input: input } = controller;
  let shown: Shown = { value: null, scale: { unit: '', step: 1, decimals: 0, toShown: Number, toFile: Number }, range: NO_RANGE, span: NO_RANGE, isByHand: false };
  let context: ControlContext | null = null;

  const showLine = addLine(controller, [slider, input]);
  const propose = (value: number): void => { hand.propose(spec, shown.scale.toFile(value)); };
  controller.onChange(propose);
  controller.onFinishChange(() => { hand.finish(); });
  takeOverSlider(slider);
  attachSlider(slider, {
    range: () => shown.span,
    value: () => shown.value ?? shown.span.min,
    onMove: (value) => { if (value !== shown.value) propose(value); },
    onLetGo: () => { hand.finish(); },
  });
  takeOverTyping(controller, propose, showLine);
  slider.tabIndex = 0;
  setAttributes(slider, { role: 'slider', 'aria-labelledby': controller.$name.id });
  setAttributes(input, { role: 'spinbutton', inputmode: 'decimal', autocomplete: 'off' });

  const freedom = spec.freedom;
  const chip = freedom === undefined ? null : button('', { class: 'control-chip' }, () => {
    hand.propose(spec, shown.isByHand ? undefined : spec.startsAt !== undefined && context !== null ? spec.startsAt(context) : shown.value === null ? undefined : shown.scale.toFile(shown.value));
    hand.finish();
  });
  if (chip !== null) controller.$widget.append(chip);
  controller.$widget.classList.toggle('has-chip', chip !== null);

  return {
    field: spec.field,
    focus: () => { input.focus(); },
    render: (row: RowInput) => {
      context = row.context;
      controller.show(spec.isShown?.(row.context) ?? true);
      shown = whatToShow(spec, row.context, row.rangeOf(spec.field));
      dressName(controller, spec.label, shown.scale.unit, spec.hint);
      renderNumber(controller, bound, shown);
      if (chip !== null && freedom !== undefined) renderChip(chip, spec.label, freedom, shown.isByHand);
      sayOfField(showLine, spec.field, row, spec.note?.(row.context) ?? null);
    },
  };
}

function whatToShow(spec: NumberSpec, context: ControlContext, range: FieldRange | null): Shown {
  const scale = spec.scale(context);
  const inFile = readField(context.file, spec.field);
  const isByHand = typeof inFile === 'number';
  const value = isByHand ? inFile : spec.planned(context);
  const all = shownRange(scale, range);
  return { value: value === null ? null : scale.toShown(value), scale, range: all, span: usualSpan(spec, scale, all, value), isByHand };
}

/** The usual values, no wider than what is allowed, and with the present one among them. */
function usualSpan({ usual }: NumberSpec, scale: Scale, all: SliderRange, value: number | null): SliderRange {
  if (usual === undefined) return all;
  const least = Math.min(usual[0], value ?? usual[0]), most = Math.max(usual[1], value ?? usual[1]);
  const { min, max } = shownRange(scale, { min: least, max: most, step: all.step });
  return { min: Math.max(all.min, min), max: Math.min(all.max, Math.max(min, max)), step: all.step };
}

/** The range in the unit shown, its ends on whole steps. Steps of the plan (twos) go before the unit's. */
function shownRange(scale: Scale, range: FieldRange | null): SliderRange {
  if (range === null) return { min: 0, max: 100 * scale.step, step: scale.step };
  const step = scale.toFile(1) === 1 ? Math.max(range.step, scale.step) : scale.step;
  const min = Math.ceil(Number((scale.toShown(range.min) / step).toPrecision(9))) * step;
  const max = Math.floor(Number((scale.toShown(range.max) / step).toPrecision(9))) * step;
  return { min: Number(min.toPrecision(9)), max: Number(Math.max(min, max).toPrecision(9)), step };
}

function renderNumber(controller: NumberController, bound: { value: number }, shown: Shown): void {
  const { $slider: slider, $input: input } = controller;
  const { value, range, span, scale } = shown;
  bound.value = value ?? span.min;
  controller.min(range.min).max(range.max).step(range.step);
  controller.updateDisplay();
  const share = (bound.value - span.min) / Math.max(span.max - span.min, span.step);
  controller.$fill.style.width = `${100 * Math.min(1, Math.max(0, share))}%`;
  if (value === null && document.activeElement !== input) input.value = '';
  const words = value === null ? pageWords().controls.notGiven : `${inFigures(String(value))} ${scale.unit}`;
  setAttributes(slider, { ...ariaRange(span), 'aria-valuenow': value, 'aria-valuetext': words });
  setAttributes(input, { ...ariaRange(range), 'aria-valuenow': value, 'aria-valuetext': words });
  controller.domElement.classList.toggle('is-by-hand', shown.isByHand);
  controller.domElement.classList.toggle('is-absent', value === null);
}

function ariaRange({ min, max }: SliderRange): { readonly 'aria-valuemin': number; readonly 'aria-valuemax': number } {
  return { 'aria-valuemin': min, 'aria-valuemax': max };
}

function renderChip(chip: HTMLButtonElement, label: string, freedom: 'worked-out' | 'optional', isByHand: boolean): void {
  const { workedOut, optional } = pageWords().controls, words = freedom === 'worked-out' ? workedOut : optional, tip = isByHand ? words.isOn : words.isOff;
  setText(chip, isByHand ? words.on : words.off);
  setAttributes(chip, { 'aria-pressed': String(isByHand), 'aria-label': `${label}: ${isByHand ? words.on : words.off}. ${tip}`, title: tip });
}

/** The library's own slider takes the wheel and every touch; ours leaves both to scrolling. */
function takeOverSlider(slider: HTMLElement): void {
  const holder = slider.parentElement;
  for (const type of ['mousedown', 'touchstart', 'wheel'] as const) {
    holder?.addEventListener(type, (event) => {
      if (event.target === slider || slider.contains(event.target as Node)) event.stopPropagation();
    }, { capture: true, passive: true });
  }
}

/**
 * The library clamps while one types, which turns a 3 on its way to 30 into the least value
 * allowed. Here a number is taken as typed, after a pause, and what is wrong with it is said.
 */
function takeOverTyping(controller: NumberController, propose: (value: number) => void, showLine: ShowLine): void {
  const input = controller.$input;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const take = (): void => {
    clearTimeout(timer);
    timer = undefined;
    const value = parseNumber(input.value);
    if (value === null) showLine(pageWords().controls.typeANumber);
    else propose(value);
  };
  controller.$widget.addEventListener('input', (event) => {
    if (event.target !== input) return;
    event.stopPropagation();
    clearTimeout(timer);
    timer = setTimeout(take, TYPING_PAUSE_MS);
  }, { capture: true });
  input.addEventListener('change', () => { if (timer !== undefined) take(); });
  input.addEventListener('wheel', (event) => { event.stopImmediatePropagation(); }, { capture: true, passive: true });
}

/** Figures with a point or a comma; null for anything else. */
export function parseNumber(text: string): number | null {
  const trimmed = text.trim().replace(',', '.');
  if (!/^[-+]?(\d+\.?\d*|\.\d+)$/.test(trimmed)) return null;
  return Number(trimmed);
}
