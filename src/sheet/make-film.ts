import { createPaletteMapper, pickPalette } from './pick-palette.ts';
import { createGif, MOST_GIF_COLOURS } from './write-gif.ts';

/** A picture: four entries a pixel, row by row from the top. */
export interface FilmFrame { readonly width: number; readonly height: number; readonly data: Uint8ClampedArray }

/** The sock after a pass; null when it cannot be had any more. */
export type FrameSource = (pass: number) => Promise<FilmFrame | null>;

export interface FilmOptions {
  /** Shown in this order; the last one stays a while. */
  readonly passes: readonly number[];
  /** Each frame is shown so long, hundredths of a second. */
  readonly hundredths: number;
  /** After each frame: how many are in, and bytes so far. */
  readonly onFrame?: (frames: number, bytes: number) => void;
  readonly isStopped?: () => boolean;
}

/** How long the last frame stays, hundredths of a second; chosen by eye. */
const LAST_HUNDREDTHS = 250;
/** Frames from which the film's colours are picked, all along its passes. */
const COLOUR_FRAMES = 4;

/** Passes from the cast-on to the last, every so many, and the last whatever comes of it. */
export function filmPasses(last: number, step: number): number[] {
  const passes = Array.from({ length: Math.floor(last / step) + 1 }, (_, i) => i * step);
  return passes.at(-1) === last ? passes : [...passes, last];
}

/** A GIF of a sock as it grows; null when it was stopped, or a frame could not be had. */
export async function makeFilm(frameAt: FrameSource, { passes, hundredths, onFrame, isStopped = () => false }: FilmOptions): Promise<Uint8Array<ArrayBuffer> | null> {
  const samples: FilmFrame[] = [];
  // Backwards: the camera is set by the first picture, and the whole sock needs most room.
  for (let i = 0; i < COLOUR_FRAMES; i++) {
    const frame = isStopped() ? null : await frameAt(passes[Math.round((passes.length - 1) * (1 - i / (COLOUR_FRAMES - 1)))]);
    if (frame === null) return null;
    samples.push(frame);
  }
  const palette = pickPalette(samples.map(({ data }) => data), MOST_GIF_COLOURS), toIndices = createPaletteMapper(palette);
  const gif = createGif({ width: samples[0].width, height: samples[0].height, palette });
  for (let i = 0; i < passes.length; i++) {
    const frame = isStopped() ? null : await frameAt(passes[i]);
    if (frame === null) return null;
    gif.add(toIndices(frame.data), i === passes.length - 1 ? LAST_HUNDREDTHS : hundredths);
    onFrame?.(i + 1, gif.size());
  }
  return gif.finish();
}
