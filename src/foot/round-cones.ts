import { exp, log } from '../base/portable-math.ts';

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

/** Entries a cone: foot point, unit axis, length, both radii, slope of the side (sine, cosine). */
const STRIDE = 11;
/** Cones farther off than this many smoothing lengths add less than 1e-6 of the nearest one's part. */
const FAR = 16;

/**
 * Smooth union of rounded cones: d = -k log sum exp(-d_i / k), d_i the exact distance of cone i
 * (a cone's side is a straight line in the half plane through its axis, its ends are balls). A union
 * in which the order of the cones plays no part, so a body symmetric by its cones is symmetric; it
 * lies outside the plain union by at most k log(count). `k` is in mm.
 */
export function createRoundCones(cones: readonly RoundCone[], k: number): Body {
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
      const weight = exp(-farther);
      sum += weight;
      nx += weight * normals[3 * i]; ny += weight * normals[3 * i + 1]; nz += weight * normals[3 * i + 2];
    }
    normal[0] = nx / sum; normal[1] = ny / sum; normal[2] = nz / sum;
    return nearest - k * log(sum);
  }

  return { distanceAt };
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
