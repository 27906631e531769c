import type { FootMeasures, MeasureName } from './foot-measures.ts';
import { MEASURE_NAMES } from './foot-measures.ts';

export interface EstimatedMeasure {
  readonly valueMm: number;
  /** Standard deviation of real feet about the value; 0 for a given one, but for a length from a shoe size. */
  readonly sdMm: number;
  readonly isGiven: boolean;
  /** What it was worked out from; empty where it is the mean of adults. */
  readonly from: readonly (MeasureName | 'arch')[];
}

export type EstimatedMeasures = Readonly<Record<MeasureName, EstimatedMeasure>>;

/**
 * Means and covariances (mm, mm^2; order of MEASURE_NAMES) of the 1,500 men and women in
 * test/data/feet-sample.csv, taken together, as a sock file does not ask for the sex: a sample of the
 * 2012 survey of U.S. Army personnel (Gordon C. C. et al., NATICK/TR-15/007, 2014). A measure's mean
 * under the normal distribution with these moments, some others known, is its least-squares regression
 * on just those others, whichever they are: one table stands for all regressions. A test works the
 * table out again and holds it to the regressions over the whole survey.
 */
export const SURVEY = {
  mean: [263.106, 244.464, 332.587, 224.905, 385.791, 70.746],
  least: [214, 197, 264, 173, 282, 53],
  greatest: [323, 301, 403, 281, 488, 93],
  covariance: [
    [303.34, 224.80, 351.18, 157.14, 236.04, 64.72],
    [224.80, 280.38, 325.62, 181.09, 307.88, 64.80],
    [351.18, 325.62, 511.63, 257.03, 416.82, 97.95],
    [157.14, 181.09, 257.03, 232.83, 363.79, 51.83],
    [236.04, 307.88, 416.82, 363.79, 872.23, 96.52],
    [64.72, 64.80, 97.95, 51.83, 96.52, 36.44],
  ],
} as const;

/**
 * So many of its standard deviations a high or low arch moves an estimated diagonal. The mean of the
 * upper third of a normal distribution lies 1.09 off; that a third of feet are called high: `chosen by eye`.
 */
const ARCH_SHIFT = { low: -1, usual: 0, high: 1 } as const;

/**
 * All measures from those given: these stay exactly as they are, the others come by regression on all
 * of them, with the scatter of feet about it. A foot smaller than the survey's smallest, or larger than
 * its largest, is taken to be one of that size, scaled.
 */
export function estimateMeasures(given: FootMeasures): EstimatedMeasures {
  const known = MEASURE_NAMES.map((name, i) => ({ name, i, value: given[name] })).filter((one) => one.value != null) as Known[];
  const scale = scaleOf(known), lengthSd = (given.lengthSdMm ?? 0) / scale;
  const k = known.map((one) => known.map((other) => SURVEY.covariance[one.i][other.i] + (one === other && one.name === 'lengthMm' ? lengthSd * lengthSd : 0)));
  const inverse = invert(k), off = known.map((one) => one.value / scale - SURVEY.mean[one.i]);
  const arch = given.heelDiagonalMm == null ? ARCH_SHIFT[given.arch ?? 'usual'] : 0;
  const estimate = (name: MeasureName, i: number): EstimatedMeasure => {
    const value = given[name];
    if (value != null) return { valueMm: value, sdMm: name === 'lengthMm' ? given.lengthSdMm ?? 0 : 0, isGiven: true, from: [name] };
    const own = known.map((one) => SURVEY.covariance[i][one.i]), weights = inverse.map((row) => dot(row, own));
    const sd = Math.sqrt(Math.max(0, SURVEY.covariance[i][i] - dot(weights, own)));
    const shift = name === 'heelDiagonalMm' ? arch : 0, from = known.map((one) => one.name);
    return { valueMm: scale * (SURVEY.mean[i] + dot(weights, off) + shift * sd), sdMm: scale * sd, isGiven: false, from: shift === 0 ? from : [...from, 'arch'] };
  };
  return Object.fromEntries(MEASURE_NAMES.map((name, i) => [name, estimate(name, i)])) as EstimatedMeasures;
}

interface Known { readonly name: MeasureName; readonly i: number; readonly value: number }

/** By the first that is known: 1 within the survey. */
function scaleOf([first]: readonly (Known | undefined)[]): number {
  if (first === undefined) return 1;
  return first.value / Math.min(SURVEY.greatest[first.i], Math.max(SURVEY.least[first.i], first.value));
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, i) => sum + value * b[i], 0);
}

/** Of a symmetric positive matrix of a few rows, by Gauss and Jordan without pivots. */
function invert(matrix: readonly (readonly number[])[]): number[][] {
  const n = matrix.length, rows = matrix.map((row, r) => [...row, ...row.map((_, c) => (c === r ? 1 : 0))]);
  for (let p = 0; p < n; p++) {
    const pivot = rows[p].map((value) => value / rows[p][p]);
    rows.forEach((row, r) => { rows[r] = r === p ? pivot : row.map((value, c) => value - row[p] * pivot[c]); });
  }
  return rows.map((row) => row.slice(n));
}
