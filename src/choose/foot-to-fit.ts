import { completeMeasures } from '../foot/complete-measures.ts';
import type { ToeOutline } from '../foot/foot-kinds.ts';
import { girthFactor, lengthFactor, planFoot } from '../plan/plan-foot.ts';
import type { SockFile } from '../plan/sock-file.ts';

/** What a sock is weighed against: a whole foot, mm, and the ease wanted on it. */
export interface FootToFit {
  readonly lengthMm: number;
  readonly ballGirthMm: number;
  readonly heelDiagonalMm: number;
  /** False where the diagonal is that of an average foot of these sizes. */
  readonly isDiagonalGiven: boolean;
  readonly heelBreadthMm: number;
  readonly toes: ToeOutline;
  /** 0.9 for an ease of -10 %. */
  readonly girthFactor: number;
  readonly lengthFactor: number;
}

/**
 * Heel breadth from foot length, men's and women's regressions averaged: Gordon C. C. et al., 2012
 * Anthropometric Survey of U.S. Army Personnel (NATICK/TR-15/007, 2014).
 */
const HEEL_BREADTH = { base: (17.7 + 14.5) / 2, slope: (0.202 + 0.214) / 2 } as const;

/** The foot of a sock file, what is missing filled in; null where the file has neither length nor girth. */
export function footToFit(file: SockFile): FootToFit | null {
  const { lengthMm, ballGirthMm } = planFoot(file), given = file.foot ?? {};
  if (lengthMm === null && ballGirthMm === null) return null;
  const whole = completeMeasures({ ...given, lengthMm, ballGirthMm });
  return {
    lengthMm: whole.lengthMm, ballGirthMm: whole.ballGirthMm,
    heelDiagonalMm: whole.heelDiagonalMm, isDiagonalGiven: given.heelDiagonalMm !== undefined,
    heelBreadthMm: given.heelBreadthMm ?? HEEL_BREADTH.base + HEEL_BREADTH.slope * whole.lengthMm,
    toes: given.toes ?? 'sloping',
    girthFactor: girthFactor(file), lengthFactor: lengthFactor(file),
  };
}
