import { describe, expect, test } from 'vitest';
import { createRandom, randomWhole } from '../../src/base/random.ts';
import { knitProgram } from '../../src/machine/knit-program.ts';
import { buildProgram } from '../../src/plan/build-program.ts';
import { mirrorProgram } from '../../src/plan/mirror-program.ts';
import { planSock } from '../../src/plan/plan-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import type { Program } from '../../src/plan/step.ts';
import { withField } from '../../src/plan/with-field.ts';
import { canGoOn } from '../../src/sheet/can-go-on.ts';
import type { KnitPlace } from '../../src/sheet/knit-place.ts';
import { beginPlace } from '../../src/sheet/knit-place.ts';
import { listChanges, planAnew } from '../../src/sheet/plan-anew.ts';
import { WORDS } from '../../src/words/words.ts';
import { randomPlans } from '../laws/random-sock.ts';

const SOCK: SockFile = {
  name: 'Short', gauge: { stitchesPer10cm: 20, rowsPer10cm: 28 }, leg: { lengthMm: 40 }, counts: { stitches: 40, footPasses: 40 },
  heel: { turnDownWidth: 8 }, toe: { passesPerDecrease: 4, tipStitches: 8 },
};
const programOf = (file: SockFile): Program => buildProgram(planSock(file).plan!);
/** First pass of a part. */
const firstOf = (file: SockFile, section: string): number => {
  const knitting = knitProgram(programOf(file));
  return knitting.trace!.passes.find((pass) => pass.section === section)!.pass;
};
const at = (file: SockFile, stop: number): KnitPlace => ({ ...beginPlace('a', file), stop });

describe('going on with a changed plan', () => {
  test.each([
    ['a longer foot, in the foot', 'counts.footPasses', 60, 'foot', 10], ['a deeper heel, at the last ankle pass', 'heel.turnDownWidth', 4, 'heel-in', 0],
    ['another toe, at the last foot pass', 'toe.kind', 'short-row', 'toe', 0], ['a longer leg by an even number of rows, in the leg', 'leg.lengthMm', 61.5, 'leg', 5],
    ['closing by binding off, in the toe', 'toe.closing', 'bind-off', 'toe', 9],
  ] as const)('%s', (_, field, value, section, more) => {
    const place = at(SOCK, firstOf(SOCK, section) + more), changed = withField(SOCK, field, value), anew = planAnew(place, changed, WORDS.en);
    expect(anew.problems).toEqual([]);
    expect(anew.place).toEqual({ ...place, file: changed });
  });

  test.each([
    ['a deeper heel, in the heel', 'heel.turnDownWidth', 4, 'heel-out', 3], ['a longer leg, in the foot', 'leg.lengthMm', 61.5, 'foot', 3],
    ['more stitches, in the leg', 'counts.stitches', 48, 'leg', 3], ['a shorter foot, after it', 'counts.footPasses', 30, 'toe', 5],
    ['a leg of one row more turns every carriage side', 'leg.lengthMm', 43.5, 'leg', 4], ['a machine with another middle', 'machine.needlesPerBed', 200, 'leg', 4],
  ] as const)('%s, is refused by its field and pass', (_, field, value, section, more) => {
    const place = at(SOCK, firstOf(SOCK, section) + more), anew = planAnew(place, withField(withField(SOCK, field, value), 'name', 'Other'), WORDS.en);
    expect(anew.place).toBeNull();
    expect(anew.problems.map((problem) => problem.field)).toEqual([field]);
    expect(anew.problems[0].message).toMatch(/from (pass \d+, and \d+ passes are knitted|the cast-on)/);
  });

  test('the pass is named where the two first differ: a shorter foot of 30 passes, after its 30th', () => {
    const foot = firstOf(SOCK, 'foot'), { problems } = planAnew(at(SOCK, foot + 36), withField(SOCK, 'counts.footPasses', 30), WORDS.en);
    // The toe's first decrease would come before the foot's pass 31.
    expect(problems[0].message).toContain(`from pass ${foot + 30}, and ${foot + 35} passes are knitted`);
  });

  test('a file that cannot be knitted says why, and the old plan is kept', () => {
    const { place, problems } = planAnew(at(SOCK, 9), withField(SOCK, 'heel.turnDownWidth', 38), WORDS.en);
    expect(place).toBeNull();
    expect(problems[0].field).toBe('heel.turnDownWidth');
  });

  test('what agrees so far gives the same loops so far: the machine says so, for random socks, changes and passes', () => {
    const random = createRandom(3), programs = randomPlans(41, 80).map((plan) => ({ plan, program: buildProgram(plan) }));
    let yes = 0, no = 0;
    for (const { plan, program } of programs) {
      const other = buildProgram({ ...plan, footPasses: plan.footPasses + 2 * randomWhole(random, 0, 3), closing: 'graft' });
      const { trace, grid } = knitProgram(program), knitted = knitProgram(other);
      if (trace === null || knitted.trace === null) throw new Error('a random sock cannot be knitted');
      const stop = randomWhole(random, 1, trace.passes.length - 1), before = trace.passes[stop - 1], width = 2 * trace.needlesPerBed;
      const loops = grid.pass.findIndex((pass) => pass >= stop), count = loops < 0 ? grid.loopCount : loops;
      // An outside view of "the same so far": the states after every pass done, and every loop with its needle, kind and pass.
      const isSame = Buffer.from(trace.needleStates.subarray(0, stop * width)).equals(Buffer.from(knitted.trace.needleStates.subarray(0, stop * width)))
        && knitted.trace.passes[stop - 1]?.endLoop === before.endLoop && (['needle', 'bed', 'kind', 'pass'] as const).every((key) => String(grid[key].subarray(0, count)) === String(knitted.grid[key].subarray(0, count)));
      expect(canGoOn(program, other, stop) === null).toBe(isSame);
      if (isSame) yes++; else no++;
    }
    expect(yes).toBeGreaterThan(10);
    expect(no).toBeGreaterThan(5);
  });

  test('a program goes on as itself from every stop; its mirror image from none but the first', () => {
    for (const plan of randomPlans(9, 12)) {
      const program = buildProgram(plan), stops = program.steps.filter((step) => step.do === 'knit').length + 2;
      for (let stop = 0; stop <= stops; stop++) expect(canGoOn(program, program, stop)).toBeNull();
      expect(canGoOn(program, mirrorProgram(program), 0)).toBeNull();
      expect(canGoOn(program, mirrorProgram(program), 1)).toEqual({ stop: 0 });
    }
  });

  test('on a mirrored second sock the changed plan is mirrored too', () => {
    const place: KnitPlace = { ...at(SOCK, firstOf(SOCK, 'foot')), sock: 2, second: 'mirrored' };
    expect(planAnew(place, withField(SOCK, 'counts.footPasses', 44), WORDS.en).problems).toEqual([]);
  });

  test('changes are listed field by field', () => {
    expect(listChanges({ a: 1, b: { c: 2, d: 3 }, l: [1] }, { a: 1, b: { c: 4 }, e: { f: 5 }, l: [1, 2] })).toEqual([
      { field: 'b.c', was: 2, is: 4 }, { field: 'b.d', was: 3, is: undefined }, { field: 'l', was: [1], is: [1, 2] }, { field: 'e.f', was: undefined, is: 5 },
    ]);
  });
});
