import type { ColourScale } from '../view/colour-scale.ts';
import type { ClothLayer } from '../view/sock-view-types.ts';
import type { PageState } from './page-state.ts';
import { formatPercent, type LengthUnit } from './units.ts';

/** A layer whose colours stand for numbers. */
export type MapLayer = Exclude<ClothLayer, 'yarn'>;

export interface MapWords {
  readonly title: string;
  /** At the bar's ends and in its middle; no middle where a scale only rises. */
  readonly less: string;
  readonly middle: string;
  readonly more: string;
  /** For those who do not see the legend, `{low}` and `{high}` being the ends of the scale with their unit. */
  readonly aloud: string;
}

const STRETCH_ALOUD = 'against the size at rest. Blue: {less}, darkest at {low} and beyond. Pale grey: as at rest. Orange to brown: {more}, darkest at {high} and beyond.';
const DIFFERENCE_ALOUD = 'of the other sock against this. Purple: {less}, darkest at {low} and beyond. Pale grey: alike. Green: {more}, darkest at {high} and beyond.';

export const MAP_WORDS: Readonly<Record<MapLayer, MapWords>> = {
  'stretch-width': { title: 'Stretch along the courses', less: 'narrower', middle: 'at rest', more: 'wider', aloud: `Stretch along the courses, ${STRETCH_ALOUD}` },
  'stretch-length': { title: 'Stretch along the wales', less: 'shorter', middle: 'at rest', more: 'longer', aloud: `Stretch along the wales, ${STRETCH_ALOUD}` },
  pressure: {
    title: 'Pressure on the skin', less: 'light', middle: '', more: 'high',
    aloud: 'Pressure on the skin. Cream: none. Rose to wine red: more, darkest at {high} and above. 10 mmHg and more is firm; medical compression begins at 14 (UK) or 18 (RAL) mmHg.',
  },
  gap: {
    title: 'Cloth stands off the skin', less: 'touches', middle: '', more: 'far off',
    aloud: 'How far the cloth stands off the skin. Cream: it lies on it. Green to deep sea green: it stands off, darkest at {high} and more.',
  },
  longer: { title: 'The other sock, part by part', less: 'shorter', middle: 'alike', more: 'longer', aloud: `Length, part by part, ${DIFFERENCE_ALOUD}` },
  wider: { title: 'The other sock, each place taken all round', less: 'narrower', middle: 'alike', more: 'wider', aloud: `Width, each place taken all round, ${DIFFERENCE_ALOUD}` },
};

const MM_PER_INCH = 25.4;

/** What the numbers of a scale are shown in: small lengths in mm where the page has cm. */
export function unitWords(unit: ColourScale['unit'], lengthUnit: LengthUnit): string {
  if (unit !== 'mm') return unit;
  return lengthUnit === 'cm' ? 'mm' : 'inches';
}

/** `−40`, `+5`, `18`, `0.39`: a sign where a scale goes both ways. */
function numberWords(value: number, unit: ColourScale['unit'], lengthUnit: LengthUnit, isSigned: boolean): string {
  const shown = unit === 'mm' && lengthUnit === 'in' ? Number((Math.abs(value) / MM_PER_INCH).toFixed(2)) : Math.round(Math.abs(value));
  if (shown === 0) return '0';
  return `${value < 0 ? '−' : isSigned ? '+' : ''}${shown}`;
}

export function tickWords(value: number, unit: ColourScale['unit'], lengthUnit: LengthUnit, { isLowest, isHighest }: { readonly isLowest: boolean; readonly isHighest: boolean }): string {
  const isSigned = unit === '%' || isLowest || value < 0, words = numberWords(value, unit, lengthUnit, isSigned);
  return isLowest ? `≤ ${words}` : isHighest ? `≥ ${words}` : words;
}

/** The legend for those who do not see it. */
export function legendWords({ steps, unit }: ColourScale, { aloud, less, more }: MapWords, lengthUnit: LengthUnit): string {
  const low = steps[0]?.value ?? 0, end = (value: number): string => `${numberWords(value, unit, lengthUnit, low < 0)} ${unitWords(unit, lengthUnit)}`;
  return aloud.replace('{less}', less).replace('{more}', more).replace('{low}', end(low)).replace('{high}', end(steps.at(-1)?.value ?? 0));
}

const NOT_YET = 'The cloth is not at rest yet';

/** How the shown numbers lie over the whole cloth, in a sentence. */
export function spreadWords(layer: MapLayer, { posed, difference, settings: { lengthUnit } }: Pick<PageState, 'posed' | 'difference' | 'settings'>): string {
  if (posed === null) return NOT_YET;
  const { stretch: { summary: s }, worn } = posed;
  switch (layer) {
    case 'stretch-width': return stretchSpread(s.width5Percent, s.width95Percent, s.widthMedianPercent);
    case 'stretch-length': return stretchSpread(s.length5Percent, s.length95Percent, s.lengthMedianPercent);
    case 'pressure': return worn === null ? NOT_YET : pressureSpread(worn.summary.topPressureMmHg, worn.summary.anklePressureMmHg, worn.summary.pressure95MmHg);
    case 'gap': return worn === null ? NOT_YET : `${Math.round(worn.summary.gapPercent)} % of the cloth stands off by more than ${lengthWords(2, lengthUnit)}`;
    case 'longer': return difference == null ? NOT_YET : differenceSpread(difference.vertexLongerMm, lengthUnit);
    case 'wider': return difference == null ? NOT_YET : differenceSpread(difference.vertexWiderMm, lengthUnit);
    default: return layer satisfies never;
  }
}

function stretchSpread(low: number, high: number, median: number): string {
  return `Nine tenths of the cloth: ${formatPercent(low)} to ${formatPercent(high)} %; median ${formatPercent(median)} %`;
}

function pressureSpread(top: number | null, ankle: number | null, high: number): string {
  const places = [top === null ? null : `top about ${Math.round(top)}`, ankle === null ? null : `ankle ${Math.round(ankle)}`].filter((words) => words !== null);
  return `${[...places, `a twentieth over ${Math.round(high)}`].join(', ')} mmHg`.replace(/^./, (first) => first.toUpperCase());
}

function differenceSpread(values: Float64Array, lengthUnit: LengthUnit): string {
  let low = Infinity, high = -Infinity;
  for (const value of values) {
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  return low > high ? NOT_YET : `The other against this: ${lengthWords(low, lengthUnit, true)} to ${lengthWords(high, lengthUnit, true)}`;
}

/** `2 mm`, `0.08 in`; a small length, signed where told. */
export function lengthWords(mm: number, lengthUnit: LengthUnit, isSigned = false): string {
  return `${numberWords(mm, 'mm', lengthUnit, isSigned)} ${lengthUnit === 'cm' ? 'mm' : 'in'}`;
}
