import { MM_PER_INCH } from '../base/unit.ts';

export type ShoeSystem = 'continental' | 'uk' | 'us-men' | 'us-women' | 'mondopoint';

/** A linear scale: size = lengthMm / stepMm + offset. */
interface SizeScale {
  /** Length of one whole size. */
  readonly stepMm: number;
  readonly offset: number;
  /** The same for the last, the form that the shoe is built on; null where sizes are feet. */
  readonly lastOffset: number | null;
  /** Half of the interval in which shoes are sold: what a size leaves open, either way. */
  readonly toleranceMm: number;
}

/** Paris point, 2/3 cm, and barleycorn, 1/3 inch: ISO/TS 19407. */
const PARIS_POINT_MM = 20 / 3;
const BARLEYCORN_MM = MM_PER_INCH / 3;
/** Mondopoint sizes are mm of foot (ISO 9407); sold every 5 mm (from memory). */
const MONDOPOINT_INTERVAL_MM = 5;

/**
 * On the foot's own length, not the last's (common practice, no source; makers differ by half a
 * size and more): continental 1.5 x cm + 2, UK 3 x in - 23, US men 3 x in - 22, US women 3 x in - 21.
 * On the last's (common practice, no source): continental 1.5 x cm, UK 3 x in - 25, US men 3 x in - 24,
 * US women 3 x in - 22.5, by one custom - 23.
 */
const SCALES: Readonly<Record<ShoeSystem, SizeScale>> = {
  continental: { stepMm: PARIS_POINT_MM, offset: 2, lastOffset: 0, toleranceMm: PARIS_POINT_MM / 2 },
  uk: { stepMm: BARLEYCORN_MM, offset: -23, lastOffset: -25, toleranceMm: BARLEYCORN_MM / 2 },
  'us-men': { stepMm: BARLEYCORN_MM, offset: -22, lastOffset: -24, toleranceMm: BARLEYCORN_MM / 2 },
  'us-women': { stepMm: BARLEYCORN_MM, offset: -21, lastOffset: -22.5, toleranceMm: BARLEYCORN_MM / 2 },
  mondopoint: { stepMm: 1, offset: 0, lastOffset: null, toleranceMm: MONDOPOINT_INTERVAL_MM / 2 },
};

export const SHOE_SYSTEMS = Object.keys(SCALES) as readonly ShoeSystem[];

export interface SizedFoot {
  readonly lengthMm: number;
  /** The foot is this much shorter or longer, at best: half a size either way. */
  readonly toleranceMm: number;
}

/** Length of the foot that a shoe size is made for. */
export function lengthFromShoeSize(system: ShoeSystem, size: number): SizedFoot {
  const { stepMm, offset, toleranceMm } = SCALES[system];
  return { lengthMm: (size - offset) * stepMm, toleranceMm };
}

/** Length of the last that a shoe size is built on, some 13 to 17 mm longer than the foot; null where sizes are feet. */
export function lastFromShoeSize(system: ShoeSystem, size: number): number | null {
  const { stepMm, lastOffset } = SCALES[system];
  return lastOffset === null ? null : (size - lastOffset) * stepMm;
}

/** The size of a foot, not rounded: sizes are sold in halves (mondopoint: every 5 mm). */
export function shoeSizeFromLength(system: ShoeSystem, lengthMm: number): number {
  const { stepMm, offset } = SCALES[system];
  return lengthMm / stepMm + offset;
}

/** The nearest size that is sold. */
export function nearestShoeSize(system: ShoeSystem, lengthMm: number): number {
  const interval = system === 'mondopoint' ? MONDOPOINT_INTERVAL_MM : 0.5;
  return Math.round(shoeSizeFromLength(system, lengthMm) / interval) * interval;
}
