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

/** The foot of a sock file, what is missing filled in; null where the file has neither length nor girth. */
export function footToFit(file: SockFile): FootToFit | null {
  const { lengthMm, ballGirthMm, toes, measures } = planFoot(file);
  if (lengthMm === null && ballGirthMm === null) return null;
  return {
    lengthMm: measures.lengthMm.valueMm, ballGirthMm: measures.ballGirthMm.valueMm,
    heelDiagonalMm: measures.heelDiagonalMm.valueMm, isDiagonalGiven: measures.heelDiagonalMm.isGiven,
    heelBreadthMm: measures.heelBreadthMm.valueMm,
    toes, girthFactor: girthFactor(file), lengthFactor: lengthFactor(file),
  };
}
