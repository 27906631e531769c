import { describe, expect, it } from 'vitest';
import { restAreaMm2 } from '../../src/fabric/check-fabric.ts';
import { makeClothBending } from '../../src/shape/cloth-bending.ts';
import { makeClothElements } from '../../src/shape/cloth-elements.ts';
import { SOCK_CLOTH } from '../../src/shape/cloth-table.ts';
import { fairShape } from '../../src/shape/fair-shape.ts';
import { closeCloth } from '../../src/shape/inner-pressure.ts';
import { makeStartShape } from '../../src/shape/start-shape.ts';
import { createBending, enclosedVolume } from '../../src/solve/index.ts';
import { knitSmallSock } from './small-sock.ts';

const fabric = knitSmallSock();

describe('membrane elements', () => {
  it.each([
    ['decreased toe', fabric],
    ['short-row toe and plateau', knitSmallSock({ toe: { kind: 'short-row' }, heel: { turnDownWidth: 6, plateauPasses: 4 } })],
    ['tube leg', knitSmallSock({ leg: { kind: 'tube' } })],
  ])('%s: cover the cloth once', (_, cloth) => {
    const { rectangles, triangles } = makeClothElements(cloth);
    let covered = 0;
    for (let q = 0; q < rectangles.widths.length; q++) covered += rectangles.widths[q] * rectangles.heights[q];
    for (let t = 0; t < triangles.shares.length; t++) {
      const [as, at, bs, bt, cs, ct] = triangles.rest.subarray(6 * t, 6 * t + 6);
      const area = ((bs - as) * (ct - at) - (cs - as) * (bt - at)) / 2;
      expect(area).toBeGreaterThan(0);
      covered += triangles.shares[t] * area;
    }
    let whole = 0;
    for (let cell = 0; cell + 1 < cloth.cellStart.length; cell++) whole += restAreaMm2(cloth, cell);
    expect(covered / whole).toBeCloseTo(1, 9);
  });
});

describe('bends', () => {
  it('meet every vertex within the cloth in both directions', () => {
    const { middle, weights } = makeClothBending(fabric, SOCK_CLOTH);
    const counts = new Int32Array(fabric.vertexCount);
    for (const vertex of middle) counts[vertex]++;
    const isEdge = new Set(fabric.boundaryVertices);
    for (let v = 0; v < fabric.vertexCount; v++) expect(counts[v]).toBeGreaterThanOrEqual(isEdge.has(v) ? 1 : 2);
    expect(weights.every((weight) => weight > 0)).toBe(true);
  });

  // Thin shells: a sheet rolled to radius R stores B / (2 R^2) per area (any text on plates). The leg is rolled, the rest put away flat.
  it('store B / (2 R^2) per area of a rolled leg', () => {
    const bends = makeClothBending(fabric, SOCK_CLOTH);
    const isLeg = (v: number): boolean => fabric.vertexSection[v] <= 1 && fabric.vertexRow[v] > 2 && fabric.vertexRow[v] < 12;
    const x = new Float64Array(3 * fabric.vertexCount), radius = 18 * fabric.ribCourseMm / Math.PI;
    for (let v = 0; v < fabric.vertexCount; v++) {
      const turn = 2 * Math.PI * fabric.vertexAround[v];
      x.set([radius * Math.cos(turn), radius * Math.sin(turn), fabric.vertexRow[v] * fabric.waleMm], 3 * v);
    }
    const keep = Array.from(bends.weights.keys()).filter((f) => isLeg(bends.middle[f]));
    const pick = <T extends Int32Array | Float64Array>(all: T): T => all.filter((_, f) => keep.includes(f)) as T;
    const energy = createBending({
      middle: pick(bends.middle), ahead: pick(bends.ahead), behindFirst: pick(bends.behindFirst), behindSecond: pick(bends.behindSecond),
      share: pick(bends.share), lengthAhead: pick(bends.lengthAhead), lengthBehind: pick(bends.lengthBehind), weights: pick(bends.weights),
    }).addGradient(x, new Float64Array(x.length));
    const area = new Set(keep.map((f) => bends.middle[f])).size * fabric.ribCourseMm * fabric.waleMm;
    expect(energy / (SOCK_CLOTH.courseBending / (2 * radius * radius) * area)).toBeCloseTo(1, 1);
  });
});

describe('the start', () => {
  it('encloses a sock of about the right room, outer side out', () => {
    const x = makeStartShape(fabric, 'round');
    const tube = (36 * fabric.courseMm) ** 2 / (4 * Math.PI);
    const volume = enclosedVolume(closeCloth(fabric), x);
    const rows = Math.max(...fabric.vertexRow);
    expect(volume).toBeGreaterThan(0.5 * tube * rows * fabric.waleMm);
    expect(volume).toBeLessThan(1.3 * tube * rows * fabric.waleMm);
  });

  it('keeps its size while jitter is smoothed away', () => {
    const x = makeStartShape(fabric, 'round'), faired = x.slice();
    faired.forEach((_, i) => { faired[i] += i % 2 === 0 ? 1 : -1; });
    fairShape(fabric, faired, 15);
    const volume = (of: Float64Array): number => enclosedVolume(closeCloth(fabric), of);
    expect(volume(faired) / volume(x)).toBeCloseTo(1, 1);
    const far = faired.reduce((worst, value, i) => Math.max(worst, fabric.vertexSection[Math.floor(i / 3)] === 7 ? Math.abs(value - x[i]) : 0), 0);
    expect(far).toBeLessThan(4);
  });
});
