import { FADE_PIXELS, MIDDLE_PIXELS } from './yarn-levels.ts';

/** Milliseconds in which a picture that has come to rest half way runs to an end. */
const RUN_MS = 250;

/** Whether the picture moves, has come to rest and may still be seen to change, or has to be as it stays at once. */
export type FadeMode = 'moving' | 'resting' | 'still';

/** Shares of yarn and mesh, 0..1; never both less than 1, so that nothing shines through. */
export interface Fade { readonly yarn: number; readonly mesh: number }

/** Of a place on the way from mesh, 0, to yarn, 1: the yarn comes up over the mesh before that goes. */
export function fadeAt(place: number): Fade {
  return { yarn: Math.min(1, 2 * place), mesh: Math.min(1, 2 - 2 * place) };
}

/** Where a picture stays that is seen in so many pixels a stitch: 0, mesh, or 1, yarn. */
export function restAt(pixels: number): number { return pixels < (MIDDLE_PIXELS[0] + MIDDLE_PIXELS[1]) / 2 ? 0 : 1; }

/**
 * The way from mesh to yarn and back. In motion it follows the zoom, with some play, so that it stands still while the zoom
 * wavers; at rest it goes on to the end that is nearer, for a picture of both is seen as dots. Where the zoom is as it was,
 * a motion begins where the rest has ended.
 */
export class YarnFade {
  private place = 0;
  private lastTime = 0;

  /** Whether it has not come to an end yet, and needs another frame. */
  isRunning = false;

  /** Place in a frame at a time, ms, that shows a stitch in so many pixels. */
  next(pixels: number, mode: FadeMode, time: number): number {
    const { lastTime } = this, [low, high] = bounds(pixels);
    this.lastTime = time;
    this.isRunning = false;
    if (mode === 'moving') {
      this.place = Math.min(high, Math.max(low, this.place));
      return this.place;
    }
    // One of the bounds is an end; between the thresholds both are, and whichever is nearer is the one.
    const end = low > 0 ? 1 : high < 1 ? 0 : Math.round(this.place), step = mode === 'still' ? 1 : Math.max(0, time - lastTime) / RUN_MS;
    this.place = end > this.place ? Math.min(end, this.place + step) : Math.max(end, this.place - step);
    this.isRunning = this.place !== end;
    return this.place;
  }
}

/** Least and greatest place where a stitch takes so many pixels. */
function bounds(pixels: number): readonly [low: number, high: number] {
  return [risen(MIDDLE_PIXELS[1], FADE_PIXELS[1], pixels), risen(FADE_PIXELS[0], MIDDLE_PIXELS[0], pixels)];
}

function risen(from: number, to: number, at: number): number { return Math.min(1, Math.max(0, (at - from) / (to - from))); }
