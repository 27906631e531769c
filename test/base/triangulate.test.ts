import { describe, expect, it } from 'vitest';
import { triangulatePolygon } from '../../src/base/triangulate.ts';

/** Shoelace formula: the area of a simple polygon from its corners alone. */
function polygonArea(p: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < p.length; i += 2) {
    const j = (i + 2) % p.length;
    sum += p[i] * p[j + 1] - p[i + 1] * p[j];
  }
  return sum / 2;
}

function triangleAreas(p: readonly number[], triangles: readonly number[]): number[] {
  const areas: number[] = [];
  for (let i = 0; i < triangles.length; i += 3) {
    areas.push(polygonArea(triangles.slice(i, i + 3).flatMap((c) => [p[2 * c], p[2 * c + 1]])));
  }
  return areas;
}

/** Shapes as a sock's cells have them: decrease, mitre with straight corners, heel corner, and worse. */
const POLYGONS: Readonly<Record<string, readonly number[]>> = {
  square: [0, 0, 1, 0, 1, 1, 0, 1],
  triangle: [0, 0, 1, 0, 0.5, 1],
  'mitre cell with a straight corner': [0, 0, 0, 1, 0, 2, -1, 0].map((v, i) => (i % 2 === 0 ? -v : v)).reverse().map((_, i, a) => a[i ^ 1]),
  'heel corner of six sides': [0, 0, 1, 0, 1, 1, 1, 2, 0, 3, 0, 1.5],
  'skew mitre cell': [0, 0, 1, -2, 1, -1, 1, 0, 1, 1, 0, 1],
  'bay that bends inward': [0, 0, 3, 0, 3, 3, 1.5, 0.5, 0, 3],
};

describe('triangulatePolygon', () => {
  // Any triangulation of a simple polygon of n corners has n - 2 triangles of its orientation whose areas add up to its own (closed-form geometry).
  it.each(Object.entries(POLYGONS))('covers a %s once', (_, polygon) => {
    expect(polygonArea(polygon)).toBeGreaterThan(0);
    const triangles = triangulatePolygon(polygon);
    const areas = triangleAreas(polygon, triangles);
    expect(areas).toHaveLength(polygon.length / 2 - 2);
    expect(areas.reduce((a, b) => a + b, 0)).toBeCloseTo(polygonArea(polygon), 12);
    for (const area of areas) expect(area).toBeGreaterThan(1e-9);
  });

  it('keeps its count where a polygon has no area', () => {
    expect(triangulatePolygon([0, 0, 1, 0, 2, 0, 3, 0])).toHaveLength(6);
  });
});
