import { crc32, inflateSync } from 'node:zlib';

/** A PNG of 8 bits, read by the specification (W3C, Portable Network Graphics, third edition) and Node's zlib alone. */
export interface ReadPng {
  readonly width: number;
  readonly height: number;
  readonly channels: 3 | 4;
  readonly data: Uint8Array;
  /** Filter of each row. */
  readonly filters: readonly number[];
  readonly chunks: readonly string[];
  /** Across and along; null where it does not say. */
  readonly pixelsPerMetre: readonly number[] | null;
}

export function readPng(bytes: Uint8Array): ReadPng {
  const file = Buffer.from(bytes);
  if (file.subarray(0, 8).toString('latin1') !== '\x89PNG\r\n\x1a\n') throw new Error('no PNG signature');
  const chunks: { readonly name: string; readonly data: Buffer }[] = [];
  for (let at = 8; at < file.length;) {
    const length = file.readUInt32BE(at), name = file.toString('latin1', at + 4, at + 8), data = file.subarray(at + 8, at + 8 + length);
    if (crc32(file.subarray(at + 4, at + 8 + length)) !== file.readUInt32BE(at + 8 + length)) throw new Error(`checksum of ${name}`);
    chunks.push({ name, data });
    at += 12 + length;
  }
  const header = chunks[0].data, width = header.readUInt32BE(0), height = header.readUInt32BE(4), type = header[9];
  if (chunks[0].name !== 'IHDR' || header[8] !== 8 || (type !== 2 && type !== 6) || header[10] + header[11] + header[12] !== 0) throw new Error('not a plain picture of 8 bits');
  const channels = type === 6 ? 4 : 3, size = chunks.find(({ name }) => name === 'pHYs')?.data;
  const packed = inflateSync(Buffer.concat(chunks.filter(({ name }) => name === 'IDAT').map(({ data }) => data)));
  if (packed.length !== height * (1 + channels * width)) throw new Error(`${packed.length} bytes of rows`);
  return {
    width, height, channels, ...unfilter(packed, width, height, channels), chunks: chunks.map(({ name }) => name),
    pixelsPerMetre: size?.[8] === 1 ? [size.readUInt32BE(0), size.readUInt32BE(4)] : null,
  };
}

/** Section 9.2: each byte is what was left of it and what the filter foretells from left, above and the corner. */
function unfilter(packed: Uint8Array, width: number, height: number, channels: number): { readonly data: Uint8Array; readonly filters: number[] } {
  const row = channels * width, data = new Uint8Array(row * height), filters: number[] = [];
  const at = (y: number, x: number): number => (y < 0 || x < 0 ? 0 : data[y * row + x]);
  for (let y = 0; y < height; y++) {
    const filter = packed[y * (row + 1)];
    filters.push(filter);
    for (let x = 0; x < row; x++) {
      const a = at(y, x - channels), b = at(y - 1, x), c = at(y - 1, x - channels), p = a + b - c;
      const nearest = [a, b, c].reduce((best, each) => (Math.abs(p - each) < Math.abs(p - best) ? each : best), a);
      data[y * row + x] = packed[y * (row + 1) + 1 + x] + [0, a, b, (a + b) >> 1, nearest][filter];
    }
  }
  return { data, filters };
}
