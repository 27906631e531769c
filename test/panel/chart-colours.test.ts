import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { mixColours, WASH } from '../../src/main/chart-colours.ts';

const CSS = readFileSync(new URL('../../src/styles/theme.css', import.meta.url), 'utf8');

/** Relative luminance and contrast by WCAG 2.2, definitions of those names. */
function contrast(a: string, b: string): number {
  const luminance = (colour: string): number => {
    const [r, g, blue] = [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16) / 255).map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * blue;
  };
  const [low, high] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (high + 0.05) / (low + 0.05);
}

it.each([['light', /:root \{([^}]*)\}/], ['dark', /\[data-theme="dark"\] \{([^}]*)\}/]])('%s: marks keep 4.5 to 1 on the wash of any yarn', (_, block) => {
  const rules = block.exec(CSS)![1], of = (name: string): string => new RegExp(`--${name}: (#[0-9a-f]{6})`).exec(rules)![1];
  for (const yarn of ['#000000', '#ffffff', '#ff0000', '#00ff00', '#0000ff', '#ffff00', '#808080']) {
    expect(contrast(of('ink'), mixColours(yarn, of('raised'), WASH)), yarn).toBeGreaterThan(4.5);
  }
});
