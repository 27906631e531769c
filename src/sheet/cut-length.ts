import { MM_PER_CM, mmToInch } from '../base/unit.ts';

/** Yarn to be cut, in whole centimetres or inches: rather too long. */
export const cutLength = (mm: number, unit: 'cm' | 'in'): number => Math.ceil(unit === 'cm' ? mm / MM_PER_CM : mmToInch(mm));
