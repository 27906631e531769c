import type { FootMeasures, MeasureName } from './foot-measures.ts';
import { MEASURE_NAMES } from './foot-measures.ts';

/**
 * Least and greatest of one measure over another among the 1,500 adults of test/data/feet-sample.csv
 * (survey: see `estimate-measures.ts`), a test works them out again. A measure whose pair is left out
 * here is held by the others.
 */
export const SEEN_RATIOS: readonly (readonly [MeasureName, MeasureName, number, number])[] = [
  ['ballGirthMm', 'lengthMm', 0.797, 1.091],
  ['heelDiagonalMm', 'lengthMm', 1.145, 1.423],
  ['heelDiagonalMm', 'ballGirthMm', 1.212, 1.523],
  ['ankleGirthMm', 'lengthMm', 0.718, 1.079],
  ['ankleGirthMm', 'ballGirthMm', 0.790, 1.130],
  ['ankleGirthMm', 'heelDiagonalMm', 0.584, 0.834],
  ['calfGirthMm', 'ankleGirthMm', 1.403, 2.100],
  ['calfGirthMm', 'lengthMm', 1.124, 1.907],
  ['heelBreadthMm', 'lengthMm', 0.210, 0.348],
  ['heelBreadthMm', 'ballGirthMm', 0.227, 0.381],
];

/** So far beyond what was seen a ratio may go, a share of it: for children, and for feet that the survey has not. `chosen by eye`: an ankle as wide as the diagonal is just beyond. */
const WIDER = 0.2;

/** Two measures that cannot be of one foot. */
export interface Contradiction {
  /** The one that is not believed, and the one that it is held against. */
  readonly name: MeasureName;
  readonly against: MeasureName;
  /** What it could be beside the other, mm. */
  readonly leastMm: number;
  readonly mostMm: number;
}

/**
 * Measures that cannot be of one foot, each once: the one with the most contradictions first, of two
 * alike the one that is later in MEASURE_NAMES. Without them nothing contradicts.
 */
export function findContradictions(given: FootMeasures): Contradiction[] {
  const kept = new Set(MEASURE_NAMES.filter((name) => given[name] != null)), found: Contradiction[] = [];
  for (;;) {
    const lists = [...kept].map((name) => contradictionsOf(name, given, kept));
    const [worst] = lists.reduce((a, b) => (b.length > 0 && b.length >= a.length ? b : a), [] as Contradiction[]) as (Contradiction | undefined)[];
    if (worst === undefined) return found;
    found.push(worst);
    kept.delete(worst.name);
  }
}

/** What is given, less the measures that cannot be of one foot with the others. */
export function soundMeasures(given: FootMeasures): FootMeasures {
  const dropped = findContradictions(given).map(({ name }) => name);
  return Object.fromEntries(Object.entries(given).filter(([name]) => !dropped.includes(name as MeasureName)));
}

function contradictionsOf(name: MeasureName, given: FootMeasures, kept: ReadonlySet<MeasureName>): Contradiction[] {
  const own = given[name] ?? 0, list: Contradiction[] = [];
  for (const [upper, lower, seenLeast, seenMost] of SEEN_RATIOS) {
    const against = name === upper ? lower : name === lower ? upper : null, other = against === null ? null : given[against];
    if (against === null || other == null || !kept.has(against)) continue;
    const least = seenLeast * (1 - WIDER), most = seenMost * (1 + WIDER);
    const leastMm = name === upper ? least * other : other / most, mostMm = name === upper ? most * other : other / least;
    if (own < leastMm || own > mostMm) list.push({ name, against, leastMm, mostMm });
  }
  // The plainest first: it is the one that is told.
  const beyond = ({ leastMm, mostMm }: Contradiction): number => Math.max(leastMm / own, own / mostMm);
  return list.sort((a, b) => beyond(b) - beyond(a));
}
