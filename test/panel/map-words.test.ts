import { describe, expect, it } from 'vitest';
import { FIRST_SETTINGS, LAYERS, readSettings } from '../../src/main/settings.ts';
import { layerChoices, nextLayer, shownLayer } from '../../src/panel/cloth-layers.ts';
import { readingWords } from '../../src/panel/loop-readout.ts';
import { lengthWords, tickWords } from '../../src/panel/map-words.ts';
import { formatPercent } from '../../src/panel/units.ts';
import type { ClothLayer } from '../../src/view/sock-view-types.ts';

const INNER = { isLowest: false, isHighest: false };
const ONLY_STRETCH = { width: -0.283, length: 0.104, pressureMmHg: null, gapMm: null, longerMm: null, widerMm: null };

describe('a percentage', () => {
  it.each([[3.2, '+3'], [-27.6, '−28'], [0, '0'], [0.4, '0'], [-0.4, '0'], [40, '+40']])('%d is written %s', (percent, words) => {
    expect(formatPercent(percent)).toBe(words);
  });
});

describe('a loop is read', () => {
  it('with its stretch alone where nothing else is known', () => {
    expect(readingWords(ONLY_STRETCH, 'cm')).toBe('Stretch: width −28 %, length +10 %');
  });
  it('with its pressure where it lies on the skin, and with its gap where it does not', () => {
    expect(readingWords({ ...ONLY_STRETCH, pressureMmHg: 3.64, gapMm: 0 }, 'cm')).toMatch(/10 %\. Presses with 3\.6 mmHg$/);
    expect(readingWords({ ...ONLY_STRETCH, pressureMmHg: 0, gapMm: 7.2 }, 'cm')).toMatch(/10 %\. Stands off by 7 mm$/);
  });
  it('against a first sock, in the page\'s unit', () => {
    expect(readingWords({ ...ONLY_STRETCH, longerMm: 12.7, widerMm: -5.08 }, 'in')).toMatch(/Against the first: \+0\.5 in long here, −0\.2 in round$/);
  });
});

describe('a tick', () => {
  // 25.4 mm are an inch.
  it.each([
    [-40, '%', 'cm', { isLowest: true, isHighest: false }, '≤ −40'], [5, '%', 'cm', INNER, '+5'], [0, '%', 'in', INNER, '0'],
    [20, 'mmHg', 'in', { isLowest: false, isHighest: true }, '≥ 20'], [5, 'mm', 'cm', INNER, '5'], [10, 'mm', 'in', INNER, '0.39'], [-20, 'mm', 'in', { isLowest: true, isHighest: false }, '≤ −0.79'],
  ] as const)('%d %s with a page in %s reads %o %s', (value, unit, lengthUnit, ends, words) => {
    expect(tickWords(value, unit, lengthUnit, ends)).toBe(words);
  });
  it('and a length in words have one unit', () => { expect([lengthWords(2, 'cm'), lengthWords(2, 'in')]).toEqual(['2 mm', '0.08 in']); });
});

describe('the layers', () => {
  const state = (pose: 'flat' | 'worn', layer: ClothLayer) => ({ settings: { ...FIRST_SETTINGS, pose, layer }, posed: null, difference: null });
  const difference = { vertexLongerMm: new Float64Array(1), vertexWiderMm: new Float64Array(1) };

  it('that ask for a foot or a second sock say so while there is none, and the yarn is shown', () => {
    const offered = layerChoices(state('flat', 'pressure'));
    expect(offered.map(({ layer }) => layer)).toEqual(LAYERS);
    expect(offered.filter(({ why }) => why !== null).map(({ layer, why }) => [layer, why])).toEqual([
      ['pressure', 'when worn'], ['gap', 'when worn'], ['longer', 'with a second sock'], ['wider', 'with a second sock'],
    ]);
    expect(shownLayer(state('flat', 'pressure'))).toBe('yarn');
    expect(shownLayer(state('worn', 'pressure'))).toBe('pressure');
    expect(shownLayer({ ...state('flat', 'wider'), difference })).toBe('wider');
  });

  it('follow one another, those that cannot be shown left out', () => {
    const walk = (pose: 'flat' | 'worn', layer: ClothLayer): ClothLayer => nextLayer(state(pose, layer));
    expect([walk('flat', 'yarn'), walk('flat', 'stretch-length'), walk('worn', 'stretch-length'), walk('worn', 'gap')]).toEqual(['stretch-width', 'pass', 'pass', 'yarn']);
  });
});

describe('the layer of an earlier visit', () => {
  it.each(LAYERS)('%s is kept', (layer) => {
    expect(readSettings(JSON.stringify({ ...FIRST_SETTINGS, layer })).layer).toBe(layer);
  });
  it.each(['null', '{}', '{"layer": "stretch"}', '{"layer": 1}', '{"layer": ["yarn"]}', 'no JSON'])('%s falls back to the yarn', (text) => {
    expect(readSettings(text).layer).toBe('yarn');
  });
});
