import { makeProblem } from '../base/make-problem.ts';
import type { Problem } from '../base/problem.ts';
import { findContradictions } from '../foot/sound-measures.ts';
import { numberRuleAt } from '../plan/sock-schema.ts';
import type { SizeRow } from './size-table.ts';

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

/** A length and a girth that hardly any foot has together: it can be knitted, but one is likely to be a slip. */
export function doubtSize({ name, lengthMm, ballGirthMm }: SizeRow, place: number): Problem[] {
  return findContradictions({ lengthMm, ballGirthMm }).map(({ leastMm, mostMm }) => (
    makeProblem(`sizes.${place}.ballGirthMm`, ballGirthMm, `${Math.ceil(leastMm)} to ${Math.floor(mostMm)} mm for a foot of ${lengthMm} mm`,
      `Size ${name} is ${(ballGirthMm / lengthMm).toFixed(2)} times as far round the ball as it is long, which hardly any foot is: is one of the two a slip?`)
  ));
}

/** Whatever is wrong with the rows of a size table, each at its row and field. */
export function checkSizes(rows: readonly SizeRow[]): readonly Problem[] {
  return rows.flatMap((row, place) => {
    const refused = refuseSize(row, place);
    return refused.length > 0 ? refused : doubtSize(row, place);
  });
}
