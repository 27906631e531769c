import { describe, expect, it } from 'vitest';
import { createBending, createGravity, createPins, createPressure, createQuadMembrane, createSlab, createTriangleMembrane } from '../../src/solve/index.ts';
import { LINEAR, relax, roundGirth } from '../solve/relax.ts';
import { closedTube, makeSheet, tubePositions } from '../solve/sheet.ts';

describe('closed forms', () => {
  // Geometry: a rectangle rolled and seamed is a cylinder whose girth is the rectangle's width.
  it('a rectangle, rolled and seamed, keeps its width as girth', () => {
    const sheet = makeSheet(40, 20, true, 3, 2.5);
    const x = tubePositions(sheet, 13, 3.1);
    const result = relax(x, [createQuadMembrane(sheet.elements, LINEAR), createBending(sheet.bends(1e-4))], []);
    expect(result.status).toBe('converged');
    expect(Math.abs(roundGirth(x, 10, 40) / 120 - 1)).toBeLessThan(0.005);
    expect(Math.hypot(x[3 * 760] - x[0], x[3 * 760 + 1] - x[1], x[3 * 760 + 2] - x[2]) / (19 * 2.5)).toBeCloseTo(1, 2);
  });

  // Geometry of thin vessels (any text on strength of materials): hoop tension p r, axial tension p r / 2
  // with closed ends; the law is linear, so strain is tension over modulus. r is that of the polygon's circle.
  it('a capped tube under pressure stretches by p r / k1 round and p r / (2 k2) along', () => {
    const sheet = makeSheet(48, 61, true, 3, 3), p = 2e-5;
    const x = tubePositions(sheet, 48 * 3 / (2 * Math.PI), 3);
    const result = relax(x, [createQuadMembrane(sheet.elements, LINEAR)], [createPressure(closedTube(sheet), p)]);
    expect(result.status).toBe('converged');
    const girth = roundGirth(x, 30, 48), radius = girth / (2 * Math.PI);
    expect(girth / 144 - 1).toBeCloseTo(p * radius / LINEAR.courseModulus, 3);
    const along = (x[3 * 48 * 35 + 2] - x[3 * 48 * 25 + 2]) / 30 - 1;
    expect(along).toBeCloseTo(p * radius / (2 * LINEAR.waleModulus), 3);
    expect(along).toBeGreaterThan(0.004);
  });

  // Geometry: a tube pressed flat is half its girth wide. Plates 0.2 mm apart.
  it('a tube between plates is half its girth wide', () => {
    const sheet = makeSheet(60, 30, true, 3, 2.5), n = sheet.nodeCount;
    const x = tubePositions(sheet, 28, 2.5);
    for (let i = 0; i < n; i++) x[3 * i + 1] *= 0.02;
    const plates = createSlab({ axis: 1, least: new Float64Array(n).fill(-0.1), greatest: new Float64Array(n).fill(0.1), stiffness: 0.02 });
    const result = relax(x, [createQuadMembrane(sheet.elements, LINEAR), createBending(sheet.bends(1e-4)), plates], [], 1e-2);
    expect(result.status).toBe('converged');
    const xs = Array.from({ length: 60 }, (_, c) => x[3 * (15 * 60 + c)]);
    expect((Math.max(...xs) - Math.min(...xs)) / 90).toBeCloseTo(1, 2);
  });

  // Geometry: a disc with a fraction f cut out, rolled, is a cone with sin(half angle) = 1 - f.
  it('a rolled sector is a cone of the right half angle', () => {
    const f = 0.4, spokes = 36, rings = 16, from = 20, step = 4;
    const around = 2 * Math.PI * (1 - f) / spokes;
    const corners: number[] = [], rest: number[] = [];
    const x = new Float64Array(3 * spokes * rings);
    for (let r = 0; r < rings; r++) {
      for (let c = 0; c < spokes; c++) {
        const radius = from + r * step, turn = 2 * Math.PI * c / spokes, i = 3 * (r * spokes + c);
        x.set([radius * 0.4 * Math.cos(turn), radius * 0.5 * Math.sin(turn), radius * 0.9], i);
        if (r + 1 === rings) continue;
        const flat = (rr: number, k: number): [number, number] => [rr * Math.sin(k * around), rr * Math.cos(k * around)];
        const ids = [r * spokes + c, r * spokes + (c + 1) % spokes, (r + 1) * spokes + (c + 1) % spokes, (r + 1) * spokes + c];
        const places = [flat(radius, 0), flat(radius, 1), flat(radius + step, 1), flat(radius + step, 0)];
        for (const k of [0, 1, 2, 0, 2, 3]) { corners.push(ids[k]); rest.push(...places[k]); }
      }
    }
    // Seen so the corners run clockwise; the rest shape is mirrored to match.
    for (let k = 0; k < rest.length; k += 2) rest[k] = -rest[k];
    const shares = new Float64Array(corners.length / 3).fill(1);
    for (let t = 0; t < corners.length; t += 3) {
      [corners[t + 1], corners[t + 2]] = [corners[t + 2], corners[t + 1]];
      for (let k = 0; k < 2; k++) [rest[2 * t + 2 + k], rest[2 * t + 4 + k]] = [rest[2 * t + 4 + k], rest[2 * t + 2 + k]];
    }
    const cone = createTriangleMembrane({ corners: Int32Array.from(corners), rest: Float64Array.from(rest), shares, cellWidth: 4, cellHeight: 4 }, LINEAR);
    const lid = Int32Array.from({ length: spokes }, (_, c) => (rings - 1) * spokes + c);
    const tiny = createPressure({ start: Int32Array.of(0, spokes), corners: lid }, 0);
    const result = relax(x, [cone], [tiny]);
    expect(result.status).toBe('converged');
    const middle = (row: number): number[] => [0, 1, 2].map((a) => Array.from({ length: spokes }, (_, c) => x[3 * (row * spokes + c) + a]).reduce((s, v) => s + v, 0) / spokes);
    const radiusOf = (row: number): number => roundGirth(x, row, spokes) / (2 * Math.PI);
    const low = middle(3), high = middle(rings - 3);
    const rise = Math.hypot(high[0] - low[0], high[1] - low[1], high[2] - low[2]);
    const halfAngle = Math.atan((radiusOf(rings - 3) - radiusOf(3)) / rise);
    expect(Math.sin(halfAngle) / (1 - f)).toBeCloseTo(1, 2);
  });

  // Statics: a strip hung from one end carries at each height the weight below it.
  it('a hanging strip stretches at each height by the weight below', () => {
    const sheet = makeSheet(5, 41, false, 3, 3), n = sheet.nodeCount, weight = 2e-5;
    const x = new Float64Array(3 * n);
    for (let i = 0; i < n; i++) x.set([3 * (i % 5), 0, -3 * Math.floor(i / 5)], 3 * i);
    const elements = { ...sheet.elements, corners: sheet.elements.corners.map((_, k, all) => all[(k & ~3) + [3, 2, 1, 0][k & 3]]) };
    const membrane = createQuadMembrane(elements, LINEAR);
    const pins = createPins({ nodes: Int32Array.of(0, 1, 2, 3, 4), places: x.slice(0, 15), stiffness: 1 });
    const result = relax(x, [membrane, pins], [createGravity(new Float64Array(n).map((_, i) => (i % 5 % 4 === 0 ? weight / 2 : weight)), [0, 0, -1])]);
    expect(result.status).toBe('converged');
    for (const row of [0, 10, 30]) {
      const strain = (x[3 * (5 * row + 2) + 2] - x[3 * (5 * (row + 1) + 2) + 2]) / 3 - 1;
      const tension = weight * 4 * (40 - row) / 12;
      expect(strain).toBeCloseTo(tension / LINEAR.waleModulus, 4);
    }
  });
});
