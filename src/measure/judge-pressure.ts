import type { FitVerdict } from './fit-answer.ts';

/**
 * From where on we speak of compression, mmHg: a plain sock belongs well below 10, which we call firm
 * (`chosen by eye`); medical compression begins at 14 (class 1 of the UK Drug Tariff's specification)
 * and at 18 (class 1 of RAL-GZ 387; both published, seen in secondary pages only).
 */
export const PRESSURE_LIMITS = { firm: 10, ukClassOne: 14, ralClassOne: 18 } as const;

export interface PressureJudgement {
  readonly word: 'light' | 'firm' | 'as tight as a medical stocking';
  readonly verdict: FitVerdict;
  /** What to know before wearing it; null for a light one. */
  readonly warning: string | null;
}

const ASK = 'With swelling, numb feet, diabetes or poor circulation, ask a clinician first.';

/** What a pressure on the leg, mmHg, means for the wearer. */
export function judgePressure(mmHg: number): PressureJudgement {
  const { firm, ukClassOne, ralClassOne } = PRESSURE_LIMITS;
  if (!(mmHg >= firm)) return { word: 'light', verdict: 'good', warning: null };
  if (mmHg < ukClassOne) return { word: 'firm', verdict: 'mind', warning: `From ${firm} mmHg a top is firm. ${ASK}` };
  const scheme = mmHg < ralClassOne ? `class 1 of the UK's scheme (from ${ukClassOne} mmHg)` : `class 1 of the UK's and of the RAL scheme (from ${ukClassOne} and ${ralClassOne} mmHg)`;
  return {
    word: 'as tight as a medical stocking', verdict: 'poor',
    warning: `That is the range of medical compression, ${scheme}, which a clinician prescribes and fits: make it wider. ${ASK}`,
  };
}
