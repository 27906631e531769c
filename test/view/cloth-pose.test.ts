import { describe, expect, it } from 'vitest';
import type { Fabric } from '../../src/fabric/fabric.ts';
import { buildCloth } from '../../src/view/cloth-geometry.ts';
import { hollowness, poseClothInto } from '../../src/view/cloth-pose.ts';
import { vertexNormals } from '../../src/yarn/vertex-normals.ts';
import { castContactShadow, SHADOW_SIZE } from '../../src/view/contact-shadow.ts';
import { buildPicker, castRay, nearestVertex } from '../../src/view/pick-loop.ts';
import { createWrapBars, poseWrapsInto } from '../../src/view/wrap-bars.ts';
import { makeTube } from './tube-cloth.ts';

const ROUND = 40, RADIUS = 30, RISE = 2;

/** A straight cylinder along z out of the tube's rounds, walked so that the outside is the right side. */
function cylinder(): { fabric: Fabric; grid: ReturnType<typeof makeTube>['grid']; positions: Float64Array } {
  const tube = makeTube({ stitches: ROUND, ribRounds: 0, plainRounds: 20, decreases: 0, stripe: 0 });
  const positions = new Float64Array(3 * tube.fabric.vertexCount);
  for (let v = 0; v < tube.fabric.vertexCount; v++) {
    const angle = (2 * Math.PI * (v % ROUND)) / ROUND;
    positions.set([RADIUS * Math.cos(angle), RADIUS * Math.sin(angle), RISE * Math.floor(v / ROUND)], 3 * v);
  }
  return { ...tube, positions };
}

describe('a cylinder', () => {
  const { fabric, grid, positions } = cylinder();
  const normals = vertexNormals(fabric, positions);
  const inner = Array.from({ length: fabric.vertexCount }, (_, v) => v).filter((v) => v >= 2 * ROUND && v < 17 * ROUND);

  it('has radial normals', () => {
    for (const v of inner) {
      const angle = (2 * Math.PI * (v % ROUND)) / ROUND;
      expect(normals[3 * v]).toBeCloseTo(Math.cos(angle), 6);
      expect(normals[3 * v + 1]).toBeCloseTo(Math.sin(angle), 6);
    }
  });

  // A chord of a circle of n corners falls below the tangent by sin(pi / n); a wale does not: the mean of two of each is half of it (geometry).
  it('is bulged by half the sine of half a corner, turned inside out hollow', () => {
    const bulge = Math.sin(Math.PI / ROUND) / 2, v = 9 * ROUND + 3;
    expect(hollowness(fabric, positions, normals)[v]).toBeCloseTo(-bulge, 6);
    expect(hollowness(fabric, positions, normals.map((n) => -n))[v]).toBeCloseTo(bulge, 6);
  });

  const cloth = buildCloth(fabric, grid), n = cloth.vertexCount;
  const posed = { positions: new Float32Array(3 * n), normals: new Float32Array(3 * n), hollow: new Float32Array(2 * n) };
  poseClothInto(posed, cloth, fabric, positions, normals);

  it('carries its hem straight on beyond the first round', () => {
    for (let i = 0; i < n; i++) {
      if (cloth.hemOther[i] < 0) continue;
      expect(posed.positions[3 * i + 2]).toBeLessThan(-0.4 * fabric.waleMm);
      expect(Math.hypot(posed.positions[3 * i], posed.positions[3 * i + 1])).toBeCloseTo(RADIUS, 1);
    }
  });

  it('is picked where a ray meets it, the nearer wall first', () => {
    const picker = buildPicker(cloth.index, posed.positions);
    for (const v of inner.filter((_, i) => i % 37 === 0)) {
      const angle = (2 * Math.PI * (v % ROUND)) / ROUND, c = Math.cos(angle), s = Math.sin(angle);
      const hit = castRay(picker, [200 * c, 200 * s, positions[3 * v + 2] + 0.1], [-c, -s, 0]);
      expect(hit?.distance).toBeCloseTo(200 - RADIUS, 1);
      expect(hit ? nearestVertex(cloth, hit) : -1).toBe(v);
    }
    expect(castRay(picker, [0, 0, 500], [0, 1, 0])).toBeNull();
  });

  it('bears wraps that lie on it and dive into it at their ends', () => {
    const v = 10 * ROUND + 7, bars = createWrapBars(1);
    poseWrapsInto(bars, [{ loop: 0, host: v, child: v + ROUND, left: v + 1, right: v - 1, before: -1, after: v + ROUND + 1 }], positions, normals, fabric.courseMm);
    const radii = Array.from({ length: bars.pointsPerBar }, (_, i) => Math.hypot(bars.positions[3 * i], bars.positions[3 * i + 1]) - RADIUS);
    expect(Math.max(...radii)).toBeGreaterThan(0.1 * fabric.courseMm);
    expect(Math.max(...radii.slice(0, 7))).toBeLessThan(0);
    for (let i = 0; i < bars.pointsPerBar; i++) {
      expect(Math.hypot(bars.normals[3 * i], bars.normals[3 * i + 1], bars.normals[3 * i + 2])).toBeCloseTo(1, 5);
    }
  });

  it('darkens the ground under it, and nothing at the map\'s edge', () => {
    const { darkness, centre, isTable } = castContactShadow(positions, 8, false);
    expect(isTable).toBe(false);
    expect(centre[2]).toBeLessThan(0);
    const middle = (SHADOW_SIZE / 2) * SHADOW_SIZE;
    expect(Math.max(...darkness)).toBeGreaterThan(60);
    expect(darkness[0]).toBe(0);
    expect(darkness[middle]).toBeLessThan(20);
  });
});
