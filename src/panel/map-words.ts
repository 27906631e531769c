import { BED, LOOP } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { ColourScale } from '../view/colour-scale.ts';
import type { ClothLayer } from '../view/sock-view-types.ts';
import { pageWords } from '../words/page-words.ts';
import type { Words } from '../words/words.ts';
import type { PageState } from './page-state.ts';
import { formatPercent, inFigures, inThousands, type LengthUnit } from './units.ts';

/** A layer whose colours stand for numbers. */
export type MapLayer = Exclude<ClothLayer, 'yarn'>;

type MapWords = Words['stage']['maps'][MapLayer];

const MM_PER_INCH = 25.4;

/** What the numbers of a scale are shown in: small lengths in mm where the page has cm. */
export function unitWords(unit: ColourScale['unit'], lengthUnit: LengthUnit): string {
  if (unit === 'bed' || unit === 'pass') return '';
  if (unit !== 'mm') return unit;
  return pageWords().measures.smallUnit[lengthUnit];
}

/** `−40`, `+5`, `18`, `0.39`: a sign where a scale goes both ways. */
function numberWords(value: number, unit: ColourScale['unit'], lengthUnit: LengthUnit, isSigned: boolean): string {
  const shown = unit === 'mm' && lengthUnit === 'in' ? Number((Math.abs(value) / MM_PER_INCH).toFixed(2)) : Math.round(Math.abs(value));
  if (shown === 0) return '0';
  return `${value < 0 ? '−' : isSigned ? '+' : ''}${inFigures(String(shown))}`;
}

export function tickWords(value: number, unit: ColourScale['unit'], lengthUnit: LengthUnit, { isLowest, isHighest }: { readonly isLowest: boolean; readonly isHighest: boolean }): string {
  if (unit === 'pass') return String(Math.round(value));
  const isSigned = unit === '%' || isLowest || value < 0, words = numberWords(value, unit, lengthUnit, isSigned);
  return isLowest ? `≤ ${words}` : isHighest ? `≥ ${words}` : words;
}

/** The legend for those who do not see it. */
export function legendWords({ steps, unit }: ColourScale, { aloud, less, more }: MapWords, lengthUnit: LengthUnit): string {
  const low = steps[0]?.value ?? 0, end = (value: number): string => (unit === 'pass' ? String(Math.round(value)) : `${numberWords(value, unit, lengthUnit, low < 0)} ${unitWords(unit, lengthUnit)}`);
  return aloud.replace('{less}', less).replace('{more}', more).replace('{low}', end(low)).replace('{high}', end(steps.at(-1)?.value ?? 0));
}

/** How the shown numbers lie over the whole cloth, in a sentence. */
export function spreadWords(layer: MapLayer, { posed, knitted, difference, settings: { lengthUnit } }: Pick<PageState, 'posed' | 'knitted' | 'difference' | 'settings'>): string {
  const { notAtRest, gaps, rowsShaded } = pageWords().stage;
  if (layer === 'pass') return rowsShaded;
  if (layer === 'bed') return knitted === null ? notAtRest : bedSpread(knitted.grid);
  if (posed === null) return notAtRest;
  const { stretch: { summary: s }, worn } = posed;
  switch (layer) {
    case 'stretch-width': return stretchSpread(s.width5Percent, s.width95Percent, s.widthMedianPercent);
    case 'stretch-length': return stretchSpread(s.length5Percent, s.length95Percent, s.lengthMedianPercent);
    case 'pressure': return worn === null ? notAtRest : pressureSpread(worn.summary.topPressureMmHg, worn.summary.anklePressureMmHg, worn.summary.pressure95MmHg);
    case 'gap': return worn === null ? notAtRest : gaps(Math.round(worn.summary.gapPercent), lengthWords(2, lengthUnit));
    case 'longer': return difference == null ? notAtRest : differenceSpread(difference.vertexLongerMm, lengthUnit);
    case 'wider': return difference == null ? notAtRest : differenceSpread(difference.vertexWiderMm, lengthUnit);
    default: return layer satisfies never;
  }
}

/** Knitted stitches of each bed; the cast-on and what is laid round or sewn are not counted. */
function bedSpread({ kind, bed }: StitchGrid): string {
  const on = { front: 0, back: 0 };
  for (let loop = 0; loop < kind.length; loop++) if (kind[loop] === LOOP.knit) on[bed[loop] === BED.front ? 'front' : 'back'] += 1;
  return pageWords().stage.bedSpread(inThousands(on.front), inThousands(on.back));
}

function stretchSpread(low: number, high: number, median: number): string {
  return pageWords().stage.spread(formatPercent(low), formatPercent(high), formatPercent(median));
}

function pressureSpread(top: number | null, ankle: number | null, high: number): string {
  const say = pageWords().stage.pressure;
  const places = [top === null ? null : say.top(Math.round(top)), ankle === null ? null : say.ankle(Math.round(ankle))].filter((words) => words !== null);
  return `${[...places, say.most(Math.round(high))].join(', ')} mmHg`.replace(/^./, (first) => first.toUpperCase());
}

function differenceSpread(values: Float64Array, lengthUnit: LengthUnit): string {
  let low = Infinity, high = -Infinity;
  for (const value of values) {
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  const { notAtRest, difference } = pageWords().stage;
  return low > high ? notAtRest : difference(lengthWords(low, lengthUnit, true), lengthWords(high, lengthUnit, true));
}

/** `2 mm`, `0.08 in`; a small length, signed where told. */
export function lengthWords(mm: number, lengthUnit: LengthUnit, isSigned = false): string {
  return `${numberWords(mm, 'mm', lengthUnit, isSigned)} ${lengthUnit === 'cm' ? 'mm' : 'in'}`;
}
