export interface ColourStep { readonly value: number; readonly colour: string }

/** Where a scale has something to say: a mark in its legend, with words or without. */
export interface ColourMark { readonly value: number; readonly words: string }

/** Colours that stand for numbers. The first and last step stand for all beyond them too. */
export interface ColourScale {
  readonly unit: '%' | 'mmHg' | 'mm' | 'pass' | 'bed';
  /** By rising value; at most MOST_STEPS. */
  readonly steps: readonly ColourStep[];
  readonly marks?: readonly ColourMark[];
}

/** Steps that the shaders have room for. */
export const MOST_STEPS = 9;

/**
 * Percent of the size at rest: blue where the cloth is gathered, pale grey at rest, orange to brown
 * where it is drawn out. All ranges are fixed, so that socks and poses can be compared, and steps
 * widen outwards, so that a laid-out sock's few percent are seen beside a worn sock's many. Colours
 * of all scales chosen by eye; test/view/colour-scale.test.ts holds them to be told apart by
 * colour-blind eyes.
 */
export const STRETCH_SCALE: ColourScale = {
  unit: '%',
  steps: [
    { value: -40, colour: '#173a78' },
    { value: -20, colour: '#3a6fb5' },
    { value: -10, colour: '#74a5d9' },
    { value: -5, colour: '#b2d0ec' },
    { value: 0, colour: '#e4e4e2' },
    { value: 5, colour: '#f6d3a2' },
    { value: 10, colour: '#e2a14b' },
    { value: 20, colour: '#b4661a' },
    { value: 40, colour: '#6b330a' },
  ],
};

/**
 * Pressure on the skin, from cream to a wine red. Where medical compression begins: 14 mmHg, class 1
 * of the UK Drug Tariff's specification, and 18 mmHg, class 1 of the RAL-GZ 387 scheme (both seen in
 * secondary pages only); 10 and more is called firm (chosen).
 */
export const PRESSURE_SCALE: ColourScale = {
  unit: 'mmHg',
  steps: [
    { value: 0, colour: '#f3eee2' },
    { value: 5, colour: '#eebfb6' },
    { value: 10, colour: '#d97f8d' },
    { value: 15, colour: '#a83e68' },
    { value: 20, colour: '#5b1444' },
  ],
  marks: [{ value: 10, words: 'firm' }, { value: 14, words: 'medical' }, { value: 18, words: '' }],
};

/** How far the cloth stands off the skin, from cream to a deep sea green. */
export const GAP_SCALE: ColourScale = {
  unit: 'mm',
  steps: [
    { value: 0, colour: '#f1eee4' },
    { value: 1, colour: '#c5dcb5' },
    { value: 2, colour: '#9ccbc0' },
    { value: 5, colour: '#569f9d' },
    { value: 10, colour: '#276a75' },
    { value: 20, colour: '#0c3540' },
  ],
};

/** How much larger one sock is than another: purple where it is smaller, pale grey where they are alike, green where it is larger. */
export const DIFFERENCE_SCALE: ColourScale = {
  unit: 'mm',
  steps: [
    { value: -20, colour: '#43186b' },
    { value: -10, colour: '#7546a0' },
    { value: -5, colour: '#a681c6' },
    { value: -2, colour: '#dabedb' },
    { value: 0, colour: '#eae9e6' },
    { value: 2, colour: '#b3e0ab' },
    { value: 5, colour: '#86b463' },
    { value: 10, colour: '#4b8030' },
    { value: 20, colour: '#224a12' },
  ],
};

/** From the cast-on, sand, over bronze and slate to the last pass, night blue. */
const PASS_COLOURS = ['#fbf0cf', '#f3d488', '#dfb45c', '#ba8f57', '#96775a', '#6d5f66', '#4a4a72', '#2c3470', '#15194a'] as const;

/** The order of knitting, from pass 0, the cast-on, to the last. */
export function passScale(lastPass: number): ColourScale {
  return { unit: 'pass', steps: PASS_COLOURS.map((colour, step) => ({ value: (Math.max(1, lastPass) * step) / (PASS_COLOURS.length - 1), colour })) };
}

/** The front bed, amber, is 0, the back bed, blue, is 1 (BED codes). */
export const BED_SCALE: ColourScale = { unit: 'bed', steps: [{ value: 0, colour: '#efc35a' }, { value: 1, colour: '#2d5c94' }] };

/** Where a value lies on a scale: 0 at its first step, 1 at its second, in between by shares; never beyond its ends. */
export function placeOnScale({ steps }: ColourScale, value: number): number {
  const last = steps.length - 1;
  let step = 0;
  while (step + 1 < last && value > steps[step + 1].value) step++;
  const from = steps[step].value, to = steps[step + 1].value;
  return Math.min(last, Math.max(0, step + (value - from) / (to - from)));
}
