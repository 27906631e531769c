import type { PlannedSock } from './page-state.ts';
import { countOf, formatLength, gaugeScale } from './units.ts';
import type { LengthUnit } from './units.ts';

/** One direction of the counted swatches, in 10 cm. */
export interface CountedGauge {
  readonly mean: number;
  /** Standard deviation of the swatches, in per cent of the mean; null of a single one. */
  readonly spreadPercent: number | null;
}

/** What the swatches say together. */
export interface SwatchReading {
  readonly stitches: CountedGauge;
  readonly rows: CountedGauge;
  /** Swatches averaged: the washed ones, where there are any. */
  readonly count: number;
  readonly isWashed: boolean;
  /** How far the cloth goes in with washing, %; negative: it grows. Null without swatches of both kinds. */
  readonly shrinkage: { readonly widthPercent: number; readonly heightPercent: number } | null;
}

/** The gauge first, then how sure it is and what that means for the sock. */
export function readingWords(reading: SwatchReading | null, planned: PlannedSock | null, unit: LengthUnit): readonly string[] {
  if (reading === null) return ['Put in stitches and rows of one swatch at least.'];
  const { stitches, rows, count, isWashed } = reading, scale = gaugeScale(unit === 'cm' ? '10cm' : 'inch', 100), decimals = unit === 'cm' ? 1 : 2;
  const shown = (value: number): string => scale.toShown(value).toFixed(decimals);
  const basis = `${countOf(count, isWashed ? 'washed swatch' : 'unwashed swatch', isWashed ? 'washed swatches' : 'unwashed swatches')}`;
  return [
    `${shown(stitches.mean)} stitches and ${shown(rows.mean)} rows ${scale.unit}, from ${basis}`,
    ...spreadWords(reading, planned, unit),
    ...(isWashed ? [] : ['A sock is planned by its washed gauge: cloth goes in or out with the first washing. Count again after it.']),
    ...shrinkageWords(reading),
  ];
}

function spreadWords({ stitches, rows, count }: SwatchReading, planned: PlannedSock | null, unit: LengthUnit): readonly string[] {
  if (stitches.spreadPercent === null || rows.spreadPercent === null) return count === 1 ? ['One swatch does not tell how even your knitting is: count a second one.'] : [];
  const spread = `They differ by ±${stitches.spreadPercent.toFixed(1)} % in stitches and ±${rows.spreadPercent.toFixed(1)} % in rows (one standard deviation)`;
  const girth = planned?.rest.footGirthMm ?? null, length = planned?.rest.footLengthMm ?? null;
  if (girth === null || length === null) return [`${spread}.`];
  const off = (mm: number, percent: number): string => `±${formatLength((mm * percent) / 100, unit)}`;
  return [`${spread}: for this sock ${off(girth, stitches.spreadPercent)} of ${formatLength(girth, unit)} girth and ${off(length, rows.spreadPercent)} of ${formatLength(length, unit)} length.`];
}

function shrinkageWords({ shrinkage }: SwatchReading): readonly string[] {
  if (shrinkage === null) return [];
  const words = (percent: number, along: string): string => {
    const size = Math.abs(percent).toFixed(1);
    return Number(size) === 0 ? `keeps its ${along}` : `${percent > 0 ? 'loses' : 'gains'} ${size} % of its ${along}`;
  };
  return [`In washing the cloth ${words(shrinkage.widthPercent, 'width')} and ${words(shrinkage.heightPercent, 'height')}.`];
}
