import { estimateMeasures } from './estimate-measures.ts';

/** A foot of a usual size. */
export interface StandardSize {
  readonly name: string;
  readonly lengthMm: number;
  readonly ballGirthMm: number;
  /** Not every number of it stands in a published table. */
  readonly isEstimate: boolean;
  /** Where the numbers are from, in a sentence. */
  readonly source: string;
}

/**
 * Adults: means, standard deviations, and least squares of the ball's girth over the length, in the
 * 2012 survey of U.S. Army personnel (4,082 men, 1,986 women: Gordon C. C. et al., NATICK/TR-15/007, 2014).
 */
const WOMEN = { mean: 246.3, sd: 12.4, ball: (length: number) => 86.9 + 0.573 * length } as const;
const MEN = { mean: 271.2, sd: 13.1, ball: (length: number) => 92.2 + 0.590 * length } as const;
/** From the mean to the 5th and the 95th percentile of a normal distribution, in standard deviations. */
const P95 = 1.645;
const ADULT_SOURCE = 'Survey of U.S. Army personnel, NATICK/TR-15/007, 2014';

/**
 * Children's lengths. 3 years: 156 mm (boys) and 153 mm (girls), Cheng J. C. Y. et al., Clin. Orthop. 342 (1997)
 * 123-131, who found growth in a straight line from 3 to 12 (girls) and 15 years (boys). 6 to 15 years: 213.5 mm on
 * average of 469 children, Baresova P. et al., Int. J. Foot Ankle 5, 058; both seen in abstracts and in the table of a
 * review (Children 9 (2022) 750). The line through the two, the second at the middle of its ages, gives the years between.
 */
const THREE = { years: 3, mm: 154.5 } as const, SCHOOL = { years: 10.5, mm: 213.5 } as const;
const LINE_SOURCE = 'Estimate: length on a straight line between published means at 3 and at 6 to 15 years; girth in the proportion of the smallest adults';
/** Before the third year, lengths from memory: they only order the sizes. */
const INFANT_SOURCE = 'Estimate: length from memory; girth in the proportion of the smallest adults';

/** From infant to extra-large adult, the smallest first. Girths of children follow the smallest adults' proportion: no table of theirs was found. */
export const STANDARD_SIZES: readonly StandardSize[] = [
  makeChild('Infant, to 6 months', 85, INFANT_SOURCE),
  makeChild('Infant, to 1 year', 105, INFANT_SOURCE),
  makeChild('Child, 1 to 2 years', 125, INFANT_SOURCE),
  makeChild('Child, 3 to 4 years', lengthAt(3.5), LINE_SOURCE),
  makeChild('Child, 5 to 6 years', lengthAt(5.5), LINE_SOURCE),
  makeChild('Child, 7 to 8 years', lengthAt(7.5), LINE_SOURCE),
  makeChild('Child, 9 to 10 years', lengthAt(9.5), LINE_SOURCE),
  makeChild('Child, 11 to 12 years', lengthAt(11.5), LINE_SOURCE),
  makeAdult('Adult, extra-small', WOMEN.mean - P95 * WOMEN.sd, WOMEN.ball, 'the length that 5 % of the women stay below'),
  makeAdult('Adult, small', WOMEN.mean, WOMEN.ball, 'the women\'s mean'),
  makeAdult('Adult, medium', (WOMEN.mean + MEN.mean) / 2, (length) => (WOMEN.ball(length) + MEN.ball(length)) / 2, 'midway between women\'s and men\'s means'),
  makeAdult('Adult, large', MEN.mean, MEN.ball, 'the men\'s mean'),
  makeAdult('Adult, extra-large', MEN.mean + P95 * MEN.sd, MEN.ball, 'the length that 5 % of the men exceed'),
];

function lengthAt(years: number): number {
  return THREE.mm + (SCHOOL.mm - THREE.mm) * (years - THREE.years) / (SCHOOL.years - THREE.years);
}

function makeChild(name: string, mm: number, source: string): StandardSize {
  const lengthMm = Math.round(mm);
  return { name, lengthMm, ballGirthMm: Math.round(estimateMeasures({ lengthMm }).ballGirthMm.valueMm), isEstimate: true, source };
}

function makeAdult(name: string, mm: number, ball: (length: number) => number, which: string): StandardSize {
  return { name, lengthMm: Math.round(mm), ballGirthMm: Math.round(ball(mm)), isEstimate: false, source: `${ADULT_SOURCE}: ${which}, girth by regression` };
}
