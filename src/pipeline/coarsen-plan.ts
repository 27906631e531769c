import type { Plan } from '../plan/plan-types.ts';

/** Loops of the sock to a loop of its coarse one. `measured`: least time of 7 to 25 at 10,000 loops. */
const LOOPS_TO_ONE = 14;
/** Times that a coarse stitch may be taller for its width, or wider for its height, than the sock's. */
const MOST_SLANT = 1.5;
/** A sock with fewer loops than this is relaxed as quickly without a coarse one. */
const LEAST_LOOPS = 3000;

/**
 * The same sock in a yarn several times as thick: every count divided, so that about one loop in
 * LOOPS_TO_ONE remains. Null for a sock of few loops, or with too few stitches to divide. The stitch sizes
 * are set so that girth and heel depth stay what they are; other lengths to within a row or two.
 */
export function coarsenPlan(plan: Plan, loops: number): Plan | null {
  if (loops < LEAST_LOOPS) return null;
  const factor = Math.sqrt(LOOPS_TO_ONE);
  const stitches = Math.max(8, nearest(plan.stitches / factor, 4)), heelStitches = stitches / 2;
  if (stitches > 0.7 * plan.stitches) return null;
  const narrow = (count: number, least: number): number => Math.min(heelStitches - 2, Math.max(least, nearest(count * stitches / plan.stitches, 2)));
  const turnDownWidth = narrow(plan.turnDownWidth, 2), toeTipStitches = narrow(plan.toeTipStitches, plan.toeKind === 'decreased' ? 4 : 2);
  if (toeTipStitches > heelStitches - 2) return null;
  const rowFactor = (plan.heelStitches - plan.turnDownWidth) / (heelStitches - turnDownWidth);
  const slant = rowFactor * stitches / plan.stitches;
  if (slant > MOST_SLANT || slant < 1 / MOST_SLANT) return null;
  const even = (passes: number, least: number): number => Math.max(least, nearest(passes / rowFactor, 2));
  const plateauPasses = plan.plateauPasses === 0 ? 0 : even(plan.plateauPasses, 2);
  const toeDecreases = plan.toeKind === 'decreased' ? (heelStitches - toeTipStitches) / 2 : 0;
  const passesPerDecrease = toeDecreases > 0 ? even(plan.toePasses / toeDecreases, 2) : plan.passesPerDecrease;
  return {
    ...plan, stitches, heelStitches, turnDownWidth, plateauPasses, toeTipStitches, toeDecreases, passesPerDecrease,
    stitchesPerMm: plan.stitchesPerMm * stitches / plan.stitches, rowsPerMm: plan.rowsPerMm / rowFactor,
    legPasses: even(plan.legPasses, 2), anklePasses: even(plan.anklePasses, 2), footPasses: even(plan.footPasses, 2),
    heelPasses: 2 * (heelStitches - turnDownWidth) + plateauPasses,
    toePasses: plan.toeKind === 'decreased' ? passesPerDecrease * (toeDecreases - 1) + 2 : 2 * (heelStitches - toeTipStitches),
    heelWraps: false,
    // Colours play no part in the shape, and a stripe might end where no pass is.
    yarns: plan.yarns.slice(0, 1).map((yarn) => ({ ...yarn, from: 'leg' as const, stripePasses: null })),
  };
}

function nearest(value: number, step: number): number { return step * Math.round(value / step); }
