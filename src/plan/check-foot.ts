import { makeProblem } from '../base/make-problem.ts';
import type { Problem } from '../base/problem.ts';
import { formatNumber } from '../base/unit.ts';
import type { MeasureName } from '../foot/foot-measures.ts';
import { findContradictions } from '../foot/sound-measures.ts';
import type { PlannedFoot } from './plan-types.ts';

const NAMES: Readonly<Record<MeasureName, string>> = {
  lengthMm: 'length', ballGirthMm: 'girth at the ball', heelDiagonalMm: 'girth over heel and instep',
  ankleGirthMm: 'ankle girth', calfGirthMm: 'calf girth', heelBreadthMm: 'heel breadth',
};

/**
 * Measures that cannot all be of one foot, said at the one that is not believed. They keep no sock from
 * being knitted: its counts follow what is given; the foot that it is shown on takes an estimate instead.
 */
export function checkFootMeasures(foot: PlannedFoot): Problem[] {
  const { lengthMm, ballGirthMm, heelDiagonalMm, ankleGirthMm, calfGirthMm, heelBreadthMm } = foot;
  const given = { lengthMm, ballGirthMm, heelDiagonalMm, ankleGirthMm, calfGirthMm, heelBreadthMm };
  return findContradictions(given).map(({ name, against, leastMm, mostMm }) => {
    const value = formatNumber(given[name] ?? 0, 0), other = `${withArticle('a', NAMES[against])} of ${formatNumber(given[against] ?? 0, 0)} mm`;
    const field = name === 'lengthMm' && foot.lengthToleranceMm > 0 ? 'foot.shoeSize' : `foot.${name}`;
    return makeProblem(field, given[name], `${formatNumber(Math.ceil(leastMm), 0)} to ${formatNumber(Math.floor(mostMm), 0)} mm beside ${other}`,
      `${withArticle('A', NAMES[name])} of ${value} mm does not go with ${other}: measure both again. `
      + `The sock is planned from what you gave; the foot that it is shown on has ${formatNumber(foot.measures[name].valueMm, 0)} mm there, an estimate.`);
  });
}

function withArticle(article: 'a' | 'A', name: string): string { return `${article}${/^[aeiou]/.test(name) ? 'n' : ''} ${name}`; }
