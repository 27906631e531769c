import type { Plan } from '../plan/plan-types.ts';
import { countIn } from './count-words.ts';

/** Names of counts for people. */
const counts: Readonly<Partial<Record<keyof Plan, string>>> = {
  stitches: 'Stitches round', bedStitches: 'Stitches a bed', heelStitches: 'Heel stitches', turnDownWidth: 'Turn-down width', legPasses: 'Leg passes',
  plainPasses: 'Plain rows', anklePasses: 'Ankle passes', plateauPasses: 'Plateau passes', heelPasses: 'Heel passes',
  footPasses: 'Foot passes', toePasses: 'Toe passes', toeTipStitches: 'Toe tip', toeDecreases: 'Toe decreases',
  passesPerDecrease: 'Passes for a decrease', toeSlantStitches: 'Toe slant',
};

/** The plan in the order of knitting. */
export const PLAN_EN = {
  counts,
  allFormulas: 'All formulas',
  byHand: (formula: string) => `by hand: ${formula}`,
  parts: { castOn: 'Cast on', leg: 'Leg', ankle: 'Ankle', heel: 'Heel', foot: 'Foot', toe: 'Toe' },
  stitches: 'stitches',
  passes: 'passes',
  turnDownTo: 'turn-down to',
  decreases: (count: number): string => (count === 1 ? 'decrease' : 'decreases'),
  to: 'to',
  aBed: 'a bed',
  castOnRib: 'in 1x1 rib, flat',
  castOnRound: 'round, on both beds',
  ribRows: (plainRows: number) => `rows of rib; then ${plainRows} plain, turn the work`,
  rounds: (rounds: number) => countIn('en', rounds, 'round', 'rounds'),
  moved: (stitches: number) => `${stitches} moved here at each end, back after it; `,
  heelTurned: (turned: number, level: number, bed: 'front' | 'back') => `${turned} down${level === 0 ? '' : `, ${countIn('en', level, 'plateau pass', 'plateau passes')}`}, ${turned} out, on the ${bed} bed`,
  graft: (stitches: number) => `graft ${stitches}`,
  bindOff: (stitches: number) => `bind off ${stitches}`,
  toeTurned: (turned: number, closing: string) => `${turned} down, ${turned} out, no decrease; ${closing}`,
  toeRate: (passes: number, times: number) => `every ${passes} passes ${countIn('en', times, 'time', 'times')}`,
  toeOneRate: (passes: number) => `4 stitches every ${passes} passes`,
  toeSlant: (stitches: number) => `the first ${stitches} on the little toe's side only, 2 stitches`,
  total: (passes: number) => `One sock: ${countIn('en', passes, 'pass', 'passes')}`,
  totalKnitted: (passes: string, loops: number, grams: number) => `${passes}, ${countIn('en', loops, 'loop', 'loops')}, about ${grams} g of yarn`,
  partPasses: (part: string, passes: number) => `${part}: ${passes} passes`,
  partNames: { leg: 'leg', ankle: 'ankle', heel: 'heel', foot: 'foot', toe: 'toe' },
};
