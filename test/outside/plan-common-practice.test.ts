import { describe, expect, test } from 'vitest';
import { inchToMm, mmToInch, perInchToPer10cm } from '../../src/base/unit.ts';
import { planSock } from '../../src/plan/plan-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';

/**
 * A sock as the trade works it. Source: common practice, no source. 8 stitches and 10 rows to the
 * inch; a rib leg of 5 inches; the foot of a women's size 6 1/2 (3 x inches - 21: 9.17 in).
 */
const GAUGE = { stitchesPer10cm: perInchToPer10cm(8), rowsPer10cm: perInchToPer10cm(10) };

/** 64 stitches at 8 to the inch are 8 in round: 10 % smaller than a foot of 8.89 in. */
const BALL_GIRTH_MM = inchToMm(8 / 0.9);

const COMMON: SockFile = {
  gauge: GAUGE,
  foot: { lengthMm: inchToMm(9.17), ballGirthMm: BALL_GIRTH_MM },
  leg: { kind: 'flat-rib', lengthMm: inchToMm(5) },
};

const COMMON_COUNTS = {
  stitches: 64, heelStitches: 32, legPasses: 50, plainPasses: 2, anklePasses: 4,
  turnDownWidth: 10, heelPasses: 44, footPasses: 98,
  toeTipStitches: 10, passesPerDecrease: 4, toeDecreases: 11, toePasses: 42,
};

describe('the common-practice sock', () => {
  test('is what the planner finds for that foot, gauge and girth', () => {
    const { plan, problems } = planSock(COMMON);
    expect(problems).toEqual([]);
    expect(plan).toMatchObject(COMMON_COUNTS);
  });

  test('is the same from the shoe size, 6 1/2 women', () => {
    const { plan, foot } = planSock({ ...COMMON, foot: { shoeSize: { system: 'us-women', value: 6.5 }, ballGirthMm: BALL_GIRTH_MM } });
    expect(plan).toMatchObject(COMMON_COUNTS);
    expect(mmToInch(foot.lengthMm!)).toBeCloseTo(9.17, 2);
    // Half a size is a sixth of an inch.
    expect(mmToInch(foot.lengthToleranceMm)).toBeCloseTo(1 / 6, 6);
  });

  test('comes out 9.20 in long: 22 heel rows, 49 rounds and 21 toe rows at 10 to the inch', () => {
    const { plan } = planSock(COMMON);
    const rows = plan!.heelPasses / 2 + plan!.footPasses / 2 + plan!.toePasses / 2;
    expect(rows).toBe(92);
    expect(mmToInch(rows / plan!.rowsPerMm)).toBeCloseTo(9.2, 6);
  });

  // 10.67 is a third of 32; 12 is the common choice for a flatter instep: a heel four passes shorter.
  test('with the turn-down of 12 that suits a flatter instep', () => {
    const { plan } = planSock({ ...COMMON, heel: { turnDownWidth: 12 } });
    // Heel 20 rows; toe down to 12 is 10 decreases, 38 passes = 19 rows; 91.7 - 39 = 52.7 rounds.
    expect(plan).toMatchObject({ turnDownWidth: 12, heelPasses: 40, toeTipStitches: 12, toeDecreases: 10, toePasses: 38, footPasses: 106 });
  });

  test('fixed by hand, the same counts need no foot', () => {
    const { plan, foot, derivations } = planSock({ gauge: GAUGE, counts: { stitches: 64, legPasses: 50, anklePasses: 4, footPasses: 98 } });
    expect(plan).toMatchObject(COMMON_COUNTS);
    expect(foot).toMatchObject({ lengthMm: null, ballGirthMm: null, wantedGirthMm: null, wantedLengthMm: null });
    expect(derivations.filter((entry) => entry.isFixedByHand).map((entry) => entry.count).sort())
      .toEqual(['anklePasses', 'footPasses', 'legPasses', 'stitches']);
  });
});
