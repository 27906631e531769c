import type { Advice, AdvisedChange, Misfit } from '../choose/advice.ts';
import type { Plan } from '../plan/plan-types.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { pageWords } from '../words/page-words.ts';
import type { LengthUnit } from './units.ts';
import { formatLength, formatLengthNumber, formatPercent, inFigures, inThousands, lengthFigures } from './units.ts';

/** Counts in a plan of the fields that advice may change. */
const FIELD_COUNTS: Readonly<Record<string, 'stitches' | 'footPasses' | 'legPasses' | 'anklePasses' | 'heelStitches' | 'turnDownWidth' | 'plateauPasses' | 'toeTipStitches' | 'passesPerDecrease' | 'toeSlantStitches'>> = {
  'counts.stitches': 'stitches', 'counts.footPasses': 'footPasses', 'counts.legPasses': 'legPasses', 'counts.anklePasses': 'anklePasses',
  'heel.stitches': 'heelStitches', 'heel.turnDownWidth': 'turnDownWidth', 'heel.plateauPasses': 'plateauPasses',
  'toe.tipStitches': 'toeTipStitches', 'toe.passesPerDecrease': 'passesPerDecrease', 'toe.slantStitches': 'toeSlantStitches',
};

/** What a sock has of a field; null for a field that is no count. */
export function fieldCount(field: string, plan: Plan): number | null {
  const count = FIELD_COUNTS[field];
  return count === undefined ? null : plan[count];
}

export function fieldName(field: string): string {
  return pageWords().advice.fields[field] ?? field;
}

/** `turn-down width 12 to 8, foot passes 124 to 128`. */
export function changeWords(changes: readonly AdvisedChange[]): string {
  return changes.map(({ field, from, to }) => pageWords().advice.change(fieldName(field), from, to)).join(', ');
}

/** A difference below this is none, mm: less than a stitch. */
const ALIKE_MM = 2;

/** Of a girth, how far the cloth has to give: `stretched 12 %`, `loose 3 %`; of any other measure, what it is, and what would be best. */
export function misfitWords(misfit: Misfit, unit: LengthUnit): string {
  if (misfit.what === 'foot-girth' || misfit.what === 'heel-line') return stretchWords(misfit.stretchPercent);
  const { gotMm, wantedMm } = misfit, got = formatLength(gotMm, unit);
  return Math.abs(gotMm - wantedMm) < ALIKE_MM ? got : pageWords().advice.best(got, formatLengthNumber(wantedMm, unit));
}

function stretchWords(percent: number): string {
  const words = formatPercent(percent), { asItLies, stretched, loose } = pageWords().advice;
  if (words === '0') return asItLies;
  return percent > 0 ? stretched(words.slice(1)) : loose(words.slice(1));
}

/** `324`, and beside the present sock's: `324 (+12)`. */
export function costWords(cost: number, present: number | null): string {
  const own = Math.round(cost);
  const more = present === null ? 0 : own - Math.round(present);
  return more === 0 ? inThousands(own) : `${inThousands(own)} (${more > 0 ? '+' : '−'}${Math.abs(more)})`;
}

/** `6.8 cm`, and beside the present sock's: `6.8 cm (+1.2)`. */
export function depthWords(depthMm: number | null, presentMm: number | null, unit: LengthUnit): string {
  if (depthMm === null) return '–';
  // By the figures shown, so that they add up.
  const own = lengthFigures(depthMm, unit), more = presentMm === null ? 0 : Number(own) - Number(lengthFigures(presentMm, unit));
  const decimals = own.length - own.indexOf('.') - 1, by = Math.abs(more).toFixed(decimals);
  return inFigures(Number(by) === 0 ? `${own} ${unit}` : `${own} ${unit} (${more > 0 ? '+' : '−'}${by})`);
}

/** A gain in score below this is small: half of what one misfit that counts 1 weighs (chosen by eye). */
const SMALL_GAIN = 0.5;

/** How many socks were weighed, and whether any of them is worth a change. */
export function weighedWords({ present, best, tried }: Advice): string {
  const say = pageWords().advice;
  if (best.length === 0) return say.none;
  const weighed = say.weighed(inThousands(tried)), [first] = best;
  if (first.changes.length === 0) return `${weighed} ${say.noneBetter}`;
  if (present === null || present.score - first.score >= SMALL_GAIN) return weighed;
  return `${weighed} ${say.aboutAsGood}`;
}

/** What a person has fixed by hand and advice would change if it might; null where nothing is. */
export function fixedWords({ counts, foot }: SockFile): string | null {
  const hasLength = foot?.lengthMm !== undefined || foot?.shoeSize !== undefined;
  const say = pageWords().advice;
  const fixed = [
    ...(counts?.stitches === undefined || foot?.ballGirthMm === undefined ? [] : [say.stitchesRound(counts.stitches)]),
    ...(counts?.footPasses === undefined || !hasLength ? [] : [say.footPasses(counts.footPasses)]),
  ];
  return fixed.length === 0 ? null : say.alsoChange(fixed.join(say.and));
}
