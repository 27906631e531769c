import { deflateSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/base/random.ts';
import { createPngRows, perInchToPerMetre, pngChunk, pngEnd, pngHead, type PngPicture } from '../../src/sheet/write-png.ts';
import { readPng } from './read-png.ts';

/** Bands of some rows each, packed by zlib. */
function pictureOf(picture: PngPicture, data: Uint8ClampedArray, bandRows: number): Uint8Array {
  const rows = createPngRows(picture), bands: Uint8Array[] = [], band = 4 * picture.width * bandRows;
  for (let at = 0; at < data.length; at += band) bands.push(rows.take(data.subarray(at, at + band)));
  const packed = deflateSync(Buffer.concat(bands)), half = packed.length >> 1;
  return Buffer.concat([...pngHead(picture), pngChunk('IDAT', packed.subarray(0, half)), pngChunk('IDAT', packed.subarray(half)), pngEnd()]);
}

const random = createRandom(7);
/** Slow colours, noise, and plain rows: each filter is the best somewhere. */
function paint(width: number, height: number): Uint8ClampedArray {
  const data = new Uint8ClampedArray(4 * width * height);
  for (let i = 0; i < data.length; i++) {
    const x = (i >> 2) % width, y = Math.floor((i >> 2) / width), d = i & 3;
    data[i] = y < height / 3 ? 3 * x + 40 * d + 7 * y : y < height / 2 ? 256 * random() : 5 * y + d;
  }
  return data;
}

describe('PNG', () => {
  it.each([[true, 5], [false, 5], [true, 64], [false, 1]])('comes back pixel by pixel in a reader of its own (cover %s, bands of %d rows)', (hasCover, bandRows) => {
    const picture: PngPicture = { width: 37, height: 41, hasCover, pixelsPerMetre: 11811 }, data = paint(37, 41), read = readPng(pictureOf(picture, data, bandRows));
    expect([read.width, read.height, read.channels]).toEqual([37, 41, hasCover ? 4 : 3]);
    const wanted = hasCover ? [...data] : [...data].filter((_, i) => i % 4 < 3);
    expect([...read.data]).toEqual(wanted);
    expect(new Set(read.filters).size).toBeGreaterThan(1);
    expect(read.pixelsPerMetre).toEqual([11811, 11811]);
    expect(read.chunks).toEqual(['IHDR', 'sRGB', 'pHYs', 'IDAT', 'IDAT', 'IEND']);
  });

  it('is printed at its size: 300 to the inch are 11,811 to the metre, 150 are 5,906', () => {
    // 25.4 mm to the inch (international yard and pound agreement, 1959).
    expect([perInchToPerMetre(300), perInchToPerMetre(150)]).toEqual([11811, 5906]);
  });

  it('packs what is even far smaller than it is', () => {
    const data = new Uint8ClampedArray(4 * 400 * 300).fill(200);
    expect(pictureOf({ width: 400, height: 300, hasCover: false, pixelsPerMetre: 5906 }, data, 50).length).toBeLessThan(2000);
  });
});
