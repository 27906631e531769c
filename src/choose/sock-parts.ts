import type { Fabric } from '../fabric/fabric.ts';
import { SECTION } from '../machine/codes.ts';
import { isFanToeSection, isHeelSection } from '../shape/sock-profile.ts';

/** Parts of a sock whose lengths are compared, in the order in which a wale meets them; a toe of either kind is a toe. */
export const PART = { leg: 0, ankle: 1, heel: 2, foot: 3, toe: 4 } as const;
export const PART_COUNT = 5;

/** Part of a SECTION. */
export function partOf(section: number): number {
  if (isHeelSection(section)) return PART.heel;
  if (section === SECTION.toe || isFanToeSection(section)) return PART.toe;
  if (section === SECTION.foot) return PART.foot;
  return section <= SECTION.leg ? PART.leg : PART.ankle;
}

/** Is the toe turned, on one bed, instead of decreased on both? */
export function hasFanToe(fabric: Fabric): boolean {
  return fabric.vertexSection.includes(SECTION['toe-in']);
}

/** Turn in [0, 1). */
export function wrapTurn(turn: number): number { return turn - Math.floor(turn); }

/** On the heel's side of the sock, which is the sole's. */
export function isAtBack(turn: number): boolean { return turn < 0.25 || turn >= 0.75; }

/** The place straight above on the instep, or straight below on the sole. */
export function acrossSock(turn: number): number { return wrapTurn(0.5 - turn); }
