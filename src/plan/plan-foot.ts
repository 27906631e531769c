import { lengthFromShoeSize } from '../foot/shoe-size.ts';
import { DEFAULTS } from './defaults.ts';
import type { PlannedFoot } from './plan-types.ts';
import type { SockFile } from './sock-file.ts';

export const UNKNOWN_FOOT: PlannedFoot = {
  lengthMm: null,
  lengthToleranceMm: 0,
  ballGirthMm: null,
  calfGirthMm: null,
  wantedGirthMm: null,
  wantedLengthMm: null,
};

/** 1 and the ease: 0.9 for -10 %. */
export const girthFactor = (file: SockFile): number => 1 + (file.ease?.girthPercent ?? DEFAULTS.girthEasePercent) / 100;
export const lengthFactor = (file: SockFile): number => 1 + (file.ease?.lengthPercent ?? DEFAULTS.lengthEasePercent) / 100;

/** The body measures of a file and what they ask of the sock. A measured length goes before a shoe size. */
export function planFoot(file: SockFile): PlannedFoot {
  const { lengthMm: measured, shoeSize, ballGirthMm = null, calfGirthMm = null } = file.foot ?? {};
  const sized = measured !== undefined ? { lengthMm: measured, toleranceMm: 0 }
    : shoeSize !== undefined ? lengthFromShoeSize(shoeSize.system, shoeSize.value)
    : null;
  return {
    lengthMm: sized?.lengthMm ?? null,
    lengthToleranceMm: sized?.toleranceMm ?? 0,
    ballGirthMm,
    calfGirthMm,
    wantedGirthMm: ballGirthMm === null ? null : ballGirthMm * girthFactor(file),
    wantedLengthMm: sized === null ? null : sized.lengthMm * lengthFactor(file),
  };
}
