import { describe, expect, it } from 'vitest';
import type { Fabric } from '../../src/fabric/fabric.ts';
import type { FootMeasures } from '../../src/foot/complete-measures.ts';
import { makeFootForm } from '../../src/foot/foot-form.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { SOCK_CLOTH } from '../../src/shape/cloth-table.ts';
import { SKIN_STIFFNESS, setUpWorn } from '../../src/shape/worn-pose.ts';
import { minimise } from '../../src/solve/index.ts';
import { faceAngles } from './face-angles.ts';
import { knitSmallSock } from './small-sock.ts';

/** The small sock's stitches stand for a foot of about this size: 36 stitches at 14 in 10 cm are 257 mm. */
const FOOT: FootMeasures = { lengthMm: 285, ballGirthMm: 275 };

function wear(changes: Partial<SockFile> = {}, measures = FOOT, isMirrored = false) {
  const fabric = knitSmallSock(changes, isMirrored), foot = makeFootForm({ ...measures, side: isMirrored ? 'left' : 'right' }), setUp = setUpWorn(fabric, foot);
  const x = setUp.start.slice();
  const result = minimise(x, setUp.problem.terms, setUp.problem.preconditioner, { longestMove: 1.5 * fabric.waleMm, leastForce: 1e-6 });
  return { fabric, foot, setUp, x, result };
}

/** Mean place of the vertices of some loops. */
function meanOf(fabric: Fabric, x: Float64Array, isOne: (v: number) => boolean): number[] {
  const mean = [0, 0, 0];
  const all = Array.from(fabric.vertexLoop.keys()).filter(isOne);
  for (const v of all) for (let axis = 0; axis < 3; axis++) mean[axis] += x[3 * v + axis] / all.length;
  return mean;
}

describe.each([
  ['decreased toe', {}, FOOT],
  ['tube leg', { leg: { kind: 'tube' as const } }, FOOT],
  ['short-row toe', { toe: { kind: 'short-row' as const } }, FOOT],
  ['on a high instep', {}, { ...FOOT, heelDiagonalMm: 400 }],
  ['far too large', {}, { lengthMm: 230, ballGirthMm: 215 }],
  ['heel turned to nothing', { heel: { turnDownWidth: 2 } }, FOOT],
  ['heel hardly turned', { heel: { turnDownWidth: 12 }, toe: { tipStitches: 4 }, counts: { stitches: 36, legPasses: 16, footPasses: 72 } }, FOOT],
  ['a fifth too wide', { counts: { stitches: 44, legPasses: 16, footPasses: 44 } }, FOOT],
  ['long leg', { counts: { stitches: 36, legPasses: 70, footPasses: 48 } }, FOOT],
  ['left foot with pointed toes', {}, { ...FOOT, side: 'left' as const, toes: 'pointed' as const }],
])('worn: %s', (_, changes, measures) => {
  const { fabric, foot, setUp, x, result } = wear(changes, measures);
  const normal = new Float64Array(3), clearance = SOCK_CLOTH.thicknessMm / 2, stiffness = SKIN_STIFFNESS * fabric.courseMm * fabric.waleMm;
  const distance = (v: number): number => foot.distanceAt(x[3 * v], x[3 * v + 1], x[3 * v + 2], normal);

  it('comes to rest outside the foot', () => {
    expect(result.status).toBe('converged');
    // The skin gives as it is pressed: by 1.5 mm at most, under the tight line over instep and heel.
    for (let v = 0; v < fabric.vertexCount; v++) expect(distance(v)).toBeGreaterThan(-1.5);
  });

  it('sits with its heel on the heel and its toe at the toes', () => {
    const { lengthMm } = foot.measures;
    // Sections: heel 4 to 6, foot 7, toe 8 to 10. The heel's middle is at half its fan.
    const base = meanOf(fabric, x, (v) => fabric.vertexSection[v] >= 4 && fabric.vertexSection[v] <= 6 && Math.abs(fabric.vertexFan[v] - 0.5) < 0.1);
    expect(base[0]).toBeLessThan(0.15 * lengthMm);
    expect(base[2]).toBeLessThan(0);
    // No other loop below the calf lies farther back than the heel's.
    let rearmost = fabric.marks?.baseMiddle.a[0] ?? 0, foremost = 0;
    for (let v = 0; v < fabric.vertexCount; v++) {
      if (x[3 * v] < x[3 * rearmost] && x[3 * v + 2] < foot.ankleMm) rearmost = v;
      if (x[3 * v] > x[3 * foremost]) foremost = v;
    }
    expect([4, 5, 6]).toContain(fabric.vertexSection[rearmost]);
    expect([8, 9, 10]).toContain(fabric.vertexSection[foremost]);
    expect(x[3 * foremost]).toBeGreaterThan(0.97 * lengthMm);
    // The leg is up, and goes round the leg.
    const cuff = meanOf(fabric, x, (v) => fabric.vertexSection[v] === 0);
    expect(cuff[2]).toBeGreaterThan(foot.turn[1]);
    expect(Math.abs(cuff[1])).toBeLessThan(2);
    const left = meanOf(fabric, x, (v) => Math.abs(fabric.vertexAround[v] - 0.25) < 0.05);
    expect(left[1]).toBeGreaterThan(20);
  });

  // Statics: what presses from the foot and what grips leg and heel hold each other.
  it('is in balance: skin and grip add up to nothing', () => {
    const push = [0, 0, 0], total = new Float64Array(x.length);
    let most = 0;
    for (let v = 0; v < fabric.vertexCount; v++) {
      const short = clearance - distance(v);
      if (!(short > 0)) continue;
      for (let axis = 0; axis < 3; axis++) push[axis] += stiffness * short * normal[axis];
      most += stiffness * short;
    }
    const grip = setUp.problem.terms[setUp.problem.terms.length - 1];
    grip.addGradient(x, total);
    for (let i = 0; i < x.length; i += 3) for (let axis = 0; axis < 3; axis++) push[axis] -= total[i + axis];
    for (const force of push) expect(Math.abs(force)).toBeLessThan(0.002 * most);
  });
});

// What we hold a worn sock of usual gauge to, as a tube: nowhere, the crook of the ankle included, a crease sharper than this.
it.each([
  ['a third', {}], ['deep', { heel: { turnDownWidth: 6 } }], ['ending below the ankle', { leg: { kind: 'tube' as const, lengthMm: 0 } }],
])('has no angle of more than 60 degrees between neighbouring faces (%s)', (_, changes) => {
  const { fabric, x } = wear({ gauge: { stitchesPer10cm: 20, rowsPer10cm: 28 }, counts: { stitches: 44, footPasses: 82 }, heel: { turnDownWidth: 8 }, ...changes }, { lengthMm: 258, ballGirthMm: 246 });
  expect(Math.max(...faceAngles(fabric, x))).toBeLessThan(60);
});

// Geometry: cloth half a thickness off a convex form goes round it in the form's girth and 2 pi times that.
it('goes round the ball of the foot in its girth', () => {
  const { fabric, foot, x } = wear();
  let best = Infinity, girth = 0;
  for (const round of fabric.marks?.footRounds ?? []) {
    const n = round.a.length, at = (k: number): number[] => [0, 1, 2].map((axis) => (1 - round.t[k % n]) * x[3 * round.a[k % n] + axis] + round.t[k % n] * x[3 * round.b[k % n] + axis]);
    let length = 0, mean = 0;
    for (let k = 0; k < n; k++) {
      const [p, q] = [at(k), at(k + 1)];
      length += Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
      mean += p[0] / n;
    }
    if (Math.abs(mean - foot.ballMm) < best) { best = Math.abs(mean - foot.ballMm); girth = length; }
  }
  expect(Math.abs(girth / (foot.measures.ballGirthMm + Math.PI * SOCK_CLOTH.thicknessMm) - 1)).toBeLessThan(0.03);
});

it('the mirrored sock is worn as its mirror image', () => {
  const one = wear(), other = wear({}, FOOT, true);
  let worst = 0;
  for (let i = 0; i < one.x.length; i += 3) {
    worst = Math.max(worst, Math.hypot(one.x[i] - other.x[i], one.x[i + 1] + other.x[i + 1], one.x[i + 2] - other.x[i + 2]));
  }
  expect(worst).toBeLessThan(one.fabric.courseMm / 2);
});

it('gives the same bytes for the same sock', () => {
  expect(wear().x).toEqual(wear().x);
});
