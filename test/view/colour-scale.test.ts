import { describe, expect, it } from 'vitest';
import { linearColour, type Rgb } from '../../src/view/colour.ts';
import { BED_SCALE, type ColourScale, DIFFERENCE_SCALE, GAP_SCALE, MOST_STEPS, passScale, placeOnScale, PRESSURE_SCALE, STRETCH_SCALE } from '../../src/view/colour-scale.ts';

type Row = readonly [number, number, number];

/**
 * How linear RGB looks to eyes that lack one kind of cone: Machado G. M., Oliveira M. M., Fernandes
 * L. A. F., A Physiologically-based Model for Simulation of Color Vision Deficiency, IEEE Trans.
 * Vis. Comput. Graph. 15 (2009) 1291-1298, tables for severity 1.
 */
const EYES: Readonly<Record<string, readonly [Row, Row, Row]>> = {
  'usual eyes': [[1, 0, 0], [0, 1, 0], [0, 0, 1]],
  protanopia: [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]],
  deuteranopia: [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.01182, 0.04294, 0.968881]],
  tritanopia: [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.3039]],
};

/** CIELAB of linear sRGB under D65: IEC 61966-2-1 for the primaries, CIE 15:2004 for L*, a*, b*. */
function labOf([r, g, b]: Rgb): Row {
  const f = (t: number): number => (t > (6 / 29) ** 3 ? Math.cbrt(t) : t / (3 * (6 / 29) ** 2) + 4 / 29);
  const x = f((0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.9505);
  const y = f(0.2126 * r + 0.7152 * g + 0.0722 * b);
  const z = f((0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.089);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

function seenBy(eyes: readonly Row[], hex: string): Row {
  const rgb = linearColour(hex);
  const [r, g, b] = eyes.map((row) => Math.min(1, Math.max(0, row[0] * rgb[0] + row[1] * rgb[1] + row[2] * rgb[2])));
  return labOf([r, g, b]);
}

const distance = (a: Row, b: Row): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

/** A just noticeable difference is about 2.3 in CIELAB (Mahy, Van Eycken, Oosterlinck, Color Res. Appl. 19 (1994) 105-121; from memory): five of them. */
const PLAIN_DIFFERENCE = 11.5;

it('white is L* 100 without hue, and mid grey #777777 is about L* 50 (CIE 15:2004)', () => {
  expect(labOf([1, 1, 1])[0]).toBeCloseTo(100, 6);
  expect(Math.hypot(...labOf([1, 1, 1]).slice(1))).toBeLessThan(0.1);
  expect(labOf(linearColour('#777777'))[0]).toBeCloseTo(50, 0);
});

const SCALES: Readonly<Record<string, ColourScale>> = { stretch: STRETCH_SCALE, pressure: PRESSURE_SCALE, gaps: GAP_SCALE, differences: DIFFERENCE_SCALE, passes: passScale(270), beds: BED_SCALE };
/** Scales that go both ways from a step of nothing in their middle. */
const BOTH_WAYS: readonly ColourScale[] = [STRETCH_SCALE, DIFFERENCE_SCALE];
const zeroOf = ({ steps }: ColourScale): number => steps.findIndex(({ value }) => value === 0);

const SEEN = Object.entries(SCALES).flatMap(([name, scale]) => Object.entries(EYES).map(([eyes, rows]) => ({
  name, eyes, scale, seen: scale.steps.map(({ colour }) => seenBy(rows, colour)),
})));

describe.each(SEEN)('the colours of $name, to $eyes', ({ scale, seen }) => {
  it('are plainly different from one step to the next', () => {
    for (let i = 1; i < seen.length; i++) expect(distance(seen[i], seen[i - 1]), `step ${i}`).toBeGreaterThan(PLAIN_DIFFERENCE);
  });

  it('darken steadily away from the step of nothing', () => {
    const zero = zeroOf(scale);
    for (let i = 1; i < seen.length; i++) {
      const darkens = i <= zero ? seen[i][0] - seen[i - 1][0] : seen[i - 1][0] - seen[i][0];
      expect(darkens, `step ${i}`).toBeGreaterThan(2.3);
    }
  });

  it('never look alike on one side of nothing and on the other', () => {
    const zero = zeroOf(scale);
    expect(zero > 0).toBe(BOTH_WAYS.includes(scale));
    for (const below of seen.slice(0, zero)) {
      for (const above of zero > 0 ? seen.slice(zero + 1) : []) expect(distance(below, above)).toBeGreaterThan(2 * PLAIN_DIFFERENCE);
    }
  });
});

describe.each(Object.entries(SCALES))('the scale of %s', (_, scale) => {
  it('rises, has room in the shaders, and marks lie on it', () => {
    const values = scale.steps.map(({ value }) => value);
    expect(values).toEqual([...values].sort((a, b) => a - b));
    expect(new Set(values).size).toBe(values.length);
    expect(values.length).toBeLessThanOrEqual(MOST_STEPS);
    for (const { value } of scale.marks ?? []) expect(value >= values[0] && value <= values[values.length - 1]).toBe(true);
  });

  it('puts each step\'s value on that step, and what lies beyond on its ends', () => {
    scale.steps.forEach(({ value }, step) => { expect(placeOnScale(scale, value)).toBeCloseTo(step, 9); });
    expect(placeOnScale(scale, -1e6)).toBe(0);
    expect(placeOnScale(scale, 1e6)).toBe(scale.steps.length - 1);
  });
});

it.each(BOTH_WAYS)('a scale that goes both ways goes as far either way', ({ steps }) => {
  steps.forEach(({ value }, step) => { expect(steps[steps.length - 1 - step].value).toBe(-value + 0); });
});

// 14 and 18 mmHg: where class 1 of the UK Drug Tariff's specification and of RAL-GZ 387 begin (seen in secondary pages only).
it('pressure is marked where medical compression begins, and shown to 20 mmHg and above', () => {
  const marked = PRESSURE_SCALE.marks?.map(({ value }) => value) ?? [];
  for (const value of [14, 18]) expect(marked).toContain(value);
  expect(PRESSURE_SCALE.steps[PRESSURE_SCALE.steps.length - 1].value).toBeGreaterThanOrEqual(20);
});

it.each([[2.5, 4.5], [15, 6.5], [-30, 0.5]])('a stretch of %d %% has the place %d', (percent, place) => {
  expect(placeOnScale(STRETCH_SCALE, percent)).toBeCloseTo(place, 9);
});
