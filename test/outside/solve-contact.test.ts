import { describe, expect, it } from 'vitest';
import { createDistanceContact, createGravity, createQuadMembrane, createSlab, createTriangleMembrane } from '../../src/solve/index.ts';
import type { EnergyTerm } from '../../src/solve/index.ts';
import { makeBall, makeCapsule } from '../solve/bodies.ts';
import { makeDisc } from '../solve/disc.ts';
import { LINEAR, makeNodeMetric, relax } from '../solve/relax.ts';
import { makeSheet } from '../solve/sheet.ts';

const CLEARANCE = 0.9;

/** Nothing is rubbed, so cloth would slide off: keeps some nodes at 0 along an axis. Pushes along that axis only. */
function makeGuide(nodeCount: number, axis: number, isGuided: (node: number) => boolean): EnergyTerm {
  const bounds = (free: number): Float64Array => new Float64Array(nodeCount).map((_, i) => (isGuided(i) ? 0 : free));
  return createSlab({ axis, least: bounds(-Infinity), greatest: bounds(Infinity), stiffness: 0.05 });
}

/** Size of each node's contact force, N, and their sum along z. */
function contactForces(contact: EnergyTerm, x: Float64Array): { sizes: Float64Array; up: number } {
  const g = new Float64Array(x.length), sizes = new Float64Array(x.length / 3);
  contact.addGradient(x, g);
  let up = 0;
  for (let i = 0; i < x.length; i += 3) {
    sizes[i / 3] = Math.hypot(g[i], g[i + 1], g[i + 2]);
    up -= g[i + 2];
  }
  return { sizes, up };
}

// Statics: a heavy strip on a smooth cylinder of radius r has, at the angle phi from the top, the tension
// w r (cos phi - cos end) and presses with w cos phi + tension / r = w (2 cos phi - cos end), w its weight per area.
it.each([0.002, 0.01])('a strip over a cylinder presses with w (2 cos phi - cos end) (contact of %f N/mm)', (stiffness) => {
  const across = 3, rows = 61, top = 30, end = 1, weight = 3e-6, width = 2;
  const body = 30, radius = body + CLEARANCE, step = 2 * end * radius / (rows - 1);
  const sheet = makeSheet(across, rows, false, width, step), n = sheet.nodeCount;
  const x = new Float64Array(3 * n);
  for (let i = 0; i < n; i++) {
    const phi = 1.03 * (Math.floor(i / across) - top) * step / radius;
    x.set([(radius + 1) * Math.sin(phi), (i % across) * width, (radius + 1) * Math.cos(phi)], 3 * i);
  }
  const contact = createDistanceContact({ field: makeCapsule([0, -1e3, 0], [0, 1e3, 0], body), clearances: new Float64Array(n).fill(CLEARANCE), stiffness });
  const loads = new Float64Array(n).map((_, i) => weight * width * step * (i % across === 1 ? 1 : 0.5) * (i < across || i >= n - across ? 0.5 : 1));
  const membrane = createQuadMembrane(sheet.elements, { ...LINEAR, courseModulus: 1, waleModulus: 1 });
  const guide = makeGuide(n, 0, (node) => Math.floor(node / across) === top);
  const others = [contact, createGravity(loads, [0, 0, -1])];
  expect(relax(x, [membrane, makeNodeMetric(n, 0.5 * stiffness), guide], others, 1e-5, { leastForce: 1e-6 }).status).toBe('converged');
  const { sizes } = contactForces(contact, x);
  for (let row = 1; row + 1 < rows; row++) {
    const phi = Math.atan2(x[3 * across * row], x[3 * across * row + 2]);
    const push = sizes.subarray(across * row, across * (row + 1)).reduce((sum, v) => sum + v, 0) / (width * (across - 1) * step);
    expect(Math.abs(push / (weight * (2 * Math.cos(phi) - Math.cos(end))) - 1)).toBeLessThan(0.01);
  }
});

describe('a disc of soft cloth laid on a ball', () => {
  const ball = 50, weight = 6e-5, disc = makeDisc(32, 20, 0.6 * ball), n = disc.nodeCount;
  const law = { ...LINEAR, waleModulus: LINEAR.courseModulus, compression: 0.05 };

  function layOn(stiffness: number): { x: Float64Array; sizes: Float64Array; up: number } {
    const x = disc.positions((t) => 0.6 * ball * t, () => ball + CLEARANCE);
    const contact = createDistanceContact({ field: makeBall([0, 0, 0], ball), clearances: new Float64Array(n).fill(CLEARANCE), stiffness });
    const metric = [createTriangleMembrane(disc.elements, law), makeNodeMetric(n, 0.3 * stiffness)];
    const guides = [0, 1].map((axis) => makeGuide(n, axis, (node) => node === 0));
    const gravity = createGravity(disc.nodeAreas.map((area) => weight * area), [0, 0, -1]);
    expect(relax(x, metric, [contact, gravity, ...guides], 1e-4, { leastForce: 1e-6 }).status).toBe('converged');
    return { x, ...contactForces(contact, x) };
  }

  const distance = (x: Float64Array, node: number): number => Math.hypot(x[3 * node], x[3 * node + 1], x[3 * node + 2]);

  // Statics: what carries a body at rest carries its weight. The area is that of the disc's polygon.
  it.each([0.05, 0.2])('rests with its weight on it, at the clearance less the give (contact of %f N/mm)', (stiffness) => {
    const { x, sizes, up } = layOn(stiffness);
    const area = 32 / 2 * (0.6 * ball) ** 2 * Math.sin(2 * Math.PI / 32);
    expect(Math.abs(up / (weight * area) - 1)).toBeLessThan(1e-3);
    for (let node = 0; node < n; node++) {
      const give = ball + CLEARANCE - distance(x, node);
      expect(Math.max(0, give)).toBeCloseTo(sizes[node] / stiffness, 9);
      // Its weight, and its tension over the radius: 1.6 times the weight at the top (`measured`).
      expect(give).toBeLessThan(2 * weight * Math.max(...disc.nodeAreas) / stiffness);
      if (node < 1 + 32 * 12) expect(give).toBeGreaterThan(0);
    }
  });

  // The give is the contact's, the force the cloth's: four times the stiffness, a quarter of the give.
  it('presses the same however soft the contact', () => {
    const soft = layOn(0.05).sizes, hard = layOn(0.2).sizes;
    for (let node = 1; node < 1 + 32 * 12; node++) expect(Math.abs(soft[node] / hard[node] - 1)).toBeLessThan(0.02);
  });
});
