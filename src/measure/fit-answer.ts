/** What a person asks of a sock on a foot, in the order in which it is answered. */
export const FIT_QUESTIONS = ['over-heel', 'heel', 'foot-girth', 'foot-length', 'toe', 'ankle', 'top'] as const;
export type FitQuestion = (typeof FIT_QUESTIONS)[number];

/** `good`: nothing to do. `mind`: wearable, but worth knowing. `poor`: change the sock. */
export type FitVerdict = 'good' | 'mind' | 'poor';

/** An answer in words with numbers. Lengths in the words are in mm, so that a page can show them in other units. */
export interface FitAnswer {
  readonly question: FitQuestion;
  readonly verdict: FitVerdict;
  /** In a few words: `The heel is too shallow by 8 mm`. */
  readonly answer: string;
  /** The numbers that the answer rests on. */
  readonly because: string;
  /** What the numbers are held against, and how that is known. */
  readonly basis: string;
  /** The number that the verdict hangs on. */
  readonly value: number;
  readonly unit: 'mm' | '%' | 'mmHg';
}

/** Numbers of a worn sock as a whole; null where the sock or the foot has no such place. */
export interface WornSummary {
  /** Mean pressure under the topmost 20 mm of the leg, and round the ankle's least girth, mmHg. */
  readonly topPressureMmHg: number | null;
  readonly anklePressureMmHg: number | null;
  /** One part in twenty of the cloth presses harder than this, mmHg. */
  readonly pressure95MmHg: number;
  /** Share of the cloth that stands off the skin by more than 2 mm, %. */
  readonly gapPercent: number;
  /** Worn over rest length of the marked diagonal over the heel, over the same of the foot's girth: 1 where the heel stretches as the foot does. */
  readonly heelToFootStretch: number | null;
}

/** How a sock sits on a foot: one entry a vertex, and the answers. */
export interface WornReading {
  /** Pressure on the skin, mmHg; 0 where cloth stands off. */
  readonly vertexPressureMmHg: Float64Array;
  /** How far the cloth stands off the skin, mm; 0 where it lies on it. */
  readonly vertexGapMm: Float64Array;
  readonly summary: WornSummary;
  readonly fit: readonly FitAnswer[];
}
