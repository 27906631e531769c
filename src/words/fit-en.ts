import { countIn } from './count-words.ts';

/** How the sock fits, and how a foot is measured. */
export const FIT_EN = {
  label: 'Fit of the sock',
  putOn: 'Put it on the foot',
  makeItFit: 'Make it fit…',
  showPress: 'Show where it presses',
  showGaps: 'Show where it stands off',
  howJudged: 'How these are judged',
  limitsLabel: 'What a model can say',
  limits: 'Your measures on a smooth foot without bones or toes, cloth of ordinary stiffness, no friction: a guide, not a fitting. Take pressures as light or firm, not as figures. '
    + 'A plain sock is no medical stocking: with swelling, numb feet, diabetes or poor circulation, ask a clinician.',
  howToMeasure: 'How to measure a foot',
  signs: { good: 'Good', mind: 'To mind', poor: 'To change' },
  notYet: { title: 'This cannot be knitted yet', detail: 'A sock that can be is put on the foot.', earlier: 'The answers below are of an earlier sock.' },
  isPutOn: 'Being put on the foot…',
  question: { title: 'Does it fit?', detail: 'Put on the foot, the sock answers: whether it goes over the heel, where it is tight, whether the toes have room.' },
  isPutOnAgain: 'Being put on again…',
  stale: { title: 'The sock has changed since', detail: 'The answers below are of the sock before your change.' },
  titles: { poor: 'Does not fit yet', mind: 'Fits, with something to mind', good: 'Fits' },
  onAverageFoot: (title: string) => `On an average foot: ${title.charAt(0).toLowerCase()}${title.slice(1)}`,
  counts: { poor: (count: number) => `${count} to change`, mind: (count: number) => `${count} to mind`, good: (count: number) => `${count} good` },
  questions: (count: number, counts: string) => `${countIn('en', count, 'question', 'questions')}: ${counts}.`,
  press: (mmHg: string, gapPercent: string) => `One part in twenty of the cloth presses harder than ${mmHg} mmHg; ${gapPercent} % of it stands off the skin by more than 2 mm.`,
  measures: {
    lengthMm: 'foot length', ballGirthMm: 'ball girth', heelDiagonalMm: 'heel to instep', ankleGirthMm: 'ankle girth', calfGirthMm: 'calf girth', heelBreadthMm: 'heel breadth',
  },
  noMeasure: 'No measure of a foot is given: this is an average adult’s.',
  estimated: (measures: string) => `Not measured, so estimated: ${measures}.`,
  belowAdults: 'The feet behind the estimates are adults’: a child’s are scaled from theirs.',
  guide: {
    fromSide: 'The foot from its outer side, with the tapes',
    fromAbove: 'The foot from above, with the tapes',
    caption: 'From the side and from above: your foot, as far as its measures are given.',
  },
  close: 'Close',
};
