import type { Measures } from '../measure/measures.ts';
import { countIn } from './count-words.ts';

/** Name of a measure, and what is measured, in a sentence. */
const rows: Readonly<Record<keyof Measures, { readonly name: string; readonly means: string }>> = {
  heelDepthMm: { name: 'Heel depth', means: 'Along the middle of the heel, from its first row to its narrowest.' },
  heelTipGirthMm: { name: 'Heel-tip girth', means: 'The shortest way round heel tip and instep: what a high instep has to pass. An empty heel gathers, so it comes out shorter than by gauge; a foot opens it. The tape goes round a little lower on the heel, and may show more.' },
  heelDiagonalMm: { name: 'Marked diagonal', means: 'Round the instep, down both slanted edges of the heel and across its narrowest row. An empty heel gathers, so it comes out shorter than by gauge.' },
  footGirthMm: { name: 'Foot girth', means: 'Round the middle third of the foot.' },
  footLengthMm: { name: 'Foot length', means: 'From the heel to the tip of the toe.' },
  legLengthMm: { name: 'Leg length', means: 'Down the side of the leg.' },
  toeLengthMm: { name: 'Toe length', means: 'From the last round of the foot to the tip.' },
  toeTipWidthMm: { name: 'Toe tip', means: 'Across the last round.' },
  throatToHeelMm: { name: 'Throat to heel', means: 'Straight through, from the middle of the instep to the tip of the heel.' },
  legFootAngleDeg: { name: 'Leg to foot', means: 'The angle between leg and foot; 180° is a straight line.' },
};

const EMPTY = 'Point at a measure to see its line. By gauge is along the cloth, unstretched; an empty heel gathers, so its lines then come out shorter.';

/** Measures, yarn, gauge and care: the cards of the deck's first page. */
export const MEASURES_EN = {
  rows,
  invitations: {
    flat: EMPTY, tube: EMPTY,
    beds: 'What hangs on the machine is drawn wide by its needles and not measured. By gauge is along the cloth of the finished sock, unstretched.',
    worn: 'Point at a measure to see its line. Worn is on a smooth foot of your measures: a guide to how far the sock must give, not a fitting.',
  },
  poses: { flat: 'laid flat', tube: 'as tube', beds: 'on beds', worn: 'worn' },
  byGauge: 'by gauge',
  byGaugeMeans: 'Along the cloth, before it stretches: counts times gauge',
  yourFoot: 'your foot',
  unit: { cm: 'cm', in: 'inches' },
  smallUnit: { cm: 'mm', in: 'inches' },
  yarn: {
    forOne: 'for one sock', metres: 'metres', grams: 'grams', together: 'Together',
    byRule: 'by rule', alongLoops: 'by loops',
    said: (percent: number, pose: string) => (percent === 0 ? `Measured along its loops (${pose}), the sock takes what the textbook’s rule says.`
      : `Measured along its loops (${pose}), the sock takes ${Math.abs(percent)} % ${percent > 0 ? 'more' : 'less'} than by the textbook’s rule.`),
    waiting: 'The yarn is measured along the loops as soon as the shape is at rest.',
    choosePose: 'Yarn is measured along the loops of a sock at rest, on no machine and no foot: choose Laid flat or Tube over the picture.',
    more: 'Where it goes, and why the two differ',
    parts: { loops: 'Loops', wraps: 'Wraps', castOn: 'Cast-on', seam: 'Seam', graft: 'Graft', bindOff: 'Bind-off', tails: (lengths: number) => `Tails of ${countIn('en', lengths, 'length', 'lengths')}` },
    why: [
      'The rule (Munden’s) takes the loop length from your gauge, as if all cloth were plain and fully relaxed. The loops in the picture follow the shape: drawn out in some places, gathered in others.',
      'A second published formula (Peirce’s) makes the same loop some 14 % shorter at 30 × 42: the truth may lie between. Where yarn is short, knit a swatch and weigh it.',
    ],
  },
  tolerance: {
    title: 'If the gauge is a little off',
    names: { footGirthMm: 'Foot girth', footLengthMm: 'Foot length', heelDepthMm: 'Heel depth', heelDiagonalMm: 'Marked diagonal', legLengthMm: 'Leg length' },
    stitches: (count: number) => (count === 0.5 ? 'half a stitch' : countIn('en', count, 'stitch', 'stitches')),
    rows: (count: number) => countIn('en', count, 'row', 'rows'),
    means: (stitches: string, rows: string) => `So far off the sock comes out with the same counts when there are ${stitches}, or ${rows}, in 10 cm more or fewer than planned. Fewer make it larger.`,
  },
  cautions: 'Cautions for this sock',
  care: 'Care at the machine and in wear',
  careNotes: [
    'A top that leaves marks is too tight. With swelling, numb feet, diabetes or poor circulation, ask a clinician before wearing it, and have no ridges at the toe.',
    'Socks slip on smooth floors.',
    'Needle hooks and latches are sharp; keep fingers clear of the carriage, and weights where they cannot fall on feet.',
  ],
};
