import type { FitAnswer, FitVerdict, WornSummary } from '../measure/fit-answer.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { PageState } from './page-state.ts';
import { countOf } from './units.ts';

export interface FitSummary { readonly title: string; readonly detail: string }

/** How the sock fits in a few words, and what stands in the way of knowing it. */
export function fitSummary({ settings: { pose }, shape, problems, file }: Pick<PageState, 'settings' | 'shape' | 'problems' | 'file'>, fit: readonly FitAnswer[] | null, isStale: boolean): FitSummary {
  if (problems.length > 0) return { title: 'This cannot be knitted yet', detail: fit === null ? 'A sock that can be is put on the foot.' : 'The answers below are of an earlier sock.' };
  const isUnderWay = pose === 'worn' && shape.kind === 'relaxing';
  if (fit === null) {
    return isUnderWay ? { title: 'Being put on the foot…', detail: '' }
      : { title: 'Does it fit?', detail: 'Put on the foot, the sock answers: whether it goes over the heel, where it is tight, whether the toes have room.' };
  }
  if (isStale) return { title: isUnderWay ? 'Being put on again…' : 'The sock has changed since', detail: 'The answers below are of the sock before your change.' };
  return { title: hasMeasures(file) ? titleOf(fit) : `On an average foot: ${lowerFirst(titleOf(fit))}`, detail: countsOf(fit) };
}

function howMany(fit: readonly FitAnswer[], verdict: FitVerdict): number {
  return fit.filter((answer) => answer.verdict === verdict).length;
}

function titleOf(fit: readonly FitAnswer[]): string {
  if (howMany(fit, 'poor') > 0) return 'Does not fit yet';
  return howMany(fit, 'mind') > 0 ? 'Fits, with something to mind' : 'Fits';
}

function lowerFirst(words: string): string {
  return words.charAt(0).toLowerCase() + words.slice(1);
}

function countsOf(fit: readonly FitAnswer[]): string {
  const counts = ([['poor', 'to change'], ['mind', 'to mind'], ['good', 'good']] as const)
    .flatMap(([verdict, words]) => (howMany(fit, verdict) === 0 ? [] : [`${howMany(fit, verdict)} ${words}`]));
  return `${countOf(fit.length, 'question')}: ${counts.join(', ')}.`;
}

/** Numbers of the worn sock as a whole. */
export function pressWords({ pressure95MmHg, gapPercent }: WornSummary): string {
  return `One part in twenty of the cloth presses harder than ${figure(pressure95MmHg)} mmHg; ${figure(gapPercent)} % of it stands off the skin by more than 2 mm.`;
}

/** Two figures where they say something, whole numbers above that. */
function figure(value: number): string {
  return value < 9.5 ? String(Number(value.toPrecision(2))) : value.toFixed(0);
}

const MEASURES: readonly (readonly [keyof NonNullable<SockFile['foot']>, string])[] = [
  ['lengthMm', 'foot length'], ['ballGirthMm', 'ball girth'], ['heelDiagonalMm', 'heel to instep'], ['ankleGirthMm', 'ankle girth'],
  ['calfGirthMm', 'calf girth'], ['heelBreadthMm', 'heel breadth'],
];

/** The names of what is not measured; a shoe size stands for a length. */
function missingMeasures({ foot }: SockFile): readonly string[] {
  return MEASURES.filter(([key]) => foot?.[key] === undefined && !(key === 'lengthMm' && foot?.shoeSize !== undefined)).map(([, words]) => words);
}

/** Is any measure of the foot the person's own? */
export function hasMeasures(file: SockFile): boolean {
  return missingMeasures(file).length < MEASURES.length;
}

/** Which measures of the foot are not the person's own. */
export function guessedWords(file: SockFile): string {
  const missing = missingMeasures(file);
  if (!hasMeasures(file)) return 'No measure of a foot is given: this is an average adult’s.';
  if (missing.length === 0) return '';
  return `Not measured, so estimated: ${missing.join(', ')}.${isBelowAdults(file.foot?.lengthMm) ? ' The feet behind the estimates are adults’: a child’s are scaled from theirs.' : ''}`;
}

/** The shortest foot of the survey behind the estimates (src/foot/estimate-measures.ts), mm. */
const SHORTEST_ADULT_MM = 214;

/** Is a foot shorter than all that estimates rest on? */
export function isBelowAdults(lengthMm: number | null | undefined): boolean { return lengthMm != null && lengthMm < SHORTEST_ADULT_MM; }
