import type { Shrinkage, SwatchAverage } from '../choose/average-swatches.ts';
import type { Tolerance, ToleranceRow } from '../choose/read-tolerance.ts';
import { pageWords } from '../words/page-words.ts';
import { formatLength, gaugeScale, inFigures } from './units.ts';
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
  const say = pageWords().swatches;
  if (reading === null) return [say.none];
  const { average, spread, shrinkage } = reading, { stitchesPer10cm: stitches, rowsPer10cm: rows, count, state } = average;
  const { unit: per, toFile } = gaugeScale(unit === 'cm' ? '10cm' : 'inch', 100), shown = (in10cm: number): string => inFigures((in10cm / toFile(1)).toFixed(unit === 'cm' ? 1 : 2));
  return [
    say.gauge(shown(stitches.mean), shown(rows.mean), per, count, state === 'washed'),
    stitches.sd === null || rows.sd === null || stitches.standardError === null || rows.standardError === null
      ? say.onlyOne
      : `${say.differ(shown(stitches.sd), shown(rows.sd), shown(stitches.standardError), shown(rows.standardError))}${spread === null ? '' : ` ${sockWords(spread, unit)}`}`,
    ...(state === 'washed' ? [] : [say.unwashed]),
    ...(shrinkage === null ? [] : [say.washing(changeWords(shrinkage.widthPercent, 'width'), changeWords(shrinkage.lengthPercent, 'length'))]),
  ];
}

/** The larger of looser and tighter: stitches for the girth, rows for the length. */
function sockWords({ rows }: Tolerance, unit: LengthUnit): string {
  const of = (measure: ToleranceRow['measure']): ToleranceRow | undefined => rows.find((row) => row.measure === measure);
  const girth = of('footGirthMm'), length = of('footLengthMm');
  if (girth === undefined || length === undefined) return '';
  const off = (...changes: readonly number[]): string => formatLength(Math.max(...changes.map(Math.abs)), unit);
  return pageWords().swatches.sock(off(girth.fewerStitchesMm, girth.moreStitchesMm), formatLength(girth.plannedMm, unit), off(length.fewerRowsMm, length.moreRowsMm), formatLength(length.plannedMm, unit));
}

function changeWords(percent: number, along: 'width' | 'length'): string {
  const size = Math.abs(percent).toFixed(1), { keeps, changes } = pageWords().swatches;
  return Number(size) === 0 ? keeps[along] : changes[along](inFigures(size), percent < 0);
}
