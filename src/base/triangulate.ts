/** Twice the signed area of the triangle a, b, c; positive when counter-clockwise. */
function cross(p: ArrayLike<number>, a: number, b: number, c: number): number {
  const ax = p[2 * a], ay = p[2 * a + 1];
  return (p[2 * b] - ax) * (p[2 * c + 1] - ay) - (p[2 * b + 1] - ay) * (p[2 * c] - ax);
}

function isInside(p: ArrayLike<number>, a: number, b: number, c: number, q: number): boolean {
  return cross(p, a, b, q) >= 0 && cross(p, b, c, q) >= 0 && cross(p, c, a, q) >= 0;
}

/** Worst corner of a triangle, as its least height over its longest side: 0 for a sliver. */
function fatness(p: ArrayLike<number>, a: number, b: number, c: number): number {
  const side = (i: number, j: number): number =>
    (p[2 * i] - p[2 * j]) ** 2 + (p[2 * i + 1] - p[2 * j + 1]) ** 2;
  return cross(p, a, b, c) / Math.max(side(a, b), side(b, c), side(c, a));
}

/** Of the ears of the remaining ring, the fattest; -1 if there is none. */
function bestEar(points: ArrayLike<number>, ring: readonly number[]): number {
  const m = ring.length;
  let best = -1;
  let bestFatness = 1e-9;
  for (let i = 0; i < m; i++) {
    const a = ring[(i + m - 1) % m], b = ring[i], c = ring[(i + 1) % m];
    const fat = fatness(points, a, b, c);
    if (fat <= bestFatness) continue;
    if (ring.some((q) => q !== a && q !== b && q !== c && isInside(points, a, b, c, q))) continue;
    best = i;
    bestFatness = fat;
  }
  return best;
}

/**
 * Ear clipping of a simple polygon, counter-clockwise, corners may be straight; two entries a
 * corner. Gives n - 2 triangles, three corner numbers each. The fattest ear goes first, so that
 * a straight corner ends inside a triangle's side and not in a sliver. Where no ear is left (a
 * polygon of no area) the rest is fanned: the count stays n - 2.
 */
export function triangulatePolygon(points: ArrayLike<number>): number[] {
  const ring = Array.from({ length: points.length / 2 }, (_, i) => i);
  const triangles: number[] = [];
  while (ring.length > 3) {
    const m = ring.length;
    const found = bestEar(points, ring);
    const i = found < 0 ? 1 : found;
    triangles.push(ring[(i + m - 1) % m], ring[i], ring[(i + 1) % m]);
    ring.splice(i, 1);
  }
  triangles.push(ring[0], ring[1], ring[2]);
  return triangles;
}
