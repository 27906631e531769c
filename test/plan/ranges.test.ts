import { describe, expect, test } from 'vitest';
import { createRandom } from '../../src/base/random.ts';
import { planSock } from '../../src/plan/plan-sock.ts';
import type { ControlPath } from '../../src/plan/ranges.ts';
import { CONTROL_PATHS, rangesFor } from '../../src/plan/ranges.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { withField } from '../../src/plan/with-field.ts';
import { randomSockFile } from './random-sock-file.ts';

const FOOT: SockFile = { gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, foot: { lengthMm: 262, ballGirthMm: 246 } };

const isPossible = (file: SockFile, path: string, value: number): boolean => planSock(withField(file, path, value)).plan !== null;

describe('rangesFor', () => {
  // H = 34: turn-down and tip to 32, decreased tip from 4; the flat leg of 68 needs 68 needles.
  test.each<[ControlPath, number, number, number]>([
    // The heel may have three quarters of 68 stitches, 51; the tip of 12 leaves 22 to be decreased, two of them on both sides.
    ['heel.stitches', 34, 50, 2], ['toe.slantStitches', 0, 20, 2],
    ['heel.turnDownWidth', 2, 32, 2], ['toe.tipStitches', 4, 32, 2], ['machine.needlesPerBed', 68, 400, 1],
    ['foot.lengthMm', 104, 400, 1], // heel 22 rows, toe 21 rows, more than half a row: 43.5 / 0.42 = 103.6 mm
    ['leg.lengthMm', 0, 800, 1], ['counts.anklePasses', 2, 200, 2], ['ease.girthPercent', -40, 30, 1], ['foot.calfGirthMm', 60, 800, 1],
  ])('%s of a plain sock goes from %d to %d by %d', (path, min, max, step) => {
    expect(rangesFor(FOOT)[path]).toEqual({ min, max, step });
  });

  test('both ends can be knitted, and a step beyond cannot', () => {
    const random = createRandom(77);
    let plannedCount = 0;
    for (let i = 0; i < 60; i++) {
      const file = randomSockFile(random);
      if (planSock(file).plan === null) continue;
      plannedCount++;
      const ranges = rangesFor(file);
      for (const path of CONTROL_PATHS) {
        // A field of a foot that is measured otherwise, or with nothing in it yet.
        if (path === 'foot.shoeSize.value' && file.foot?.shoeSize === undefined) continue;
        if (path === 'foot.lengthMm' && file.foot?.lengthMm === undefined) continue;
        const { min, max, step } = ranges[path];
        expect(min).toBeLessThanOrEqual(max);
        expect([path, min, isPossible(file, path, min)]).toEqual([path, min, true]);
        expect([path, max, isPossible(file, path, max)]).toEqual([path, max, true]);
        for (const beyond of [min - step, max + step]) expect([path, beyond, isPossible(file, path, beyond)]).toEqual([path, beyond, false]);
      }
    }
    expect(plannedCount).toBeGreaterThan(20);
  });

  test('a file without a plan gets the limits of the file', () => {
    const impossible = withField(FOOT, 'foot.lengthMm', 70);
    expect(planSock(impossible).plan).toBeNull();
    expect(rangesFor(impossible)['foot.lengthMm']).toEqual({ min: 60, max: 400, step: 1 });
  });

  test('a tube leg steps by rounds, a shoe size within its system', () => {
    const file: SockFile = { gauge: FOOT.gauge, foot: { ballGirthMm: 246, shoeSize: { system: 'mondopoint', value: 260 } }, leg: { kind: 'tube' } };
    const ranges = rangesFor(file);
    expect(ranges['counts.legPasses'].step).toBe(2);
    expect(ranges['foot.shoeSize.value']).toMatchObject({ max: 400, step: 5 });
  });
});

describe('withField', () => {
  test('sets, adds and takes out one field and shares nothing it changes', () => {
    const file: SockFile = { ...FOOT, yarns: [{ name: 'a' }, { name: 'b' }] };
    const before = structuredClone(file);
    expect(withField(file, 'yarns.1.colour', '#fff').yarns).toEqual([{ name: 'a' }, { name: 'b', colour: '#fff' }]);
    expect(withField(file, 'heel.turnDownWidth', 8).heel).toEqual({ turnDownWidth: 8 });
    expect(withField(file, 'foot.lengthMm', undefined).foot).toEqual({ ballGirthMm: 246 });
    expect(file).toEqual(before);
  });
});
