export interface ReadGif {
  readonly width: number;
  readonly height: number;
  readonly isEndless: boolean;
  /** As shown: three entries a pixel, what a frame leaves transparent as it was before. */
  readonly frames: readonly { readonly hundredths: number; readonly rgb: Uint8Array }[];
}

/** Reads a GIF strictly by its specification (GIF89a, CompuServe 1990), for tests only; anything odd throws. */
export function readGif(bytes: Uint8Array): ReadGif {
  let at = 0;
  const byte = (): number => {
    if (at >= bytes.length) throw new Error('the file ends too early');
    return bytes[at++];
  };
  const word = (): number => byte() | (byte() << 8);
  const letters = (count: number): string => Array.from({ length: count }, () => String.fromCharCode(byte())).join('');
  const blocks = (): Uint8Array => {
    const all: number[] = [];
    for (let length = byte(); length > 0; length = byte()) for (let i = 0; i < length; i++) all.push(byte());
    return Uint8Array.from(all);
  };
  if (letters(6) !== 'GIF89a') throw new Error('no GIF89a');
  const width = word(), height = word(), flags = byte();
  at += 2;
  if ((flags & 0x80) === 0) throw new Error('no colour table');
  const table = bytes.slice(at, at += 3 << ((flags & 7) + 1));
  const canvas = new Uint8Array(3 * width * height), frames: { hundredths: number; rgb: Uint8Array }[] = [];
  let isEndless = false, control = { hundredths: 0, transparent: -1 };
  for (let kind = byte(); kind !== 0x3b; kind = byte()) {
    if (kind === 0x21) {
      const label = byte(), data = blocks();
      if (label === 0xf9) control = { hundredths: data[1] | (data[2] << 8), transparent: (data[0] & 1) === 1 ? data[3] : -1 };
      if (label === 0xff && String.fromCharCode(...data.subarray(0, 11)) === 'NETSCAPE2.0') isEndless = data[11] === 1 && data[12] === 0 && data[13] === 0;
      continue;
    }
    if (kind !== 0x2c) throw new Error(`a block of kind ${kind}`);
    if ([word(), word(), word(), word(), byte()].join() !== [0, 0, width, height, 0].join()) throw new Error('a frame that is not the whole picture');
    const bits = byte(), pixels = unpack(blocks(), bits, width * height);
    pixels.forEach((index, i) => {
      if (index === control.transparent) return;
      if (3 * index >= table.length) throw new Error(`no colour ${index}`);
      canvas.set(table.subarray(3 * index, 3 * index + 3), 3 * i);
    });
    frames.push({ hundredths: control.hundredths, rgb: canvas.slice() });
  }
  if (at !== bytes.length) throw new Error('bytes after the end');
  return { width, height, isEndless, frames };
}

/** Appendix F: codes lowest bit first; the table as texts of pixels. */
function unpack(data: Uint8Array, bits: number, count: number): number[] {
  const clear = 1 << bits, end = clear + 1, pixels: number[] = [];
  let table: number[][] = [], width = 0, last: number[] | null = null, bit = 0;
  const reset = (): void => {
    table = Array.from({ length: end + 1 }, (_, code) => (code < clear ? [code] : []));
    width = bits + 1;
    last = null;
  };
  reset();
  for (;;) {
    let code = 0;
    for (let i = 0; i < width; i++, bit++) {
      if (bit >> 3 >= data.length) throw new Error('no end code');
      code |= ((data[bit >> 3] >> (bit & 7)) & 1) << i;
    }
    if (code === clear) { reset(); continue; }
    if (code === end) break;
    const before: number[] | null = last;
    if (code > table.length || (code === table.length && before === null)) throw new Error(`code ${code} of ${table.length}`);
    const run: number[] = code < table.length ? table[code] : [...before!, before![0]];
    if (before !== null && table.length < 4096) table.push([...before, run[0]]);
    for (const pixel of run) pixels.push(pixel);
    last = run;
    if (table.length === 1 << width && width < 12) width++;
  }
  if (bit >> 3 < data.length - 1) throw new Error('bytes after the end code');
  if (pixels.length !== count) throw new Error(`${pixels.length} pixels of ${count}`);
  return pixels;
}
