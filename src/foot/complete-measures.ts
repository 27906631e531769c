/** A foot's measures, mm; what is missing is worked out. */
export interface FootMeasures {
  readonly lengthMm?: number | null;
  readonly ballGirthMm?: number | null;
  /** Least girth above the ankle bones. */
  readonly ankleGirthMm?: number | null;
  readonly calfGirthMm?: number | null;
  /** Round heel tip and instep. */
  readonly heelDiagonalMm?: number | null;
}

export type CompleteMeasures = { readonly [K in keyof FootMeasures]-?: number };

/**
 * Gordon C. C. et al., 2012 Anthropometric Survey of U.S. Army Personnel (NATICK/TR-15/007, 2014):
 * means and least squares over the whole survey, men's and women's averaged.
 */
const SURVEY = {
  lengthMm: (271.2 + 246.3) / 2,
  ballFromLength: { base: (92.2 + 86.9) / 2, slope: (0.590 + 0.573) / 2 },
  ankleFromBall: { base: (34.6 + 45.4) / 2, slope: (0.773 + 0.747) / 2 },
  /** Calf over ankle, of the means. */
  calfOverAnkle: (392.3 / 229.3 + 373.3 / 215.7) / 2,
  /** Heel-ankle circumference from foot length and ball circumference. */
  diagonal: { base: 3.9, length: 0.720, ball: 0.570 },
} as const;

/** Fills in what is not given from what is, as the average of adults has it. */
export function completeMeasures(given: FootMeasures): CompleteMeasures {
  const { ballFromLength: ball, ankleFromBall: ankle, diagonal } = SURVEY;
  const lengthMm = given.lengthMm ?? (given.ballGirthMm == null ? SURVEY.lengthMm : lengthFromBall(given.ballGirthMm));
  const ballGirthMm = given.ballGirthMm ?? ball.base + ball.slope * lengthMm;
  const ankleGirthMm = given.ankleGirthMm ?? ankle.base + ankle.slope * ballGirthMm;
  return {
    lengthMm, ballGirthMm, ankleGirthMm,
    calfGirthMm: given.calfGirthMm ?? SURVEY.calfOverAnkle * ankleGirthMm,
    heelDiagonalMm: given.heelDiagonalMm ?? diagonal.base + diagonal.length * lengthMm + diagonal.ball * ballGirthMm,
  };
}

/** In the ratio of the means, as no regression this way round is at hand. */
function lengthFromBall(ballGirthMm: number): number {
  const { lengthMm, ballFromLength: { base, slope } } = SURVEY;
  return ballGirthMm * lengthMm / (base + slope * lengthMm);
}
