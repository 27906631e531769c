import type { Page } from 'playwright-core';
import { describe, expect, it, onTestFinished } from 'vitest';
import type { Ground } from '../../src/view/sock-view-types.ts';
import { usePictureBrowser } from './picture-browser.ts';

const SOCK = { gauge: { stitchesPer10cm: 12, rowsPer10cm: 17 }, leg: { lengthMm: 90 }, counts: { stitches: 32, footPasses: 36 }, yarns: [{ colour: '#e01818' }] };
/** Twice the page's pixels. */
const WIDTH = 1200, HEIGHT = 800;

const picture = usePictureBrowser();

async function openSock(): Promise<Page> {
  const page = await picture.browser.newPage({ viewport: { width: WIDTH / 2, height: HEIGHT / 2 }, reducedMotion: 'reduce' });
  onTestFinished(() => page.close());
  await page.goto(picture.url, { waitUntil: 'load' });
  await page.waitForFunction(() => window.picture !== undefined);
  await page.evaluate((sock) => {
    const { view, make, companionOf } = window.picture!, { fabric, grid, yarnColours, positions, around } = companionOf(make(sock, 'tube'), '');
    view.keepFree(10, 10);
    view.setFabric(fabric, grid, yarnColours);
    view.setPositions(positions, true, 'tube', around);
  }, SOCK);
  await page.waitForTimeout(800);
  return page;
}

/** Numbers of the whole picture that differ by more than two steps of 256 from those of parts of so many pixels, set together. */
function compare(page: Page, ground: Ground, [partWidth, partHeight]: readonly [number, number]): Promise<{ readonly off: number; readonly colours: number; readonly size: readonly number[] }> {
  return page.evaluate(([ground, w, h, wholeWidth, wholeHeight]) => {
    const { view } = window.picture!, whole = view.takePicture(2, ground)!, set = document.createElement('canvas'), canvas = document.querySelector('canvas')!;
    set.width = wholeWidth;
    set.height = wholeHeight;
    const context = set.getContext('2d')!, wholeAgain = document.createElement('canvas').getContext('2d')!;
    for (let top = 0; top < wholeHeight; top += h) {
      for (let left = 0; left < wholeWidth; left += w) {
        context.putImageData(view.takePart({ left, top, width: Math.min(w, wholeWidth - left), height: Math.min(h, wholeHeight - top), wholeWidth, wholeHeight }, ground)!, left, top);
      }
    }
    // Both by way of a canvas, which rounds what hardly covers.
    wholeAgain.canvas.width = wholeWidth;
    wholeAgain.canvas.height = wholeHeight;
    wholeAgain.putImageData(whole, 0, 0);
    const { data } = context.getImageData(0, 0, wholeWidth, wholeHeight), wanted = wholeAgain.getImageData(0, 0, wholeWidth, wholeHeight).data;
    const off = data.reduce((sum, number, i) => sum + (Math.abs(number - wanted[i]) > 2 ? 1 : 0), 0);
    return { off: off / data.length, colours: new Set(new Uint32Array(wanted.buffer)).size, size: [whole.width, whole.height, canvas.width, canvas.height] };
  }, [ground, partWidth, partHeight, WIDTH, HEIGHT] as const);
}

describe('a picture in parts', () => {
  it.each(['themed', 'none'] as const)('is the whole one, its grain apart, ground %s', async (ground) => {
    const page = await openSock();
    // Parts that do not divide the whole, and a single one.
    for (const part of [[500, 300], [WIDTH, HEIGHT]] as const) {
      const { off, colours, size } = await compare(page, ground, part);
      expect(size).toEqual([WIDTH, HEIGHT, WIDTH / 2, HEIGHT / 2]);
      expect(colours).toBeGreaterThan(200);
      expect(off).toBeLessThan(1e-4);
    }
    // Of the yarn only what may be seen in a part is drawn for it.
    const pieces = await page.evaluate(([wholeWidth, wholeHeight]) => [[wholeWidth, wholeHeight], [400, 300]].map(([width, height]) => {
      window.picture!.view.takePart({ left: 300, top: 250, width, height, wholeWidth, wholeHeight }, 'themed');
      const { level, pieces: drawn } = window.picture!.view.detail();
      return level === 'mesh' ? 0 : drawn;
    }), [WIDTH, HEIGHT] as const);
    expect(pieces[1]).toBeGreaterThan(100);
    expect(pieces[1]).toBeLessThan(0.8 * pieces[0]);
    expect(await page.evaluate(() => window.picture!.view.mostPixels())).toBeGreaterThanOrEqual(4096);
  });
});
