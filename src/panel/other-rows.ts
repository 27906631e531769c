import type { BooleanController, ColorController, GUI, OptionController, StringController } from 'lil-gui';
import { pageWords } from '../words/page-words.ts';
import { addLine, dressName, sayOfField } from './control-row.ts';
import type { ControlRow, Hand, RowInput } from './control-row.ts';
import type { ChoiceSpec, ColourSpec, SwitchSpec, TextSpec } from './control-spec.ts';
import { readField } from './field-path.ts';

/** One of a few words. */
export function addChoice(folder: GUI, spec: ChoiceSpec, hand: Hand): ControlRow {
  const bound = { value: Object.values(spec.choices)[0] ?? '' };
  const controller = folder.add(bound, 'value', { ...spec.choices }) as OptionController;
  return finishRow(controller, controller.$select, spec, hand, (row) => {
    bound.value = chosenWord(spec, row);
  });
}

function chosenWord(spec: ChoiceSpec, { context }: RowInput): string {
  const inFile = readField(context.file, spec.field);
  return typeof inFile === 'string' ? inFile : spec.planned(context);
}

export function addSwitch(folder: GUI, spec: SwitchSpec, hand: Hand): ControlRow {
  const bound = { value: false };
  const controller = folder.add(bound, 'value') as BooleanController;
  return finishRow(controller, controller.$input, spec, hand, ({ context }) => {
    const inFile = readField(context.file, spec.field);
    bound.value = typeof inFile === 'boolean' ? inFile : spec.planned(context);
  });
}

export function addText(folder: GUI, spec: TextSpec, hand: Hand): ControlRow {
  const bound = { value: '' };
  const controller = folder.add(bound, 'value') as StringController;
  controller.$input.autocomplete = 'off';
  return finishRow(controller, controller.$input, spec, hand, ({ context }) => {
    const inFile = readField(context.file, spec.field);
    bound.value = typeof inFile === 'string' ? inFile : spec.planned(context);
  });
}

export function addColour(folder: GUI, spec: ColourSpec, hand: Hand): ControlRow {
  const bound = { value: '#808080' };
  const controller = folder.addColor(bound, 'value') as ColorController;
  // The swatch opens the system's colour chooser; by keyboard too, where the library skips it.
  controller.$input.tabIndex = 0;
  controller.$input.setAttribute('aria-label', pageWords().controls.chooser(spec.label));
  controller.$input.removeAttribute('aria-labelledby');
  return finishRow(controller, controller.$text, spec, hand, ({ context }) => {
    const inFile = readField(context.file, spec.field);
    bound.value = typeof inFile === 'string' && /^#[0-9a-f]{6}$/i.test(inFile) ? inFile : spec.planned(context);
  });
}

type SimpleController = OptionController | BooleanController | StringController | ColorController;

function finishRow(
  controller: SimpleController, input: HTMLElement, spec: ChoiceSpec | SwitchSpec | TextSpec | ColourSpec,
  hand: Hand, bind: (row: RowInput) => void,
): ControlRow {
  controller.onChange((value: unknown) => { hand.propose(spec, value); });
  controller.onFinishChange(() => { hand.finish(); });
  dressName(controller, spec.label, '', spec.hint);
  const showLine = addLine(controller, [input]);
  return {
    field: spec.field,
    focus: () => { input.focus(); },
    render: (row) => {
      controller.show(spec.isShown?.(row.context) ?? true);
      if (!isBeingTyped(input)) { bind(row); controller.updateDisplay(); }
      sayOfField(showLine, spec.field, row, spec.note?.(row.context) ?? null);
    },
  };
}

/** The caret must not jump while a name is typed. */
function isBeingTyped(input: HTMLElement): boolean {
  return input instanceof HTMLInputElement && input.type === 'text' && document.activeElement === input;
}
