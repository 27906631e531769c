import { MM_PER_CM, mmToInch } from '../base/unit.ts';
import type { Plan } from '../plan/plan-types.ts';
import type { Words } from '../words/words.ts';
import { cutLength } from './cut-length.ts';
import type { KnitRecord } from './knit-record.ts';
import { listWork } from './list-work.ts';
import type { WorkItem } from './list-work.ts';
import { labelNeedle } from './needle-label.ts';
import type { NeedleNumbers } from './needle-label.ts';
import type { SheetPart } from './sheet.ts';

/** Another size of the same sock, as a column. */
export interface SheetSize {
  readonly name: string;
  readonly lengthMm: number | null;
  readonly ballGirthMm: number | null;
  /** No published table stands behind its foot. */
  readonly isEstimate: boolean;
  readonly plan: Plan;
  /** Of one sock. */
  readonly metres: number;
  readonly grams: number;
}

export interface SheetOptions {
  readonly words: Words;
  readonly numbers: NeedleNumbers;
  readonly unit: 'cm' | 'in';
  /** Every single loop that is moved when the work is gathered and turned, and not only the rule. */
  readonly hasTransfers: boolean;
  /** Columns beside the sock's own. */
  readonly sizes: readonly SheetSize[];
}

/** A sheet needs no grid. */
export type SheetRecord = Omit<KnitRecord, 'grid'>;

/** What every part of a sheet is written with. */
export interface SheetContext {
  readonly record: SheetRecord;
  readonly options: SheetOptions;
  readonly told: Words['sheet'];
  readonly passes: Words['passes'];
  readonly work: readonly WorkItem[];
  /** What a knitter calls a needle. */
  readonly label: (needle: number) => string;
  readonly number: (value: number, digits: number) => string;
  /** `26.2 cm`. */
  readonly length: (mm: number) => string;
  /** Yarn to be cut: whole centimetres or inches, rather too long. */
  readonly tail: (mm: number) => string;
}

export function createContext(record: SheetRecord, options: SheetOptions): SheetContext {
  const { words, numbers, unit } = options, { needlesPerBed } = record.plan;
  const number = (value: number, digits: number): string => value.toFixed(digits).replace('.', words.sheet.decimalMark);
  return {
    record, options, told: words.sheet, passes: words.passes, work: listWork(record.program, record.trace),
    label: (needle) => labelNeedle(needle, needlesPerBed, numbers),
    number,
    length: (mm) => (unit === 'cm' ? `${number(mm / MM_PER_CM, 1)} cm` : `${number(mmToInch(mm), 2)} in`),
    tail: (mm) => `${cutLength(mm, unit)} ${unit}`,
  };
}

/** Passes of these sections, in order. */
export function passesOf({ work }: SheetContext, ...sections: readonly WorkItem['section'][]): readonly WorkItem[] {
  return work.filter((item) => item.kind === 'pass' && sections.includes(item.section));
}

/** Counter and carriage from before the first of these passes to after the last. */
export function readingsOf({ told }: SheetContext, items: readonly WorkItem[]): SheetPart['at'] {
  const first = items[0], last = items.at(-1);
  if (first === undefined || last === undefined) return [];
  return [[told.counter, told.fromTo(first.index - 1, last.index)], [told.carriage, told.sides(first.from, last.to)]];
}

/** An empty cell. */
export const NONE = '–';
