/** Colours of pictures: three entries each, red, green, blue, 0 to 255. */
export type Palette = Uint8Array;

/** Bits of each channel by which colours are told apart. */
const BITS = 5, SIDE = 1 << BITS, SHIFT = 8 - BITS;

interface Box { readonly colours: readonly number[]; readonly weight: number }

const channel = (colour: number, index: number): number => (colour >> (BITS * (2 - index))) & (SIDE - 1);

function binOf(rgba: Uint8ClampedArray, i: number): number {
  return ((rgba[i] >> SHIFT) << (2 * BITS)) | ((rgba[i + 1] >> SHIFT) << BITS) | (rgba[i + 2] >> SHIFT);
}

/** The channel in which a box is longest, and how long. */
function longestSide({ colours }: Box): { readonly index: number; readonly length: number } {
  let best = { index: 0, length: -1 };
  for (let index = 0; index < 3; index++) {
    let least = SIDE, most = 0;
    for (const colour of colours) {
      least = Math.min(least, channel(colour, index));
      most = Math.max(most, channel(colour, index));
    }
    if (most - least > best.length) best = { index, length: most - least };
  }
  return best;
}

/** Cuts a box across its longest side where half of its pixels lie. */
function cutBox(box: Box, counts: Float64Array): readonly [Box, Box] {
  const { index } = longestSide(box), sorted = [...box.colours].sort((a, b) => channel(a, index) - channel(b, index) || a - b);
  let at = 0, weight = 0;
  while (at < sorted.length - 1 && (at === 0 || weight + counts[sorted[at]] <= box.weight / 2)) weight += counts[sorted[at++]];
  return [{ colours: sorted.slice(0, at), weight }, { colours: sorted.slice(at), weight: box.weight - weight }];
}

/**
 * At most so many colours for some pictures (four entries a pixel): median cut (Heckbert 1982) over
 * colours in steps of 8, each box's mean. Same pictures, same palette.
 */
export function pickPalette(pictures: readonly Uint8ClampedArray[], most: number): Palette {
  const counts = new Float64Array(SIDE ** 3), sums = new Float64Array(3 * SIDE ** 3);
  for (const rgba of pictures) {
    for (let i = 0; i < rgba.length; i += 4) {
      const bin = binOf(rgba, i);
      counts[bin]++;
      for (let d = 0; d < 3; d++) sums[3 * bin + d] += rgba[i + d];
    }
  }
  const used = [...counts.keys()].filter((bin) => counts[bin] > 0);
  let boxes: Box[] = [{ colours: used, weight: used.reduce((sum, bin) => sum + counts[bin], 0) }];
  while (boxes.length < most) {
    const place = (box: Box): number => (box.colours.length < 2 ? -1 : box.weight * longestSide(box).length);
    const widest = boxes.reduce((best, box) => (place(box) > place(best) ? box : best));
    if (place(widest) < 0) break;
    boxes = boxes.flatMap((box) => (box === widest ? cutBox(box, counts) : [box]));
  }
  return Uint8Array.from(boxes.flatMap(({ colours, weight }) => [0, 1, 2].map((d) => Math.round(colours.reduce((sum, bin) => sum + sums[3 * bin + d], 0) / Math.max(1, weight)))));
}

/** For each pixel the nearest colour of a palette; looked up once for each step of colour. */
export function createPaletteMapper(palette: Palette): (rgba: Uint8ClampedArray) => Uint8Array {
  const known = new Int16Array(SIDE ** 3).fill(-1);
  const nearest = (rgba: Uint8ClampedArray, i: number): number => {
    let best = 0, least = Infinity;
    for (let p = 0; p < palette.length; p += 3) {
      // Weighted as the eye weighs red, green and blue, roughly.
      const distance = 2 * (rgba[i] - palette[p]) ** 2 + 4 * (rgba[i + 1] - palette[p + 1]) ** 2 + (rgba[i + 2] - palette[p + 2]) ** 2;
      if (distance < least) {
        least = distance;
        best = p / 3;
      }
    }
    return best;
  };
  return (rgba) => {
    const indices = new Uint8Array(rgba.length / 4);
    for (let pixel = 0; pixel < indices.length; pixel++) {
      const bin = binOf(rgba, 4 * pixel);
      if (known[bin] < 0) known[bin] = nearest(rgba, 4 * pixel);
      indices[pixel] = known[bin];
    }
    return indices;
  };
}
