import type { AdvisedChange, Misfit } from '../choose/advice.ts';
import type { LengthUnit } from './units.ts';
import { formatLength, formatPercent } from './units.ts';

/** Fields that advice may change, in the knitter's words. */
const FIELD_NAMES: Readonly<Record<string, string>> = {
  'counts.stitches': 'Stitches round', 'counts.footPasses': 'Foot passes', 'counts.legPasses': 'Leg passes', 'counts.anklePasses': 'Ankle passes',
  'heel.stitches': 'Heel stitches', 'heel.turnDownWidth': 'Turn-down width', 'heel.plateauPasses': 'Plateau passes',
  'toe.tipStitches': 'Toe tip', 'toe.passesPerDecrease': 'Passes for a decrease', 'toe.slantStitches': 'Slant of the toe',
};

export function fieldName(field: string): string {
  return FIELD_NAMES[field] ?? field;
}

/** `turn-down width 12 to 8, foot passes 124 to 128`. */
export function changeWords(changes: readonly AdvisedChange[]): string {
  return changes.map(({ field, from, to }) => `${fieldName(field).toLowerCase()} ${from === null ? '' : `${from} `}to ${to}`).join(', ');
}

export const MISFIT_NAMES: Readonly<Record<Misfit['what'], string>> = {
  'foot-girth': 'Round the foot', 'heel-line': 'Over heel and instep', 'heel-breadth': 'Across the heel',
  'foot-length': 'Foot length', 'toe-breadth': 'Across the toes', 'toe-length': 'Toe length',
};

/** What the cloth has to give there: `stretched 12 %`, `loose 3 %`, `as it lies`. */
export function stretchWords({ stretchPercent }: Misfit): string {
  const words = formatPercent(stretchPercent);
  if (words === '0') return 'as it lies';
  return stretchPercent > 0 ? `stretched ${words.slice(1)} %` : `loose ${words.slice(1)} %`;
}

/** The measure behind it, for a tip: `the sock has 25.6 cm, best would be 27.1 cm`. */
export function measureWords({ wantedMm, gotMm }: Misfit, unit: LengthUnit): string {
  return `The sock has ${formatLength(gotMm, unit)} along the unstretched cloth; best would be ${formatLength(wantedMm, unit)}`;
}

/** `324`, and beside the present sock's: `324 (+12)`. */
export function costWords(cost: number, present: number | null): string {
  const own = Math.round(cost);
  const more = present === null ? 0 : own - Math.round(present);
  return more === 0 ? own.toLocaleString('en') : `${own.toLocaleString('en')} (${more > 0 ? '+' : '−'}${Math.abs(more)})`;
}
