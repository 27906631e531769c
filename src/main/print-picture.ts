import { inchToMm, mmToInch } from '../base/unit.ts';
import type { PrintChoice, PrintHooks, PrintPlan } from '../panel/export-print-row.ts';
import type { Saved } from '../panel/export-rows.ts';
import { createPngRows, perInchToPerMetre, pngChunk, pngEnd, pngHead } from '../sheet/write-png.ts';
import type { SockView } from '../view/sock-view-types.ts';
import { pageWords } from '../words/page-words.ts';
import { pauseForPost } from '../worker/slices.ts';

/**
 * Pixels along a side of what is drawn at once: at first, and at most. A part that took longer than the page may be silent makes the
 * next ones smaller, one that was quick makes them larger; milliseconds, chosen by eye.
 */
const FIRST_PIXELS = 512, LEAST_PIXELS = 256, MOST_PIXELS = 2048, LONG_MS = 400, QUICK_MS = 100;

/** Bytes of a pixel in the file; measured on the first example sock, 20 cm wide at 300 dpi: 4.8 MB. */
const PIXEL_BYTES = 0.95;

/** The view as a picture to print. */
export function createPrintPicture(view: SockView | null, canvas: HTMLCanvasElement, hand: (file: Blob) => Saved): PrintHooks {
  let run: { isStopped: boolean } | null = null;
  const plan = ({ widthMm, perInch }: PrintChoice): PrintPlan | null => {
    if (view === null) return null;
    const across = Math.max(1, canvas.clientWidth), along = Math.max(1, canvas.clientHeight), width = Math.round(mmToInch(widthMm) * perInch), height = Math.round((width * along) / across);
    const mostWidth = Math.floor(view.mostPixels() * Math.min(1, across / along));
    return { width, height, heightMm: (widthMm * along) / across, bytes: PIXEL_BYTES * width * height, mostWidthMm: inchToMm(mostWidth / perInch) };
  };
  return {
    plan,
    save: async (choice, onProgress) => {
      const words = pageWords().files.exports, planned = plan(choice), own = run = { isStopped: false };
      if (view === null || planned === null) return { name: null, bytes: 0, problem: words.picture.none };
      if (typeof CompressionStream === 'undefined') return { name: null, bytes: 0, problem: words.print.cannotPack };
      const file = await drawPng(view, planned, choice, () => own.isStopped, onProgress);
      if (file !== null) return hand(file);
      return own.isStopped ? null : { name: null, bytes: 0, problem: words.picture.none };
    },
    stop: () => { if (run !== null) run.isStopped = true; },
  };
}

/** Draws band by band from the top, each in parts, and packs what is drawn; null where it was stopped, or the card gave nothing. */
async function drawPng(view: SockView, { width, height }: PrintPlan, { perInch, hasGround }: PrintChoice, isStopped: () => boolean, onProgress: (share: number) => void): Promise<Blob | null> {
  const picture = { width, height, hasCover: !hasGround, pixelsPerMetre: perInchToPerMetre(perInch) }, rows = createPngRows(picture);
  const packer = new CompressionStream('deflate'), writer = packer.writable.getWriter(), packed = collect(packer.readable);
  const giveUp = async (): Promise<null> => {
    await Promise.allSettled([writer.abort(), packed]);
    return null;
  };
  for (let top = 0, side = FIRST_PIXELS, bandHeight = 0; top < height; top += bandHeight) {
    bandHeight = Math.min(side, height - top);
    const band = new Uint8ClampedArray(4 * width * bandHeight), partWidth = side;
    let longest = 0;
    for (let left = 0; left < width; left += partWidth) {
      const begun = performance.now();
      const part = view.takePart({ left, top, width: Math.min(partWidth, width - left), height: bandHeight, wholeWidth: width, wholeHeight: height }, hasGround ? 'themed' : 'none');
      if (part === null) return await giveUp();
      longest = Math.max(longest, performance.now() - begun);
      for (let y = 0; y < bandHeight; y++) band.set(part.data.subarray(4 * part.width * y, 4 * part.width * (y + 1)), 4 * (width * y + left));
      onProgress((top * width + (left + part.width) * bandHeight) / (width * height));
      await pauseForPost();
      if (isStopped()) return await giveUp();
    }
    await writer.write(rows.take(band));
    side = longest > LONG_MS ? Math.max(LEAST_PIXELS, side / 2) : longest < QUICK_MS ? Math.min(MOST_PIXELS, 2 * side) : side;
  }
  await writer.close();
  return new Blob([...pngHead(picture), ...await packed, pngEnd()], { type: 'image/png' });
}

/** What comes out of a packer, each piece as a chunk of the picture. */
async function collect(stream: ReadableStream<Uint8Array>): Promise<Uint8Array<ArrayBuffer>[]> {
  const reader = stream.getReader(), chunks: Uint8Array<ArrayBuffer>[] = [];
  for (let next = await reader.read(); !next.done; next = await reader.read()) chunks.push(pngChunk('IDAT', next.value));
  return chunks;
}
