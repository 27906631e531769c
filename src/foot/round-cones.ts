import { log } from '../base/portable-math.ts';

/** A cone with a ball at each end: from a ball of radius r1 at `from` to one of radius r2 at `to`, mm. */
export interface RoundCone {
  readonly from: readonly [number, number, number];
  readonly to: readonly [number, number, number];
  readonly r1: number;
  readonly r2: number;
}

/** A body by its signed distance: negative inside, never more than the true distance outside. */
export interface Body {
  /** Distance of the point, mm; its exact gradient (of length at most 1) goes into `normal`, three entries. */
  distanceAt(x: number, y: number, z: number, normal: Float64Array): number;
}

/** A body of rounded cones, read over a whole region at less cost. */
export interface ConeBody extends Body {
  /** A reader of distances within `radius` of a point: cones that are not felt there are left out, to a thousandth of the smoothing length. */
  nearPoint(x: number, y: number, z: number, radius: number): (x: number, y: number, z: number) => number;
}

/** Entries a cone: foot point, unit axis, length, both radii, slope of the side (sine, cosine). */
const STRIDE = 11;
/** Cones farther off than this many smoothing lengths add less than 1e-6 of the nearest one's part. */
const FAR = 16;
/** A cone that is farther by so many all over a region is left out there: less than 4e-4 of a smoothing length each. */
const UNFELT = 8;

/**
 * Smooth union of rounded cones: d = -k log sum exp(-d_i / k), d_i the exact distance of cone i
 * (a cone's side is a straight line in the half plane through its axis, its ends are balls). A union
 * in which the order of the cones plays no part, so a body symmetric by its cones is symmetric; it
 * lies outside the plain union by at most k log(count). `k` is in mm.
 */
export function createRoundCones(cones: readonly RoundCone[], k: number): ConeBody {
  const count = cones.length;
  const data = packCones(cones);
  const distances = new Float64Array(count);
  const normals = new Float64Array(3 * count);

  function distanceAt(x: number, y: number, z: number, normal: Float64Array): number {
    let nearest = Infinity;
    for (let i = 0; i < count; i++) {
      const d = coneDistance(data, i * STRIDE, x, y, z, normals, 3 * i);
      distances[i] = d;
      if (d < nearest) nearest = d;
    }
    let sum = 0, nx = 0, ny = 0, nz = 0;
    for (let i = 0; i < count; i++) {
      const farther = (distances[i] - nearest) / k;
      if (farther > FAR) continue;
      const weight = decay(farther);
      sum += weight;
      nx += weight * normals[3 * i]; ny += weight * normals[3 * i + 1]; nz += weight * normals[3 * i + 2];
    }
    normal[0] = nx / sum; normal[1] = ny / sum; normal[2] = nz / sum;
    return nearest - k * log(sum);
  }

  function nearPoint(x: number, y: number, z: number, radius: number): (x: number, y: number, z: number) => number {
    const felt: number[] = [];
    let nearest = Infinity;
    for (let i = 0; i < count; i++) nearest = Math.min(nearest, distances[i] = coneDistance(data, i * STRIDE, x, y, z, normals, 3 * i));
    for (let i = 0; i < count; i++) if (distances[i] - nearest < UNFELT * k + 2 * radius) felt.push(i * STRIDE);
    return (px, py, pz) => joinedDistance(data, felt, k, px, py, pz, distances);
  }

  return { distanceAt, nearPoint };
}

/** Distance from the smooth union of the cones at the places `felt`. */
function joinedDistance(data: Float64Array, felt: readonly number[], k: number, x: number, y: number, z: number, distances: Float64Array): number {
  let nearest = Infinity, sum = 0;
  for (let i = 0; i < felt.length; i++) {
    const o = felt[i], px = x - data[o], py = y - data[o + 1], pz = z - data[o + 2], length = data[o + 6], sine = data[o + 9], cosine = data[o + 10];
    const along = px * data[o + 3] + py * data[o + 4] + pz * data[o + 5];
    const square = px * px + py * py + pz * pz, out = Math.sqrt(Math.max(0, square - along * along)), side = along * cosine - out * sine;
    const d = side <= 0 ? Math.sqrt(square) - data[o + 7]
      : side >= cosine * length ? Math.sqrt(Math.max(0, square - 2 * along * length + length * length)) - data[o + 8]
      : out * cosine + along * sine - data[o + 7];
    distances[i] = d;
    if (d < nearest) nearest = d;
  }
  for (let i = 0; i < felt.length; i++) {
    const farther = (distances[i] - nearest) / k;
    if (farther < FAR) sum += decay(farther);
  }
  return nearest - k * log(sum);
}

/** e^-t for t from 0 to 16, to 3e-6 of itself: (e^(-t / 32))^32 by seven terms of its series; several times as quick as `exp`. */
function decay(t: number): number {
  const u = t / 32;
  const root = 1 - u * (1 - u * (1 / 2 - u * (1 / 6 - u * (1 / 24 - u * (1 / 120 - u * (1 / 720 - u * (1 / 5040)))))));
  const p2 = root * root, p4 = p2 * p2, p8 = p4 * p4, p16 = p8 * p8;
  return p16 * p16;
}

function packCones(cones: readonly RoundCone[]): Float64Array {
  const data = new Float64Array(cones.length * STRIDE);
  cones.forEach(({ from, to, r1, r2 }, i) => {
    const dx = to[0] - from[0], dy = to[1] - from[1], dz = to[2] - from[2];
    const length = Math.sqrt(dx * dx + dy * dy + dz * dz);
    if (length <= Math.abs(r1 - r2)) {
      // One ball lies inside the other: the larger one is all there is.
      const r = Math.max(r1, r2);
      data.set([...(r1 >= r2 ? from : to), 0, 0, 1, 0, r, r, 0, 1], i * STRIDE);
      return;
    }
    const sine = (r1 - r2) / length;
    data.set([...from, dx / length, dy / length, dz / length, length, r1, r2, sine, Math.sqrt(1 - sine * sine)], i * STRIDE);
  });
  return data;
}

/** Exact distance of a point from the cone at `o`; its gradient, a unit vector, goes to `at`. */
function coneDistance(data: Float64Array, o: number, x: number, y: number, z: number, normals: Float64Array, at: number): number {
  const px = x - data[o], py = y - data[o + 1], pz = z - data[o + 2];
  const ax = data[o + 3], ay = data[o + 4], az = data[o + 5], length = data[o + 6];
  const sine = data[o + 9], cosine = data[o + 10];
  const along = px * ax + py * ay + pz * az;
  const rx = px - along * ax, ry = py - along * ay, rz = pz - along * az;
  const out = Math.sqrt(rx * rx + ry * ry + rz * rz);
  // Place along the cone's side of the point's foot, from where the first ball meets it.
  const side = along * cosine - out * sine;
  if (side <= 0) return ballDistance(px, py, pz, data[o + 7], normals, at);
  if (side >= cosine * length) return ballDistance(px - length * ax, py - length * ay, pz - length * az, data[o + 8], normals, at);
  const scale = out > 0 ? cosine / out : 0;
  normals[at] = scale * rx + sine * ax; normals[at + 1] = scale * ry + sine * ay; normals[at + 2] = scale * rz + sine * az;
  return out * cosine + along * sine - data[o + 7];
}

function ballDistance(x: number, y: number, z: number, radius: number, normals: Float64Array, at: number): number {
  const size = Math.sqrt(x * x + y * y + z * z), scale = size > 0 ? 1 / size : 0;
  normals[at] = scale * x; normals[at + 1] = scale * y; normals[at + 2] = scale * z;
  return size - radius;
}
