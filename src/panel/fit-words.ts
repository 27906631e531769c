import type { FitAnswer, FitVerdict, WornSummary } from '../measure/fit-answer.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { pageWords } from '../words/page-words.ts';
import type { PageState } from './page-state.ts';
import { inFigures } from './units.ts';

export interface FitSummary { readonly title: string; readonly detail: string }

/** How the sock fits in a few words, and what stands in the way of knowing it. */
export function fitSummary({ settings: { pose }, shape, problems, file }: Pick<PageState, 'settings' | 'shape' | 'problems' | 'file'>, fit: readonly FitAnswer[] | null, isStale: boolean): FitSummary {
  const say = pageWords().fit;
  if (problems.length > 0) return { title: say.notYet.title, detail: fit === null ? say.notYet.detail : say.notYet.earlier };
  const isUnderWay = pose === 'worn' && shape.kind === 'relaxing';
  if (fit === null) return isUnderWay ? { title: say.isPutOn, detail: '' } : say.question;
  if (isStale) return { title: isUnderWay ? say.isPutOnAgain : say.stale.title, detail: say.stale.detail };
  return { title: hasMeasures(file) ? titleOf(fit) : say.onAverageFoot(titleOf(fit)), detail: countsOf(fit) };
}

function howMany(fit: readonly FitAnswer[], verdict: FitVerdict): number {
  return fit.filter((answer) => answer.verdict === verdict).length;
}

function titleOf(fit: readonly FitAnswer[]): string {
  const { titles } = pageWords().fit;
  if (howMany(fit, 'poor') > 0) return titles.poor;
  return howMany(fit, 'mind') > 0 ? titles.mind : titles.good;
}

function countsOf(fit: readonly FitAnswer[]): string {
  const say = pageWords().fit;
  const counts = (['poor', 'mind', 'good'] as const).flatMap((verdict) => (howMany(fit, verdict) === 0 ? [] : [say.counts[verdict](howMany(fit, verdict))]));
  return say.questions(fit.length, counts.join(', '));
}

/** Numbers of the worn sock as a whole. */
export function pressWords({ pressure95MmHg, gapPercent }: WornSummary): string {
  return pageWords().fit.press(figure(pressure95MmHg), figure(gapPercent));
}

/** Two figures where they say something, whole numbers above that. */
function figure(value: number): string {
  return inFigures(value < 9.5 ? String(Number(value.toPrecision(2))) : value.toFixed(0));
}

const MEASURES = ['lengthMm', 'ballGirthMm', 'heelDiagonalMm', 'ankleGirthMm', 'calfGirthMm', 'heelBreadthMm'] as const;

/** The names of what is not measured; a shoe size stands for a length. */
function missingMeasures({ foot }: SockFile): readonly string[] {
  const { measures } = pageWords().fit;
  return MEASURES.filter((key) => foot?.[key] === undefined && !(key === 'lengthMm' && foot?.shoeSize !== undefined)).map((key) => measures[key]);
}

/** Is any measure of the foot the person's own? */
export function hasMeasures(file: SockFile): boolean {
  return missingMeasures(file).length < MEASURES.length;
}

/** Which measures of the foot are not the person's own. */
export function guessedWords(file: SockFile): string {
  const missing = missingMeasures(file), say = pageWords().fit;
  if (!hasMeasures(file)) return say.noMeasure;
  if (missing.length === 0) return '';
  return `${say.estimated(missing.join(', '))}${isBelowAdults(file.foot?.lengthMm) ? ` ${say.belowAdults}` : ''}`;
}

/** The shortest foot of the survey behind the estimates (src/foot/estimate-measures.ts), mm. */
const SHORTEST_ADULT_MM = 214;

/** Is a foot shorter than all that estimates rest on? */
export function isBelowAdults(lengthMm: number | null | undefined): boolean { return lengthMm != null && lengthMm < SHORTEST_ADULT_MM; }
