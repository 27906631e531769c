import type { Theme } from './sock-view-types.ts';

export type Rgb = readonly [number, number, number];

/** sRGB byte to linear light, IEC 61966-2-1. */
function toLinear(byte: number): number {
  const c = byte / 255;
  return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
}

/** `#rrggbb` or `#rgb` to linear red, green, blue, 0..1; undyed wool for anything else. */
export function linearColour(hex: string): Rgb {
  const short = /^#([0-9a-f])([0-9a-f])([0-9a-f])$/i.exec(hex);
  const full = short ? `#${short[1]}${short[1]}${short[2]}${short[2]}${short[3]}${short[3]}` : hex;
  const digits = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i.exec(full);
  if (!digits) return [0.68, 0.6, 0.48];
  return [toLinear(parseInt(digits[1], 16)), toLinear(parseInt(digits[2], 16)), toLinear(parseInt(digits[3], 16))];
}

/**
 * Yarn colours in linear light, at least one. Wool is neither ink nor snow: a dyed fibre gives
 * back some light at every wavelength and never all of it (limits chosen by eye).
 */
export function woolColours(hexes: readonly string[]): Rgb[] {
  return (hexes.length > 0 ? hexes : ['']).map((hex) => {
    const [r, g, b] = linearColour(hex);
    return [0.012 + 0.84 * r, 0.012 + 0.84 * g, 0.012 + 0.84 * b];
  });
}

/** Everything about a theme that the picture needs; colours linear. */
export interface Scheme {
  readonly backdropTop: Rgb;
  readonly backdropBottom: Rgb;
  readonly shadow: Rgb;
  readonly shadowStrength: number;
  readonly key: Rgb;
  readonly sky: Rgb;
  readonly ground: Rgb;
  readonly rim: Rgb;
  /** By the tones of view/machine-shape.ts: rail, needle, held needle, empty one, weight, wire. */
  readonly machine: readonly Rgb[];
  /** The foot inside a worn sock. */
  readonly body: Rgb;
  /** A second sock over the first, and the same as a hex colour for words. */
  readonly veil: Rgb;
  readonly veilInk: string;
  readonly line: Rgb;
  readonly lineEdge: Rgb;
  readonly labelInk: string;
  readonly labelPaper: string;
}

/** Light: warm paper; dark: deep slate-blue. All chosen by eye. */
export const SCHEMES: Readonly<Record<Theme, Scheme>> = {
  light: {
    backdropTop: linearColour('#f7f1e6'), backdropBottom: linearColour('#e6dac6'),
    shadow: linearColour('#4a3320'), shadowStrength: 0.5,
    key: [1.72, 1.62, 1.45], sky: [0.62, 0.65, 0.72], ground: [0.36, 0.31, 0.26], rim: [0.34, 0.31, 0.27],
    machine: ['#4f5d69', '#8f8d88', '#b5462f', '#c4bdae', '#7a6a55', '#6d6a64'].map(linearColour), body: linearColour('#b9a38a'),
    veil: linearColour('#4b2fa8'), veilInk: '#4b2fa8',
    line: linearColour('#b3261e'), lineEdge: linearColour('#fffaf0'),
    labelInk: '#3a1512', labelPaper: 'rgba(255, 250, 240, 0.94)',
  },
  dark: {
    backdropTop: linearColour('#2c3a4c'), backdropBottom: linearColour('#141c27'),
    shadow: linearColour('#04070b'), shadowStrength: 0.62,
    key: [1.6, 1.52, 1.4], sky: [0.46, 0.52, 0.62], ground: [0.2, 0.21, 0.25], rim: [0.4, 0.48, 0.62],
    machine: ['#5b6c80', '#aab1b8', '#f2a65a', '#4c5a6a', '#a08a68', '#8f979f'].map(linearColour), body: linearColour('#94806c'),
    veil: linearColour('#b9a2ff'), veilInk: '#b9a2ff',
    line: linearColour('#ffb454'), lineEdge: linearColour('#10161f'),
    labelInk: '#ffe6c2', labelPaper: 'rgba(16, 22, 31, 0.9)',
  },
};
