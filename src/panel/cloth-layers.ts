import type { ClothLayer } from '../view/sock-view-types.ts';
import type { PageState } from './page-state.ts';

/** Something that the cloth's colours can tell; `why` it cannot now, null where it can. */
export interface LayerChoice { readonly layer: ClothLayer; readonly name: string; readonly why: string | null }

type Shown = Pick<PageState, 'settings' | 'posed' | 'difference'>;

/** In the order of the switch. */
export function layerChoices({ settings, posed, difference }: Shown): readonly LayerChoice[] {
  const ofWorn = settings.pose !== 'worn' ? 'when worn' : posed !== null && posed.worn === null ? 'not known' : null;
  const ofTwo = difference == null ? 'with a second sock' : null;
  return [
    { layer: 'yarn', name: 'Yarn', why: null },
    { layer: 'stretch-width', name: 'Width stretch', why: null },
    { layer: 'stretch-length', name: 'Length stretch', why: null },
    { layer: 'pressure', name: 'Pressure', why: ofWorn },
    { layer: 'gap', name: 'Gaps', why: ofWorn },
    { layer: 'longer', name: 'Longer or shorter', why: ofTwo },
    { layer: 'wider', name: 'Wider or narrower', why: ofTwo },
  ];
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
