import { makeProblem } from '../base/make-problem.ts';
import type { Problem } from '../base/problem.ts';
import { formatNumber } from '../base/unit.ts';
import type { ShoeSystem } from '../foot/shoe-size.ts';
import { lengthFromShoeSize, SHOE_SYSTEMS, shoeSizeFromLength } from '../foot/shoe-size.ts';
import { numberRuleAt } from './sock-schema.ts';

type Fields = Readonly<Record<string, unknown>>;

/** A group's own fields; empty when it is missing; null when it is no object, which is told elsewhere. */
function fieldsOf(value: Fields, name: string): Fields | null {
  const inner = Object.hasOwn(value, name) ? value[name] : undefined;
  if (inner === undefined) return {};
  return typeof inner === 'object' && inner !== null && !Array.isArray(inner) ? (inner as Fields) : null;
}

const has = (fields: Fields, name: string): boolean => Object.hasOwn(fields, name) && fields[name] !== undefined;

/**
 * Is there a way to the sock's size? A girth or a stitch count, and a length, a shoe size or foot
 * passes. Fields that stand there count, right or wrong: a wrong one has its own problem.
 */
export function checkSizing(value: Fields, problems: Problem[]): void {
  const foot = fieldsOf(value, 'foot');
  const counts = fieldsOf(value, 'counts');
  if (foot === null || counts === null) return;
  if (!has(foot, 'ballGirthMm') && !has(counts, 'stitches')) {
    problems.push(makeProblem('foot.ballGirthMm', undefined, 'a girth of 60 to 450 mm, or counts.stitches',
      'Nothing says how wide the sock is: give the girth of the foot at the ball, or the stitches round.'));
  }
  if (!has(foot, 'lengthMm') && !has(foot, 'shoeSize') && !has(counts, 'footPasses')) {
    problems.push(makeProblem('foot.lengthMm', undefined, 'a length of 60 to 400 mm, foot.shoeSize or counts.footPasses',
      'Nothing says how long the sock is: give the length of the foot, a shoe size, or the foot passes.'));
  }
  const shoe = fieldsOf(foot, 'shoeSize');
  if (shoe !== null) checkShoeSize(shoe, problems);
}

/** A size must stand for a foot within the limits of a measured one. */
function checkShoeSize(shoe: Fields, problems: Problem[]): void {
  const length = numberRuleAt('foot.lengthMm');
  const plain = numberRuleAt('foot.shoeSize.value');
  const system = SHOE_SYSTEMS.find((known) => known === shoe.system);
  const size = shoe.value;
  if (system === undefined || typeof size !== 'number' || !(size >= plain.min && size <= plain.max)) return;
  const { lengthMm } = lengthFromShoeSize(system, size);
  if (lengthMm >= length.min && lengthMm <= length.max) return;
  const { min, max } = shoeSizeLimits(system);
  problems.push(makeProblem('foot.shoeSize.value', size, `a ${system} size from ${formatNumber(min, 1)} to ${formatNumber(max, 1)}`,
    `Shoe size ${size} (${system}) would be a foot of ${formatNumber(lengthMm, 0)} mm, but it must be one of ${length.min} to ${length.max} mm.`));
}

/** Sizes that stand for a foot within the file's limits, in steps of a half. */
export function shoeSizeLimits(system: ShoeSystem): { readonly min: number; readonly max: number } {
  const length = numberRuleAt('foot.lengthMm');
  const size = numberRuleAt('foot.shoeSize.value');
  return {
    min: Math.max(size.min, Math.ceil(2 * shoeSizeFromLength(system, length.min) - 1e-9) / 2),
    max: Math.floor(2 * shoeSizeFromLength(system, length.max) + 1e-9) / 2,
  };
}
