import type { Controller } from 'lil-gui';
import type { Problem } from '../base/problem.ts';
import type { ControlContext, ControlSpec } from './control-spec.ts';
import { el, setAttributes, setText } from './dom.ts';
import { problemWords } from './problem-words.ts';

/** Smallest and greatest value of a field and its step, in the file's unit. */
export interface FieldRange { readonly min: number; readonly max: number; readonly step: number }

export interface RowInput {
  readonly context: ControlContext;
  readonly rangeOf: (field: string) => FieldRange | null;
  /** What keeps the sock from being knitted. */
  readonly problemOf: (field: string) => Problem | null;
  /** What is to be looked at again in a sock that can be knitted. */
  readonly remarkOf: (field: string) => Problem | null;
}

/** One control of the panel. */
export interface ControlRow {
  readonly field: string;
  render(input: RowInput): void;
  focus(): void;
  /** Its name and value in words, as they stand. */
  tell(): string;
}

/** What a control does when a person moves it. */
export interface Hand {
  /** A changed value, in the file's unit; undefined gives the choice back to the plan. */
  propose(spec: ControlSpec, value: unknown): void;
  /** The person let go of the control. */
  finish(): void;
}

/** Writes the label with its unit, the tip, and makes the name readable to a screen reader as one phrase. */
export function dressName(controller: Controller, label: string, unit: string, hint: string | undefined): void {
  const { $name } = controller;
  const text = unit === '' ? label : `${label}, ${unit}`;
  if ($name.dataset['text'] === text) return;
  $name.dataset['text'] = text;
  $name.replaceChildren(el('span', { class: 'control-label' }, label));
  if (unit !== '') $name.append(' ', el('span', { class: 'control-unit' }, unit));
  if (hint !== undefined) $name.title = hint;
}

/** What is said under a control: a problem keeps the sock from being knitted, a remark asks for a second look, a note only tells. */
export type LineKind = 'problem' | 'remark' | 'note';
export type ShowLine = (message: string | null, kind?: LineKind) => void;

/** A line under the control, tied to the inputs that it speaks of. */
export function addLine(controller: Controller, inputs: readonly HTMLElement[]): ShowLine {
  const line = el('p', { class: 'control-line', id: `${controller.$name.id}-line`, hidden: true });
  controller.domElement.append(line);
  return (message, kind = 'problem') => {
    setText(line, message ?? '');
    line.hidden = message === null;
    setAttributes(line, { 'data-kind': kind });
    const isProblem = message !== null && kind === 'problem';
    controller.domElement.classList.toggle('has-problem', isProblem);
    for (const input of inputs) {
      setAttributes(input, { 'aria-invalid': isProblem ? 'true' : null, 'aria-describedby': message === null ? null : line.id });
    }
  };
}

/** The weightiest thing that there is to say of a field; a note only where nothing is amiss. */
export function sayOfField(showLine: ShowLine, field: string, row: RowInput, note: string | null = null): void {
  const problem = row.problemOf(field), remark = row.remarkOf(field);
  const { settings } = row.context;
  if (problem !== null) showLine(problemWords(problem, settings), 'problem');
  else if (remark !== null) showLine(problemWords(remark, settings, 'expected'), 'remark');
  else showLine(note, 'note');
}
