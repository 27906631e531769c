import type { FootForm } from './foot-form.ts';
import type { Body, ConeBody, RoundCone } from './round-cones.ts';

export interface SampleOptions {
  /** Above this height distances are worked out, mm; default the calf's. */
  readonly topMm?: number;
  /** Distances that are looked up, inside and outside of the skin, mm; others are worked out. */
  readonly insideMm?: number;
  readonly outsideMm?: number;
}

/** Chosen by eye: cloth that is pressed in, and that stands off a little. */
const INSIDE_MM = 3, OUTSIDE_MM = 6;
/** Way between samples, a share of the foot's length. `measured`: the distance in the band is off by at most 0.04 mm on an adult's foot. */
const STEP = 0.015;
/** Samples along an edge of the blocks that are kept or left out as a whole. */
const BLOCK = 4;

/**
 * A foot's distance for quick looking up near the skin: a quadratic B-spline over samples in a regular
 * grid, so that the distance and its gradient run on without a step, and the gradient is exactly that
 * of the distance that is told. The coefficients are c = f - (second differences along x, y and z) / 8,
 * by which a quadric is met exactly (quasi-interpolation: de Boor C. and Fix G. J., J. Approx. Theory 8
 * (1973) 19-45). Away from the band it is the foot's own. A left foot's is a right foot's, mirrored.
 */
export function sampleFootDistance(foot: FootForm, options: SampleOptions = {}): Body {
  if (foot.looks.side === 'right') return sampleCones(foot, foot, options);
  return mirrorBody(sampleCones(foot, { ...mirrorBody(foot), nearPoint: (x, y, z, radius) => mirrorRead(foot.nearPoint(x, -y, z, radius)) }, options));
}

function mirrorRead(read: (x: number, y: number, z: number) => number): (x: number, y: number, z: number) => number {
  return (x, y, z) => read(x, -y, z);
}

function mirrorBody(body: Body): Body {
  return {
    distanceAt(x, y, z, normal) {
      const d = body.distanceAt(x, -y, z, normal);
      normal[1] = -normal[1];
      return d;
    },
  };
}

function sampleCones({ cones, measures, calfMm, looks }: FootForm, body: ConeBody, options: SampleOptions): Body {
  const { topMm = calfMm, insideMm = INSIDE_MM, outsideMm = OUTSIDE_MM } = options, h = STEP * measures.lengthMm;
  // A point's 27 samples lie within 1.5 steps of it along each axis.
  const spread = 1.5 * Math.sqrt(3) * h, box = boxOf(cones, looks.side === 'right' ? 1 : -1, topMm, outsideMm + spread, h);
  const band = { least: -insideMm - spread, most: outsideMm + spread };
  return lookUp(body, filterSamples(takeSamples(body, box, band, h), box, band), box, h);
}

/** Whole numbers of steps: first sample along each axis, and how many. */
interface Box { readonly first: readonly number[]; readonly counts: readonly number[] }
interface Band { readonly least: number; readonly most: number }

function boxOf(cones: readonly RoundCone[], side: number, topMm: number, margin: number, h: number): Box {
  const low = [Infinity, Infinity, Infinity], high = [-Infinity, -Infinity, -Infinity];
  for (const { from, to, r1, r2 } of cones) {
    for (let axis = 0; axis < 3; axis++) {
      const sign = axis === 1 ? side : 1;
      low[axis] = Math.min(low[axis], sign * from[axis] - r1, sign * to[axis] - r2);
      high[axis] = Math.max(high[axis], sign * from[axis] + r1, sign * to[axis] + r2);
    }
  }
  high[2] = Math.min(high[2], topMm);
  const first = low.map((value) => Math.floor((value - margin) / h) - 1);
  return { first, counts: high.map((value, axis) => Math.ceil((value + margin) / h) + 2 - first[axis]) };
}

/** Distances at the samples in and beside the band, x the quickest; not a number elsewhere. */
function takeSamples(foot: ConeBody, box: Box, band: Band, h: number): Float64Array {
  const [nx, ny, nz] = box.counts, values = new Float64Array(nx * ny * nz).fill(NaN), normal = new Float64Array(3);
  const half = 0.5 * (BLOCK - 1) * h, radius = Math.sqrt(3) * half;
  const [blocksX, blocksY, blocksZ] = box.counts.map((count) => Math.ceil(count / BLOCK));
  for (let block = 0; block < blocksX * blocksY * blocksZ; block++) {
    const i = BLOCK * (block % blocksX), j = BLOCK * (Math.floor(block / blocksX) % blocksY), k = BLOCK * Math.floor(block / (blocksX * blocksY));
    const x = (box.first[0] + i) * h + half, y = (box.first[1] + j) * h + half, z = (box.first[2] + k) * h + half;
    const d = foot.distanceAt(x, y, z, normal);
    // One step more than the band, for the differences.
    if (d - radius <= band.most + h && d + radius >= band.least - h) sampleBlock(values, foot.nearPoint(x, y, z, radius), box, [i, j, k], h);
  }
  return values;
}

function sampleBlock(values: Float64Array, read: (x: number, y: number, z: number) => number, { first, counts }: Box, [i, j, k]: readonly number[], h: number): void {
  const [nx, ny, nz] = counts;
  for (let c = k; c < Math.min(k + BLOCK, nz); c++) {
    for (let b = j; b < Math.min(j + BLOCK, ny); b++) {
      for (let a = i; a < Math.min(i + BLOCK, nx); a++) values[(c * ny + b) * nx + a] = read((first[0] + a) * h, (first[1] + b) * h, (first[2] + c) * h);
    }
  }
}

/** Coefficients where all six neighbours are sampled; not a number elsewhere. */
function filterSamples(values: Float64Array, { counts }: Box, band: Band): Float64Array {
  const [nx, ny, nz] = counts, out = new Float64Array(values.length).fill(NaN), layer = nx * ny;
  // Round the box's sides the differences reach over its edge, to samples far off: no band comes near.
  for (let at = layer + nx + 1; at < layer * (nz - 1) - nx - 1; at++) {
    const f = values[at];
    if (!(f >= band.least && f <= band.most)) continue;
    out[at] = 1.75 * f - (values[at - 1] + values[at + 1] + values[at - nx] + values[at + nx] + values[at - layer] + values[at + layer]) / 8;
  }
  return out;
}

function lookUp(foot: Body, c: Float64Array, { first, counts }: Box, h: number): Body {
  const [nx, ny, nz] = counts, [fx, fy, fz] = first, layer = nx * ny, perMm = 1 / h;

  // The longest kernel of the room: one look-up, its rows written out, as it runs a million times a pose.
  function distanceAt(x: number, y: number, z: number, normal: Float64Array): number {
    const u = x * perMm - fx, v = y * perMm - fy, w = z * perMm - fz;
    const i = Math.floor(u + 0.5), j = Math.floor(v + 0.5), k = Math.floor(w + 0.5);
    if (!(i > 0 && j > 0 && k > 0 && i < nx - 1 && j < ny - 1 && k < nz - 1)) return foot.distanceAt(x, y, z, normal);
    const a = u - i, b = v - j, e = w - k;
    const a0 = 0.5 * (0.5 - a) * (0.5 - a), a1 = 0.75 - a * a, a2 = 0.5 * (0.5 + a) * (0.5 + a), s0 = a - 0.5, s1 = -2 * a, s2 = a + 0.5;
    const b0 = 0.5 * (0.5 - b) * (0.5 - b), b1 = 0.75 - b * b, b2 = 0.5 * (0.5 + b) * (0.5 + b), t0 = b - 0.5, t1 = -2 * b, t2 = b + 0.5;
    let d = 0, dx = 0, dy = 0, dz = 0, at = (k - 1) * layer + (j - 1) * nx + i;
    for (let q = 0; q < 3; q++) {
      const l0 = c[at - 1], m0 = c[at], r0 = c[at + 1];
      const l1 = c[at + nx - 1], m1 = c[at + nx], r1 = c[at + nx + 1];
      const l2 = c[at + 2 * nx - 1], m2 = c[at + 2 * nx], r2 = c[at + 2 * nx + 1];
      const f0 = a0 * l0 + a1 * m0 + a2 * r0, f1 = a0 * l1 + a1 * m1 + a2 * r1, f2 = a0 * l2 + a1 * m2 + a2 * r2;
      const g0 = s0 * l0 + s1 * m0 + s2 * r0, g1 = s0 * l1 + s1 * m1 + s2 * r1, g2 = s0 * l2 + s1 * m2 + s2 * r2;
      const weight = q === 0 ? 0.5 * (0.5 - e) * (0.5 - e) : q === 1 ? 0.75 - e * e : 0.5 * (0.5 + e) * (0.5 + e);
      const slope = q === 0 ? e - 0.5 : q === 1 ? -2 * e : e + 0.5, f = b0 * f0 + b1 * f1 + b2 * f2;
      d += weight * f;
      dx += weight * (b0 * g0 + b1 * g1 + b2 * g2);
      dy += weight * (t0 * f0 + t1 * f1 + t2 * f2);
      dz += slope * f;
      at += layer;
    }
    if (!(d - d === 0)) return foot.distanceAt(x, y, z, normal);
    normal[0] = dx * perMm; normal[1] = dy * perMm; normal[2] = dz * perMm;
    return d;
  }

  return { distanceAt };
}
