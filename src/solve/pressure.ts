import type { EnergyTerm } from './energy.ts';
import { STRIDE } from './energy.ts';

/** Polygons of a closed surface, counter-clockwise seen from outside; caps of openings among them. */
export interface Polygons {
  readonly start: Int32Array;
  readonly corners: Int32Array;
}

/**
 * Energy -p V of the enclosed volume, each polygon spanned by the fan about its corners' mean c:
 * V = 1/6 sum c . S, S = sum of x_i x x_(i+1). Conservative for any closed surface; an opening
 * counts as capped when its boundary loop is given as one polygon.
 */
export function createPressure(polygons: Polygons, pressure: number): EnergyTerm {
  const { start, corners } = polygons;
  const count = start.length - 1;

  function addGradient(x: Float64Array, g: Float64Array): number {
    let volume6 = 0;
    const scale = -pressure / 6;
    for (let p = 0; p < count; p++) {
      const from = start[p], end = start[p + 1], size = end - from;
      let cx = 0, cy = 0, cz = 0, sx = 0, sy = 0, sz = 0;
      let i = corners[end - 1] * STRIDE;
      for (let k = from; k < end; k++) {
        const j = corners[k] * STRIDE;
        const ax = x[i], ay = x[i + 1], az = x[i + 2], bx = x[j], by = x[j + 1], bz = x[j + 2];
        cx += bx; cy += by; cz += bz;
        sx += ay * bz - az * by; sy += az * bx - ax * bz; sz += ax * by - ay * bx;
        i = j;
      }
      cx /= size; cy /= size; cz /= size;
      volume6 += cx * sx + cy * sy + cz * sz;
      sx /= size; sy /= size; sz /= size;
      let before = corners[end - 1] * STRIDE;
      for (let k = from; k < end; k++) {
        const at = corners[k] * STRIDE, after = corners[k + 1 < end ? k + 1 : from] * STRIDE;
        const dx = x[after] - x[before], dy = x[after + 1] - x[before + 1], dz = x[after + 2] - x[before + 2];
        g[at] += scale * (sx + dy * cz - dz * cy);
        g[at + 1] += scale * (sy + dz * cx - dx * cz);
        g[at + 2] += scale * (sz + dx * cy - dy * cx);
        before = at;
      }
    }
    return scale * volume6;
  }

  return { addGradient };
}

/** Volume enclosed by the polygons, mm^3. */
export function enclosedVolume(polygons: Polygons, positions: Float64Array): number {
  return -createPressure(polygons, 1).addGradient(positions, new Float64Array(positions.length));
}
