import { describe, expect, it } from 'vitest';
import { makeFormMesh } from '../../src/foot/form-mesh.ts';
import { makeFootForm } from '../../src/foot/foot-form.ts';

const INSET_MM = 0.5;
/** The cloth that lies on the foot keeps half its thickness off, 0.9 mm; some of that may be pressed in. */
const CLOTH_MM = 0.4;

const FEET = [
  ['an average foot', {}, 180],
  ['a small, stout one with a strong calf', { lengthMm: 130, ballGirthMm: 150, calfGirthMm: 260 }, 120],
  ['a long, slender one with a high instep', { lengthMm: 310, ballGirthMm: 240, heelDiagonalMm: 400 }, 420],
  ['a left one with square toes and a high arch', { lengthMm: 262, ballGirthMm: 246, side: 'left', toes: 'square', arch: 'high' }, 180],
  ['one whose sock ends below the ankle', { lengthMm: 250, ballGirthMm: 235 }, 30],
] as const;

describe.each(FEET)('the shown form of %s', (_, measures, topMm) => {
  const foot = makeFootForm(measures), { positions, triangles } = makeFormMesh(foot, topMm, INSET_MM);
  const edges = new Map<string, number>();
  for (let t = 0; t < triangles.length; t += 3) {
    for (let k = 0; k < 3; k++) {
      const key = `${triangles[t + k]},${triangles[t + (k + 1) % 3]}`;
      edges.set(key, (edges.get(key) ?? 0) + 1);
    }
  }

  it('is closed: every edge has one triangle on either side, the other way round', () => {
    for (const [key, count] of edges) {
      const [a, b] = key.split(',');
      expect(count).toBe(1);
      expect(edges.get(`${b},${a}`)).toBe(1);
    }
    // Euler: a sphere.
    expect(positions.length / 3 - edges.size / 2 + triangles.length / 3).toBe(2);
    expect(triangles.length / 3).toBeLessThan(5500);
  });

  it('lies on the skin, less the inset, but for the leg\'s cut; between its points it stays under the cloth', () => {
    const normal = new Float64Array(3);
    const at = (p: readonly number[]): number => foot.distanceAt(p[0], p[1], p[2], normal);
    const point = (i: number): number[] => [...positions.subarray(3 * i, 3 * i + 3)];
    const highest = Math.max(...positions.filter((_value, i) => i % 3 === 2));
    for (let i = 0; i < positions.length / 3; i++) {
      const p = point(i);
      expect(at(p)).toBeLessThan(0);
      if (p[2] < highest - 10) expect(Math.abs(at(p) + INSET_MM)).toBeLessThan(1e-3);
    }
    for (let t = 0; t < triangles.length; t += 3) {
      const [a, b, c] = [0, 1, 2].map((k) => point(triangles[t + k]));
      expect(at(a.map((value, d) => (value + b[d] + c[d]) / 3))).toBeLessThan(CLOTH_MM);
    }
  });

  it('has its outside outward', () => {
    // Gauss: the volume inside a closed surface is a sixth of the sum of its triangles' determinants.
    let six = 0;
    for (let t = 0; t < triangles.length; t += 3) {
      const [a, b, c] = [0, 1, 2].map((k) => positions.subarray(3 * triangles[t + k], 3 * triangles[t + k] + 3));
      six += a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
    }
    expect(six).toBeGreaterThan(0);
  });
});
