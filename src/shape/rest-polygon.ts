import type { Fabric } from '../fabric/fabric.ts';

/** A corner of a cell: its vertex and its place on the flat rest shape (course, wale), mm. */
export interface Corner { readonly vertex: number; readonly s: number; readonly t: number }

/** A corner triangle thinner than this share of its quad's area cannot stand for the corner. */
const THIN = 0.1;

/**
 * The rest shape of a cell. A four-sided cell that is cut so askew that a side or a corner of it
 * vanishes is taken as its mean parallelogram, which has the cell's area.
 */
export function restPolygon(fabric: Fabric, cell: number): Corner[] {
  const out: Corner[] = [];
  for (let k = fabric.cellStart[cell]; k < fabric.cellStart[cell + 1]; k++) {
    out.push({ vertex: fabric.cellVertices[k], s: fabric.cellRestMm[2 * k], t: fabric.cellRestMm[2 * k + 1] });
  }
  return out.length === 4 && !isPlumpQuad(out) ? meanParallelogram(out) : out;
}

/** Twice the signed area of a triangle in rest coordinates. */
export function doubleArea(a: Corner, b: Corner, c: Corner): number {
  return (b.s - a.s) * (c.t - a.t) - (c.s - a.s) * (b.t - a.t);
}

export function isPlumpQuad(polygon: readonly Corner[]): boolean {
  const [a, b, c, d] = polygon;
  const area = doubleArea(a, b, c) + doubleArea(a, c, d);
  return polygon.every((corner, k) => doubleArea(corner, polygon[(k + 1) % 4], polygon[(k + 3) % 4]) > THIN * area);
}

/** Opposite sides replaced by their mean, the first corner kept. */
function meanParallelogram([a, b, c, d]: readonly Corner[]): Corner[] {
  const us = (b.s - a.s + c.s - d.s) / 2, ut = (b.t - a.t + c.t - d.t) / 2;
  const vs = (d.s - a.s + c.s - b.s) / 2, vt = (d.t - a.t + c.t - b.t) / 2;
  return [
    { vertex: a.vertex, s: 0, t: 0 }, { vertex: b.vertex, s: us, t: ut },
    { vertex: c.vertex, s: us + vs, t: ut + vt }, { vertex: d.vertex, s: vs, t: vt },
  ];
}

/** Triangles of a simple polygon: the plumpest ear first, so that none is a sliver where it can be helped. */
export function clipEars(polygon: readonly Corner[]): [Corner, Corner, Corner][] {
  const left = [...polygon];
  const out: [Corner, Corner, Corner][] = [];
  while (left.length >= 3) {
    let best = -1, bestQuality = 0;
    for (let k = 0; k < left.length; k++) {
      const a = left[(k + left.length - 1) % left.length], b = left[k], c = left[(k + 1) % left.length];
      if (left.some((p) => p !== a && p !== b && p !== c && isInside(p, a, b, c))) continue;
      const quality = plumpness(a, b, c);
      if (quality > bestQuality) { best = k; bestQuality = quality; }
    }
    if (best < 0) break;
    const n = left.length;
    out.push([left[(best + n - 1) % n], left[best], left[(best + 1) % n]]);
    left.splice(best, 1);
  }
  return out;
}

function isInside(p: Corner, a: Corner, b: Corner, c: Corner): boolean {
  return doubleArea(a, b, p) >= 0 && doubleArea(b, c, p) >= 0 && doubleArea(c, a, p) >= 0;
}

/** Area over the sum of squared sides, 0 for a triangle without area. */
function plumpness(a: Corner, b: Corner, c: Corner): number {
  const side = (p: Corner, q: Corner): number => (p.s - q.s) ** 2 + (p.t - q.t) ** 2;
  const quality = doubleArea(a, b, c) / (side(a, b) + side(b, c) + side(c, a));
  return quality > 1e-6 ? quality : 0;
}
