import type { ClothLayer } from '../view/sock-view-types.ts';
import { pageWords } from '../words/page-words.ts';
import type { PageState } from './page-state.ts';

/** Something that the cloth's colours can tell; `why` it cannot now, null where it can. */
export interface LayerChoice { readonly layer: ClothLayer; readonly name: string; readonly why: string | null }

type Shown = Pick<PageState, 'settings' | 'posed' | 'difference'>;

/** In the order of the switch. */
export function layerChoices({ settings, posed, difference }: Shown): readonly LayerChoice[] {
  const { layers, onlyWorn, notKnown, onlyTwo } = pageWords().stage;
  const ofWorn = settings.pose !== 'worn' ? onlyWorn : posed !== null && posed.worn === null ? notKnown : null;
  const ofTwo = difference == null ? onlyTwo : null;
  return ([['yarn', null], ['stretch-width', null], ['stretch-length', null], ['pass', null], ['bed', null], ['pressure', ofWorn], ['gap', ofWorn], ['longer', ofTwo], ['wider', ofTwo]] as const)
    .map(([layer, why]) => ({ layer, name: layers[layer], why }));
}

/** The chosen layer, or the yarn while that one cannot be shown. */
export function shownLayer(state: Shown): ClothLayer {
  const { layer } = state.settings;
  return layerChoices(state).some((choice) => choice.layer === layer && choice.why === null) ? layer : 'yarn';
}

/** The layer after the shown one, of those that can be shown. */
export function nextLayer(state: Shown): ClothLayer {
  const choices = layerChoices(state).filter(({ why }) => why === null), at = choices.findIndex(({ layer }) => layer === shownLayer(state));
  return choices[(at + 1) % choices.length]?.layer ?? 'yarn';
}
