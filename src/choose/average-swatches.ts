import type { Plan } from '../plan/plan-types.ts';
import type { SwatchCount } from '../plan/sock-file.ts';
import type { GaugeError, Tolerance } from './read-tolerance.ts';
import { readTolerance } from './read-tolerance.ts';

export type SwatchState = 'washed' | 'unwashed';

/** A count in 10 cm over several swatches. */
export interface SpreadOfCount {
  readonly mean: number;
  /** Standard deviation of one swatch (of the sample: divided by count - 1); null for a single one. */
  readonly sd: number | null;
  /** Of the mean: how sure it is; null for a single swatch. */
  readonly standardError: number | null;
}

export interface SwatchAverage {
  readonly state: SwatchState;
  /** Swatches that went in. */
  readonly count: number;
  readonly stitchesPer10cm: SpreadOfCount;
  readonly rowsPer10cm: SpreadOfCount;
}

/** Change of the cloth's size by washing, %; negative: it shrinks. */
export interface Shrinkage { readonly widthPercent: number; readonly lengthPercent: number }

const TEN_CM = 100;

/** Mean gauge of the swatches in one state, each counting alike whatever its size; null without any. */
export function averageSwatches(swatches: readonly SwatchCount[], state: SwatchState): SwatchAverage | null {
  const those = swatches.filter(({ washed = false }) => washed === (state === 'washed'));
  if (those.length === 0) return null;
  return {
    state, count: those.length,
    stitchesPer10cm: spreadOf(those.map(({ stitches, widthMm }) => TEN_CM * stitches / widthMm)),
    rowsPer10cm: spreadOf(those.map(({ rows, heightMm }) => TEN_CM * rows / heightMm)),
  };
}

function spreadOf(values: readonly number[]): SpreadOfCount {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  if (values.length < 2) return { mean, sd: null, standardError: null };
  const sd = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
  return { mean, sd, standardError: sd / Math.sqrt(values.length) };
}

/** What washing does, by the means; null unless there are swatches of both states. The same stitches are 1 / gauge wide. */
export function findShrinkage(swatches: readonly SwatchCount[]): Shrinkage | null {
  const before = averageSwatches(swatches, 'unwashed'), after = averageSwatches(swatches, 'washed');
  if (before === null || after === null) return null;
  return {
    widthPercent: 100 * (before.stitchesPer10cm.mean / after.stitchesPer10cm.mean - 1),
    lengthPercent: 100 * (before.rowsPer10cm.mean / after.rowsPer10cm.mean - 1),
  };
}

/** What the spread of swatches means for a sock knitted by the plan: its measures with the gauge off by the mean's standard error, either way. Null for a single swatch. */
export function readSpread(plan: Plan, average: SwatchAverage): Tolerance | null {
  const { standardError: stitchesPer10cm } = average.stitchesPer10cm, { standardError: rowsPer10cm } = average.rowsPer10cm;
  if (stitchesPer10cm === null || rowsPer10cm === null) return null;
  const error: GaugeError = { stitchesPer10cm, rowsPer10cm };
  return readTolerance(plan, error);
}
