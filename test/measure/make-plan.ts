import type { Plan } from '../../src/plan/plan-types.ts';

/** A plan of 72 stitches at 30 x 42 in 10 cm, with what a test wants changed. */
export function makePlan(changes: Partial<Plan> = {}): Plan {
  return {
    name: 'test', stitchesPerMm: 0.3, rowsPerMm: 0.42, ribWidthFactor: 0.7, stitches: 72, bedStitches: 36, heelStitches: 36,
    legKind: 'flat-rib', legPasses: 40, plainPasses: 2, gatherBed: 'back', heelBed: 'front', anklePasses: 4,
    turnDownWidth: 12, plateauPasses: 0, heelWraps: true, heelPasses: 48, footPasses: 100,
    toeKind: 'decreased', passesPerDecrease: 4, toeTipStitches: 12, toeDecreases: 12, toeSlantStitches: 0,
    toeSteps: Array.from({ length: 12 }, (_, i) => ({ ends: 'both', passes: i === 11 ? 2 : 4 })), outerSide: 'left', toePasses: 46, closing: 'graft', firmness: 'soft',
    yarns: [{ name: 'one', metresPer100g: 420, colour: '#336699', from: 'leg', stripePasses: null }],
    needlesPerBed: 180, needlePitchMm: 5,
    ...changes,
  };
}
