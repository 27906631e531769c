import { describe, expect, test } from 'vitest';
import { createRandom } from '../../src/base/random.ts';
import { planSock } from '../../src/plan/plan-sock.ts';
import type { Plan } from '../../src/plan/plan-types.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { withField } from '../../src/plan/with-field.ts';
import { randomSockFile } from './random-sock-file.ts';

const FOOT: SockFile = { gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, foot: { lengthMm: 262, ballGirthMm: 246 } };

const COUNTED: SockFile = { gauge: FOOT.gauge, counts: { stitches: 72, footPasses: 110 } };

function planned(file: SockFile): Plan {
  const { plan, problems } = planSock(file);
  expect(problems).toEqual([]);
  return plan!;
}

const change = (file: SockFile, ...changes: readonly (readonly [string, unknown])[]): SockFile =>
  changes.reduce((changed, [path, value]) => withField(changed, path, value), file);

describe('defaults', () => {
  // Numbers by hand: 246 x 0.9 x 0.30 = 66.4: 68; 34 / 3 = 11.3: 12; heel 22 rows; toe (34 - 12) / 2 = 11
  // decreases, 42 passes = 21 rows; 110 x 0.42 = 46.2; 262 x 0.42 = 110.04 - 43 = 67.04 rounds.
  test('a foot and a gauge are enough', () => {
    expect(planned(FOOT)).toMatchObject({
      stitches: 68, heelStitches: 34, legKind: 'flat-rib', legPasses: 46, plainPasses: 2, gatherBed: 'back', heelBed: 'front', anklePasses: 4,
      turnDownWidth: 12, plateauPasses: 0, heelWraps: true, heelPasses: 44, footPasses: 134,
      toeKind: 'decreased', passesPerDecrease: 4, toeTipStitches: 12, toeDecreases: 11, toePasses: 42, closing: 'graft', firmness: 'soft',
      needlesPerBed: 180, needlePitchMm: 5, stitchesPerMm: 0.3, rowsPerMm: 0.42,
    });
  });

  test('a yarn when there is none, and for a leg that none begins', () => {
    expect(planned(FOOT).yarns).toMatchObject([{ metresPer100g: 420, from: 'leg', stripePasses: null }]);
    const { yarns } = planned({ ...FOOT, yarns: [{ name: 'Red', colour: '#C12', from: 'heel' }] });
    expect(yarns).toMatchObject([{ name: 'Red', colour: '#cc1122', from: 'heel' }, { from: 'leg', metresPer100g: 420 }]);
  });

  test('yarns that take turns keep their passes', () => {
    const { yarns } = planned({ ...FOOT, yarns: [{ stripePasses: 6, colour: '#123456' }, { stripePasses: 2 }] });
    expect(yarns.map((yarn) => [yarn.from, yarn.stripePasses])).toEqual([['leg', 6], ['leg', 2]]);
    expect(yarns[1].colour).toMatch(/^#[0-9a-f]{6}$/);
    expect(new Set(yarns.map((yarn) => yarn.name)).size).toBe(2);
  });
});

describe('choices', () => {
  test.each<[string, readonly (readonly [string, unknown])[], Partial<Plan>]>([
    ['a tube leg counts two passes a round and has no plain rows', [['leg.kind', 'tube']], { legPasses: 92, plainPasses: 0, heelBed: 'front' }],
    ['the heel lies on the turned bed', [['leg.gatherBed', 'front']], { gatherBed: 'front', heelBed: 'back' }],
    ['after a tube leg it lies on the front', [['leg.kind', 'tube'], ['leg.gatherBed', 'front']], { heelBed: 'front' }],
    // 2 x (34 - 8).
    ['a short-row toe has passes of its own', [['toe.kind', 'short-row'], ['toe.tipStitches', 8]], { toePasses: 52, toeDecreases: 0, toeTipStitches: 8 }],
    ['a plateau adds its passes to the heel and half its rows', [['heel.plateauPasses', 4]], { heelPasses: 48, footPasses: 130 }],
    ['a smaller turn-down makes a deeper heel and a shorter foot', [['heel.turnDownWidth', 8], ['toe.tipStitches', 12]], { heelPasses: 52, footPasses: 126 }],
    ['a faster decrease shortens the toe', [['toe.passesPerDecrease', 2]], { toePasses: 22, footPasses: 154 }],
    ['a tip at least 4', [['heel.turnDownWidth', 2]], { toeTipStitches: 4, toeDecreases: 15 }],
    ['a short-row tip may be 2', [['heel.turnDownWidth', 2], ['toe.kind', 'short-row']], { toeTipStitches: 2 }],
    ['ease in length', [['ease.lengthPercent', -10]], { footPasses: 112 }], // 99.04 - 43 = 56.04
    ['a measured length goes before a shoe size', [['foot.shoeSize', { system: 'uk', value: 3 }]], { footPasses: 134 }],
    ['leg passes by hand may be odd for a flat leg', [['counts.legPasses', 47]], { legPasses: 47 }],
    ['no leg at all', [['leg.lengthMm', 0]], { legPasses: 0, plainPasses: 2 }],
    ['wraps off', [['heel.wraps', false]], { heelWraps: false }],
    // 11 decreases take 22 of 34; 6 x 4 + 4 x 2 + 2 passes are 17 rows: 110.04 - 22 - 17 = 71.04.
    ['a schedule says the tip, and its passes the foot', [['toe.schedule', [{ passes: 4, times: 6 }, { passes: 2, times: 5 }]]], { toeTipStitches: 12, toeDecreases: 11, toePasses: 34, footPasses: 142 }],
    ['a tip that agrees with it', [['toe.schedule', [{ passes: 6, times: 9 }]], ['toe.tipStitches', 16]], { toeTipStitches: 16, toeDecreases: 9, toePasses: 50 }],
    ['no rates are no schedule', [['toe.schedule', []]], { toeTipStitches: 12, toePasses: 42 }],
    ['a short-row toe has no use for either', [['toe.kind', 'short-row'], ['toe.schedule', [{ passes: 4, times: 90 }]], ['toe.slantStitches', 90]], { toeTipStitches: 12, toePasses: 44, toeSteps: [] }],
    // 4 at one side, then (34 - 4 - 12) / 2 = 9 at both; 4 x 12 + 2 passes are 25 rows: 110.04 - 22 - 25 = 63.04.
    ['a slanted toe has so many decreases more', [['toe.slantStitches', 4]], { toeTipStitches: 12, toeDecreases: 13, toePasses: 50, footPasses: 126 }],
    ['a schedule with a slant leaves as many more', [['toe.slantStitches', 4], ['toe.schedule', [{ passes: 4, times: 11 }]]], { toeTipStitches: 16, toePasses: 42 }],
    // 40 / 3 = 13.3: 14; heel 26 rows; 14 x 34 / 40 = 11.9: 12 at the tip, as before; 110.04 - 26 - 21 = 63.04.
    ['a heel on more than half is turned down to a third of them', [['heel.stitches', 40]], { bedStitches: 34, heelStitches: 40, turnDownWidth: 14, heelPasses: 52, toeTipStitches: 12, footPasses: 126 }],
    ['firm cloth has the counts of soft cloth', [['cloth.firmness', 'firm']], { firmness: 'firm', stitches: 68, legPasses: 46, footPasses: 134, toePasses: 42 }],
  ])('%s', (_name, changes, expected) => {
    expect(planned(change(FOOT, ...changes))).toMatchObject(expected);
  });

  // 220 mm x 1.00 x 0.30 = 66, halfway between 64 and 68; 105 mm x 0.30 = 31.5 rows; 130 x 0.30 - heel - toe ends in a half.
  test('ties go to the smaller sock', () => {
    const file = change(FOOT, ['foot.ballGirthMm', 220], ['ease.girthPercent', 0], ['gauge.rowsPer10cm', 30], ['leg.lengthMm', 105], ['foot.lengthMm', 255]);
    const plan = planned(file);
    expect(plan).toMatchObject({ stitches: 64, legPasses: 31 });
    // 76.5 - 22 - 21 = 33.5.
    expect(plan.footPasses).toBe(66);
  });
});

describe('counts fixed by hand', () => {
  test('replace what they would come from, and nothing else is moved to please them', () => {
    const free = planned(FOOT);
    // Heel 24 rows, toe 12 decreases in 46 passes = 23 rows: 110.04 - 47 = 63.04 rounds.
    expect(planned(change(FOOT, ['counts.stitches', 72]))).toMatchObject({ stitches: 72, heelStitches: 36, turnDownWidth: 12, footPasses: 126 });
    expect(planned(change(FOOT, ['counts.footPasses', 20]))).toEqual({ ...free, footPasses: 20 });
    expect(planned(change(FOOT, ['counts.legPasses', 11]))).toEqual({ ...free, legPasses: 11 });
    expect(planned(change(FOOT, ['counts.anklePasses', 2]))).toEqual({ ...free, anklePasses: 2 });
  });

  test('need no foot', () => {
    const { foot, derivations } = planSock(COUNTED);
    expect(planned(COUNTED)).toMatchObject({ stitches: 72, footPasses: 110, heelPasses: 48, toePasses: 46 });
    expect(foot.wantedLengthMm).toBeNull();
    expect(derivations.find((entry) => entry.count === 'footPasses')).toMatchObject({ value: 110, isFixedByHand: true });
  });
});

describe('what cannot be knitted is refused at its field', () => {
  test.each<[string, SockFile, readonly (readonly [string, unknown])[], readonly string[]]>([
    ['turn-down wider than H - 2', COUNTED, [['heel.turnDownWidth', 36]], ['heel.turnDownWidth']],
    ['tip wider than H - 2', COUNTED, [['toe.tipStitches', 36]], ['toe.tipStitches']],
    ['both', COUNTED, [['heel.turnDownWidth', 40], ['toe.tipStitches', 40]], ['heel.turnDownWidth', 'toe.tipStitches']],
    ['a decreased tip of 2', COUNTED, [['toe.tipStitches', 2]], ['toe.tipStitches']],
    ['an odd tube leg', COUNTED, [['leg.kind', 'tube'], ['counts.legPasses', 61]], ['counts.legPasses']],
    ['a heel straight after a flat leg', COUNTED, [['counts.anklePasses', 0]], ['counts.anklePasses']],
    ['a heel straight after the cast-on', COUNTED, [['counts.anklePasses', 0], ['leg.kind', 'tube'], ['counts.legPasses', 0]], ['counts.anklePasses']],
    ['too few stitches for a decreased toe', COUNTED, [['counts.stitches', 8]], ['counts.stitches']],
    ['a flat leg on too small a bed', COUNTED, [['machine.needlesPerBed', 71]], ['counts.stitches']],
    ['a tube on too small a bed', COUNTED, [['machine.needlesPerBed', 35], ['leg.kind', 'tube']], ['counts.stitches']],
    ['a girth on too small a bed', FOOT, [['machine.needlesPerBed', 67]], ['machine.needlesPerBed']],
    ['a foot shorter than heel and toe', FOOT, [['foot.lengthMm', 80]], ['foot.lengthMm']],
    ['the same from a shoe size', { gauge: FOOT.gauge, foot: { ballGirthMm: 246, shoeSize: { system: 'continental', value: 14 } } }, [], ['foot.shoeSize.value']],
    ['a girth of next to nothing', change(FOOT, ['gauge.stitchesPer10cm', 8]), [['foot.ballGirthMm', 80]], ['foot.ballGirthMm']],
    ['a heel on less than half', COUNTED, [['heel.stitches', 34]], ['heel.stitches']],
    ['a heel that leaves no instep', COUNTED, [['heel.stitches', 60]], ['heel.stitches']],
    ['a heel with no needles beside a tube', COUNTED, [['heel.stitches', 40], ['leg.kind', 'tube'], ['machine.needlesPerBed', 39]], ['heel.stitches']],
    ['a turn-down wider than a wide heel - 2', COUNTED, [['heel.stitches', 40], ['heel.turnDownWidth', 40]], ['heel.turnDownWidth']],
    ['a schedule with too many decreases', COUNTED, [['toe.schedule', [{ passes: 4, times: 10 }, { passes: 2, times: 7 }]]], ['toe.schedule']],
    ['a schedule that ends on another tip', COUNTED, [['toe.schedule', [{ passes: 4, times: 10 }]], ['toe.tipStitches', 12]], ['toe.schedule']],
    ['a slant of all decreases', COUNTED, [['toe.slantStitches', 24]], ['toe.slantStitches']],
    ['the same by a schedule', COUNTED, [['toe.slantStitches', 4], ['toe.schedule', [{ passes: 4, times: 4 }]]], ['toe.slantStitches']],
    ['a wrong heel and a wrong toe', COUNTED, [['heel.stitches', 60], ['heel.turnDownWidth', 58], ['toe.slantStitches', 24], ['toe.tipStitches', 12]], ['heel.stitches', 'toe.slantStitches']],
    ['an odd slant', COUNTED, [['toe.slantStitches', 3]], ['toe.slantStitches']],
    ['a rate of odd passes', COUNTED, [['toe.schedule', [{ passes: 3, times: 4 }]]], ['toe.schedule.0.passes']],
    ['an odd count', COUNTED, [['counts.footPasses', 111]], ['counts.footPasses']],
    ['no number', FOOT, [['gauge.rowsPer10cm', NaN]], ['gauge.rowsPer10cm']],
  ])('%s', (_name, file, changes, fields) => {
    const { plan, problems } = planSock(change(file, ...changes));
    expect(plan).toBeNull();
    expect(problems.map((problem) => problem.field)).toEqual(fields);
    for (const problem of problems) expect(problem.allowed).not.toBeNull();
  });

  test.each<[string, SockFile, readonly (readonly [string, unknown])[]]>([
    ['turn-down H - 2', COUNTED, [['heel.turnDownWidth', 34]]],
    ['the bed just wide enough for a flat leg', COUNTED, [['machine.needlesPerBed', 72]]],
    ['the bed just wide enough for a tube', COUNTED, [['machine.needlesPerBed', 36], ['leg.kind', 'tube']]],
    ['eight stitches and a short-row toe', COUNTED, [['counts.stitches', 8], ['toe.kind', 'short-row']]],
    ['twelve and a decreased one', COUNTED, [['counts.stitches', 12]]],
    ['a tube leg without an ankle', COUNTED, [['counts.anklePasses', 0], ['leg.kind', 'tube'], ['counts.legPasses', 2]]],
    ['a heel on three quarters', COUNTED, [['heel.stitches', 54]]],
    ['a wide heel just beside a tube', COUNTED, [['heel.stitches', 40], ['leg.kind', 'tube'], ['machine.needlesPerBed', 40]]],
    ['a wide heel after a tube leg without an ankle', COUNTED, [['heel.stitches', 40], ['leg.kind', 'tube'], ['counts.anklePasses', 0], ['counts.legPasses', 2]]],
    ['a schedule down to 4', COUNTED, [['toe.schedule', [{ passes: 2, times: 16 }]]]],
    ['all decreases but one on a side', COUNTED, [['toe.slantStitches', 22]]],
    ['one foot round', COUNTED, [['counts.footPasses', 2]]],
  ])('%s is allowed', (_name, file, changes) => {
    expect(planSock(change(file, ...changes)).problems).toEqual([]);
  });

  test('what is named as right is right', () => {
    const wide = planSock(change(COUNTED, ['heel.stitches', 60])).problems[0];
    expect(wide).toMatchObject({ value: '60', allowed: 'an even number from 36 to 54' });
    const other = change(COUNTED, ['toe.schedule', [{ passes: 4, times: 10 }]], ['toe.tipStitches', 12]);
    expect(planSock(other).problems[0]).toMatchObject({ allowed: '12 decreases in all, or a toe.tipStitches of 16' });
    expect(planSock(change(other, ['toe.schedule.0.times', 12])).problems).toEqual([]);
    expect(planSock(change(other, ['toe.tipStitches', 16])).problems).toEqual([]);
    const slanted = planSock(change(COUNTED, ['toe.slantStitches', 24])).problems[0];
    expect(slanted.allowed).toBe('an even number from 0 to 22');
  });

  test('the least length that is named is the least', () => {
    for (const lengthMm of [60, 75, 90]) {
      const { problems } = planSock(change(FOOT, ['foot.lengthMm', lengthMm]));
      const least = Number(/at least (\d+) mm/.exec(problems[0].allowed!)![1]);
      expect(planSock(change(FOOT, ['foot.lengthMm', least])).plan).not.toBeNull();
      expect(planSock(change(FOOT, ['foot.lengthMm', least - 1.01])).plan).toBeNull();
    }
  });
});

test('laws of the counts hold for hundreds of random files, and every count has its derivation', () => {
  const random = createRandom(2024);
  let planCount = 0;
  for (let i = 0; i < 600; i++) {
    const file = randomSockFile(random);
    const { plan, derivations, problems } = planSock(file);
    // Beside a plan only measures that cannot be of one foot are told.
    expect(problems.every(({ field }) => plan === null || field!.startsWith('foot.'))).toBe(true);
    expect(plan !== null || problems.length > 0).toBe(true);
    if (plan === null) continue;
    planCount++;
    const { stitches, bedStitches, heelStitches, turnDownWidth, toeTipStitches, footPasses, heelPasses, toePasses, toeSteps } = plan;
    expect(stitches % 4).toBe(0);
    expect(bedStitches * 2).toBe(stitches);
    expect(heelStitches).toBe(file.heel?.stitches ?? bedStitches);
    expect((heelStitches - bedStitches) / 2 % 1).toBe(0);
    expect(stitches - heelStitches).toBeGreaterThanOrEqual(Math.min(4, bedStitches));
    expect(turnDownWidth % 2).toBe(heelStitches % 2);
    expect(turnDownWidth).toBeLessThanOrEqual(heelStitches - 2);
    expect(toeTipStitches).toBeLessThanOrEqual(bedStitches - 2);
    expect(heelPasses).toBe(2 * (heelStitches - turnDownWidth) + plan.plateauPasses);
    expect([footPasses % 2, toePasses % 2, plan.anklePasses % 2, heelPasses % 2]).toEqual([0, 0, 0, 0]);
    if (plan.legKind === 'tube') expect(plan.legPasses % 2).toBe(0);
    // Four stitches fewer at each decrease, two at one on a side, until the tip: count them down.
    expect(toeSteps.length).toBe(plan.toeDecreases);
    if (plan.toeKind === 'decreased') {
      const oneSided = toeSteps.filter((step) => step.ends === 'outer').length;
      expect(oneSided).toBe(file.toe?.slantStitches ?? 0);
      expect(stitches - 4 * toeSteps.length + 2 * oneSided).toBe(2 * toeTipStitches);
      expect(toeTipStitches).toBeGreaterThanOrEqual(4);
      expect(toePasses).toBe(toeSteps.reduce((passes, step) => passes + step.passes, 0));
      const rates = file.toe?.schedule?.flatMap(({ passes, times }) => Array<number>(times).fill(passes)) ?? toeSteps.map(() => plan.passesPerDecrease);
      expect(toeSteps.map((step) => step.passes)).toEqual([...rates.slice(0, -1), 2]);
    }
    for (const { count, value, formula, isFixedByHand } of derivations) {
      expect(plan[count]).toBe(value);
      expect(formula.length).toBeGreaterThan(3);
      expect(formula).not.toMatch(/NaN|undefined|Infinity/);
      expect(isFixedByHand).toBe(formula === 'fixed by hand');
    }
    expect(new Set(derivations.map((entry) => entry.count)).size).toBe(15);
  }
  // The files are made so that most can be knitted; a law over a handful would say nothing.
  expect(planCount).toBeGreaterThan(200);
});

test('formulas show their numbers', () => {
  const lines = planSock(FOOT).derivations.map(({ count, value, formula }) => `${count} ${value}: ${formula}`);
  expect(lines.join('\n')).toMatchInlineSnapshot(`
    "stitches 68: 246 mm x 0.90 x 0.300 st/mm = 66.4, nearest multiple of 4
    bedStitches 34: 68 / 2
    heelStitches 34: 68 / 2
    legPasses 46: 110 mm x 0.420 rows/mm = 46.2, nearest whole row
    plainPasses 2: 2 before the work is turned
    anklePasses 4: two rounds, unless chosen
    turnDownWidth 12: 34 / 3 = 11.33, nearest even number, at least 2
    plateauPasses 0: none, unless chosen
    heelPasses 44: 2 x (34 - 12) + 0
    passesPerDecrease 4: every second round, unless chosen
    toeSlantStitches 0: none, unless chosen
    toeTipStitches 12: as the turn-down width, 12, at least 4
    toeDecreases 11: (34 - 12) / 2
    toePasses 42: 4 x (11 - 1) + 2
    footPasses 134: 262 mm x 1.00 x 0.420 rows/mm - 22 heel rows - 21 toe rows = 67, nearest whole round: 67 x 2 passes"
  `);
});
