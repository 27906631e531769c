import type { Shrinkage, SwatchAverage } from '../choose/average-swatches.ts';
import type { Tolerance, ToleranceRow } from '../choose/read-tolerance.ts';
import { countOf, formatLength, gaugeScale } from './units.ts';
import type { LengthUnit } from './units.ts';

/** What the swatches say together. */
export interface SwatchReading {
  /** Of the washed ones, where there are any. */
  readonly average: SwatchAverage;
  /** Null without swatches of both kinds. */
  readonly shrinkage: Shrinkage | null;
  /** What the spread means for the sock on the panel; null of a single swatch, or without a sock. */
  readonly spread: Tolerance | null;
}

/** The gauge first, then how sure it is and what that means for the sock. */
export function readingWords(reading: SwatchReading | null, unit: LengthUnit): readonly string[] {
  if (reading === null) return ['Put in stitches and rows of one swatch at least.'];
  const { average, spread, shrinkage } = reading, { stitchesPer10cm: stitches, rowsPer10cm: rows, count, state } = average;
  const { unit: per, toFile } = gaugeScale(unit === 'cm' ? '10cm' : 'inch', 100), shown = (in10cm: number): string => (in10cm / toFile(1)).toFixed(unit === 'cm' ? 1 : 2);
  return [
    `${shown(stitches.mean)} stitches and ${shown(rows.mean)} rows ${per}, from ${countOf(count, `${state} swatch`, `${state} swatches`)}`,
    stitches.sd === null || rows.sd === null || stitches.standardError === null || rows.standardError === null
      ? 'One swatch does not tell how even your knitting is: count a second one.'
      : `They differ by ±${shown(stitches.sd)} stitches and ±${shown(rows.sd)} rows (one standard deviation), so that their mean is sure to ±${shown(stitches.standardError)} and ±${shown(rows.standardError)}.${spread === null ? '' : ` ${sockWords(spread, unit)}`}`,
    ...(state === 'washed' ? [] : ['A sock is planned by its washed gauge: cloth goes in or out with the first washing. Wash, and count again.']),
    ...(shrinkage === null ? [] : [`In washing the cloth ${changeWords(shrinkage.widthPercent, 'width')} and ${changeWords(shrinkage.lengthPercent, 'length')}.`]),
  ];
}

/** The larger of looser and tighter: stitches for the girth, rows for the length. */
function sockWords({ rows }: Tolerance, unit: LengthUnit): string {
  const of = (measure: ToleranceRow['measure']): ToleranceRow | undefined => rows.find((row) => row.measure === measure);
  const girth = of('footGirthMm'), length = of('footLengthMm');
  if (girth === undefined || length === undefined) return '';
  const off = (...changes: readonly number[]): string => `±${formatLength(Math.max(...changes.map(Math.abs)), unit)}`;
  return `For this sock that is ${off(girth.fewerStitchesMm, girth.moreStitchesMm)} of ${formatLength(girth.plannedMm, unit)} girth and ${off(length.fewerRowsMm, length.moreRowsMm)} of ${formatLength(length.plannedMm, unit)} length.`;
}

function changeWords(percent: number, along: string): string {
  const size = Math.abs(percent).toFixed(1);
  return Number(size) === 0 ? `keeps its ${along}` : `${percent < 0 ? 'loses' : 'gains'} ${size} % of its ${along}`;
}
