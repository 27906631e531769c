import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const CSS = readFileSync('src/styles/theme.css', 'utf8');

function tokensOf(selector: string): Readonly<Record<string, string>> {
  const block = CSS.slice(CSS.indexOf(`${selector} {`)).split('}')[0];
  return Object.fromEntries([...block.matchAll(/--([a-z-]+): (#[0-9a-f]{6});/g)].map(([, name, colour]) => [name, colour]));
}

/** WCAG 2.2, definition of relative luminance (https://www.w3.org/TR/WCAG22/#dfn-relative-luminance). */
function luminance(colour: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16) / 255).map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** WCAG 2.2, definition of contrast ratio (https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio). */
function contrast(one: string, other: string): number {
  const [dark, light] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
}

const GROUNDS = ['paper', 'card', 'raised', 'field', 'field-hover'] as const;

it('black on white is 21 to 1, a colour on itself 1 to 1, and #777777 on white falls just short of AA', () => {
  expect([contrast('#000000', '#ffffff'), contrast('#a3301f', '#a3301f')]).toEqual([21, 1]);
  // The grey that guides to WCAG name as the first to fail: 4.48 to 1.
  expect(contrast('#777777', '#ffffff')).toBeCloseTo(4.48, 2);
});

describe.each([['light', ':root'], ['dark', ':root[data-theme="dark"]']])('colours of the %s theme', (_theme, selector) => {
  const token = tokensOf(selector);
  // Success criterion 1.4.3, Contrast (Minimum), AA: 4.5 to 1 for text of ordinary size.
  it.each([
    ...GROUNDS.flatMap((ground) => [['ink', ground], ['soft', ground], ['accent', ground]]),
    ['on-accent', 'accent'], ['card', 'ink'], ['accent', 'accent-wash'], ['ink', 'accent-wash'], ['soft', 'accent-wash'], ['good', 'card'],
    ['problem', 'card'], ['problem', 'raised'], ['problem', 'problem-wash'], ['caution', 'card'], ['caution', 'caution-wash'],
  ])('%s on %s can be read', (text, ground) => {
    expect(contrast(token[text], token[ground])).toBeGreaterThanOrEqual(4.5);
  });
  // Success criterion 1.4.11, Non-text Contrast, AA: 3 to 1 for what tells a control from its surroundings, the focus among it.
  it.each([...GROUNDS, 'accent-wash'].flatMap((ground) => [['edge', ground], ['accent', ground]]))('an outline in %s on %s can be seen', (line, ground) => {
    expect(contrast(token[line], token[ground])).toBeGreaterThanOrEqual(3);
  });
});
