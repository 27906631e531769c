import { describe, expect, it } from 'vitest';
import { judgePressure } from '../../src/measure/judge-pressure.ts';
import { findOpening, yarnDiameterMm } from '../../src/measure/knit-opening.ts';
import { measureGaps } from '../../src/measure/measure-gaps.ts';
import { bandPressure, measurePressure, vertexAreas } from '../../src/measure/measure-pressure.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import { createQuadMembrane } from '../../src/solve/index.ts';
import { makeTube } from '../measure/make-tube.ts';
import { makeCapsule } from '../solve/bodies.ts';
import { LINEAR } from '../solve/relax.ts';

const STITCHES = 60, ROWS = 24, ROW_MM = 2.4;

/** A tube along z, as wide as `radius` says at each height (in rows from its upper end). */
function tubeOf(radius: (row: number) => number) {
  return makeTube(STITCHES, ROWS, (turn, row) => [-radius(row) * Math.cos(2 * Math.PI * turn), radius(row) * Math.sin(2 * Math.PI * turn), -ROW_MM * row]);
}

/** Far from both ends, where cloth is on one side only. */
function isInside(v: number): boolean { return v > 4 * STITCHES && v < (ROWS - 4) * STITCHES; }

describe('pressure', () => {
  // Laplace: p = T / r. The care table's example: 10 N/m round 240 mm is 262 Pa, 2.0 mmHg (1 mmHg = 133.322 Pa).
  it.each([[0.01, 240], [0.025, 240], [0.01, 120], [0.04, 380]])('of cloth drawn round a cylinder is tension over radius (%f N/mm, %f mm)', (tension, girth) => {
    const strain = 0.2, radius = girth / (2 * Math.PI), { fabric, positions } = tubeOf(() => radius);
    const cells = fabric.cellVertices.length / 4, chord = 2 * radius * Math.sin(Math.PI / STITCHES);
    const membrane = createQuadMembrane({
      corners: fabric.cellVertices, widths: new Float64Array(cells).fill(chord / (1 + strain)), heights: new Float64Array(cells).fill(ROW_MM),
    }, { ...LINEAR, courseModulus: tension / strain, waleModulus: 1e-9, coupling: 0, shearModulus: 0 });
    const forces = new Float64Array(positions.length);
    membrane.addGradient(positions, forces);
    const pressure = measurePressure(fabric, positions, forces.map((value) => -value));
    const wanted = 1e6 * tension / radius / 133.322;
    for (let v = 0; v < fabric.vertexCount; v++) if (isInside(v)) expect(Math.abs(pressure[v] / wanted - 1)).toBeLessThan(0.005);
    expect(bandPressure(tension, girth)).toBeCloseTo(wanted, 9);
  });

  it('of 10 N/m round 240 mm is 262 Pa', () => { expect(bandPressure(0.01, 240) * 133.322).toBeCloseTo(262, 0); });

  // Known forces in: each vertex pushed inwards by p times its share of the area, on a bulging tube.
  it.each([1, 12.5])('is what the forces put on the area (%f mmHg)', (mmHg) => {
    const { fabric, positions } = tubeOf((row) => 40 + 6 * Math.sin(row / 6));
    const { normals, areas } = vertexAreas(fabric, positions);
    const forces = Float64Array.from(positions, (_, i) => -mmHg * 133.322e-6 * areas[Math.floor(i / 3)] * normals[i]);
    for (const value of measurePressure(fabric, positions, forces)) expect(value).toBeCloseTo(mmHg, 9);
    // Geometry: outward normals, and areas that add up to the tube's, less the strip below the helix.
    expect(normals[3 * 700] * positions[3 * 700] + normals[3 * 700 + 1] * positions[3 * 700 + 1]).toBeGreaterThan(0);
  });

  it('is none where cloth stands off, and gaps are the distance beyond the clearance', () => {
    const { fabric, positions } = tubeOf((row) => 40 + 0.5 * row), body = makeCapsule([0, 0, -1e3], [0, 0, 1e3], 43);
    const gaps = measureGaps(positions, body, 1);
    const forces = Float64Array.from(positions, (value, i) => (i % 3 === 2 ? 0 : -1e-3 * value));
    const pressure = measurePressure(fabric, positions, forces, gaps);
    for (let v = 0; v < fabric.vertexCount; v++) {
      const off = Math.hypot(positions[3 * v], positions[3 * v + 1]) - 44;
      expect(gaps[v]).toBeCloseTo(Math.max(0, off), 9);
      expect(pressure[v] > 0).toBe(off <= 0);
    }
  });
});

// The care table: firm from 10 mmHg (chosen by eye), medical classes from 14 (UK) and 18 (RAL-GZ 387), published.
it.each([[0, 'good'], [9.99, 'good'], [10, 'mind'], [13.99, 'mind'], [14, 'poor'], [17.99, 'poor'], [18, 'poor'], [40, 'poor']])('%f mmHg on the leg is %s', (mmHg, verdict) => {
  const judged = judgePressure(mmHg);
  expect(judged.verdict).toBe(verdict);
  expect(judged.warning === null).toBe(mmHg < 10);
  expect(judged.warning?.includes('clinician') ?? false).toBe(mmHg >= 10);
  expect(judged.warning?.includes('medical') ?? false).toBe(mmHg >= 14);
  expect(judged.warning?.includes('and of the RAL') ?? false).toBe(mmHg >= 18);
});

// Peirce's yarn (Text. Res. J. 17 (1947) 123-147): 4.44e-3 sqrt(238 / 1.31) cm; then p = 2.381, w = 3.333 mm: 1 + 2 (2.381 - 1.197) / 3.333.
it('plain knitting opens by the geometry of its loops', () => {
  expect(yarnDiameterMm(420)).toBeCloseTo(0.5985, 3);
  const yarns = [{ name: '', metresPer100g: 420, colour: '#000000', from: 'leg' as const, stripePasses: null }];
  expect(findOpening({ stitchesPerMm: 0.3, rowsPerMm: 0.42, yarns })).toBeCloseTo(1.7104, 3);
  // Peirce's loop keeps its length: 2 p + w is the same before and after.
  const opened = 3.3333 * 1.7104, jammed = 2 * 0.5985;
  expect(2 * jammed + opened).toBeCloseTo(2 * 2.38095 + 3.3333, 2);
});

/** Means of the survey (Gordon C. C. et al., NATICK/TR-15/007, 2014), mm. */
const MEN = { lengthMm: 271.2, ballGirthMm: 252.0, heelDiagonalMm: 343.5, ankleGirthMm: 229.3, calfGirthMm: 392.3, heelBreadthMm: 72.5 };
const WOMEN = { lengthMm: 246.3, ballGirthMm: 228.1, heelDiagonalMm: 310.3, ankleGirthMm: 215.7, calfGirthMm: 373.3, heelBreadthMm: 67.2 };

// Geometry: cloth that follows the foot over the heel and round the ball is drawn there as the foot is larger than the sock.
describe.each([['men', MEN, 30, 42], ['men', MEN, 15, 21], ['women', WOMEN, 15, 21]])('worn on the mean foot of %s', (_, foot, stitchesPer10cm, rowsPer10cm) => {
  const { sock } = knitSock({ gauge: { stitchesPer10cm, rowsPer10cm }, foot });
  if (sock === null) throw new Error('the mean foot has a sock');
  const { pose, worn } = poseSock(sock, 'worn'), { rest } = sock;

  it('the heel line stretches beside the foot\'s girth as the foot\'s ratio is to the sock\'s, within 3 %', () => {
    expect(pose.status).toBe('converged');
    const footRatio = foot.heelDiagonalMm / foot.ballGirthMm, sockRatio = (rest.heelDiagonalMm ?? NaN) / (rest.footGirthMm ?? NaN);
    expect(Math.abs((worn?.summary.heelToFootStretch ?? NaN) / (footRatio / sockRatio) - 1)).toBeLessThan(0.03);
  });

  it('fits, lightly', () => {
    const verdicts = new Map(worn?.fit.map(({ question, verdict }) => [question, verdict]));
    for (const question of ['over-heel', 'heel', 'foot-girth', 'foot-length', 'top'] as const) expect(verdicts.get(question), question).toBe('good');
    expect(worn?.summary.topPressureMmHg).toBeLessThan(10);
  });
});
