import type { Controller } from 'lil-gui';
import type { Problem } from '../base/problem.ts';
import type { ControlContext, ControlSpec } from './control-spec.ts';
import { el, setAttributes, setText } from './dom.ts';

/** Smallest and greatest value of a field and its step, in the file's unit. */
export interface FieldRange { readonly min: number; readonly max: number; readonly step: number }

export interface RowInput {
  readonly context: ControlContext;
  readonly rangeOf: (field: string) => FieldRange | null;
  readonly problemOf: (field: string) => Problem | null;
}

/** One control of the panel. */
export interface ControlRow {
  readonly field: string;
  render(input: RowInput): void;
  focus(): void;
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

/** A line under the control for what is wrong with it, tied to the inputs that it speaks of. */
export function addProblemLine(controller: Controller, inputs: readonly HTMLElement[]): (message: string | null) => void {
  const line = el('p', { class: 'control-problem', id: `${controller.$name.id}-problem`, hidden: true });
  controller.domElement.append(line);
  return (message) => {
    setText(line, message ?? '');
    line.hidden = message === null;
    controller.domElement.classList.toggle('has-problem', message !== null);
    for (const input of inputs) {
      setAttributes(input, { 'aria-invalid': message === null ? null : 'true', 'aria-describedby': message === null ? null : line.id });
    }
  };
}
