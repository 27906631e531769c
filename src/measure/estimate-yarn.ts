import { LOOP } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { Plan } from '../plan/plan-types.ts';
import { findLoopLength } from '../yarn/loop-length.ts';

export interface YarnUse { readonly name: string; readonly metres: number; readonly grams: number }

/** Yarn of a seam, graft or bind-off over its own length (common practice, no source: about four times the width). */
const SEWN_FACTOR = 4;

/**
 * Yarn of a wrap over that of a loop: it goes once round a needle as the head of a loop does, but
 * has no legs drawn through the loop below; half, chosen by eye.
 */
const WRAP_SHARE = 0.5;

/** Yarn left hanging at each end of a length, enough to darn in (common practice, no source). */
export const TAIL_MM = 150;

/** Yarn to cut for a seam or a graft of this length, with a tail to darn in. */
export const sewnTailMm = (lengthMm: number): number => SEWN_FACTOR * lengthMm + TAIL_MM;

/**
 * Metres and grams of each of the plan's yarns, in its order: loops by Munden's relation (rib loops
 * are taken as long as plain ones: the same carriage setting drew them), half a loop for a wrap,
 * four times the length for seam, graft and bind-off, and two tails for each length of yarn. An
 * estimate: knit a swatch and weigh it where yarn is short. Of pass `from` and what comes after it only, where that
 * is given: seams and closing are still to do.
 */
export function estimateYarn(plan: Plan, grid: StitchGrid, from = 0): YarnUse[] {
  const lengths = new Float64Array(plan.yarns.length);
  const loopMm = findLoopLength(10 * plan.stitchesPerMm, 10 * plan.rowsPerMm);
  let sewnWith = 0;
  for (let i = 0; i < grid.loopCount; i++) {
    const yarn = grid.yarn[i], kind = grid.kind[i], isFormed = kind === LOOP.wrap || kind === LOOP.knit || kind === LOOP.castOn;
    if (!isFormed) sewnWith = yarn;
    if (grid.pass[i] < from) continue;
    if (grid.yarnBefore[i] === -1) lengths[yarn] += 2 * TAIL_MM;
    if (isFormed) lengths[yarn] += kind === LOOP.wrap ? WRAP_SHARE * loopMm : loopMm;
  }
  lengths[sewnWith] += (SEWN_FACTOR * (grid.joinPairs.length / 2)) / plan.stitchesPerMm;
  for (let i = 0; i + 1 < grid.seamPairs.length; i += 2) lengths[grid.yarn[grid.seamPairs[i]]] += SEWN_FACTOR / plan.rowsPerMm;
  return plan.yarns.map(({ name, metresPer100g }, yarn) => {
    const metres = lengths[yarn] / 1000;
    return { name, metres, grams: (100 * metres) / metresPer100g };
  });
}
