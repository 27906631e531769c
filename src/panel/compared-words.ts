import type { ComparedRow } from '../choose/comparison.ts';
import { formatLengthNumber } from './units.ts';
import type { LengthUnit } from './units.ts';

/** Decimals of a number that is no length: half a gram is already more than a kitchen scale tells. */
const DECIMALS: Readonly<Record<Exclude<ComparedRow['unit'], 'mm'>, number>> = { deg: 0, stitches: 0, passes: 0, m: 0, g: 0, '%': 0, mmHg: 1, '': 0 };

/** `26.2`, `112°`, `12`; a dash where there is none. */
export function comparedNumber(value: number | null, unit: ComparedRow['unit'], lengthUnit: LengthUnit): string {
  if (value === null) return '–';
  const words = unit === 'mm' ? formatLengthNumber(Math.abs(value), lengthUnit) : Math.abs(value).toFixed(DECIMALS[unit]);
  const sign = value < 0 && Number(words) !== 0 ? '−' : '';
  return `${sign}${words}${unit === 'deg' ? '°' : ''}`;
}

/** With its sign; nothing where both are the same to the last figure shown. */
export function differenceWords(row: ComparedRow, lengthUnit: LengthUnit): string {
  if (row.difference === null) return '–';
  const words = comparedNumber(row.difference, row.unit, lengthUnit);
  return isNought(words) ? '' : row.difference > 0 ? `+${words}` : words;
}

/** Whether the two are told apart by the figures that are shown. */
export function isSame(row: ComparedRow, lengthUnit: LengthUnit): boolean {
  if (row.difference === null) return row.first === row.second;
  return differenceWords(row, lengthUnit) === '';
}

function isNought(words: string): boolean {
  return Number.parseFloat(words) === 0;
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
  return [['', ...names, 'difference'].join('\t'), ...lines, ''].join('\n');
}
