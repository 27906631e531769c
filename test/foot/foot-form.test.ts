import { describe, expect, it } from 'vitest';
import { completeMeasures } from '../../src/foot/complete-measures.ts';
import { createRoundCones } from '../../src/foot/round-cones.ts';
import type { Body } from '../../src/foot/round-cones.ts';
import { makeFootForm } from '../../src/foot/foot-form.ts';
import { createRandom } from '../../src/base/random.ts';
import { readFeet } from '../data/read-feet.ts';

type Vector = readonly [number, number, number];
const normal = new Float64Array(3);
const at = (body: Body, p: Vector): number => body.distanceAt(p[0], p[1], p[2], normal);

/**
 * Convex girth by Cauchy's formula (any text on convex geometry): the length round a convex set is the
 * integral over all directions of its support function. The section is read off a grid of points, so the
 * support is that of the inner points plus half a step on average.
 */
function girthByCauchy(body: Body, centre: Vector, u: Vector, v: Vector, reach: number): number {
  const step = 1, directions = 180, support = new Float64Array(directions).fill(-Infinity);
  for (let a = -reach; a <= reach; a += step) {
    for (let b = -reach; b <= reach; b += step) {
      const d = at(body, [centre[0] + a * u[0] + b * v[0], centre[1] + a * u[1] + b * v[1], centre[2] + a * u[2] + b * v[2]]);
      if (d > 0 || d < -3 * step) continue;
      // Along its gradient the surface lies -d farther out.
      const ga = normal[0] * u[0] + normal[1] * u[1] + normal[2] * u[2], gb = normal[0] * v[0] + normal[1] * v[1] + normal[2] * v[2];
      const scale = -d / Math.max(0.2, ga * ga + gb * gb);
      for (let k = 0; k < directions; k++) {
        const angle = 2 * Math.PI * k / directions;
        support[k] = Math.max(support[k], (a + scale * ga) * Math.cos(angle) + (b + scale * gb) * Math.sin(angle));
      }
    }
  }
  return support.reduce((sum, h) => sum + h, 0) * 2 * Math.PI / directions;
}

describe('rounded cones', () => {
  // Closed form: a capsule is all points within r of a segment.
  it('one cone of equal ends is a capsule', () => {
    const capsule = createRoundCones([{ from: [0, 0, 0], to: [10, 0, 0], r1: 2, r2: 2 }], 1);
    expect(at(capsule, [5, 3, 4])).toBeCloseTo(5 - 2, 12);
    expect(at(capsule, [-3, 4, 0])).toBeCloseTo(5 - 2, 12);
    expect(at(capsule, [13, 0, 4])).toBeCloseTo(5 - 2, 12);
    expect(at(capsule, [5, 0, 1])).toBeCloseTo(-1, 12);
  });

  // Closed form: the common tangent of two circles; at h = 10, r1 = 6, r2 = 0 the side is a cone of half angle asin(6/10) with its tip at the end.
  it('a cone that runs to a point has the half angle asin((r1 - r2) / h)', () => {
    const cone = createRoundCones([{ from: [0, 0, 0], to: [10, 0, 0], r1: 6, r2: 0 }], 1);
    const out = 5, half = Math.asin(0.6);
    // A point of the side, and the same moved out along the side's normal.
    const onSide: Vector = [5, 5 * Math.tan(half), 0];
    expect(at(cone, onSide)).toBeCloseTo(0, 12);
    expect(at(cone, [onSide[0] + out * Math.sin(half), onSide[1] + out * Math.cos(half), 0])).toBeCloseTo(out, 12);
  });

  it('two equal balls at one place lie k log 2 farther out, a ball within another is not felt', () => {
    const ball = { from: [0, 0, 0], to: [0, 0, 1], r1: 5, r2: 5 } as const;
    expect(at(createRoundCones([ball, ball], 0.5), [9, 0, 0])).toBeCloseTo(4 - 0.5 * Math.log(2), 12);
    expect(at(createRoundCones([{ from: [0, 0, 0], to: [1, 0, 0], r1: 5, r2: 1 }], 0.5), [9, 0, 0])).toBeCloseTo(4, 12);
  });

  it('has the gradient of its distance', () => {
    const foot = makeFootForm({ lengthMm: 262, ballGirthMm: 246 }), random = createRandom(3), h = 1e-4;
    for (let k = 0; k < 200; k++) {
      const p: [number, number, number] = [280 * random() - 10, 120 * random() - 60, 200 * random() - 50];
      at(foot, p);
      const gradient = Array.from(normal);
      expect(Math.hypot(...gradient)).toBeLessThanOrEqual(1 + 1e-12);
      for (let axis = 0; axis < 3; axis++) {
        const ahead = [...p] as [number, number, number], behind = [...p] as [number, number, number];
        ahead[axis] += h;
        behind[axis] -= h;
        expect((at(foot, ahead) - at(foot, behind)) / (2 * h)).toBeCloseTo(gradient[axis], 4);
      }
    }
  });
});

describe.each([
  ['an average foot', {}],
  ['length and ball', { lengthMm: 262, ballGirthMm: 246 }],
  ['a high instep', { lengthMm: 262, ballGirthMm: 250, heelDiagonalMm: 356, calfGirthMm: 300 }],
  ['a low instep, strong calf', { lengthMm: 260, ballGirthMm: 245, heelDiagonalMm: 316, ankleGirthMm: 240, calfGirthMm: 420 }],
  ['a small foot', { lengthMm: 215, ballGirthMm: 205 }],
])('the form of %s', (_, given) => {
  const foot = makeFootForm(given), { measures, floorMm } = foot;

  it('has the given girths within 3 %', () => {
    const level = (x: number, z: number): number => girthByCauchy(foot, [x, 0, z], [1, 0, 0], [0, 1, 0], 90);
    expect(Math.abs(level(60, foot.ankleMm) / measures.ankleGirthMm - 1)).toBeLessThan(0.03);
    expect(Math.abs(level(60, foot.calfMm) / measures.calfGirthMm - 1)).toBeLessThan(0.03);
    expect(Math.abs(girthByCauchy(foot, [foot.ballMm, 0, floorMm / 2], [0, 1, 0], [0, 0, 1], 80) / measures.ballGirthMm - 1)).toBeLessThan(0.03);
    // A tape over heel tip and instep slides to the least girth.
    const heel = 0.12 * measures.lengthMm;
    let least = Infinity;
    for (let degrees = 30; degrees <= 70; degrees += 5) {
      const c = Math.cos(degrees * Math.PI / 180), s = Math.sin(degrees * Math.PI / 180);
      // From the heel's lower rear point (45 degrees below its middle) into the foot.
      const from: Vector = [heel * (1 - Math.SQRT1_2), 0, -heel * Math.SQRT1_2];
      least = Math.min(least, girthByCauchy(foot, [from[0] + 60 * c, 0, from[2] + 60 * s], [c, 0, s], [0, 1, 0], 130));
    }
    expect(Math.abs(least / measures.heelDiagonalMm - 1)).toBeLessThan(0.03);
  });

  it('is as long as the foot, from x = 0, and stands on its floor', () => {
    let rear = Infinity, front = -Infinity, low = Infinity;
    for (let x = -20; x < measures.lengthMm + 20; x += 0.5) {
      for (let z = -60; z < 40; z += 1) {
        if (at(foot, [x, 0, z]) > 0) continue;
        rear = Math.min(rear, x);
        front = Math.max(front, x);
        low = Math.min(low, z);
      }
    }
    expect(Math.abs(rear)).toBeLessThan(0.01 * measures.lengthMm);
    expect(Math.abs(front - measures.lengthMm)).toBeLessThan(0.01 * measures.lengthMm);
    expect(Math.abs(low - floorMm)).toBeLessThan(0.03 * measures.lengthMm);
  });

  it('is its own mirror image', () => {
    expect(at(foot, [150, 21, 3])).toBeCloseTo(at(foot, [150, -21, 3]), 12);
  });
});

it('makes some form of measures that no foot has', () => {
  for (const given of [{ lengthMm: 60, ballGirthMm: 450 }, { lengthMm: 400, ballGirthMm: 60 }, { lengthMm: 250, heelDiagonalMm: 650 }, { ankleGirthMm: 60, calfGirthMm: 800 }]) {
    const foot = makeFootForm(given);
    expect(Object.values(foot.girths).every(Number.isFinite)).toBe(true);
    expect(Number.isFinite(at(foot, [100, 0, 0]))).toBe(true);
  }
});

// Source: the sample of the survey that complete-measures.ts cites. Scatter of the regression over the whole survey: 8.2 mm.
it('tells a heel-ankle circumference from length and ball as the survey has it', () => {
  const errors = readFeet().map((foot) => completeMeasures({ lengthMm: foot.lengthMm, ballGirthMm: foot.ballGirthMm }).heelDiagonalMm - foot.heelDiagonalMm);
  const mean = errors.reduce((sum, e) => sum + e, 0) / errors.length;
  expect(Math.abs(mean)).toBeLessThan(1.5);
  expect(Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0) / errors.length)).toBeLessThan(9.5);
});
