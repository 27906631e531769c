import { pageLanguage, pageWords } from '../words/page-words.ts';

export type LengthUnit = 'cm' | 'in';
/** How a gauge is put in: counts in 10 cm, to the inch, or counted over a patch of the person's choosing. */
export type GaugeUnit = '10cm' | 'inch' | 'patch';

const MM_PER_INCH = 25.4;

/** A number as it stands in the file, turned into the number a person reads and back. */
export interface Scale {
  readonly unit: string;
  readonly step: number;
  readonly decimals: number;
  toShown(inFile: number): number;
  toFile(shown: number): number;
}

function roundTo(value: number, decimals: number): number {
  return Number(value.toFixed(decimals));
}

/** Shown as it is in the file. */
export function plainScale(unit: string, step: number, decimals = 0): Scale {
  return { unit, step, decimals, toShown: (value) => roundTo(value, decimals), toFile: (value) => value };
}

/** The file holds a multiple of the shown number; what is typed is kept in the file to `fileDecimals`. */
export function scaledBy(factor: number, fileDecimals: number, unit: string, step: number, decimals: number): Scale {
  return {
    unit, step, decimals,
    toShown: (value) => roundTo(value / factor, decimals),
    toFile: (value) => roundTo(value * factor, fileDecimals),
  };
}

/** Millimetres in the file, shown in cm to the millimetre or in inches to the hundredth. */
export function lengthScale(unit: LengthUnit): Scale {
  return unit === 'cm' ? scaledBy(10, 1, 'cm', 0.1, 1) : scaledBy(MM_PER_INCH, 1, 'in', 0.05, 2);
}

/** Counts in 10 cm in the file. `patchMm` is the side of the patch along which they were counted. */
export function gaugeScale(unit: GaugeUnit, patchMm: number): Scale {
  if (unit === 'inch') return scaledBy(100 / MM_PER_INCH, 3, pageWords().controls.gaugeUnits.inch, 0.25, 2);
  if (unit === 'patch') return scaledBy(100 / patchMm, 3, pageWords().controls.gaugeUnits.patch, 0.5, 1);
  return plainScale(pageWords().controls.gaugeUnits['10cm'], 0.5, 2);
}

/** `26.2 cm`, `10.31 in`. */
export function formatLength(mm: number, unit: LengthUnit): string {
  return `${formatLengthNumber(mm, unit)} ${unit}`;
}

export function formatLengthNumber(mm: number, unit: LengthUnit): string {
  return inFigures(lengthFigures(mm, unit));
}

/** The same with a point whatever the language, to be reckoned with. */
export function lengthFigures(mm: number, unit: LengthUnit): string {
  return unit === 'cm' ? (mm / 10).toFixed(1) : (mm / MM_PER_INCH).toFixed(2);
}

/** Every decimal point between figures as the page's language writes it. */
export function inFigures(text: string): string {
  return pageLanguage() === 'de' ? text.replace(/(\d)\.(\d)/g, '$1,$2') : text;
}

/** A whole number, its thousands apart as the page's language has them. */
export function inThousands(count: number): string {
  return count.toLocaleString(pageLanguage());
}

/** A percentage with its sign, to the nearest whole: `+3`, `−28`, `0`. */
export function formatPercent(percent: number): string {
  const whole = Math.round(percent);
  return whole === 0 ? '0' : `${whole < 0 ? '−' : '+'}${Math.abs(whole)}`;
}
