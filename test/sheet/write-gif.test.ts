import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/base/random.ts';
import { createPaletteMapper, pickPalette } from '../../src/sheet/pick-palette.ts';
import { createGif } from '../../src/sheet/write-gif.ts';
import { readGif } from './read-gif.ts';

const GREY = Uint8Array.from({ length: 3 * 255 }, (_, i) => Math.floor(i / 3));

describe('a GIF', () => {
  const kinds = [
    ['of one colour', () => 7], ['of noise, which fills the table of runs', (i: number, random: () => number) => Math.floor(255 * random()) + 0 * i],
    ['of stripes', (i: number) => (i >> 3) % 5], ['of a slope', (i: number) => i % 255],
  ] as const;
  for (const [what, colour] of kinds) {
    it(`${what} is read back pixel by pixel, frame by frame`, () => {
      const random = createRandom(1), width = 97, height = 61, gif = createGif({ width, height, palette: GREY });
      const frames = Array.from({ length: 4 }, (_, frame) => Uint8Array.from({ length: width * height }, (_, i) => (i < 40 * frame ? 3 : colour(i, random))));
      for (const frame of frames) gif.add(frame, 12);
      const read = readGif(gif.finish());
      expect([read.width, read.height, read.isEndless]).toEqual([width, height, true]);
      expect(read.frames.map(({ hundredths }) => hundredths)).toEqual([12, 12, 12, 12]);
      frames.forEach((frame, place) => {
        const shown = read.frames[place].rgb;
        expect(shown.length).toBe(3 * frame.length);
        expect(frame.every((index, i) => shown[3 * i] === index)).toBe(true);
      });
    });
  }

  // Each length of noise ends at another place of the table: the last codes' width must fit at all of them.
  it('of any size ends where it should', () => {
    const random = createRandom(2), palette = Uint8Array.from([0, 0, 0, 90, 90, 90, 255, 255, 255]);
    for (let width = 1; width < 700; width++) {
      const pixels = Uint8Array.from({ length: width }, () => Math.floor(3 * random())), gif = createGif({ width, height: 1, palette });
      gif.add(pixels, 2);
      const { frames } = readGif(gif.finish());
      expect(pixels.every((index, i) => frames[0].rgb[3 * i] === palette[3 * index]), `${width} pixels`).toBe(true);
    }
  });

  it('in which nothing moves grows by little', () => {
    const random = createRandom(4), width = 120, height = 120, gif = createGif({ width, height, palette: GREY });
    const noise = Uint8Array.from({ length: width * height }, () => Math.floor(255 * random()));
    gif.add(noise, 5);
    const first = gif.size();
    gif.add(noise, 5);
    expect(gif.size() - first).toBeLessThan(first / 20);
  });

  it('with a frame of another size is refused as our own fault', () => {
    expect(() => { createGif({ width: 4, height: 4, palette: GREY }).add(new Uint8Array(15), 1); }).toThrow('15 pixels');
  });
});

describe('a palette', () => {
  const picture = (colours: readonly (readonly number[])[], times: number): Uint8ClampedArray =>
    Uint8ClampedArray.from(Array.from({ length: times }, (_, i) => [...colours[i % colours.length], 255]).flat());

  it('of few colours has just these', () => {
    const colours = [[200, 20, 20], [20, 40, 220], [250, 250, 240]], palette = pickPalette([picture(colours, 300)], 255);
    const found = Array.from({ length: palette.length / 3 }, (_, i) => [...palette.subarray(3 * i, 3 * i + 3)]);
    expect(found.sort()).toEqual([...colours].sort());
  });

  it('of many colours has as many as it may, and every pixel one near it', () => {
    const random = createRandom(5), rgba = Uint8ClampedArray.from({ length: 4 * 40_000 }, (_, i) => (i % 4 === 3 ? 255 : Math.floor(256 * random())));
    const palette = pickPalette([rgba], 255), indices = createPaletteMapper(palette)(rgba);
    expect(palette.length).toBe(3 * 255);
    let sum = 0;
    for (let i = 0; i < indices.length; i++) for (let d = 0; d < 3; d++) sum += (rgba[4 * i + d] - palette[3 * indices[i] + d]) ** 2;
    // Geometry: 255 equal cubes that fill the cube of colours have sides of 256 / 255^(1/3) = 40, whose root mean square is 40 / sqrt(12) = 12 a channel.
    expect(Math.sqrt(sum / (3 * indices.length))).toBeLessThan(18);
  });
});
