import type { ComparedRow } from '../choose/comparison.ts';
import { pageWords } from '../words/page-words.ts';
import { inFigures, lengthFigures } from './units.ts';
import type { LengthUnit } from './units.ts';

/** Decimals of a number that is no length: half a gram is already more than a kitchen scale tells. */
const DECIMALS: Readonly<Record<Exclude<ComparedRow['unit'], 'mm'>, number>> = { deg: 0, stitches: 0, passes: 0, m: 0, g: 0, '%': 0, mmHg: 1, '': 0 };

/** Of a number that is no count. */
const RATIO_DECIMALS = 2;

/** What the other sock is called beside this one: a kept one that has its name still is told from it. */
export function otherName(other: string, mine: string | undefined): string {
  return other === mine ? pageWords().compare.asKept(other) : other;
}

/** `26.2`, `112°`, `12`; a dash where there is none. */
export function comparedNumber(value: number | null, unit: ComparedRow['unit'], lengthUnit: LengthUnit): string {
  if (value === null) return '–';
  const size = figures(Math.abs(value), unit, lengthUnit);
  return `${value < 0 && Number(size) !== 0 ? '−' : ''}${inFigures(size)}${unit === 'deg' ? '°' : ''}`;
}

function figures(value: number, unit: ComparedRow['unit'], lengthUnit: LengthUnit): string {
  return unit === 'mm' ? lengthFigures(value, lengthUnit) : value.toFixed(unit === '' && !Number.isInteger(value) ? RATIO_DECIMALS : DECIMALS[unit]);
}

/** With its sign, between the figures as they are shown, so that the line adds up; nothing where these are the same. */
export function differenceWords({ first, second, unit }: ComparedRow, lengthUnit: LengthUnit): string {
  if (first === null || second === null) return '–';
  const [from, to] = [first, second].map((value) => figures(value, unit, lengthUnit));
  if (from === to || Number(from) === Number(to)) return '';
  const decimals = from.split('.')[1]?.length ?? 0, size = Math.abs(Number(to) - Number(from)).toFixed(decimals);
  return `${Number(to) > Number(from) ? '+' : '−'}${inFigures(size)}${unit === 'deg' ? '°' : ''}`;
}

/** Whether the two are told apart by the figures that are shown. */
export function isSame(row: ComparedRow, lengthUnit: LengthUnit): boolean {
  return row.difference === null ? row.first === row.second : differenceWords(row, lengthUnit) === '';
}

/** How large the difference is against the larger of the two, 0 to 1: by it a length is weighed against a count. */
export function shareOf({ first, second, difference }: ComparedRow): number {
  if (difference === null || first === null || second === null) return 0;
  const larger = Math.max(Math.abs(first), Math.abs(second));
  return larger === 0 ? 0 : Math.min(1, Math.abs(difference) / larger);
}

/** What stands after a name where the head of the table does not say it. */
export function unitWords(unit: ComparedRow['unit']): string {
  switch (unit) {
    case 'm': return 'm';
    case 'g': return 'g';
    case '%': return '%';
    case 'mmHg': return 'mmHg';
    case 'mm': case 'deg': case 'stitches': case 'passes': case '': return '';
    default: return unit satisfies never;
  }
}

/** The whole table as text, its columns apart by tabs, so that it can be put into a message or a sheet. */
export function comparisonText(names: readonly [first: string, second: string], rows: readonly ComparedRow[], lengthUnit: LengthUnit): string {
  const lines = rows.map((row) => {
    const unit = row.unit === 'mm' ? lengthUnit : row.unit === 'deg' ? '' : row.unit;
    const number = (value: number | null): string => comparedNumber(value, row.unit, lengthUnit);
    return [unit === '' ? row.label : `${row.label}, ${unit}`, number(row.first), number(row.second), differenceWords(row, lengthUnit) || '0'].join('\t');
  });
  return [['', ...names, pageWords().compare.heads.difference].join('\t'), ...lines, ''].join('\n');
}
