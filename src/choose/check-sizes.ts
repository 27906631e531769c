import { makeProblem } from '../base/make-problem.ts';
import type { Problem } from '../base/problem.ts';
import { numberRuleAt } from '../plan/sock-schema.ts';
import type { SizeRow } from './size-table.ts';

/**
 * Girth over length between which feet lie: 0.78 to 1.12 in the survey of adults (Gordon C. C. et
 * al., 2012 Anthropometric Survey of U.S. Army Personnel, NATICK/TR-15/007, 2014; the sample of 1,500),
 * and infants' feet are fuller; so far beyond, chosen by eye, that only a slip lies there.
 */
const SHAPE = { thinnest: 0.6, fullest: 1.4 } as const;

const FIELDS = [['lengthMm', 'foot.lengthMm', 'Foot length'], ['ballGirthMm', 'foot.ballGirthMm', 'Girth at the ball'], ['legLengthMm', 'leg.lengthMm', 'Leg length']] as const;

/** Sizes that cannot be knitted, as they are no sizes of a sock file: at `sizes.3.lengthMm` and its like, rows counted from 0. */
export function refuseSize(row: SizeRow, place: number): Problem[] {
  return FIELDS.flatMap(([name, field, label]) => {
    const value = row[name], { min, max } = numberRuleAt(field);
    if (value === null || (value >= min && value <= max)) return [];
    const given = Number.isFinite(value) ? `${value} mm` : 'no number';
    return [makeProblem(`sizes.${place}.${name}`, value, `${min} to ${max} mm`, `${label} of size ${row.name}: ${given}, but it must be from ${min} to ${max} mm.`)];
  });
}

/** A foot that hardly anybody has: it can be knitted, but a number is likely to be a slip. */
export function doubtSize({ name, lengthMm, ballGirthMm }: SizeRow, place: number): Problem[] {
  const ratio = ballGirthMm / lengthMm;
  if (ratio >= SHAPE.thinnest && ratio <= SHAPE.fullest) return [];
  const [least, most] = [Math.ceil(SHAPE.thinnest * lengthMm), Math.floor(SHAPE.fullest * lengthMm)];
  return [makeProblem(`sizes.${place}.ballGirthMm`, ballGirthMm, `${least} to ${most} mm for a foot of ${lengthMm} mm`,
    `Size ${name} is ${ratio.toFixed(2)} times as far round the ball as it is long; feet are about 0.93. Is one of the two a slip?`)];
}

/** Whatever is wrong with the rows of a size table, each at its row and field. */
export function checkSizes(rows: readonly SizeRow[]): readonly Problem[] {
  return rows.flatMap((row, place) => {
    const refused = refuseSize(row, place);
    return refused.length > 0 ? refused : doubtSize(row, place);
  });
}
