import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/base/random.ts';
import type { Fabric } from '../../src/fabric/fabric.ts';
import type { Measures } from '../../src/measure/measures.ts';
import { measurePose } from '../../src/measure/measure-pose.ts';
import { relaxSock } from '../../src/shape/index.ts';
import type { Pose, FreePoseName } from '../../src/shape/index.ts';
import { makeStartShape } from '../../src/shape/start-shape.ts';
import { faceAngles } from './face-angles.ts';
import { knitSmallSock } from './small-sock.ts';

const POSES: readonly FreePoseName[] = ['flat', 'tube'];
const fabric = knitSmallSock();
const poses: Record<FreePoseName, Pose> = { flat: relaxSock(fabric, 'flat'), tube: relaxSock(fabric, 'tube') };

function measure(pose: Pose, of: Fabric = fabric): Measures { return measurePose(of, pose.positions).measures; }

/** What a knitter judges a sock by. */
function keyDimensions(pose: Pose, of: Fabric = fabric): number[] {
  const m = measure(pose, of);
  return [m.footLengthMm, m.heelDepthMm, m.heelDiagonalMm, m.heelTipGirthMm, m.throatToHeelMm, m.footGirthMm, m.legLengthMm].map((value) => value ?? NaN);
}

function expectWithin(got: readonly number[], wanted: readonly number[], share: number): void {
  got.forEach((value, k) => { expect(Math.abs(value / wanted[k] - 1)).toBeLessThan(share); });
}

describe.each(POSES)('%s', (name) => {
  it('converges, in its frame', () => {
    const { status, residual, positions } = poses[name];
    expect(status).toBe('converged');
    expect(residual).toBeLessThanOrEqual(1e-3);
    expect(positions.every(Number.isFinite)).toBe(true);
    const mean = (section: number, axis: number): number => {
      const at = Array.from(fabric.vertexSection.keys()).filter((v) => fabric.vertexSection[v] === section);
      return at.reduce((sum, v) => sum + positions[3 * v + axis], 0) / at.length;
    };
    // Leg above foot, toe in front of heel, left side to the left (sections: leg 1, heel 4, foot 7, toe 8).
    expect(mean(1, 2)).toBeGreaterThan(mean(7, 2));
    expect(mean(8, 0)).toBeGreaterThan(mean(7, 0));
    expect(mean(7, 0)).toBeGreaterThan(mean(4, 0));
    const left = Array.from(fabric.vertexAround.keys()).filter((v) => Math.abs(fabric.vertexAround[v] - 0.25) < 0.1 && fabric.vertexSection[v] === 7);
    for (const v of left) expect(positions[3 * v + 1]).toBeGreaterThan(0);
  });

  // Geometry: the girth of a plain tube is its stitches times the wale spacing. Pressure stretches by
  // less than 2 %; between plates heel and toe, which cannot lie flat, draw so short a foot in.
  it(`keeps the foot at the girth of its stitches within ${name === 'tube' ? 2 : 3} %`, () => {
    expect(Math.abs((measure(poses[name]).footGirthMm ?? NaN) / (36 * fabric.courseMm) - 1)).toBeLessThan(name === 'tube' ? 0.02 : 0.03);
  });

  it('comes to the same shape from a start disturbed by 2 mm', () => {
    const random = createRandom(4);
    const start = makeStartShape(fabric, name === 'flat' ? 'folded' : 'round').map((value) => value + 4 * (random() - 0.5));
    const again = relaxSock(fabric, name, { start });
    expect(again.status).toBe('converged');
    expectWithin(keyDimensions(again), keyDimensions(poses[name]), 0.01);
  });

  it('does not hang on the tolerance: key dimensions move by less than 0.1 % at a tenth of it', () => {
    expectWithin(keyDimensions(relaxSock(fabric, name, { tolerance: 1e-4 })), keyDimensions(poses[name]), 1e-3);
  });

  it('gives the same bytes for the same sock, and leaves the start as it was', () => {
    const start = poses[name].positions.slice();
    expect(relaxSock(fabric, name, { start, maxIterations: 30 }).positions).toEqual(relaxSock(fabric, name, { start, maxIterations: 30 }).positions);
    expect(start).toEqual(poses[name].positions);
  });

  it('turns the mirrored sock into the mirrored shape', () => {
    const mirrored = knitSmallSock({}, true);
    const pose = relaxSock(mirrored, name);
    expectWithin(keyDimensions(pose, mirrored), keyDimensions(poses[name]), 0.01);
    // Loops are formed in the same order, so vertex i mirrors vertex i.
    let worst = 0;
    for (let i = 0; i < pose.positions.length; i += 3) {
      const p = poses[name].positions, q = pose.positions;
      worst = Math.max(worst, Math.sqrt((p[i] - q[i]) ** 2 + (p[i + 1] + q[i + 1]) ** 2 + (p[i + 2] - q[i + 2]) ** 2));
    }
    expect(worst).toBeLessThan(fabric.courseMm);
  });

  it('reports progress from 0 to 1 and stops when told to', () => {
    const fractions: number[] = [];
    const pose = relaxSock(fabric, name, { onProgress: (_, fraction) => fractions.push(fraction), isCancelled: () => fractions.length >= 8 });
    expect(pose.status).toBe('cancelled');
    expect(fractions.length).toBe(8);
    for (let k = 0; k < fractions.length; k++) {
      expect(fractions[k]).toBeGreaterThanOrEqual(k > 0 ? fractions[k - 1] : 0);
      expect(fractions[k]).toBeLessThanOrEqual(1);
    }
    expect(relaxSock(fabric, name, { maxIterations: 5 })).toMatchObject({ status: 'budget', iterations: 5 });
  });
});

describe('laid flat', () => {
  // Half a thickness of cloth over the mid-plane, a whole one into a plate.
  it('keeps each half on its side of the mid-plane, between the plates', () => {
    const { positions } = poses.flat;
    for (let v = 0; v < fabric.vertexCount; v++) {
      const y = positions[3 * v + 1] * (fabric.vertexAround[v] < 0.5 ? 1 : -1);
      expect(y).toBeGreaterThan(-0.9);
      expect(y).toBeLessThan(4 + 1.8);
    }
  });

  // Geometry: mitres lie flat when leg and foot meet at 180 - 2 theta, theta = atan(2 b / a); the instep at 180.
  it('leaves the angle of leg and foot between that of flat mitres and a straight line', () => {
    const flatMitres = 180 - 2 * Math.atan(2 * fabric.waleMm / fabric.courseMm) * 180 / Math.PI;
    const angle = measure(poses.flat).legFootAngleDeg ?? NaN;
    expect(angle).toBeGreaterThan(flatMitres + 10);
    expect(angle).toBeLessThan(170);
  });
});

// What we hold a sock of usual gauge to: nowhere on a tube, mitres, seam and toe included, a crease sharper than this.
it.each([
  ['a third', { turnDownWidth: 8 }, 'decreased'], ['deep', { turnDownWidth: 4 }, 'decreased'], ['shallow', { turnDownWidth: 14 }, 'short-row'],
] as const)('a tube has no angle of more than 60 degrees between neighbouring faces (heel %s, %j, toe %s)', (_, heel, kind) => {
  const sock = knitSmallSock({ gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, counts: { stitches: 48, legPasses: 20, footPasses: 60 }, heel, toe: { kind } });
  expect(Math.max(...faceAngles(sock, relaxSock(sock, 'tube').positions))).toBeLessThan(60);
});

it('a smaller turn-down width makes a deeper heel', () => {
  const shallow = knitSmallSock({ heel: { turnDownWidth: 10 } });
  const throat = (of: Fabric): number => measure(relaxSock(of, 'flat'), of).throatToHeelMm ?? NaN;
  expect(throat(fabric)).toBeGreaterThan(throat(shallow));
});

it.each([
  ['tube leg and fast toe', 'flat' as const, { leg: { kind: 'tube' as const }, toe: { passesPerDecrease: 2 } }],
  ['short-row toe', 'tube' as const, { toe: { kind: 'short-row' as const } }],
  ['plateau, no wraps, bind-off', 'tube' as const, { heel: { turnDownWidth: 6, plateauPasses: 4, wraps: false }, toe: { closing: 'bind-off' as const } }],
])('%s converges (%s)', (_, name, changes) => {
  const other = knitSmallSock(changes);
  expect(relaxSock(other, name).status).toBe('converged');
});
