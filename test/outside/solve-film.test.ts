import { describe, expect, it } from 'vitest';
import { createPins } from '../../src/solve/index.ts';
import { createFilm } from '../solve/film.ts';
import { relax } from '../solve/relax.ts';
import { makeSheet, tubePositions } from '../solve/sheet.ts';

const RADIUS = 50, COLUMNS = 48, ROWS = 33;
/** The rings' polygons have their corners as far outside the ring as the middles of their sides are inside. */
const ROUNDING = (1 + Math.cos(Math.PI / COLUMNS)) / 2;

/** Radius halfway of a soap film between two rings of RADIUS, relaxed from a cylinder. */
function relaxFilm(distance: number, maxIterations: number): { neck: number; status: string } {
  const sheet = makeSheet(COLUMNS, ROWS, true, 1, 1);
  const x = tubePositions(sheet, RADIUS / ROUNDING, distance / (ROWS - 1));
  const nodes = Int32Array.from({ length: 2 * COLUMNS }, (_, k) => (k < COLUMNS ? k : k + (ROWS - 2) * COLUMNS));
  const places = Float64Array.from([...nodes].flatMap((n) => [...x.subarray(3 * n, 3 * n + 3)]));
  const quads = sheet.elements.corners, corners: number[] = [];
  for (let q = 0; q < quads.length; q += 4) {
    for (const k of [0, 1, 2, 0, 2, 3]) corners.push(quads[q + k]);
  }
  const film = createFilm(Int32Array.from(corners), 0.03, x.slice());
  const { status } = relax(x, [film, createPins({ nodes, places, stiffness: 3 })], [], 1e-5, { maxIterations });
  let sum = 0;
  for (let c = 0, i = 3 * COLUMNS * (ROWS - 1) / 2; c < COLUMNS; c++, i += 3) sum += Math.hypot(x[i], x[i + 1]);
  return { neck: ROUNDING * sum / COLUMNS, status };
}

/** The wider of the two r with r cosh(distance / 2 r) = RADIUS: the film that holds. */
function catenoidNeck(distance: number): number {
  let low = distance / 2 / 1.1996786, high = RADIUS;
  for (let k = 0; k < 60; k++) {
    const middle = (low + high) / 2;
    if (middle * Math.cosh(distance / 2 / middle) > RADIUS) high = middle;
    else low = middle;
  }
  return low;
}

// Catenoid, the film of constant tension between two equal rings (any text on minimal surfaces): neck radius r
// with r cosh(h / 2 r) = R. r cosh(h / 2 r) is least where x tanh x = 1, x = h / 2 r = 1.1996786, so there is
// none for h / R over 2 x / cosh x = 1.3254868.
describe('a film of constant tension between two rings', () => {
  it.each([0.6, 1, 1.2, 1.3])('at %f radii is a catenoid', (ratio) => {
    const { neck, status } = relaxFilm(ratio * RADIUS, 500);
    expect(status).toBe('converged');
    expect(Math.abs(neck / catenoidNeck(ratio * RADIUS) - 1)).toBeLessThan(0.004);
  });

  it('holds just below 1.3254868 radii and collapses just beyond', () => {
    expect(2 * 1.1996786 / Math.cosh(1.1996786)).toBeCloseTo(1.3254868, 6);
    const narrowest = RADIUS / Math.cosh(1.1996786);
    expect(relaxFilm(1.32 * RADIUS, 500).neck).toBeGreaterThan(narrowest);
    expect(relaxFilm(1.335 * RADIUS, 500).neck).toBeLessThan(0.1 * narrowest);
  });
});
