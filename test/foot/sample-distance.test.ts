import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/base/random.ts';
import { makeFootForm } from '../../src/foot/foot-form.ts';
import { sampleFootDistance } from '../../src/foot/sample-distance.ts';

const normal = new Float64Array(3), exact = new Float64Array(3);

describe.each([
  ['an adult', { lengthMm: 262, ballGirthMm: 246 }],
  ['a large foot with square toes', { lengthMm: 315, ballGirthMm: 295, toes: 'square' }],
  ['a small left foot with a high arch', { lengthMm: 130, ballGirthMm: 138, arch: 'high', side: 'left' }],
] as const)('the sampled distance of %s', (_, given) => {
  const foot = makeFootForm(given), { lengthMm } = foot.measures, top = 0.9 * lengthMm;
  const sampled = sampleFootDistance(foot, { topMm: top });
  const points: [number, number, number][] = [], random = createRandom(17);
  while (points.length < 4000) {
    const p: [number, number, number] = [lengthMm * (1.2 * random() - 0.1), lengthMm * (0.5 * random() - 0.25), lengthMm * (1.05 * random() - 0.15)];
    const off = foot.distanceAt(p[0], p[1], p[2], exact) - (9 * random() - 3);
    for (let axis = 0; axis < 3; axis++) p[axis] -= off * exact[axis];
    const d = foot.distanceAt(p[0], p[1], p[2], exact);
    if (d > -3 && d < 6 && p[2] < top) points.push(p);
  }

  it('is the exact one within 0.05 mm where cloth lies, its direction within 2 degrees', () => {
    for (const [x, y, z] of points) {
      expect(Math.abs(sampled.distanceAt(x, y, z, normal) - foot.distanceAt(x, y, z, exact))).toBeLessThan(0.05);
      expect(Math.hypot(normal[0] - exact[0], normal[1] - exact[1], normal[2] - exact[2])).toBeLessThan(0.035);
    }
  });

  it('tells the gradient of the distance that it tells', () => {
    const h = 1e-4;
    for (const p of points.slice(0, 400)) {
      sampled.distanceAt(p[0], p[1], p[2], normal);
      const gradient = Array.from(normal);
      for (let axis = 0; axis < 3; axis++) {
        const ahead = [...p], behind = [...p];
        ahead[axis] += h;
        behind[axis] -= h;
        const slope = (sampled.distanceAt(ahead[0], ahead[1], ahead[2], normal) - sampled.distanceAt(behind[0], behind[1], behind[2], normal)) / (2 * h);
        expect(slope).toBeCloseTo(gradient[axis], 4);
      }
    }
  });

  it('runs on without a step in distance or gradient', () => {
    const before = new Float64Array(3), step = 1e-7;
    for (const [x, y, z] of points.slice(0, 40)) {
      // Along x over more than a way between samples, wherever their borders lie.
      let last: number | null = null;
      for (let t = 0; t < 0.02 * lengthMm; t += 0.01) {
        if (Math.abs(foot.distanceAt(x + t, y, z, exact)) > 2.5) { last = null; continue; }
        const d = sampled.distanceAt(x + t, y, z, normal);
        if (last !== null) expect(Math.abs(d - last)).toBeLessThan(0.011);
        if (last !== null) expect(Math.hypot(normal[0] - before[0], normal[1] - before[1], normal[2] - before[2])).toBeLessThan(0.02);
        last = d;
        before.set(normal);
        expect(Math.abs(sampled.distanceAt(x + t + step, y, z, normal) - d)).toBeLessThan(1.1 * step);
      }
    }
  });

  it('is the foot\'s own far from the skin and above the top, and the same bytes when made again', () => {
    for (const [x, y, z] of [[0.5 * lengthMm, 0, 0.6 * lengthMm], [0.2 * lengthMm, 0, 2 * lengthMm], [2 * lengthMm, 10, 10], [0.2 * lengthMm, 0, 0.2 * lengthMm]]) {
      expect(sampled.distanceAt(x, y, z, normal)).toBe(foot.distanceAt(x, y, z, exact));
      expect(normal).toEqual(exact);
    }
    const again = sampleFootDistance(makeFootForm(given), { topMm: top });
    for (const [x, y, z] of points.slice(0, 500)) expect(again.distanceAt(x, y, z, normal)).toBe(sampled.distanceAt(x, y, z, exact));
  });
});

it('a left foot\'s is a right foot\'s, mirrored, to the bit', () => {
  const given = { lengthMm: 248, ballGirthMm: 240, toes: 'pointed' } as const, random = createRandom(3);
  const right = sampleFootDistance(makeFootForm({ ...given, side: 'right' })), left = sampleFootDistance(makeFootForm({ ...given, side: 'left' }));
  for (let k = 0; k < 2000; k++) {
    const [x, y, z] = [270 * random() - 10, 110 * random() - 55, 150 * random() - 45];
    expect(left.distanceAt(x, y, z, normal)).toBe(right.distanceAt(x, -y, z, exact));
    expect([normal[0], normal[1], normal[2]]).toEqual([exact[0], -exact[1], exact[2]]);
  }
});
