import { CORNER_STRIDE } from './stitch-frames.ts';

/** Triangles in one block of the picker. */
const BLOCK = 48;

/** What a ray can hit: drawn triangles, and spheres around blocks of them (x, y, z, radius squared). */
export interface Picker { readonly index: Uint32Array; readonly positions: Float32Array; readonly spheres: Float64Array }

/** Widens a box, low and high, by the given points. */
function growBox(low: Float64Array, high: Float64Array, positions: Float32Array, points: Uint32Array): void {
  for (const point of points) {
    for (let d = 0; d < 3; d++) {
      const value = positions[3 * point + d];
      if (value < low[d]) low[d] = value;
      if (value > high[d]) high[d] = value;
    }
  }
}

/** Encloses every block of consecutive triangles in a sphere about its box's centre. */
export function buildPicker(index: Uint32Array, positions: Float32Array): Picker {
  const blocks = Math.ceil(index.length / (3 * BLOCK));
  const spheres = new Float64Array(4 * blocks);
  const low = new Float64Array(3), high = new Float64Array(3);
  for (let block = 0; block < blocks; block++) {
    const from = 3 * BLOCK * block, to = Math.min(index.length, from + 3 * BLOCK);
    growBox(low.fill(Infinity), high.fill(-Infinity), positions, index.subarray(from, to));
    let square = 0;
    for (let d = 0; d < 3; d++) {
      spheres[4 * block + d] = (low[d] + high[d]) / 2;
      square += ((high[d] - low[d]) / 2) ** 2;
    }
    spheres[4 * block + 3] = square;
  }
  return { index, positions, spheres };
}

/** A triangle hit: its first index entry, distance along the ray, and the weights of its second and third corner. */
export interface Hit { readonly at: number; readonly distance: number; readonly u: number; readonly v: number }

function missesSphere(s: Float64Array, block: number, o: ArrayLike<number>, d: ArrayLike<number>): boolean {
  const x = s[4 * block] - o[0], y = s[4 * block + 1] - o[1], z = s[4 * block + 2] - o[2];
  const along = x * d[0] + y * d[1] + z * d[2];
  return x * x + y * y + z * z - along * along > s[4 * block + 3];
}

/** Both sides count. Moeller T., Trumbore B., J. Graphics Tools 2 (1997) 21-28, solved for one triangle. */
function hitTriangle(p: Float32Array, a: number, b: number, c: number, o: ArrayLike<number>, d: ArrayLike<number>): readonly [number, number, number] | null {
  const ax = p[a], ay = p[a + 1], az = p[a + 2];
  const e1x = p[b] - ax, e1y = p[b + 1] - ay, e1z = p[b + 2] - az;
  const e2x = p[c] - ax, e2y = p[c + 1] - ay, e2z = p[c + 2] - az;
  const hx = d[1] * e2z - d[2] * e2y, hy = d[2] * e2x - d[0] * e2z, hz = d[0] * e2y - d[1] * e2x;
  const det = e1x * hx + e1y * hy + e1z * hz;
  if (Math.abs(det) < 1e-12) return null;
  const sx = o[0] - ax, sy = o[1] - ay, sz = o[2] - az;
  const u = (sx * hx + sy * hy + sz * hz) / det;
  if (u < 0 || u > 1) return null;
  const qx = sy * e1z - sz * e1y, qy = sz * e1x - sx * e1z, qz = sx * e1y - sy * e1x;
  const v = (d[0] * qx + d[1] * qy + d[2] * qz) / det;
  if (v < 0 || u + v > 1) return null;
  const t = (e2x * qx + e2y * qy + e2z * qz) / det;
  return t > 0 ? [t, u, v] : null;
}

/** Nearest triangle along a ray (unit direction) that it meets at no smaller y than the least, or null. */
export function castRay(picker: Picker, origin: ArrayLike<number>, direction: ArrayLike<number>, leastY = -Infinity): Hit | null {
  const { index, positions, spheres } = picker;
  let best: Hit | null = null;
  for (let block = 0; 4 * block < spheres.length; block++) {
    if (missesSphere(spheres, block, origin, direction)) continue;
    const from = 3 * BLOCK * block, to = Math.min(index.length, from + 3 * BLOCK);
    for (let i = from; i < to; i += 3) {
      const hit = hitTriangle(positions, 3 * index[i], 3 * index[i + 1], 3 * index[i + 2], origin, direction);
      if (hit && origin[1] + hit[0] * direction[1] >= leastY && (best === null || hit[0] < best.distance)) best = { at: i, distance: hit[0], u: hit[1], v: hit[2] };
    }
  }
  return best;
}

/** What `nearestVertex` reads of a cloth. */
export interface PickedCloth {
  readonly index: Uint32Array;
  readonly rest: Float32Array;
  readonly cellOf: Int32Array;
  readonly corners: Float32Array;
}

/** Fabric vertex whose stitch covers the hit point: the nearest corner of the cell, measured in stitches and rows. */
export function nearestVertex(cloth: PickedCloth, hit: Hit): number {
  const { index, rest, cellOf, corners } = cloth;
  const a = index[hit.at], b = index[hit.at + 1], c = index[hit.at + 2], w = 1 - hit.u - hit.v;
  const x = w * rest[2 * a] + hit.u * rest[2 * b] + hit.v * rest[2 * c];
  const y = w * rest[2 * a + 1] + hit.u * rest[2 * b + 1] + hit.v * rest[2 * c + 1];
  const first = cellOf[2 * a], count = cellOf[2 * a + 1] & 255;
  let best = -1, bestSquare = Infinity;
  for (let k = first; k < first + count; k++) {
    const at = CORNER_STRIDE * k, dx = x - corners[at], dy = y - corners[at + 1];
    const qx = corners[at + 2] * dx + corners[at + 3] * dy, qy = corners[at + 4] * dx + corners[at + 5] * dy;
    const square = qx * qx + qy * qy;
    if (square < bestSquare) { bestSquare = square; best = corners[at + 6]; }
  }
  return best;
}
