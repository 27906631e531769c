import { describe, expect, it } from 'vitest';
import { findShortestLine } from '../../src/measure/find-shortest-line.ts';
import { cutByPlane, measureLevel, traceLevel } from '../../src/measure/level-lines.ts';
import { lineLength } from '../../src/measure/polyline.ts';
import { atCorner } from '../../src/measure/surface-point.ts';
import { rollSheet } from '../measure/make-sheet.ts';
import type { RolledSheet, SheetOptions } from '../measure/make-sheet.ts';

/**
 * Lines across the faces of triangulated surfaces against closed form. Source: geometry. A cylinder
 * and a cone unroll into the plane without stretch, so a shortest line is a straight line there
 * (any text on differential geometry): a helix on the cylinder; on a cone of half angle alpha, turns
 * shrink by sin(alpha), and a line that would sweep half a turn or more runs through the tip instead.
 */
const MESHES: readonly (readonly [string, SheetOptions])[] = [
  ['48 x 30', { columns: 48, rows: 30, lean: 0, jitter: 0 }],
  ['72 x 80', { columns: 72, rows: 80, lean: 0, jitter: 0 }],
  ['60 x 40 leaning half a column a row', { columns: 60, rows: 40, lean: 0.5, jitter: 0 }],
  ['80 x 40 leaning a column a row', { columns: 80, rows: 40, lean: 1, jitter: 0 }],
  ['64 x 50 with shaken points', { columns: 64, rows: 50, lean: 0.3, jitter: 0.3 }],
];
const TOLERANCE = 0.005;

const RADIUS = 38;
const HEIGHT = 120;
const onCylinder = (turn: number, height: number): [number, number, number] => [
  RADIUS * Math.cos(2 * Math.PI * turn), RADIUS * Math.sin(2 * Math.PI * turn), HEIGHT * height,
];

/** Distances from the tip run from 0.2 to 1 of the slant, so that no cell is squeezed to nothing. */
const SLANT = 150;
const HALF_ANGLE = Math.asin(0.4);
const slantAt = (height: number): number => SLANT * (0.2 + 0.8 * height);
const onCone = (turn: number, height: number): [number, number, number] => {
  const s = slantAt(height);
  return [
    s * Math.sin(HALF_ANGLE) * Math.cos(2 * Math.PI * turn), s * Math.sin(HALF_ANGLE) * Math.sin(2 * Math.PI * turn),
    -s * Math.cos(HALF_ANGLE),
  ];
};

/** Part of a turn between two places, the short way. */
const shortTurn = (a: number, b: number): number => Math.abs(a - b - Math.round(a - b));

/** Pairs of points, far and near, that lie away from the rims by a fair part of the height. */
function samplePairs(sheet: RolledSheet): [number, number][] {
  const inner = [...sheet.heights.keys()].filter((i) => sheet.heights[i] > 0.3 && sheet.heights[i] < 0.9);
  return Array.from({ length: 16 }, (_, k): [number, number] => [
    inner[(k * 7919) % inner.length], inner[(k * 104729 + 613) % inner.length],
  ]).filter(([p, q]) => p !== q);
}

describe.each(MESHES)('lines on a mesh of %s', (_name, options) => {
  const cylinder = rollSheet(options, onCylinder);
  const cone = rollSheet(options, onCone);

  it('are helices on a cylinder', () => {
    for (const [p, q] of samplePairs(cylinder)) {
      const line = findShortestLine(cylinder.surface, atCorner(cylinder.surface, p), atCorner(cylinder.surface, q));
      const expected = Math.hypot(
        2 * Math.PI * RADIUS * shortTurn(cylinder.turns[p], cylinder.turns[q]),
        HEIGHT * (cylinder.heights[p] - cylinder.heights[q]),
      );
      expect(Math.abs((line?.lengthMm ?? 0) / expected - 1), `${String(p)} to ${String(q)}`).toBeLessThan(TOLERANCE);
    }
  });

  it('are straight in the unrolled cone', () => {
    const pairs = samplePairs(cone).filter(([p, q]) => staysOnCone(cone, p, q));
    expect(pairs.length).toBeGreaterThan(5);
    for (const [p, q] of pairs) {
      const line = findShortestLine(cone.surface, atCorner(cone.surface, p), atCorner(cone.surface, q));
      expect(Math.abs((line?.lengthMm ?? 0) / coneDistance(cone, p, q) - 1), `${String(p)} to ${String(q)}`).toBeLessThan(TOLERANCE);
    }
  });

  it('cut the cylinder square to its axis in circles, aslant in ellipses', () => {
    const circle = 2 * Math.PI * RADIUS;
    expect(Math.abs(measureLevel(cylinder.surface, cylinder.heights, 0.437) / circle - 1)).toBeLessThan(TOLERANCE);
    const [ring, ...others] = traceLevel(cylinder.surface, cylinder.heights, 0.437);
    expect(others).toEqual([]);
    expect(ring.isClosed).toBe(true);
    expect(lineLength(ring.points)).toBeCloseTo(measureLevel(cylinder.surface, cylinder.heights, 0.437), 8);
    const tilt = 0.6;
    const [ellipse] = cutByPlane(cylinder.surface, [0, 0, HEIGHT / 2], [-Math.tan(tilt), 0, 1]);
    expect(Math.abs(lineLength(ellipse.points) / ellipseGirth(RADIUS / Math.cos(tilt), RADIUS) - 1)).toBeLessThan(TOLERANCE);
  });

  it('cut the cone in circles that grow with the slant', () => {
    for (const height of [0.21, 0.52, 0.83]) {
      const girth = 2 * Math.PI * slantAt(height) * Math.sin(HALF_ANGLE);
      expect(Math.abs(measureLevel(cone.surface, cone.heights, height) / girth - 1)).toBeLessThan(TOLERANCE);
    }
  });
});

function coneDistance(cone: RolledSheet, p: number, q: number): number {
  const [a, b] = [slantAt(cone.heights[p]), slantAt(cone.heights[q])];
  return Math.sqrt(a * a + b * b - 2 * a * b * Math.cos(sweep(cone, p, q)));
}

/** Angle between two places in the unrolled cone. */
const sweep = (cone: RolledSheet, p: number, q: number): number => 2 * Math.PI * Math.sin(HALF_ANGLE) * shortTurn(cone.turns[p], cone.turns[q]);

/** The straight line keeps clear of the missing tip: its distance from the tip is at least 0.2 of the slant. */
function staysOnCone(cone: RolledSheet, p: number, q: number): boolean {
  const [a, b] = [slantAt(cone.heights[p]), slantAt(cone.heights[q])];
  return a * b * Math.sin(sweep(cone, p, q)) / coneDistance(cone, p, q) > 0.22 * SLANT || sweep(cone, p, q) < 0.3;
}

/** Girth of an ellipse by its integral, in 20,000 chords. */
function ellipseGirth(a: number, b: number): number {
  let girth = 0;
  for (let i = 0; i < 20000; i++) {
    const [u, v] = [(2 * Math.PI * i) / 20000, (2 * Math.PI * (i + 1)) / 20000];
    girth += Math.hypot(a * (Math.cos(v) - Math.cos(u)), b * (Math.sin(v) - Math.sin(u)));
  }
  return girth;
}
