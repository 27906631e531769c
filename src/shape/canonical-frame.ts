import type { Fabric } from '../fabric/fabric.ts';
import { SECTION } from '../machine/codes.ts';
import { isHeelSection } from './sock-profile.ts';

type Vector = readonly [number, number, number];

/**
 * Moves a shape as a rigid body, in place: y to the sock's left, x from the heel along the foot, z
 * up, the heel's rearmost point at x = 0 and its middle at z = 0. The frame has no force in it; a
 * cloth without heel or foot is only centred. A shape that lies sideways keeps its own y.
 */
export function moveToFrame(fabric: Fabric, positions: Float64Array, isSideways: boolean): void {
  const left = subtract(centroid(fabric, positions, (v) => near(fabric.vertexAround[v], 0.25)), centroid(fabric, positions, (v) => near(fabric.vertexAround[v], 0.75)));
  const foot = footAxis(fabric, positions);
  const y: Vector = isSideways ? [0, 1, 0] : normalise(left, [0, 1, 0]);
  const x = normalise(subtract(foot, scale(y, dot(foot, y))), [1, 0, 0]);
  const z = cross(x, y);
  let originX = Infinity, sumY = 0, sumZ = 0, heelCount = 0;
  for (let v = 0; v < fabric.vertexCount; v++) {
    const p: Vector = [positions[3 * v], positions[3 * v + 1], positions[3 * v + 2]];
    const out: Vector = [dot(p, x), dot(p, y), dot(p, z)];
    positions.set(out, 3 * v);
    originX = Math.min(originX, out[0]);
    sumY += out[1];
    if (!isHeelSection(fabric.vertexSection[v])) continue;
    heelCount++;
    sumZ += out[2];
  }
  const originY = isSideways ? 0 : sumY / Math.max(1, fabric.vertexCount);
  const originZ = heelCount > 0 ? sumZ / heelCount : 0;
  for (let v = 0; v < fabric.vertexCount; v++) {
    positions[3 * v] -= originX;
    positions[3 * v + 1] -= originY;
    positions[3 * v + 2] -= originZ;
  }
}

/** From the middle of the foot's first rows to that of its last ones. */
function footAxis(fabric: Fabric, positions: Float64Array): Vector {
  let least = Infinity, most = -Infinity;
  for (let v = 0; v < fabric.vertexCount; v++) {
    if (fabric.vertexSection[v] !== SECTION.foot) continue;
    least = Math.min(least, fabric.vertexRow[v]);
    most = Math.max(most, fabric.vertexRow[v]);
  }
  if (!(most > least)) return [1, 0, 0];
  const third = (most - least) / 3;
  const inFoot = (v: number): boolean => fabric.vertexSection[v] === SECTION.foot;
  const from = centroid(fabric, positions, (v) => inFoot(v) && fabric.vertexRow[v] <= least + third);
  const to = centroid(fabric, positions, (v) => inFoot(v) && fabric.vertexRow[v] >= most - third);
  return subtract(to, from);
}

function near(around: number, place: number): boolean { return Math.abs(around - place) < 0.1; }

function centroid(fabric: Fabric, positions: Float64Array, isIn: (vertex: number) => boolean): Vector {
  let count = 0, x = 0, y = 0, z = 0;
  for (let v = 0; v < fabric.vertexCount; v++) {
    if (!isIn(v)) continue;
    count++;
    x += positions[3 * v]; y += positions[3 * v + 1]; z += positions[3 * v + 2];
  }
  return count === 0 ? [0, 0, 0] : [x / count, y / count, z / count];
}

function dot(a: Vector, b: Vector): number { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }
function subtract(a: Vector, b: Vector): Vector { return [a[0] - b[0], a[1] - b[1], a[2] - b[2]]; }
function scale(a: Vector, k: number): Vector { return [a[0] * k, a[1] * k, a[2] * k]; }
function cross(a: Vector, b: Vector): Vector {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}
function normalise(a: Vector, fallback: Vector): Vector {
  const length = Math.sqrt(dot(a, a));
  return length > 1e-9 ? scale(a, 1 / length) : fallback;
}
