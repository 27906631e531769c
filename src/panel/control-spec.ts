import type { DEFAULTS } from '../plan/defaults.ts';
import type { Plan, PlannedFoot } from '../plan/plan-types.ts';
import type { ShoeSystem, SockFile } from '../plan/sock-file.ts';
import type { Settings } from './page-state.ts';
import type { Scale } from './units.ts';

/** What a control may look at to know its value, its unit and whether it applies. */
export interface ControlContext {
  readonly file: SockFile;
  readonly plan: Plan | null;
  readonly foot: PlannedFoot | null;
  readonly settings: Settings;
  readonly defaults: typeof DEFAULTS;
  /** The size sold that is nearest to a foot's length. */
  readonly shoeSizeOf: (system: ShoeSystem, lengthMm: number) => number;
}

/** What a control is called, and in one plain sentence what it does, shown as a tip. */
export interface FieldWords { readonly label: string; readonly hint?: string }

interface CommonSpec extends FieldWords {
  /** Dotted path in the sock file; also the field that a problem names. */
  readonly field: string;
  /** What there is to know while nothing is wrong, under the control. */
  readonly note?: (context: ControlContext) => string | null;
  readonly isShown?: (context: ControlContext) => boolean;
  /** How a chosen value gets into the file; without it, it is written at `field`. */
  readonly write?: (context: ControlContext, value: unknown) => SockFile;
  /** How a page setting is chosen; then the file is not touched. */
  readonly choose?: (value: unknown) => Partial<Settings>;
}

export interface NumberSpec extends CommonSpec {
  readonly kind: 'number';
  readonly scale: (context: ControlContext) => Scale;
  /** What the plan makes of it while the file does not say; null if it has no value then. */
  readonly planned: (context: ControlContext) => number | null;
  /**
   * `worked-out`: the plan finds it unless it is fixed by hand; `optional`: a measure that may be
   * missing. Both get a switch beside the number. Absent: the number has a plain default.
   */
  readonly freedom?: 'worked-out' | 'optional';
  /** What the slider spans, in the file's unit, where the limits are much wider; any number within the limits can be typed. */
  readonly usual?: readonly [least: number, most: number];
  /** What a switched-on optional measure starts from. */
  readonly startsAt?: (context: ControlContext) => number;
}

export interface ChoiceSpec extends CommonSpec {
  readonly kind: 'choice';
  /** Words shown, and what stands for them in the file. */
  readonly choices: Readonly<Record<string, string>>;
  readonly planned: (context: ControlContext) => string;
}

export interface SwitchSpec extends CommonSpec {
  readonly kind: 'switch';
  readonly planned: (context: ControlContext) => boolean;
}

export interface TextSpec extends CommonSpec {
  readonly kind: 'text';
  readonly planned: (context: ControlContext) => string;
}

export interface ColourSpec extends CommonSpec {
  readonly kind: 'colour';
  readonly planned: (context: ControlContext) => string;
}

export type ControlSpec = NumberSpec | ChoiceSpec | SwitchSpec | TextSpec | ColourSpec;

export interface FolderSpec {
  readonly title: string;
  readonly isOpen: boolean;
  readonly controls: readonly ControlSpec[];
}

/** A choice's words, listed by what stands for them in the file, as a control wants them. */
export function namedChoices(words: Readonly<Record<string, string>>): Readonly<Record<string, string>> {
  return Object.fromEntries(Object.entries(words).map(([value, name]) => [name, value]));
}
