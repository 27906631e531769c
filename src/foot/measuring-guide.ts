import type { MeasureName } from './foot-measures.ts';

/** How to take one measure. Lengths are not named here, so that a page can show them in its own units. */
export interface MeasuringStep {
  /** Field of the sock file, under `foot`. */
  readonly measure: MeasureName | 'arch' | 'toes';
  readonly name: string;
  readonly how: string;
}

export interface MeasuringGuide {
  readonly before: readonly string[];
  readonly steps: readonly MeasuringStep[];
  readonly cautions: readonly string[];
}

/** How to measure a foot for a sock. Common practice, no source; the places of the tapes are those of the survey that `estimate-measures.ts` cites. */
const GUIDE: MeasuringGuide = {
  before: [
    'Measure in the evening, when feet are largest, standing with your weight on both feet.',
    'Measure both feet and knit for the larger one, or a sock for each.',
    'Lay the tape flat on bare skin: touching all round, denting it nowhere. Read it twice.',
  ],
  steps: [
    { measure: 'lengthMm', name: 'Foot length', how: 'Stand on paper with your heel against a wall. Mark the tip of the longest toe and measure from the wall.' },
    { measure: 'ballGirthMm', name: 'Girth at the ball', how: 'Round the widest part of the foot, over the joints where the great toe and the little toe begin.' },
    { measure: 'heelDiagonalMm', name: 'Over heel and instep', how: 'Round the back of the heel where it meets the floor, and over the front of the ankle where the foot bends. This is what a sock has to pass: measure it for a high instep.' },
    { measure: 'ankleGirthMm', name: 'Ankle girth', how: 'Level round the leg at its narrowest, just above the ankle bones.' },
    { measure: 'calfGirthMm', name: 'Calf girth', how: 'Level round the lower leg at its widest, for short socks too: the leg at their top is worked out from it and the ankle.' },
    { measure: 'heelBreadthMm', name: 'Heel breadth', how: 'Stand with the heel between two books and measure from book to book.' },
    { measure: 'arch', name: 'Arch', how: 'Step with a wet foot on dry paper. A print without its inner middle is a high arch; one that is nearly as broad there as at the heel is a low one.' },
    { measure: 'toes', name: 'Outline of the toes', how: 'Look at them from above: longest in the middle, all about alike, or falling off from the great toe.' },
  ],
  cautions: [
    'Swollen feet or legs change through the day, and the estimates here come from healthy working adults: measure every girth yourself and leave none to be estimated.',
    'With swelling, numb feet, diabetes or poor circulation, ask a clinician before wearing anything tight.',
  ],
};

export function measuringGuide(): MeasuringGuide { return GUIDE; }
