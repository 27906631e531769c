import { describe, expect, test } from 'vitest';
import { findContradictions, soundMeasures } from '../../src/foot/sound-measures.ts';
import { planSock } from '../../src/plan/plan-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { makeFootForm } from '../../src/foot/foot-form.ts';
import { footOf } from '../../src/pipeline/foot-of.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { reportOnSock } from '../../src/choose/report-sock.ts';
import { readFeet } from '../data/read-feet.ts';

const gauge = { stitchesPer10cm: 30, rowsPer10cm: 42 };
const sock = (foot: NonNullable<SockFile['foot']>): SockFile => ({ gauge, foot });

describe('measures that cannot be of one foot are said at the field, and the sock is knitted all the same', () => {
  test.each<[string, NonNullable<SockFile['foot']>, string[]]>([
    ['a ball girth of half the length', { lengthMm: 262, ballGirthMm: 131 }, ['foot.ballGirthMm']],
    ['an ankle wider than the diagonal', { lengthMm: 262, ballGirthMm: 246, heelDiagonalMm: 330, ankleGirthMm: 340 }, ['foot.ankleGirthMm']],
    ['a diagonal no longer than the ball', { lengthMm: 262, ballGirthMm: 246, heelDiagonalMm: 235 }, ['foot.heelDiagonalMm']],
    ['a calf far narrower than the ankle', { lengthMm: 262, ballGirthMm: 246, ankleGirthMm: 225, calfGirthMm: 180 }, ['foot.calfGirthMm']],
    ['a heel as broad as half the ball\'s girth', { lengthMm: 262, ballGirthMm: 246, heelBreadthMm: 125 }, ['foot.heelBreadthMm']],
    ['a length that no other measure fits', { lengthMm: 150, ballGirthMm: 246, heelDiagonalMm: 335, ankleGirthMm: 225 }, ['foot.lengthMm']],
    ['a shoe size that no other measure fits', { shoeSize: { system: 'continental', value: 24 }, ballGirthMm: 246, heelDiagonalMm: 335, ankleGirthMm: 225 }, ['foot.shoeSize']],
    ['two at once', { lengthMm: 262, ballGirthMm: 246, heelDiagonalMm: 335, ankleGirthMm: 100, heelBreadthMm: 140 }, ['foot.ankleGirthMm', 'foot.heelBreadthMm']],
  ])('%s', (_name, foot, fields) => {
    const outcome = planSock(sock(foot));
    expect(outcome.plan).not.toBeNull();
    expect(outcome.problems.map(({ field }) => field).sort()).toEqual([...fields].sort());
    for (const { value, allowed, message } of outcome.problems) {
      expect(value).not.toBeNull();
      expect(allowed).toMatch(/^\d+ to \d+ mm beside an? /);
      expect(message).toMatch(/does not go with/);
    }
    // What is not believed is estimated from the rest, and the counts follow what was given.
    expect(findContradictions(outcome.foot.body)).toEqual([]);
    for (const field of fields.filter((one) => one !== 'foot.shoeSize')) {
      const name = field.slice(5) as keyof typeof outcome.foot.measures;
      expect(outcome.foot.measures[name].isGiven).toBe(false);
      expect(outcome.foot.measures[name].valueMm).not.toBe(foot[name as 'lengthMm']);
    }
    expect(outcome.foot.wantedGirthMm).toBeCloseTo(0.9 * foot.ballGirthMm!, 9);
  });

  test('no foot of the survey is doubted, whichever of its measures are given', () => {
    for (const foot of readFeet()) {
      expect(findContradictions(foot)).toEqual([]);
      expect(soundMeasures(foot)).toEqual(foot);
    }
  });

  test('the foot that is shown has the estimate, and all else as given', () => {
    const { sock: knitted } = knitSock(sock({ lengthMm: 262, ballGirthMm: 246, ankleGirthMm: 340, heelDiagonalMm: 330, side: 'left', arch: 'high' }));
    const foot = footOf(knitted!);
    expect(foot.girths).toEqual(makeFootForm({ lengthMm: 262, ballGirthMm: 246, heelDiagonalMm: 330, side: 'left', arch: 'high' }).girths);
    expect(foot.looks).toEqual({ side: 'left', arch: 'high', toes: 'sloping' });
    expect(Math.abs(foot.girths.heelDiagonalMm - 330)).toBeLessThan(1);
  });

  test('the report tells them and still ends well', () => {
    const { json, exitCode } = reportOnSock(JSON.stringify(sock({ lengthMm: 262, ballGirthMm: 246, heelBreadthMm: 125 })), { poses: [] }, () => 0);
    expect(exitCode).toBe(0);
    expect(json.plan).not.toBeNull();
    expect(json.problems.map(({ field }) => field)).toEqual(['foot.heelBreadthMm']);
  });
});
