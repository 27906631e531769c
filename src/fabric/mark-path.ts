import type { MarkPath } from './fabric.ts';

/** A point (1 - t) a + t b. */
export type MarkPoint = readonly [a: number, b: number, t: number];

export const onVertex = (v: number): MarkPoint => [v, v, 0];
export const between = (a: number, b: number): MarkPoint => [a, b, 0.5];

export function makePath(points: readonly MarkPoint[], isClosed: boolean): MarkPath {
  return {
    a: Int32Array.from(points, (p) => p[0]),
    b: Int32Array.from(points, (p) => p[1]),
    t: Float64Array.from(points, (p) => p[2]),
    isClosed,
  };
}
