import type { StitchFacts } from '../sheet/read-stitch.ts';
import { pageWords } from '../words/page-words.ts';
import type { YarnPlace } from '../yarn/find-yarn-place.ts';
import type { StitchView } from './stitch-card.ts';
import { inFigures, type LengthUnit } from './units.ts';

const MM_PER_INCH = 25.4;

/** `Knit stitch`, `A decrease, leaning left`. */
export function titleWords({ facts }: Pick<StitchView, 'facts'>): string {
  const words = pageWords().stitch;
  return facts.parents.length > 1 && facts.kind !== 'graft' ? words.decrease[facts.leans ?? 'upright'] : words.kinds[facts.kind];
}

/** `Heel, turning down: pass 63, needle L14, front bed`. */
export function placeWords({ facts, round, labelOf }: Pick<StitchView, 'facts' | 'round' | 'labelOf'>): string {
  const { stitch: words, passes } = pageWords(), isOnPass = facts.kind !== 'castOn' && !isClosing(facts);
  return words.place(passes.sections[facts.section], isOnPass ? facts.pass : null, round === null ? '' : words.round(round.round, round.rounds), labelOf(facts.needle), passes.bed[facts.bed]);
}

/** Another stitch, short: `pass 62 at L14`. */
export function refWords(facts: StitchFacts, { labelOf }: Pick<StitchView, 'labelOf'>): string {
  const words = pageWords().stitch, needle = labelOf(facts.needle);
  if (facts.kind === 'wrap' || facts.kind === 'cornerWrap') return words.refWrap(facts.pass, needle);
  return isClosing(facts) ? words.refClosing(needle) : words.ref(facts.pass, needle);
}

function isClosing({ kind }: StitchFacts): boolean { return kind === 'graft' || kind === 'bindOff'; }

/** `3.42 of 25.10 m, from the cut end; length 2 of 3`. */
export function metreWords({ fromEndMm, lengthMm, length, lengths }: YarnPlace): string {
  const words = pageWords().stitch, metres = (mm: number): string => inFigures((mm / 1000).toFixed(2));
  const place = words.metre(metres(fromEndMm), metres(lengthMm));
  return lengths === 1 ? place : `${place}; ${words.lengths(length + 1, lengths)}`;
}

/** `13.4 mm of yarn`. */
export function ownWords({ loopMm }: YarnPlace, lengthUnit: LengthUnit): string {
  return pageWords().stitch.own(lengthUnit === 'cm' ? `${inFigures(loopMm.toFixed(1))} mm` : `${inFigures((loopMm / MM_PER_INCH).toFixed(2))} in`);
}
