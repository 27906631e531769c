import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const css = readFileSync(fileURLToPath(new URL('../../src/styles/stand.css', import.meta.url)), 'utf8');

/** The colours of one brightness: those of its own rule over those of the first. */
function coloursOf(light: string): Record<string, string> {
  const rules = [/:root\[data-stand-light\] \{([^}]*)\}/.exec(css), new RegExp(`:root\\[data-stand-light="${light}"\\] \\{([^}]*)\\}`).exec(css)];
  return Object.fromEntries(rules.flatMap((rule) => [...(rule?.[1] ?? '').matchAll(/--stand-([\w-]+): (#\w+)/g)].map(([, name, value]) => [name, value])));
}

// Published: relative luminance and contrast ratio of WCAG 2.1.
const channel = (byte: number): number => { const c = byte / 255; return c <= 0.03928 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4; };
function luminance(hex: string): number {
  const long = hex.length === 4 ? hex.replace(/[^#]/g, '$&$&') : hex, [r, g, b] = [1, 3, 5].map((at) => channel(parseInt(long.slice(at, at + 2), 16)));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
function contrast(a: string, b: string): number {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

describe('the colours of the stand', () => {
  test('the formula gives the ratios that the standard names: 21 for black on white', () => {
    expect(contrast('#000', '#fff')).toBeCloseTo(21, 9);
  });

  test.each([['bright', 7], ['dim', 7], ['night', 4.5]])('%s: all words keep %d to 1 on ground and cards', (light, least) => {
    const { ground, card, ink, soft, hot, held, 'on-hot': onHot } = coloursOf(light);
    for (const on of [ground, card]) for (const words of [ink, soft, hot]) expect(contrast(words, on), `${words} on ${on}`).toBeGreaterThanOrEqual(least);
    expect(contrast(onHot, hot)).toBeGreaterThanOrEqual(Math.min(least, 4.5));
    // Drawn needles: 3 to 1 (WCAG 2.1, 1.4.11).
    expect(contrast(held, ground)).toBeGreaterThanOrEqual(3);
  });
});
