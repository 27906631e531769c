import type { Palette } from './pick-palette.ts';

/** GIF has one more entry for pixels that stay as they were. */
export const MOST_GIF_COLOURS = 255;
/** Codes of more bits than this are not written (GIF89a, appendix F). */
const MOST_BITS = 12;

export interface GifOptions {
  readonly width: number;
  readonly height: number;
  /** At most MOST_GIF_COLOURS. */
  readonly palette: Palette;
}

/** A moving picture that is written frame by frame. */
export interface GifWriter {
  /** One entry a pixel, row by row from the top; shown for so many hundredths of a second. */
  add(indices: Uint8Array, hundredths: number): void;
  /** Bytes so far. */
  size(): number;
  /** The whole file; nothing can be added after it. */
  finish(): Uint8Array<ArrayBuffer>;
}

/**
 * GIF89a (CompuServe 1990), shown over and over. Pixels that stay as they were in the frame before
 * are written as transparent: a picture in which little moves is small.
 */
export function createGif({ width, height, palette }: GifOptions): GifWriter {
  const colours = palette.length / 3;
  if (colours > MOST_GIF_COLOURS) throw new Error(`a GIF of ${colours} colours`);
  const unchanged = colours, bits = Math.max(2, Math.ceil(Math.log2(colours + 1)));
  const out = createBytes();
  const word = (value: number): void => { out.push(value & 0xff, value >> 8); };
  out.text('GIF89a');
  word(width);
  word(height);
  out.push(0x80 | 0x70 | (bits - 1), 0, 0);
  for (let i = 0; i < 3 << bits; i++) out.push(i < palette.length ? palette[i] : 0);
  out.push(0x21, 0xff, 11);
  // Times shown, 0 for ever: an extension that every reader has.
  out.text('NETSCAPE2.0');
  out.push(3, 1, 0, 0, 0);
  let before: Uint8Array | null = null;
  return {
    add: (indices, hundredths) => {
      if (indices.length !== width * height) throw new Error(`a frame of ${indices.length} pixels in a GIF of ${width} x ${height}`);
      const last = before, pixels = last === null ? indices : indices.map((index, i) => (index === last[i] ? unchanged : index));
      before = indices.slice();
      out.push(0x21, 0xf9, 4, 0x04 | (last === null ? 0 : 1));
      word(hundredths);
      out.push(unchanged, 0, 0x2c, 0, 0, 0, 0);
      word(width);
      word(height);
      out.push(0, bits);
      writeLzwInto(out, pixels, bits);
    },
    size: () => out.size(),
    finish: () => {
      out.push(0x3b);
      return out.all();
    },
  };
}

interface Bytes {
  push(...bytes: readonly number[]): void;
  text(text: string): void;
  size(): number;
  all(): Uint8Array<ArrayBuffer>;
}

function createBytes(): Bytes {
  let bytes = new Uint8Array(1 << 16), length = 0;
  const push = (...more: readonly number[]): void => {
    if (length + more.length > bytes.length) {
      const wider = new Uint8Array(2 * bytes.length + more.length);
      wider.set(bytes);
      bytes = wider;
    }
    for (const byte of more) bytes[length++] = byte;
  };
  return { push, text: (text) => { push(...Array.from(text, (letter) => letter.charCodeAt(0))); }, size: () => length, all: () => bytes.slice(0, length) };
}

/** Codes of growing width, lowest bit first, in blocks of at most 255 bytes; an empty block ends them. */
function createCodeWriter(out: Bytes): { write(code: number, width: number): void; end(): void } {
  let held = 0, bits = 0, block: number[] = [];
  const flush = (): void => {
    if (block.length > 0) out.push(block.length, ...block);
    block = [];
  };
  const byte = (): void => {
    block.push(held & 0xff);
    if (block.length === 255) flush();
  };
  return {
    write: (code, width) => {
      held |= code << bits;
      for (bits += width; bits >= 8; bits -= 8) {
        byte();
        held >>>= 8;
      }
    },
    end: () => {
      if (bits > 0) byte();
      flush();
      out.push(0);
    },
  };
}

/**
 * LZW with codes of variable width (GIF89a, appendix F): the longest run seen before goes out as
 * one code, and with its next pixel becomes a new one. A full table is cleared.
 */
function writeLzwInto(out: Bytes, pixels: Uint8Array, bits: number): void {
  const clear = 1 << bits, end = clear + 1, codes = createCodeWriter(out);
  // Of a run and its next pixel the code of the longer run, 0 for none: 2^12 runs by 2^8 pixels.
  const longer = new Uint16Array(1 << (MOST_BITS + 8));
  let next = end + 1, width = bits + 1;
  codes.write(clear, width);
  let run = pixels[0];
  for (let i = 1; i < pixels.length; i++) {
    const place = (run << 8) | pixels[i], known = longer[place];
    if (known !== 0) {
      run = known;
      continue;
    }
    codes.write(run, width);
    run = pixels[i];
    if (next === 1 << MOST_BITS) {
      codes.write(clear, width);
      longer.fill(0);
      next = end + 1;
      width = bits + 1;
      continue;
    }
    longer[place] = next++;
    if (next > 1 << width && width < MOST_BITS) width++;
  }
  codes.write(run, width);
  // A reader has by now entered one more run than the writer needs, and may read on in wider codes.
  if (next === 1 << width && width < MOST_BITS) width++;
  codes.write(end, width);
  codes.end();
}
