import { describe, expect, it } from 'vitest';
import { createDistanceContact, createGravity, createPressure, createQuadMembrane } from '../../src/solve/index.ts';
import type { EnergyTerm, MembraneLaw } from '../../src/solve/index.ts';
import { makeCapsule } from '../solve/bodies.ts';
import { LINEAR, makeNodeMetric, relax, roundGirth } from '../solve/relax.ts';
import { closedTube, makeSheet, tubePositions } from '../solve/sheet.ts';

const COLUMNS = 48, ROWS = 41, STITCH = 3;
const sheet = makeSheet(COLUMNS, ROWS, true, STITCH, STITCH);
const restRadius = COLUMNS * STITCH / (2 * Math.PI);

function startTube(): Float64Array {
  return tubePositions(sheet, 0.97 * restRadius, 1.02 * STITCH);
}

/** Strains round and along, halfway up. */
function strains(x: Float64Array): [number, number] {
  const z = (row: number): number => x[3 * COLUMNS * row + 2];
  return [roundGirth(x, 20, COLUMNS) / (COLUMNS * STITCH) - 1, (z(30) - z(10)) / (20 * STITCH) - 1];
}

/**
 * What lids press outwards is held from outside: the end rings of an open tube bear nothing along.
 * A thrust that stays as it is (a fixed force) has an energy; here as weights, down at the top and up at the bottom.
 */
function makeThrust(force: number): EnergyTerm {
  const weights = new Float64Array(sheet.nodeCount);
  weights.fill(-force / COLUMNS, 0, COLUMNS);
  weights.fill(force / COLUMNS, sheet.nodeCount - COLUMNS);
  return createGravity(weights, [0, 0, -1]);
}

// Statics of thin vessels (any text on strength of materials): tension p r round; along, p r / 2 under
// lids and none with open ends. A tube of n facets has its tension at the facet's distance from the axis,
// r = w / (2 tan(pi / n)) for facets of width w, exactly. The stretch is what the law gives:
// round = k1 e1 + nu (k2 (e2 + nu e1)), along = k2 (e2 + nu e1).
describe.each([['without', 0], ['with', 0.3]] as const)('a tube under pressure, %s coupling', (_, coupling) => {
  const law: MembraneLaw = { ...LINEAR, coupling };
  const pressure = 3e-5;

  /** Strains and radius for an axial tension of `share` p r. The law's tensions are per width at rest, p r is per width as stretched. */
  function closedForm(share: number): { round: number; along: number; radius: number } {
    let round = 0, along = 0, radius = 0;
    for (let k = 0; k < 30; k++) {
      radius = STITCH * (1 + round) / (2 * Math.tan(Math.PI / COLUMNS));
      const tensionAlong = share * pressure * radius * (1 + round);
      round = (pressure * radius * (1 + along) - coupling * tensionAlong) / law.courseModulus;
      along = tensionAlong / law.waleModulus - coupling * round;
    }
    return { round, along, radius };
  }

  it('with lids carries p r round and p r / 2 along', () => {
    const x = startTube();
    expect(relax(x, [createQuadMembrane(sheet.elements, law)], [createPressure(closedTube(sheet), pressure)]).status).toBe('converged');
    const [round, along] = strains(x), want = closedForm(0.5);
    expect(Math.abs(round / want.round - 1)).toBeLessThan(0.002);
    expect(Math.abs(along - want.along)).toBeLessThan(0.002 * want.round);
  });

  it('with open ends carries p r round and nothing along', () => {
    const x = startTube(), want = closedForm(0);
    const opening = COLUMNS * want.radius ** 2 * Math.tan(Math.PI / COLUMNS);
    const others = [createPressure(closedTube(sheet), pressure), makeThrust(pressure * opening)];
    expect(relax(x, [createQuadMembrane(sheet.elements, law)], others).status).toBe('converged');
    const [round, along] = strains(x);
    expect(Math.abs(round / want.round - 1)).toBeLessThan(0.002);
    expect(Math.abs(along - want.along)).toBeLessThan(0.002 * want.round);
    // Tension along over tension round, from the strains: nothing, where lids give a half.
    const tensionAlong = law.waleModulus * (along + coupling * round);
    expect(Math.abs(tensionAlong / (law.courseModulus * round))).toBeLessThan(0.01);
    expect(Math.abs(closedForm(0.5).along - want.along)).toBeGreaterThan(0.2 * want.round);
  });
});

// Laplace's law (any text on physiology or strength of materials): a band
// stretched round a cylinder presses on it with tension / radius.
it.each([0.05, 0.2])('a tube stretched over a rigid cylinder presses with tension / radius (contact of %f N/mm)', (stiffness) => {
  const radius = 1.1 * restRadius, clearance = 0.9;
  const body = makeCapsule([0, 0, -1e4], [0, 0, 1e4], radius - clearance);
  const contact = createDistanceContact({ field: body, clearances: new Float64Array(sheet.nodeCount).fill(clearance), stiffness });
  const x = startTube();
  const metric = makeNodeMetric(sheet.nodeCount, 0.5 * stiffness);
  expect(relax(x, [createQuadMembrane(sheet.elements, LINEAR), metric], [contact], 1e-4).status).toBe('converged');
  const forces = new Float64Array(x.length);
  contact.addGradient(x, forces);
  let push = 0;
  for (let i = 0; i < forces.length; i += 3) push += Math.hypot(forces[i], forces[i + 1]);
  const [round, along] = strains(x);
  const area = COLUMNS * STITCH * (1 + round) * (ROWS - 1) * STITCH * (1 + along);
  // The cloth lies at the cylinder's radius plus the clearance, less the contact's give (half of it at the two end rings).
  const give = push / ((ROWS - 1) * COLUMNS * stiffness), lies = radius - give;
  const wanted = LINEAR.courseModulus * (lies / restRadius - 1) / lies;
  expect(Math.abs(push / area / wanted - 1)).toBeLessThan(0.01);
  for (let n = COLUMNS; n < sheet.nodeCount - COLUMNS; n++) {
    expect(Math.abs(Math.hypot(x[3 * n], x[3 * n + 1]) - lies)).toBeLessThan(0.02 * give);
  }
});
