import { NEEDLE } from '../machine/codes.ts';
import type { Bed } from '../plan/sock-file.ts';
import type { NeedleRef, Side } from '../plan/step.ts';
import type { BedScene, NeedleSpan } from './bed-model.ts';

/** Where things lie in the drawing of the beds, in pixels. Depths are counted from a bed's outer edge towards the gap between the beds. */
export interface BedPlaces {
  readonly width: number;
  readonly height: number;
  /** From needle to needle. */
  readonly pitch: number;
  /** Room beside the needles, where the carriage waits. */
  readonly margin: number;
  readonly span: NeedleSpan;
}

/** Depths of the lanes of one bed; the gap's middle is at half the height. */
export const DEPTH = { number: 9, mark: 22, plate: 29, plateEnd: 47, wrap: 62 } as const;
const TIP = { [NEEDLE.empty]: 53, [NEEDLE.working]: 73, [NEEDLE.held]: 92 } as Readonly<Record<number, number>>;
export const BED_HEIGHT = 200;
/** A needle is told from its neighbour, and pointed at, from so many pixels on. */
const LEAST_PITCH = 4.4, MOST_PITCH = 26, MARGIN = 58, NARROW_MARGIN = 46, NARROW_PX = 500;

/** All needles of the span in the room there is; wider than that where they would be too close to tell apart. */
export function placeBeds(roomPx: number, span: NeedleSpan): BedPlaces {
  const count = span.last - span.first + 1, margin = roomPx < NARROW_PX ? NARROW_MARGIN : MARGIN;
  const pitch = Math.min(MOST_PITCH, Math.max(LEAST_PITCH, (roomPx - 2 * margin) / count)), width = Math.max(roomPx, count * pitch + 2 * margin);
  return { width, height: BED_HEIGHT, pitch, margin: (width - count * pitch) / 2, span };
}

export function xOf({ margin, pitch, span }: BedPlaces, needle: number): number {
  return margin + (needle - span.first + 0.5) * pitch;
}

export function yOf({ height }: BedPlaces, bed: Bed, depth: number): number {
  return bed === 'back' ? depth : height - depth;
}

export function tipDepth(state: number): number {
  return TIP[state] ?? 0;
}

/** Where the carriage stands at a side. */
export function carriageX(places: BedPlaces, side: Side): number {
  const { width, margin } = places, out = Math.min(MARGIN / 2 + 4, Math.max(22, margin / 2));
  return side === 'left' ? margin - out : width - margin + out;
}

/** The carriage on its way, 0 to 1. */
export function carriageAlong(places: BedPlaces, { from, to }: Pick<BedScene, 'from' | 'to'>, way: number): number {
  return (1 - way) * carriageX(places, from) + way * carriageX(places, to);
}

/** The needle under a point; null beside the needles. */
export function needleUnder(places: BedPlaces, x: number, y: number): NeedleRef | null {
  const { span, margin, pitch, height } = places, needle = span.first + Math.floor((x - margin) / pitch);
  return needle < span.first || needle > span.last || y < 0 || y > height ? null : { bed: y < height / 2 ? 'back' : 'front', needle };
}
