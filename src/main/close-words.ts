import { BED, NEEDLE } from '../machine/codes.ts';
import type { NeedleNumbers } from '../sheet/needle-label.ts';
import { labelNeedle } from '../sheet/needle-label.ts';
import { pageWords } from '../words/page-words.ts';
import type { FormedLoops } from '../yarn/form-loops.ts';
import type { CloseNeedles } from './close-needles.ts';

/** Names of the needles shown. */
export function closeLabels({ knitted, forming }: CloseNeedles, numbers: NeedleNumbers): string[] {
  return forming.scene.source.needles.map(({ needle }) => labelNeedle(needle, knitted.trace.needlesPerBed, numbers));
}

export function closeTitle(shown: CloseNeedles, numbers: NeedleNumbers): string {
  const { close, timeline } = pageWords(), { hasBothBeds, source: { needles } } = shown.forming.scene, labels = closeLabels(shown, numbers);
  return close.title(labels[0], labels[labels.length - 1], hasBothBeds ? close.bothBeds : timeline.bed[needles[0].bed === BED.front ? 'front' : 'back']);
}

/** What happens to the needle that is followed, in one sentence. */
export function tellMoment(shown: CloseNeedles, formed: FormedLoops, t: number, numbers: NeedleNumbers): string {
  const { close: words, timeline } = pageWords(), { forming, followed, knitted, pass } = shown, { scene, crossing } = forming;
  const { bed, state, loops, wraps, made, laid } = scene.source.needles[followed], label = closeLabels(shown, numbers)[followed];
  const name = scene.hasBothBeds ? words.needleOn(label, timeline.bed[bed === BED.front ? 'front' : 'back']) : words.needle(label), { told } = words;
  if (made < 0 && laid.length > 0 && t > crossing) return formed.wrapped < 1 ? told.wrap(name) : told.wrapped(name);
  if (made < 0) return state === NEEDLE.held ? told.held(name, loops.length, wraps.length) : told.idle(name);
  const { stage } = formed.needles[followed];
  if (stage === 'feed') return told.feed(name);
  return stage === 'rest' ? told.rest(name, loops.length, wraps.length, knitted.trace.passes[pass].from) : told[stage](name, loops.length, wraps.length);
}
