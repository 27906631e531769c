import type { ViewPreset } from './sock-view-types.ts';

export type Vector = readonly [number, number, number];

/** Where a camera stands: azimuth about z (0 looks along +y, as the side view does; positive walks towards the toe) and height angle over the horizon, radians. */
export interface Bearing { readonly azimuth: number; readonly elevation: number }

/** A place to look at, the way out of the cloth there, and the width of a stitch; `isOpen`: the cloth is cut open, and may be looked at from within. */
export interface Spot { readonly place: Vector; readonly normal: Vector; readonly stitchMm: number; readonly isOpen: boolean }

const DEGREE = Math.PI / 180;

/** Bearings of the presets; three-quarter chosen by eye, so that heel, side and opening are seen. */
export const PRESETS: Readonly<Record<ViewPreset, Bearing>> = {
  side: { azimuth: 0, elevation: 0 },
  back: { azimuth: -90 * DEGREE, elevation: 4 * DEGREE },
  front: { azimuth: 90 * DEGREE, elevation: 14 * DEGREE },
  sole: { azimuth: 0, elevation: -89.9 * DEGREE },
  'three-quarter': { azimuth: -38 * DEGREE, elevation: 24 * DEGREE },
};

/** The same round a machine, whose front faces the side view's eye; heights chosen by eye, so that beds and cloth are seen. */
export const MACHINE_PRESETS: Readonly<Record<ViewPreset, Bearing>> = {
  front: { azimuth: 0, elevation: 9 * DEGREE },
  back: { azimuth: 180 * DEGREE, elevation: 9 * DEGREE },
  side: { azimuth: 90 * DEGREE, elevation: 4 * DEGREE },
  sole: { azimuth: -24 * DEGREE, elevation: -28 * DEGREE },
  'three-quarter': { azimuth: -36 * DEGREE, elevation: 20 * DEGREE },
};

/** Unit vectors of a camera at a bearing: to its right, up, and forward (towards the sock). */
export interface Axes { readonly right: Vector; readonly up: Vector; readonly forward: Vector }

export function axesOf({ azimuth, elevation }: Bearing): Axes {
  const sa = Math.sin(azimuth), ca = Math.cos(azimuth), se = Math.sin(elevation), ce = Math.cos(elevation);
  return {
    right: [ca, sa, 0],
    up: [sa * -se, ca * se, ce],
    forward: [-sa * ce, ca * ce, -se],
  };
}

function dot(p: Float64Array, i: number, v: Vector): number {
  return p[i] * v[0] + p[i + 1] * v[1] + p[i + 2] * v[2];
}

export interface Framing { readonly eye: Vector; readonly target: Vector; readonly distance: number }

/**
 * The nearest eye from which a perspective camera with these axes sees every point inside the
 * given half-angle tangents, and the point it should turn about. Each side of the frustum is a
 * plane against which the farthest point is found; the eye is then the apex of the four, so the
 * fit is exact and not that of a box. The tangent upwards may differ from that downwards, to keep
 * free what lies over the picture's top. Room that is left goes to both sides and, above and below,
 * half and half, or all below what hangs. Points three entries each; at least one.
 */
export function frameFor(points: Float64Array, axes: Axes, tanX: number, tanY: number, tanUp = tanY, isHung = false): Framing {
  let right = -Infinity, left = -Infinity, top = -Infinity, bottom = -Infinity, near = Infinity, far = -Infinity;
  for (let i = 0; i < points.length; i += 3) {
    const x = dot(points, i, axes.right), y = dot(points, i, axes.up), z = dot(points, i, axes.forward);
    right = Math.max(right, x - tanX * z); left = Math.max(left, -x - tanX * z);
    top = Math.max(top, y - tanUp * z); bottom = Math.max(bottom, -y - tanY * z);
    near = Math.min(near, z); far = Math.max(far, z);
  }
  const z = Math.min(-(right + left) / (2 * tanX), -(top + bottom) / (tanUp + tanY), near - 1);
  const x = (right - left) / 2, y = isHung ? top + tanUp * z : (top - bottom + (tanUp - tanY) * z) / 2, depth = (near + far) / 2;
  const at = (along: number): Vector => [0, 1, 2].map(
    (d) => x * axes.right[d] + y * axes.up[d] + along * axes.forward[d],
  ) as unknown as Vector;
  return { eye: at(z), target: at(depth), distance: depth - z };
}
