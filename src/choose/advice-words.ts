import { formatNumber } from '../base/unit.ts';
import { measureRest } from '../measure/measure-rest.ts';
import type { Plan } from '../plan/plan-types.ts';
import type { Misfit, WeighedSock } from './advice.ts';
import type { FootToFit } from './foot-to-fit.ts';

/**
 * Heel-ankle over ball circumference of adults' feet: mean, and the 5th and 95th of a hundred (Gordon
 * C. C. et al., 2012 Anthropometric Survey of U.S. Army Personnel, NATICK/TR-15/007, 2014; a sample of
 * 1,500). An instep is called high or low half of the way from the mean to these.
 */
const INSTEP = { mean: 1.363, low: 1.287, high: 1.447 } as const;
/** Stretches that differ by less are called alike, %. Chosen by eye. */
const ALIKE_PERCENT = 3;

interface ReasonParts {
  readonly present: WeighedSock | null;
  readonly weighed: WeighedSock;
  /** The best advice, if this is another. */
  readonly first: WeighedSock | null;
  readonly foot: FootToFit;
  /** What counts fixed by hand leave no choice in: `stitches round`, `foot passes`. */
  readonly kept: readonly string[];
}

const mm = (value: number): string => `${formatNumber(value, 0)} mm`;
const percent = (value: number): string => `${formatNumber(value, 0)} %`;

/** Why this sock: what the foot is like, what the changes do for it, and how far the cloth then stretches. */
export function reasonFor({ present, weighed, first, foot, kept }: ReasonParts): string {
  const other = first ?? present;
  const sentences = first === null
    ? [aboutInstep(foot, present), present === null ? null : aboutChanges(weighed.plan, present.plan, 'instead of')]
    : [aboutChanges(weighed.plan, first.plan, 'where the first advice has')];
  const isSame = other !== null && sentences.at(-1) === null;
  const fixed = kept.length > 0 && first === null ? capital(`${joinParts(kept)} stay as they are fixed by hand.`) : null;
  return [...sentences, fixed, isSame ? 'The sock as it stands suits this foot best of all that were tried.' : null, aboutStretch(weighed.misfits)]
    .filter((sentence) => sentence !== null).join(' ');
}

function aboutInstep({ heelDiagonalMm, ballGirthMm, isDiagonalGiven }: FootToFit, present: WeighedSock | null): string {
  if (!isDiagonalGiven) return 'Heel to instep is not known, so that of an average foot of this size and arch is taken: measure it, as feet of one size differ there.';
  const ratio = heelDiagonalMm / ballGirthMm, { heelDiagonalMm: line, footGirthMm: girth } = present === null ? NO_LINES : measureRest(present.plan);
  const kind = ratio >= (INSTEP.mean + INSTEP.high) / 2 ? 'high' : ratio <= (INSTEP.mean + INSTEP.low) / 2 ? 'low' : 'of usual height';
  const sock = line === null || girth === null ? '' : `; the sock as it stands has ${(line / girth).toFixed(2)}`;
  return `Your instep is ${kind}: heel to instep is ${ratio.toFixed(2)} of the ball girth, where most feet have about ${INSTEP.mean.toFixed(2)}${sock}.`;
}

const NO_LINES = { heelDiagonalMm: null, footGirthMm: null };

/** What differs between two plans and what that does; null where nothing does. */
function aboutChanges(plan: Plan, other: Plan, than: string): string | null {
  const to = measureRest(plan), from = measureRest(other);
  // Of whole millimetres, as both are shown: 5.2 and 6.0 cm differ by 0.8.
  const change = (name: 'heelDepthMm' | 'heelDiagonalMm' | 'footGirthMm'): number => Math.round(to[name] ?? 0) - Math.round(from[name] ?? 0);
  const versus = (before: string, count: number, noun: string, old: number): string | null => (count === old ? null : `${before}${count}${noun} ${than} ${old}`);
  const heel = listOf(
    versus('turning down to ', plan.turnDownWidth, '', other.turnDownWidth),
    versus('', plan.plateauPasses, ' plateau passes', other.plateauPasses),
    isHalf(plan) && isHalf(other) ? null : versus('a heel on ', plan.heelStitches, ' stitches', other.heelStitches),
  );
  const effects = listOf(
    effect('the heel', change('heelDepthMm'), 'deeper', 'shallower'),
    effect('the line over heel and instep', change('heelDiagonalMm'), 'longer', 'shorter'),
  );
  const girth = effect('the foot', change('footGirthMm'), 'wider', 'narrower');
  const toe = listOf(
    versus('ends on ', plan.toeTipStitches, ' stitches a bed', other.toeTipStitches),
    plan.toeKind === 'decreased' ? versus('is decreased every ', plan.passesPerDecrease, ' passes', other.passesPerDecrease) : null,
  );
  const sentences = listOf(
    versus('', plan.stitches, ' stitches round', other.stitches)?.concat(` ${girth === null ? 'keep the foot as wide' : `make ${girth}`}.`) ?? null,
    heel.length === 0 ? null : `${joinParts(heel)}: that ${effects.length === 0 ? 'keeps the heel as deep' : `makes ${joinParts(effects)}`}.`,
    toe.length === 0 ? null : `the toe ${joinParts(toe)}.`,
  );
  return sentences.length === 0 ? null : sentences.map(capital).join(' ');
}

const isHalf = ({ heelStitches, stitches }: Plan): boolean => 2 * heelStitches === stitches;

/** Null where it comes to nothing. */
function effect(what: string, byMm: number, more: string, less: string): string | null {
  return byMm === 0 ? null : `${what} ${mm(Math.abs(byMm))} ${byMm > 0 ? more : less}`;
}

function aboutStretch(misfits: readonly Misfit[]): string {
  const of = (what: Misfit['what']): number => misfits.find((misfit) => misfit.what === what)?.stretchPercent ?? 0;
  const heel = of('heel-line'), foot = of('foot-girth');
  const beside = Math.abs(heel - foot) <= ALIKE_PERCENT ? 'about as' : heel > foot ? 'more than' : 'less than';
  return `On this foot the line over the heel stretches by ${percent(heel)}, ${beside} the girth round the ball, ${percent(foot)}.`;
}

const listOf = (...parts: readonly (string | null)[]): string[] => parts.filter((part) => part !== null);

function joinParts(parts: readonly string[]): string {
  return parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1) ?? ''}`;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
