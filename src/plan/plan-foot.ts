import { estimateMeasures } from '../foot/estimate-measures.ts';
import { lengthFromShoeSize } from '../foot/shoe-size.ts';
import { soundMeasures } from '../foot/sound-measures.ts';
import { DEFAULTS } from './defaults.ts';
import type { PlannedFoot } from './plan-types.ts';
import type { SockFile } from './sock-file.ts';

/** 1 and the ease: 0.9 for -10 %. */
export const girthFactor = (file: SockFile): number => 1 + (file.ease?.girthPercent ?? DEFAULTS.girthEasePercent) / 100;
export const lengthFactor = (file: SockFile): number => 1 + (file.ease?.lengthPercent ?? DEFAULTS.lengthEasePercent) / 100;

/** The body measures of a file and what they ask of the sock. A measured length goes before a shoe size. */
export function planFoot(file: SockFile): PlannedFoot {
  const { lengthMm: measured, shoeSize, ...rest } = file.foot ?? {};
  const sized = measured !== undefined ? { lengthMm: measured, toleranceMm: 0 }
    : shoeSize !== undefined ? lengthFromShoeSize(shoeSize.system, shoeSize.value)
    : null;
  const looks = { arch: rest.arch ?? DEFAULTS.arch, toes: rest.toes ?? DEFAULTS.toes, side: rest.side ?? DEFAULTS.side };
  // A size leaves open an interval of twice the tolerance: an even spread over it has this standard deviation.
  const length = sized === null ? {} : { lengthMm: sized.lengthMm, lengthSdMm: sized.toleranceMm / Math.sqrt(3) };
  const body = soundMeasures({ ...rest, ...length, ...looks });
  return {
    lengthMm: sized?.lengthMm ?? null,
    lengthToleranceMm: sized?.toleranceMm ?? 0,
    ballGirthMm: rest.ballGirthMm ?? null,
    calfGirthMm: rest.calfGirthMm ?? null,
    ankleGirthMm: rest.ankleGirthMm ?? null,
    heelDiagonalMm: rest.heelDiagonalMm ?? null,
    heelBreadthMm: rest.heelBreadthMm ?? null,
    ...looks,
    body,
    measures: estimateMeasures(body),
    wantedGirthMm: rest.ballGirthMm === undefined ? null : rest.ballGirthMm * girthFactor(file),
    wantedLengthMm: sized === null ? null : sized.lengthMm * lengthFactor(file),
  };
}

/** Of a file that is no sock file: nothing is known. */
export const UNKNOWN_FOOT: PlannedFoot = planFoot({ gauge: { stitchesPer10cm: 0, rowsPer10cm: 0 } });
