import type { Plan } from '../plan/plan-types.ts';
import type { Measures } from './measures.ts';

/**
 * Lengths along the unstretched fabric: counts times gauge, exact (geometry; the glossary's
 * letters). A heel of `n = H - W` rows turned twice over has mitres that run n / 2 stitches
 * sideways and n rows down; a heel on more than half of the stitches leaves the instep the rest. The leg's length counts its own passes only: the two plain rows
 * after a flat rib leg, and the ankle, are not in it.
 */
export function measureRest(plan: Plan): Measures {
  const courseMm = 1 / plan.stitchesPerMm;
  const waleMm = 1 / plan.rowsPerMm;
  const turned = plan.heelStitches - plan.turnDownWidth;
  const heelDepthMm = (turned + plan.plateauPasses / 2) * waleMm;
  const mitreMm = Math.hypot((turned / 2) * courseMm, turned * waleMm);
  const instepMm = (plan.stitches - plan.heelStitches) * courseMm;
  const toeRows = plan.toeKind === 'short-row' ? plan.bedStitches - plan.toeTipStitches : plan.toePasses / 2;
  const legRows = plan.legKind === 'tube' ? plan.legPasses / 2 : plan.legPasses;
  return {
    footLengthMm: heelDepthMm + (plan.footPasses / 2 + toeRows) * waleMm,
    heelDepthMm,
    heelDiagonalMm: instepMm + 2 * mitreMm + plan.plateauPasses * waleMm + plan.turnDownWidth * courseMm,
    heelTipGirthMm: instepMm + 2 * Math.hypot((plan.heelStitches / 2) * courseMm, heelDepthMm),
    throatToHeelMm: null,
    footGirthMm: plan.stitches * courseMm,
    toeLengthMm: toeRows * waleMm,
    legLengthMm: legRows * waleMm,
    toeTipWidthMm: plan.toeTipStitches * courseMm,
    legFootAngleDeg: null,
  };
}
