import { BED, SECTION } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { Plan } from '../plan/plan-types.ts';

/** Where a sock's wales stand on the machine. Wales are counted round the tube from 0, to the right as seen from outside; wale 0 is on the front bed's first needle. */
export interface WaleFrame {
  /** N. */
  readonly wales: number;
  /** First needle of either bed while the tube is knitted, and of the leg where it is knitted flat. */
  readonly tubeFirst: number;
  readonly legFirst: number | null;
  readonly bedStitches: number;
  /** BED codes. */
  readonly gatherBed: number;
  readonly heelBed: number;
  /** H, and the wale under the heel's left end as seen from outside. */
  readonly heelStitches: number;
  readonly heelStart: number;
}

/** @throws Error for a grid without a cast-on. */
export function frameWales(plan: Plan, grid: StitchGrid): WaleFrame {
  let first = Infinity;
  for (let loop = 0; loop < grid.loopCount && grid.pass[loop] === 0; loop++) first = Math.min(first, grid.needle[loop]);
  if (first === Infinity) throw new Error('chart-columns: a grid without a cast-on');
  const isFlat = plan.legKind === 'flat-rib', beyond = (plan.heelStitches - plan.bedStitches) / 2;
  return {
    wales: plan.stitches, bedStitches: plan.bedStitches, tubeFirst: isFlat ? first + plan.stitches / 4 : first, legFirst: isFlat ? first : null,
    gatherBed: BED[plan.gatherBed], heelBed: BED[plan.heelBed], heelStitches: plan.heelStitches,
    heelStart: plan.heelBed === 'front' ? -beyond : plan.bedStitches - beyond,
  };
}

/** The wale that needle `needle` of a bed carries: front needles to the right, then the back bed's back again. */
function waleOfNeedle({ tubeFirst, bedStitches }: WaleFrame, bed: number, needle: number): number {
  return bed === BED.front ? needle - tubeFirst : 2 * bedStitches - 1 - (needle - tubeFirst);
}

/** Wale of a stitch, of any whole number: one tube's wale and the next round's are N apart. A flat leg's loops count as on the bed that gathers them. */
export function waleOf(frame: WaleFrame, grid: StitchGrid, loop: number): number {
  const isFlatLeg = frame.legFirst !== null && grid.section[loop] <= SECTION.plain;
  return waleOfNeedle(frame, isFlatLeg ? frame.gatherBed : grid.bed[loop], grid.needle[loop]);
}

/** Bed and needle on which a wale of the tube is knitted. */
export function needleOfWale({ wales, tubeFirst, bedStitches }: WaleFrame, wale: number): { readonly bed: number; readonly needle: number } {
  const w = wrapWale(wale, wales);
  return w < bedStitches ? { bed: BED.front, needle: tubeFirst + w } : { bed: BED.back, needle: tubeFirst + 2 * bedStitches - 1 - w };
}

/** Needle over which a wale of a flat leg stands; null for a leg that is a tube. */
export function legNeedleOfWale(frame: WaleFrame, wale: number): number | null {
  const { legFirst, wales, tubeFirst, bedStitches, gatherBed } = frame;
  if (legFirst === null) return null;
  const needle = gatherBed === BED.front ? tubeFirst + wale : tubeFirst + 2 * bedStitches - 1 - wale;
  return legFirst + wrapWale(needle - legFirst, wales);
}

export const wrapWale = (wale: number, wales: number): number => ((wale % wales) + wales) % wales;
