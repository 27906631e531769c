import { STANDARD_SIZES } from '../foot/standard-sizes.ts';
import type { SizeRow } from './size-table.ts';

/** The standard sizes as rows to grade a sock to, legs as the sock's own. */
export function standardRows(): readonly SizeRow[] {
  return STANDARD_SIZES.map(({ name, lengthMm, ballGirthMm, isEstimate }) => ({ name, lengthMm, ballGirthMm, isEstimate, legLengthMm: null }));
}
