import { expect, it } from 'vitest';
import { createPressure, createSlab, createTriangleMembrane, enclosedVolume } from '../../src/solve/index.ts';
import type { MembraneLaw } from '../../src/solve/index.ts';
import { makeDisc } from '../solve/disc.ts';
import { relax } from '../solve/relax.ts';

const DISC_RADIUS = 100;

/**
 * A sheet that hardly stretches and bears no compression, N/mm: p a / k of 1e-3, compression at 1e-5 of
 * tension. Material axes run across and along the spokes, as the wrinkles do. No sock cloth is like this.
 */
const FOIL: MembraneLaw = {
  courseModulus: 1, waleModulus: 1, coupling: 0, shearModulus: 1e-4, compression: 1e-5, softness: 1e-6, stiffening: 0, crushing: 0,
};
const PRESSURE = 1e-3 * FOIL.waleModulus / DISC_RADIUS;

// Mylar balloon, two flat discs of radius a joined at the rim and inflated: radius 0.7627598 a, thickness at the
// axis 0.9138932 a, volume 1.218524 a^3 (Paulsen W. H., Amer. Math. Monthly 101 (1994) 953-958; Mladenov & Oprea,
// Amer. Math. Monthly 110 (2003) 761-784). One half, its rim kept on the mirror plane, from a half ball whose
// meridians have the right length but whose radius and thickness are 17 % too small and 39 % too great.
it('two discs, joined and inflated, become a mylar balloon', () => {
  const disc = makeDisc(64, 24, DISC_RADIUS), n = disc.nodeCount;
  const ball = DISC_RADIUS * 2 / Math.PI;
  const x = disc.positions((t) => ball * Math.sin(t * Math.PI / 2), (t) => ball * Math.cos(t * Math.PI / 2));
  const isRim = (node: number): boolean => node >= n - disc.spokes;
  const least = new Float64Array(n).map((_, i) => (isRim(i) ? 0 : -Infinity)), greatest = new Float64Array(n).map((_, i) => (isRim(i) ? 0 : Infinity));
  const mirror = createSlab({ axis: 2, least, greatest, stiffness: 2 });
  const membrane = createTriangleMembrane(disc.elements, FOIL);
  expect(relax(x, [membrane, mirror], [createPressure(disc.polygons, PRESSURE)], 1e-3, { maxIterations: 3000 }).status).toBe('converged');

  const rim = Array.from({ length: disc.spokes }, (_, s) => 3 * (n - 1 - s));
  for (const i of rim) {
    expect(Math.abs(Math.hypot(x[i], x[i + 1]) / DISC_RADIUS / 0.7627598 - 1)).toBeLessThan(0.01);
    expect(Math.abs(x[i + 2])).toBeLessThan(1e-3 * DISC_RADIUS);
  }
  expect(Math.abs(2 * x[2] / DISC_RADIUS / 0.9138932 - 1)).toBeLessThan(0.01);
  expect(Math.abs(2 * enclosedVolume(disc.polygons, x) / DISC_RADIUS ** 3 / 1.218524 - 1)).toBeLessThan(0.01);
});
