import { LOOP } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { Plan } from '../plan/plan-types.ts';
import { findLoopLength } from '../yarn/loop-length.ts';

export interface YarnUse { readonly name: string; readonly metres: number; readonly grams: number }

/** Metres of a yarn by what becomes of them. */
export interface YarnParts {
  readonly loops: number;
  readonly wraps: number;
  readonly castOn: number;
  readonly seam: number;
  /** Graft or bind-off. */
  readonly closing: number;
  readonly tails: number;
}

export const YARN_PARTS = ['loops', 'wraps', 'castOn', 'seam', 'closing', 'tails'] as const satisfies readonly (keyof YarnParts)[];

/** No yarn of any kind, to be added to. */
export function createParts(): Record<keyof YarnParts, number> {
  return { loops: 0, wraps: 0, castOn: 0, seam: 0, closing: 0, tails: 0 };
}

/** What a yarn comes to in all. */
export function useOf({ name, metresPer100g }: Plan['yarns'][number], parts: YarnParts): YarnUse {
  const metres = YARN_PARTS.reduce((sum, part) => sum + parts[part], 0);
  return { name, metres, grams: (100 * metres) / metresPer100g };
}

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
  return estimateParts(plan, grid, from).map((parts, yarn) => useOf(plan.yarns[yarn], parts));
}

/** The same by what becomes of each yarn. */
export function estimateParts(plan: Plan, grid: StitchGrid, from = 0): YarnParts[] {
  const yarns = plan.yarns.map(createParts), loopMetres = findLoopLength(10 * plan.stitchesPerMm, 10 * plan.rowsPerMm) / 1000;
  let sewnWith = 0;
  for (let i = 0; i < grid.loopCount; i++) {
    const parts = yarns[grid.yarn[i]], kind = grid.kind[i], isFormed = kind === LOOP.wrap || kind === LOOP.knit || kind === LOOP.castOn;
    if (!isFormed) sewnWith = grid.yarn[i];
    if (grid.pass[i] < from) continue;
    if (grid.yarnBefore[i] === -1) parts.tails += (2 * TAIL_MM) / 1000;
    if (kind === LOOP.wrap) parts.wraps += WRAP_SHARE * loopMetres;
    else if (kind === LOOP.castOn) parts.castOn += loopMetres;
    else if (isFormed) parts.loops += loopMetres;
  }
  yarns[sewnWith].closing += (SEWN_FACTOR * (grid.joinPairs.length / 2)) / plan.stitchesPerMm / 1000;
  for (let i = 0; i + 1 < grid.seamPairs.length; i += 2) yarns[grid.yarn[grid.seamPairs[i]]].seam += SEWN_FACTOR / plan.rowsPerMm / 1000;
  return yarns;
}
