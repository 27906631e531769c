import type { TriangleElements } from '../../src/solve/triangle-membrane.ts';

/**
 * A flat disc: node 0 is the centre, node 1 + ring * spokes + spoke lies at radius
 * (ring + 1) radius / rings. Each cell between rings is covered twice, by both of its diagonals, so that
 * mirror images stay mirror images.
 */
export interface Disc {
  readonly spokes: number;
  readonly rings: number;
  readonly nodeCount: number;
  /** Rest: across the spoke (course), along the spoke outwards (wale), of each triangle's own middle. */
  readonly elements: TriangleElements;
  /** Area that each node stands for, mm^2: a third of each triangle. */
  readonly nodeAreas: Float64Array;
  /** The upper side seen from above, for pressure: triangles and cells, counter-clockwise. */
  readonly polygons: { readonly start: Int32Array; readonly corners: Int32Array };
  /** Positions with each node at (radiusAt, heightAt) of its place along the spoke, 0 at the centre to 1 at the rim. */
  readonly positions: (radiusAt: (t: number) => number, heightAt: (t: number) => number) => Float64Array;
}

export function makeDisc(spokes: number, rings: number, radius: number): Disc {
  const id = (ring: number, spoke: number): number => (ring < 0 ? 0 : 1 + ring * spokes + spoke % spokes);
  const corners: number[] = [], rest: number[] = [], shares: number[] = [], polygons: number[] = [], start = [0];
  const half = Math.PI / spokes;
  for (let ring = -1; ring + 1 < rings; ring++) {
    const inner = (ring + 1) * radius / rings, outer = (ring + 2) * radius / rings;
    for (let s = 0; s < spokes; s++) {
      // Seen from above with the spokes upwards, later spokes lie to the left.
      const ids = [id(ring, s + 1), id(ring, s), id(ring + 1, s), id(ring + 1, s + 1)];
      const places = [-inner, inner, outer, -outer].map((r) => [r * Math.sin(half), Math.abs(r) * Math.cos(half)]);
      const covers = ring < 0 ? [[0, 2, 3]] : [[0, 1, 2], [0, 2, 3], [1, 2, 3], [0, 1, 3]];
      for (const cover of covers) {
        corners.push(...cover.map((k) => ids[k]));
        rest.push(...cover.flatMap((k) => places[k]));
        shares.push(ring < 0 ? 1 : 0.5);
      }
      polygons.push(...(ring < 0 ? [ids[0], ids[2], ids[3]] : ids));
      start.push(polygons.length);
    }
  }
  const nodeCount = 1 + spokes * rings, cell = radius / rings;
  const elements: TriangleElements = {
    corners: Int32Array.from(corners), rest: Float64Array.from(rest), shares: Float64Array.from(shares), cellWidth: cell, cellHeight: cell,
  };
  return {
    spokes, rings, nodeCount, elements, nodeAreas: sumAreas(elements, nodeCount),
    polygons: { start: Int32Array.from(start), corners: Int32Array.from(polygons) },
    positions: (radiusAt, heightAt) => {
      const x = new Float64Array(3 * nodeCount);
      x[2] = heightAt(0);
      for (let ring = 0; ring < rings; ring++) {
        const t = (ring + 1) / rings;
        for (let s = 0; s < spokes; s++) x.set([radiusAt(t) * Math.cos(2 * half * s), radiusAt(t) * Math.sin(2 * half * s), heightAt(t)], 3 * id(ring, s));
      }
      return x;
    },
  };
}

function sumAreas({ corners, rest, shares }: TriangleElements, nodeCount: number): Float64Array {
  const areas = new Float64Array(nodeCount);
  for (let t = 0; t < shares.length; t++) {
    const [ax, ay, bx, by, cx, cy] = rest.subarray(6 * t, 6 * t + 6);
    const third = shares[t] * ((bx - ax) * (cy - ay) - (by - ay) * (cx - ax)) / 6;
    for (let k = 0; k < 3; k++) areas[corners[3 * t + k]] += third;
  }
  return areas;
}
