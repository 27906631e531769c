import { describe, expect, it } from 'vitest';
import { createRoundCones } from '../../src/foot/round-cones.ts';
import type { Body } from '../../src/foot/round-cones.ts';
import { makeFootForm } from '../../src/foot/foot-form.ts';
import { createRandom } from '../../src/base/random.ts';
import type { FootForm } from '../../src/foot/foot-form.ts';
import { makeFormMesh } from '../../src/foot/form-mesh.ts';
import { farthestByRays, girthByCauchy } from './girth-by-cauchy.ts';
import type { Vector } from './girth-by-cauchy.ts';

const normal = new Float64Array(3);
const at = (body: Body, p: Vector): number => body.distanceAt(p[0], p[1], p[2], normal);

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
  ['a high instep, a pointed left foot', { lengthMm: 262, ballGirthMm: 250, heelDiagonalMm: 356, calfGirthMm: 300, toes: 'pointed', side: 'left' }],
  ['a low instep, strong calf, square toes', { lengthMm: 260, ballGirthMm: 245, heelDiagonalMm: 316, ankleGirthMm: 240, calfGirthMm: 420, toes: 'square' }],
  ['a small foot, a narrow heel', { lengthMm: 215, ballGirthMm: 205, heelBreadthMm: 53 }],
  ['a child', { lengthMm: 150, ballGirthMm: 155 }],
] as const)('the form of %s', (_, given) => {
  const foot = makeFootForm(given), { measures, tapes } = foot, { lengthMm } = measures;

  it('has the given girths within 1 %', () => {
    for (const name of ['ballGirthMm', 'ankleGirthMm', 'calfGirthMm'] as const) {
      const { centre, u, v } = tapes[name];
      expect(Math.abs(girthByCauchy(foot, centre, u, v, 0.36 * lengthMm, 0.004 * lengthMm) / measures[name] - 1), name).toBeLessThan(0.01);
    }
    // A tape over heel tip and instep slides to the least girth.
    const heel = 0.115 * lengthMm;
    let least = Infinity;
    for (let degrees = 30; degrees <= 70; degrees += 5) {
      const c = Math.cos(degrees * Math.PI / 180), s = Math.sin(degrees * Math.PI / 180);
      // From the heel's lower rear point (45 degrees below its middle) into the foot.
      const from: Vector = [heel * (1 - Math.SQRT1_2), 0, -heel * Math.SQRT1_2], half = 0.22 * lengthMm;
      least = Math.min(least, girthByCauchy(foot, [from[0] + half * c, 0, from[2] + half * s], [c, 0, s], [0, 1, 0], 0.45 * lengthMm, 0.005 * lengthMm));
    }
    expect(Math.abs(least / measures.heelDiagonalMm - 1)).toBeLessThan(0.015);
  });

  it('is as long as the foot, from x = 0, as broad at the heel, and stands on its floor', () => {
    const middle: Vector = [0.5 * lengthMm, 0, 0], reach: Vector = [lengthMm, 0.25 * lengthMm, 0.15 * lengthMm];
    expect(Math.abs(farthestByRays(foot, 0, -1, middle, reach))).toBeLessThan(0.005 * lengthMm);
    expect(Math.abs(farthestByRays(foot, 0, 1, middle, reach) - lengthMm)).toBeLessThan(0.005 * lengthMm);
    const heel: Vector = [foot.heelMm, 0, 0], section: Vector = [0, lengthMm, 0.08 * lengthMm];
    const breadth = farthestByRays(foot, 1, 1, heel, section, 0.5) - farthestByRays(foot, 1, -1, heel, section, 0.5);
    expect(Math.abs(breadth / measures.heelBreadthMm - 1)).toBeLessThan(0.01);
    // Heel, ball and toes stand on one floor, to 2 mm on an adult's foot.
    for (const [from, to] of [[0, 0.25], [0.6, 0.8], [0.85, 1]]) {
      const low = farthestByRays(foot, 2, -1, [0.5 * (from + to) * lengthMm, 0, 0], [0.5 * (to - from) * lengthMm, 0.2 * lengthMm, lengthMm], 2);
      expect(Math.abs(low - foot.floorMm)).toBeLessThan(0.008 * lengthMm);
    }
  });

  // Closed form: no distance is more than that to any point of the surface.
  it('never overstates its distance, and its gradient is nearly 1 long by the skin', () => {
    const { positions } = makeFormMesh(foot, foot.ankleMm, 0), random = createRandom(11);
    for (let k = 0; k < 300; k++) {
      const p = [lengthMm * (1.2 * random() - 0.1), lengthMm * (0.5 * random() - 0.25), lengthMm * (0.45 * random() - 0.16)];
      const d = at(foot, [p[0], p[1], p[2]]);
      let nearest = Infinity;
      for (let i = 0; i < positions.length; i += 3) nearest = Math.min(nearest, Math.hypot(p[0] - positions[i], p[1] - positions[i + 1], p[2] - positions[i + 2]));
      expect(d).toBeLessThanOrEqual(nearest + 1e-3);
    }
    const lengths: number[] = [];
    while (lengths.length < 1000) {
      const d = at(foot, [lengthMm * (1.2 * random() - 0.1), lengthMm * (0.5 * random() - 0.25), lengthMm * (0.9 * random() - 0.16)]);
      if (Math.abs(d) < 0.01 * lengthMm) lengths.push(Math.hypot(...normal));
    }
    lengths.sort((a, b) => a - b);
    expect(lengths[0]).toBeGreaterThan(0.4);
    // The rest lies in creases: in front of the ankle, beside the instep, behind the toes.
    expect(lengths[50]).toBeGreaterThan(0.8);
    expect(lengths[200]).toBeGreaterThan(0.9);
  });
});

// A body whose radii of curvature are 2 mm and more has a gradient that turns by at most half a radian in a mm.
it('runs on smoothly: its gradient makes no step where cloth can touch', () => {
  const foot = makeFootForm({ lengthMm: 262, ballGirthMm: 246, toes: 'pointed', arch: 'high' }), random = createRandom(23), before = new Float64Array(3), h = 1e-4;
  for (let k = 0; k < 3000; k++) {
    const p: [number, number, number] = [290 * random() - 15, 120 * random() - 60, 260 * random() - 45];
    const off = at(foot, p) - 3 * random() + 0.5;
    for (let axis = 0; axis < 3; axis++) p[axis] -= off * normal[axis];
    const d = at(foot, p);
    if (d < -1 || d > 4) continue;
    before.set(normal);
    p[k % 3] += h;
    at(foot, p);
    expect(Math.hypot(normal[0] - before[0], normal[1] - before[1], normal[2] - before[2])).toBeLessThan(0.5 * h);
  }
});

describe('left and right', () => {
  it('are mirror images to the bit', () => {
    for (const toes of ['pointed', 'square', 'sloping'] as const) {
      const given = { lengthMm: 251, ballGirthMm: 239, heelBreadthMm: 66, arch: 'high', toes } as const, random = createRandom(5);
      const right = makeFootForm({ ...given, side: 'right' }), left = makeFootForm({ ...given, side: 'left' });
      expect(left.girths).toEqual(right.girths);
      for (let k = 0; k < 200; k++) {
        const [x, y, z] = [300 * random() - 20, 140 * random() - 70, 300 * random() - 60];
        expect(at(left, [x, y, z])).toBe(at(right, [x, -y, z]));
        at(left, [x, y, z]);
        const gradient = Array.from(normal);
        at(right, [x, -y, z]);
        expect([normal[0], -normal[1], normal[2]]).toEqual(gradient);
      }
    }
  });
});

/** How far forward the toes reach at a place aside, as a share of the length. */
function frontAt(foot: FootForm, aside: number): number {
  const { lengthMm, ballGirthMm } = foot.measures;
  return farthestByRays(foot, 0, 1, [lengthMm, aside * 0.2 * ballGirthMm, foot.toeMm], [0.5 * lengthMm, 0, 0.05 * lengthMm]) / lengthMm;
}

it('the outline of the toes is the chosen one', () => {
  const make = (toes: 'pointed' | 'square' | 'sloping'): FootForm => makeFootForm({ lengthMm: 262, ballGirthMm: 246, toes });
  const sloping = make('sloping'), square = make('square'), pointed = make('pointed');
  // Falling off from the great toe, which is on the left of a right foot.
  expect(sloping.toeAsideMm).toBeGreaterThan(8);
  expect(frontAt(sloping, 0.4) - frontAt(sloping, -0.4)).toBeGreaterThan(0.05);
  // Straight across: within 2 % of the length over two thirds of the breadth.
  for (const aside of [-0.35, -0.2, 0, 0.2, 0.4]) expect(frontAt(square, aside)).toBeGreaterThan(0.98);
  // Longest in the middle.
  expect(Math.abs(pointed.toeAsideMm)).toBeLessThan(12);
  expect(frontAt(pointed, 0.1) - frontAt(pointed, 0.45)).toBeGreaterThan(0.015);
  expect(frontAt(pointed, 0.1) - frontAt(pointed, -0.45)).toBeGreaterThan(0.03);
});

it('an arch is hollow on the inner side, the more so the higher it is', () => {
  const hollowAt = (foot: FootForm, aside: number): number => {
    const x = 0.45 * foot.measures.lengthMm, y = aside * 0.1 * foot.measures.ballGirthMm;
    return farthestByRays(foot, 2, -1, [x, y, 0], [0, 0, 200]) - foot.floorMm;
  };
  const [low, usual, high] = (['low', 'usual', 'high'] as const).map((arch) => makeFootForm({ lengthMm: 262, ballGirthMm: 246, heelDiagonalMm: 335, arch }));
  expect(hollowAt(usual, 0.8)).toBeGreaterThan(hollowAt(low, 0.8) + 4);
  expect(hollowAt(high, 0.8)).toBeGreaterThan(hollowAt(usual, 0.8) + 4);
  for (const foot of [low, usual, high]) {
    expect(hollowAt(foot, -0.6)).toBeLessThan(7);
    // The diagonal was given: the arch does not change it.
    expect(Math.abs(foot.girths.heelDiagonalMm / 335 - 1)).toBeLessThan(0.002);
  }
});

it('makes some form of measures that no foot has', () => {
  for (const given of [{ lengthMm: 60, ballGirthMm: 450 }, { lengthMm: 400, ballGirthMm: 60 }, { lengthMm: 250, heelDiagonalMm: 650 }, { ankleGirthMm: 60, calfGirthMm: 800 }, { lengthMm: 262, heelBreadthMm: 20 }, { lengthMm: 262, heelBreadthMm: 150 }]) {
    const foot = makeFootForm(given);
    expect(Object.values(foot.girths).every(Number.isFinite)).toBe(true);
    expect(Number.isFinite(at(foot, [100, 0, 0]))).toBe(true);
  }
});
