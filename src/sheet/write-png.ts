import { crc32 } from '../base/crc32.ts';

/** A picture in the making: numbers of the PNG specification (W3C, third edition; ISO/IEC 15948). */
export interface PngPicture {
  readonly width: number;
  readonly height: number;
  /** With how far each pixel covers what is behind it. */
  readonly hasCover: boolean;
  /** Printed so many pixels to the metre. */
  readonly pixelsPerMetre: number;
}

const SIGNATURE = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a);
const COLOUR = 2, COLOUR_AND_COVER = 6, BITS = 8, PER_METRE = 1;
const MM_PER_METRE = 1000, MM_PER_INCH = 25.4;

export const perInchToPerMetre = (count: number): number => Math.round((count * MM_PER_METRE) / MM_PER_INCH);

/** A chunk: length, name, what is in it, and the checksum of the last two (section 5.3). */
export function pngChunk(name: string, data: Uint8Array): Uint8Array<ArrayBuffer> {
  const out = new Uint8Array(12 + data.length), view = new DataView(out.buffer);
  view.setUint32(0, data.length);
  for (let i = 0; i < 4; i++) out[4 + i] = name.charCodeAt(i);
  out.set(data, 8);
  view.setUint32(8 + data.length, crc32(out.subarray(4, 8 + data.length)));
  return out;
}

/** All that stands before the picture's rows: signature, header, colour space, and the size in print (section 11.3.4.3). */
export function pngHead({ width, height, hasCover, pixelsPerMetre }: PngPicture): Uint8Array<ArrayBuffer>[] {
  const header = new Uint8Array(13), size = new Uint8Array(9), headerView = new DataView(header.buffer), sizeView = new DataView(size.buffer);
  headerView.setUint32(0, width);
  headerView.setUint32(4, height);
  header.set([BITS, hasCover ? COLOUR_AND_COVER : COLOUR, 0, 0, 0], 8);
  sizeView.setUint32(0, pixelsPerMetre);
  sizeView.setUint32(4, pixelsPerMetre);
  size[8] = PER_METRE;
  return [SIGNATURE.slice(), pngChunk('IHDR', header), pngChunk('sRGB', Uint8Array.of(0)), pngChunk('pHYs', size)];
}

export const pngEnd = (): Uint8Array<ArrayBuffer> => pngChunk('IEND', new Uint8Array(0));

/** Filters of a row (section 9.2), by number: each byte less what stands to its left, above, or the one of both and the corner that fits best. */
const LEFT = 1, ABOVE = 2, PAETH = 4, FILTERS = [LEFT, ABOVE, PAETH] as const;

/** The neighbour that is nearest to left + above - corner; of equals the first of the three (section 9.4). */
function paeth(left: number, above: number, corner: number): number {
  const toLeft = Math.abs(above - corner), toAbove = Math.abs(left - corner), toCorner = Math.abs(left + above - 2 * corner);
  return toLeft <= toAbove && toLeft <= toCorner ? left : toAbove <= toCorner ? above : corner;
}

/** Turns a picture's rows, band by band from its top, into what is to be compressed (zlib, RFC 1950). */
export interface PngRows {
  /** Rows as a canvas has them, four bytes a pixel, whole rows. */
  take(data: Uint8ClampedArray): Uint8Array<ArrayBuffer>;
}

export function createPngRows({ width, hasCover }: Pick<PngPicture, 'width' | 'hasCover'>): PngRows {
  const step = hasCover ? 4 : 3, length = step * width;
  // A pixel's room before each row, so that its first pixel has a neighbour of nothing.
  let before = new Uint8Array(step + length), row = new Uint8Array(step + length);
  const tries = FILTERS.map(() => new Uint8Array(length));
  return {
    take: (data) => {
      const rows = data.length / (4 * width), out = new Uint8Array(rows * (1 + length));
      for (let y = 0; y < rows; y++) {
        copyRowInto(row, step, data, 4 * width * y);
        const best = FILTERS[bestOf(tries, row, before, step)], at = y * (1 + length);
        out[at] = best;
        out.set(tries[FILTERS.indexOf(best)], at + 1);
        [before, row] = [row, before];
      }
      return out;
    },
  };
}

function copyRowInto(row: Uint8Array, step: number, data: Uint8ClampedArray, from: number): void {
  for (let to = step, at = from; to < row.length; to += step, at += 4) {
    for (let d = 0; d < step; d++) row[to + d] = data[at + d];
  }
}

/** Filters a row in all ways and says which is likely to be packed smallest: the least sum of its bytes, as signed (section 12.7). */
function bestOf(tries: readonly Uint8Array[], row: Uint8Array, before: Uint8Array, step: number): number {
  const [byLeft, byAbove, byPaeth] = tries, sums = [0, 0, 0];
  for (let i = 0; i < byLeft.length; i++) {
    const here = row[i + step], left = row[i], above = before[i + step];
    byLeft[i] = here - left;
    byAbove[i] = here - above;
    byPaeth[i] = here - paeth(left, above, before[i]);
    sums[0] += signedSize(byLeft[i]);
    sums[1] += signedSize(byAbove[i]);
    sums[2] += signedSize(byPaeth[i]);
  }
  return sums.indexOf(Math.min(...sums));
}

const signedSize = (byte: number): number => (byte < 128 ? byte : 256 - byte);
