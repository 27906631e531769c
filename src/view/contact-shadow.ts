/** Side of the shadow map in texels. */
export const SHADOW_SIZE = 128;

/**
 * The plane that the sock rests on and the darkness it casts there: a table behind it (plane
 * across y) or the floor (plane across z).
 */
export interface ContactShadow {
  readonly isTable: boolean;
  /** Middle of the map in space, and the side of its square, mm. */
  readonly centre: readonly [number, number, number];
  readonly sideMm: number;
  /** SHADOW_SIZE squared, 0..255, rows along the second axis (table: x, z; floor: x, y). */
  readonly darkness: Uint8Array;
}

/** Extents along the axes, low then high. */
export function extents(positions: Float64Array): Float64Array {
  const box = Float64Array.of(Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity);
  for (let i = 0; i < positions.length; i++) {
    const d = i % 3;
    box[d] = Math.min(box[d], positions[i]);
    box[3 + d] = Math.max(box[3 + d], positions[i]);
  }
  return box;
}

/** Running mean over 2 r + 1 texels along rows, then transposed: twice gives a box blur of both axes. */
function blurTransposed(from: Float32Array, r: number): Float32Array {
  const n = SHADOW_SIZE, to = new Float32Array(n * n), scale = 1 / (2 * r + 1);
  for (let row = 0; row < n; row++) {
    let sum = 0;
    for (let i = -r; i < n + r; i++) {
      const enter = i + r, leave = i - r - 1;
      if (enter < n && enter >= 0) sum += from[row * n + enter];
      if (leave >= 0) sum -= from[row * n + leave];
      if (i >= 0 && i < n) to[i * n + row] = sum * scale;
    }
  }
  return to;
}

/** Three box blurs come near a Gaussian (central limit theorem). */
function blur(map: Float32Array, radius: number): Float32Array {
  let out = map;
  for (let round = 0; round < 6; round++) out = blurTransposed(out, radius);
  return out;
}

/** Adds a point's share to the four texels round it. */
function splat(map: Float32Array, u: number, v: number, weight: number): void {
  const x = Math.floor(u), y = Math.floor(v), fx = u - x, fy = v - y;
  if (x < 0 || y < 0 || x + 1 >= SHADOW_SIZE || y + 1 >= SHADOW_SIZE) return;
  const at = y * SHADOW_SIZE + x;
  map[at] += weight * (1 - fx) * (1 - fy);
  map[at + 1] += weight * fx * (1 - fy);
  map[at + SHADOW_SIZE] += weight * (1 - fx) * fy;
  map[at + SHADOW_SIZE + 1] += weight * fx * fy;
}

/**
 * Darkness under cloth whose points (three entries each, mm) each stand for `areaMm2`, on a table
 * behind it or on the floor under it. Cloth near
 * the plane casts a dark, close shadow, cloth high above it a faint, wide one: two layers by
 * height, blurred apart. Reaches and strengths chosen by eye.
 */
export function castContactShadow(positions: Float64Array, areaMm2: number, isTable: boolean): ContactShadow {
  const box = extents(positions);
  const dx = box[3] - box[0], dy = box[4] - box[1], dz = box[5] - box[2];
  const second = isTable ? 2 : 1, across = isTable ? 1 : 2;
  const plane = isTable ? box[4] + 0.6 : box[2] - 0.6;
  const mid = (d: number): number => (box[d] + box[3 + d]) / 2;
  const sideMm = 1.25 * Math.max(dx, isTable ? dz : dy) + 120;
  const texel = sideMm / SHADOW_SIZE, share = areaMm2 / (texel * texel);
  const near = new Float32Array(SHADOW_SIZE ** 2), far = new Float32Array(SHADOW_SIZE ** 2);
  const place = (value: number, d: number): number => (value - mid(d)) / texel + SHADOW_SIZE / 2 - 0.5;
  for (let i = 0; i < positions.length; i += 3) {
    const height = Math.abs(positions[i + across] - plane);
    const u = place(positions[i], 0), v = place(positions[i + second], second);
    splat(near, u + (isTable ? 2 / texel : 0), v - (isTable ? 3 / texel : 0), share * Math.exp(-height / 9));
    splat(far, u + (isTable ? 7 / texel : 0), v - (isTable ? 10 / texel : 0), 0.6 * share * Math.exp(-height / 70));
  }
  const nearSoft = blur(near.map((d) => Math.min(1, d)), 1);
  const farSoft = blur(far.map((d) => Math.min(1, d)), Math.max(1, Math.round(9 / texel)));
  const darkness = Uint8Array.from(nearSoft, (d, i) =>
    Math.round(255 * (1 - (1 - 0.62 * Math.min(1, d)) * (1 - 0.55 * Math.min(1, farSoft[i])))));
  const centre = isTable ? [mid(0), plane, mid(2)] as const : [mid(0), mid(1), plane] as const;
  return { isTable, centre, sideMm, darkness };
}
