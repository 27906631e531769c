import { describe, expect, it } from 'vitest';
import { FIRST_SETTINGS, LAYERS, readSettings } from '../../src/main/settings.ts';
import { stretchWords } from '../../src/panel/loop-readout.ts';
import { formatPercent } from '../../src/panel/units.ts';

describe('a percentage', () => {
  it.each([[3.2, '+3'], [-27.6, '−28'], [0, '0'], [0.4, '0'], [-0.4, '0'], [40, '+40']])('%d is written %s', (percent, words) => {
    expect(formatPercent(percent)).toBe(words);
  });
  it('stands beside a loop for both directions', () => {
    expect(stretchWords({ width: -0.283, length: 0.104 })).toBe('Stretch: width −28 %, length +10 %');
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
