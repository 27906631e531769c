import { describe, expect, it } from 'vitest';
import { careNotes } from '../../src/measure/care-notes.ts';
import { findCautions } from '../../src/measure/find-cautions.ts';
import type { BodyGirths } from '../../src/measure/find-cautions.ts';
import { measureRest } from '../../src/measure/measure-rest.ts';
import { UNKNOWN_FOOT } from '../../src/plan/plan-foot.ts';
import type { Plan, PlannedFoot } from '../../src/plan/plan-types.ts';
import { makePlan } from './make-plan.ts';

const fieldsOf = (plan: Partial<Plan>, foot: Partial<PlannedFoot>, body: BodyGirths = {}): (string | null)[] => (
  findCautions(makePlan(plan), { ...UNKNOWN_FOOT, ...foot }, body).map((caution) => caution.field)
);

/** 130 rows are 310 mm: to above the widest of a mean calf, at 1.25 of the foot's length over the floor. */
const TALL = { legPasses: 130 } as const;

describe('cautions', () => {
  it('need a measure to speak of', () => {
    expect(fieldsOf({}, {})).toEqual([]);
  });

  /** 72 stitches at 0.3 to the mm are 240 mm of plain tube, so the limit chosen is 360 mm. */
  it.each<[what: string, plan: Partial<Plan>, foot: Partial<PlannedFoot>, body: BodyGirths, fields: string[]]>([
    ['a calf that a tube can take', { legKind: 'tube', legPasses: 260 }, { calfGirthMm: 355 }, {}, []],
    ['a calf too wide for a tube', { legKind: 'tube', legPasses: 260 }, { calfGirthMm: 365 }, {}, ['foot.calfGirthMm']],
    ['a calf that a rib can take', TALL, { calfGirthMm: 355 }, {}, []],
    ['a calf too wide for a rib', TALL, { calfGirthMm: 365 }, {}, ['foot.calfGirthMm']],
    ['a calf that a short leg does not reach', {}, { calfGirthMm: 365 }, {}, []],
    ['a calf that wider knitting can take', { ...TALL, stitches: 80 }, { calfGirthMm: 365 }, {}, []],
    ['a wide ankle', {}, {}, { ankleGirthMm: 365 }, ['foot.ankleGirthMm']],
    ['a shoe size', {}, { lengthMm: 260, lengthToleranceMm: 4 }, {}, ['foot.shoeSize']],
    ['a measured foot', {}, { lengthMm: 260 }, {}, []],
    ['a wide foot', {}, { ballGirthMm: 315 }, {}, ['foot.ballGirthMm']],
    ['a loose foot', {}, { ballGirthMm: 225 }, {}, ['foot.ballGirthMm']],
    ['a usual foot', {}, { ballGirthMm: 266 }, {}, []],
    ['a foot fixed too long', { footPasses: 120 }, { wantedLengthMm: 231 }, {}, ['counts.footPasses']],
    // Needles 5 mm apart: two are 10 mm, four 20.
    ['a heel a little wider than its bed', { heelStitches: 38 }, {}, {}, []],
    ['a heel much wider than its bed', { heelStitches: 40 }, {}, {}, ['heel.stitches']],
    ['a bound-off toe', { closing: 'bind-off' }, {}, {}, ['toe.closing']],
  ])('about %s', (_what, plan, foot, body, fields) => {
    expect(fieldsOf(plan, foot, body)).toEqual(fields);
  });

  it('about a heel say how far its line must stretch, and a smaller turn-down silences them', () => {
    const plan = makePlan();
    const heelDiagonalMm = measureRest(plan).heelTipGirthMm! * 1.35;
    const [caution] = findCautions(plan, UNKNOWN_FOOT, { heelDiagonalMm });
    expect(caution.field).toBe('foot.heelDiagonalMm');
    expect(caution.message).toContain('35 %');
    expect(fieldsOf({ turnDownWidth: 4 }, {}, { heelDiagonalMm })).toEqual([]);
  });

  it('tell the stretch from the rib at rest, and ask for a clinician', () => {
    const [caution] = findCautions(makePlan(TALL), { ...UNKNOWN_FOOT, calfGirthMm: 420 });
    // 240 mm x 0.7 = 168 mm at rest; 420 mm is 2.5 times that.
    expect(caution.message).toContain('168 mm');
    expect(caution.message).toContain('150 %');
    expect(caution.message).toContain('clinician');
  });

  it('and notes speak of no pressure', () => {
    const texts = [
      ...careNotes().map((note) => note.text),
      ...findCautions(makePlan({ ...TALL, closing: 'bind-off' }), { ...UNKNOWN_FOOT, calfGirthMm: 500, ballGirthMm: 400 }, { ankleGirthMm: 400, heelDiagonalMm: 500 }).map((c) => c.message),
    ];
    expect(texts.filter((text) => /mmHg|class [12]|medical grade/i.test(text))).toEqual([]);
    expect(texts.length).toBeGreaterThan(8);
  });
});
