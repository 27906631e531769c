import type { Settings } from '../panel/page-state.ts';
import type { PoseName } from '../shape/pose.ts';
import type { ClothLayer, FootLook } from '../view/sock-view-types.ts';

/** In the order of the switch. */
export const LAYERS: readonly ClothLayer[] = ['yarn', 'stretch-width', 'stretch-length', 'pass', 'bed', 'pressure', 'gap', 'longer', 'wider'];

const POSES: readonly PoseName[] = ['flat', 'tube', 'beds', 'worn'];

const FOOT_LOOKS: readonly FootLook[] = ['inside', 'hidden', 'glass'];

/** Beyond this there is next to nothing left to see. */
export const MOST_CUT = 0.95;

export const FIRST_SETTINGS: Settings = {
  lengthUnit: 'cm', gaugeUnit: '10cm', patchWidthMm: 100, patchHeightMm: 100, theme: 'auto', pose: 'flat', layer: 'yarn',
  footLook: 'inside', arrangement: 'beside', cut: 0, isInsideOut: false, room: 'shape', language: 'en', needleNumbers: 'middle',
};

const CHOICES: { readonly [K in keyof Settings]?: readonly Settings[K][] } = {
  lengthUnit: ['cm', 'in'], gaugeUnit: ['10cm', 'inch', 'patch'], theme: ['auto', 'light', 'dark'], pose: POSES,
  layer: LAYERS, footLook: FOOT_LOOKS, arrangement: ['beside', 'over'],
  room: ['shape', 'passes', 'lesson', 'chart', 'sheet', 'stand'], language: ['en', 'de'], needleNumbers: ['middle', 'left'],
};

/** Settings kept from an earlier visit; whatever is not understood falls back to the first ones. */
export function readSettings(text: string | null): Settings {
  const kept = parse(text);
  const choice = <K extends keyof Settings>(key: K): Settings[K] =>
    CHOICES[key]?.find((known) => known === kept[key]) ?? FIRST_SETTINGS[key];
  const length = (key: 'patchWidthMm' | 'patchHeightMm'): number => {
    const value = kept[key];
    return typeof value === 'number' && value >= 20 && value <= 300 ? value : FIRST_SETTINGS[key];
  };
  const share = kept['cut'];
  return {
    lengthUnit: choice('lengthUnit'), gaugeUnit: choice('gaugeUnit'), theme: choice('theme'), pose: choice('pose'), layer: choice('layer'),
    footLook: choice('footLook'), arrangement: choice('arrangement'), room: choice('room'), language: choice('language'),
    needleNumbers: choice('needleNumbers'), cut: typeof share === 'number' && share >= 0 && share <= MOST_CUT ? share : 0, isInsideOut: kept['isInsideOut'] === true, patchWidthMm: length('patchWidthMm'), patchHeightMm: length('patchHeightMm'),
  };
}

function parse(text: string | null): Readonly<Record<string, unknown>> {
  try {
    const value: unknown = JSON.parse(text ?? '{}');
    return typeof value === 'object' && value !== null ? { ...value } : {};
  } catch { return {}; }
}
