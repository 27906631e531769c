import { expect, it } from 'vitest';
import { filmPasses, makeFilm } from '../../src/sheet/make-film.ts';
import type { FilmFrame } from '../../src/sheet/make-film.ts';
import { readGif } from './read-gif.ts';

/** A bar that grows by a pixel a pass. */
function drawPass(pass: number): FilmFrame {
  const width = 30, height = 20, data = new Uint8ClampedArray(4 * width * height);
  for (let i = 0; i < width * height; i++) data.set(Math.floor(i / width) < pass ? [200, 40, 30, 255] : [240, 232, 216, 255], 4 * i);
  return { width, height, data };
}

it.each([[9, 1, [0, 1, 2, 3, 4, 5, 6, 7, 8, 9]], [9, 4, [0, 4, 8, 9]], [8, 4, [0, 4, 8]], [0, 4, [0]]])('passes to %i, every %i', (last, step, passes) => {
  expect(filmPasses(last, step)).toEqual(passes);
});

it('shows every pass once, in order, the last one longest; same passes, same bytes', async () => {
  const passes = filmPasses(11, 3), seen: number[] = [];
  const make = (): Promise<Uint8Array | null> => makeFilm((pass) => Promise.resolve(drawPass(pass)), { passes, hundredths: 7, onFrame: (frames) => { seen.push(frames); } });
  const bytes = await make(), film = readGif(bytes!);
  expect(film.frames.map(({ rgb }) => rgb.filter((value, i) => i % 90 === 0 && value === 200).length)).toEqual(passes);
  expect(film.frames.map(({ hundredths }) => hundredths)).toEqual([7, 7, 7, 7, 250]);
  expect(seen).toEqual([1, 2, 3, 4, 5]);
  expect(await make()).toEqual(bytes);
});

it('ends without a file when it is stopped, or when a frame cannot be had', async () => {
  let asked = 0;
  const frame = (pass: number): Promise<FilmFrame> => { asked++; return Promise.resolve(drawPass(pass)); };
  expect(await makeFilm(frame, { passes: [0, 1, 2], hundredths: 5, isStopped: () => asked >= 5 })).toBeNull();
  expect(asked).toBe(5);
  expect(await makeFilm((pass) => Promise.resolve(pass === 1 ? null : drawPass(pass)), { passes: [0, 1, 2], hundredths: 5 })).toBeNull();
});
