import { describe, expect, it } from 'vitest';
import { linearColour, type Rgb } from '../../src/view/colour.ts';
import { placeOnScale, REST_STEP, STRETCH_SCALE } from '../../src/view/stretch-scale.ts';

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

describe.each(Object.entries(EYES))('the colours of stretch, to %s', (_, eyes) => {
  const seen = STRETCH_SCALE.map(({ colour }) => seenBy(eyes, colour));

  it('are plainly different from one step to the next', () => {
    for (let i = 1; i < seen.length; i++) expect(distance(seen[i], seen[i - 1]), `step ${i}`).toBeGreaterThan(PLAIN_DIFFERENCE);
  });

  it('darken steadily on both sides of the step at rest', () => {
    for (let i = 1; i < seen.length; i++) {
      const darkens = i <= REST_STEP ? seen[i][0] - seen[i - 1][0] : seen[i - 1][0] - seen[i][0];
      expect(darkens, `step ${i}`).toBeGreaterThan(2.3);
    }
  });

  it('never look alike where one is gathered and the other drawn out', () => {
    for (const gathered of seen.slice(0, REST_STEP)) {
      for (const drawn of seen.slice(REST_STEP + 1)) expect(distance(gathered, drawn)).toBeGreaterThan(2 * PLAIN_DIFFERENCE);
    }
  });
});

describe('a place on the scale', () => {
  it('is its step\'s at each step, symmetric about rest', () => {
    STRETCH_SCALE.forEach(({ percent }, step) => { expect(placeOnScale(percent / 100)).toBeCloseTo(step, 9); });
    STRETCH_SCALE.forEach(({ percent }, step) => { expect(STRETCH_SCALE[STRETCH_SCALE.length - 1 - step].percent).toBe(-percent + 0); });
    expect(placeOnScale(0)).toBe(REST_STEP);
  });
  it.each([[0.025, 4.5], [0.15, 6.5], [-0.3, 0.5], [5, 8], [-0.99, 0]])('of %d is %d', (stretch, place) => {
    expect(placeOnScale(stretch)).toBeCloseTo(place, 9);
  });
});
