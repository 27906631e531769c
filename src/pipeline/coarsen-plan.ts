import type { Plan, ToeStep } from '../plan/plan-types.ts';

/** Loops of the sock to a loop of its coarse one. `measured`: at 14 the metric takes a third of the steps less, but three times as long to make. */
const LOOPS_TO_ONE = 24;
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
  const stitches = Math.max(8, nearest(plan.stitches / factor, 4)), bedStitches = stitches / 2;
  if (stitches > 0.7 * plan.stitches) return null;
  const share = (count: number): number => nearest(count * stitches / plan.stitches, 2);
  const narrow = (count: number, on: number, least: number): number => Math.min(on - 2, Math.max(least, share(count)));
  const heelStitches = Math.min(stitches - 4, bedStitches + share(plan.heelStitches - plan.bedStitches));
  const turnDownWidth = narrow(plan.turnDownWidth, heelStitches, 2), toeTipStitches = narrow(plan.toeTipStitches, bedStitches, plan.toeKind === 'decreased' ? 4 : 2);
  if (toeTipStitches > bedStitches - 2) return null;
  const rowFactor = (plan.heelStitches - plan.turnDownWidth) / (heelStitches - turnDownWidth);
  const slant = rowFactor * stitches / plan.stitches;
  if (slant > MOST_SLANT || slant < 1 / MOST_SLANT) return null;
  const even = (passes: number, least: number): number => Math.max(least, nearest(passes / rowFactor, 2));
  const plateauPasses = plan.plateauPasses === 0 ? 0 : even(plan.plateauPasses, 2);
  const toeSlantStitches = Math.max(0, Math.min(bedStitches - toeTipStitches - 2, share(plan.toeSlantStitches)));
  const toeDecreases = plan.toeKind === 'decreased' ? (bedStitches - toeTipStitches + toeSlantStitches) / 2 : 0;
  const passesPerDecrease = toeDecreases > 0 ? even(plan.toePasses / toeDecreases, 2) : plan.passesPerDecrease;
  const toeSteps = coarsenToe(plan, toeDecreases, toeSlantStitches, passesPerDecrease, (passes) => even(passes, 2));
  return {
    ...plan, stitches, bedStitches, heelStitches, turnDownWidth, plateauPasses, toeTipStitches, toeDecreases, toeSlantStitches, toeSteps, passesPerDecrease,
    stitchesPerMm: plan.stitchesPerMm * stitches / plan.stitches, rowsPerMm: plan.rowsPerMm / rowFactor,
    legPasses: even(plan.legPasses, 2), anklePasses: even(plan.anklePasses, 2), footPasses: even(plan.footPasses, 2),
    heelPasses: 2 * (heelStitches - turnDownWidth) + plateauPasses,
    toePasses: plan.toeKind === 'decreased' ? toeSteps.reduce((sum, step) => sum + step.passes, 0) : 2 * (bedStitches - toeTipStitches),
    heelWraps: false,
    // Colours play no part in the shape, and a stripe might end where no pass is.
    yarns: plan.yarns.slice(0, 1).map((yarn) => ({ ...yarn, from: 'leg' as const, stripePasses: null })),
  };
}

/** Each coarse decrease stands for a stretch of the toe's own and has its passes; one rate throughout stays one rate. */
function coarsenToe({ toeSteps }: Plan, count: number, slant: number, rate: number, even: (passes: number) => number): ToeStep[] {
  const isOneRate = toeSteps.slice(0, -1).every((step) => step.passes === toeSteps[0].passes);
  const passesTo = (steps: number): number => toeSteps.reduce((sum, step, i) => sum + step.passes * Math.min(1, Math.max(0, steps - i)), 0);
  return Array.from({ length: count }, (_, i): ToeStep => ({
    ends: i < slant ? 'outer' : 'both',
    passes: i === count - 1 ? 2 : isOneRate ? rate : even(passesTo((i + 1) * toeSteps.length / count) - passesTo(i * toeSteps.length / count)),
  }));
}

function nearest(value: number, step: number): number { return step * Math.round(value / step); }
