import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { GLTFLoader } from 'three/examples/jsm/loaders/GLTFLoader.js';
import { STLLoader } from 'three/examples/jsm/loaders/STLLoader.js';
import { Vector3 } from 'three';
import type { Mesh } from 'three';
import { readGif } from '../sheet/read-gif.ts';
import { openSmallSock, see, settled, weighed } from './sock-page.ts';

async function openExports(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Export…' }).click();
}

/** Presses a button of the sheet, and gives the file that comes of it. */
async function take(page: Page, name: string): Promise<{ readonly name: string; readonly bytes: Buffer }> {
  const [download] = await Promise.all([page.waitForEvent('download', { timeout: 110_000 }), page.getByRole('button', { name, exact: true }).click()]);
  return { name: download.suggestedFilename(), bytes: await readFile(await download.path()) };
}

interface Seen { readonly width: number; readonly height: number; readonly corner: readonly number[]; readonly blue: number; readonly clear: number }

/** Decoded by the browser itself. */
function look(page: Page, png: Buffer): Promise<Seen> {
  return page.evaluate(async (base64) => {
    const bitmap = await createImageBitmap(await (await fetch(`data:image/png;base64,${base64}`)).blob(), { premultiplyAlpha: 'none' });
    const context = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d')!;
    context.drawImage(bitmap, 0, 0);
    const { data } = context.getImageData(0, 0, bitmap.width, bitmap.height);
    let blue = 0, clear = 0;
    for (let i = 0; i < data.length; i += 4) {
      if (data[i + 3] < 3) clear++;
      else if (data[i + 3] > 250 && data[i + 2] > 1.5 * data[i] && data[i + 2] > 1.25 * data[i + 1]) blue++;
    }
    return { width: bitmap.width, height: bitmap.height, corner: [...data.slice(0, 4)], blue: blue / (data.length / 4), clear: clear / (data.length / 4) };
  }, png.toString('base64'));
}

describe('what is taken away', () => {
  it('of the picture has the chosen size, with its ground or nothing behind the sock', async () => {
    const { page, errors } = await openSmallSock();
    const box = await page.locator('#sock').evaluate((canvas) => [canvas.clientWidth, canvas.clientHeight]);
    await openExports(page);
    const grounded = await look(page, (await take(page, 'Picture of the view: PNG')).bytes);
    // With twice the pixels the yarn is drawn, and kept for the next picture.
    const counters = (await see(page)).view;
    expect([grounded.width, grounded.height]).toEqual([2 * box[0], 2 * box[1]]);
    expect(grounded.corner[3]).toBe(255);
    await page.getByRole('region', { name: 'Picture of the view' }).getByLabel('with its ground').uncheck();
    const file = await take(page, 'Picture of the view: PNG'), alone = await look(page, file.bytes);
    expect(file.name).toBe('small-sock.png');
    expect([alone.width, alone.height]).toEqual([2 * box[0], 2 * box[1]]);
    expect(alone.corner[3]).toBe(0);
    expect(alone.clear).toBeGreaterThan(0.3);
    // The sock itself is the same in both; with fewer pixels its yarn may be drawn otherwise.
    expect(alone.blue).toBeGreaterThan(0.05);
    expect(Math.abs(alone.blue / grounded.blue - 1)).toBeLessThan(0.1);
    await page.getByRole('combobox', { name: 'Size' }).selectOption('1');
    const single = await look(page, (await take(page, 'Picture of the view: PNG')).bytes);
    expect([single.width, single.height]).toEqual(box);
    // The page's own picture is as it was.
    expect(await page.locator('#sock').evaluate((canvas) => [(canvas as HTMLCanvasElement).width, (canvas as HTMLCanvasElement).height])).toEqual(box);
    expect((await see(page)).view?.textures).toBe(counters?.textures);
    expect(errors).toEqual([]);
  });

  it('as files has the sock\'s name and its measures', async () => {
    const { page } = await openSmallSock();
    await page.getByLabel('Tube').check();
    await settled(page);
    await openExports(page);
    expect(await page.locator('.export-which').textContent()).toBe('Small sock');
    const stl = await take(page, 'Shape, as a model: STL'), glb = await take(page, 'Shape, as a model: GLB');
    expect([stl.name, glb.name]).toEqual(['small-sock-tube.stl', 'small-sock-tube.glb']);
    const solid = new STLLoader().parse(Uint8Array.from(stl.bytes).buffer), { scene } = await new GLTFLoader().parseAsync(Uint8Array.from(glb.bytes).buffer, '');
    solid.computeBoundingBox();
    const mesh = scene.children[0] as Mesh, stlSize = solid.boundingBox!.getSize(new Vector3()), glbSize = new Vector3();
    mesh.geometry.computeBoundingBox();
    mesh.geometry.boundingBox!.getSize(glbSize);
    // Millimetres, z up; metres, y up.
    for (const [mm, m] of [[stlSize.x, glbSize.x], [stlSize.z, glbSize.y], [stlSize.y, glbSize.z]]) expect(Math.abs(mm - 1000 * m)).toBeLessThan(0.01);
    // The yarns of the small sock: #1848e0 and #e01818, blue and red, linear.
    const colour = mesh.geometry.getAttribute('color'), found = new Set(Array.from({ length: colour.count }, (_, i) => (colour.getZ(i) > colour.getX(i) ? 'blue' : 'red')));
    expect([...found].sort()).toEqual(['blue', 'red']);
    const svg = (await take(page, 'Outline, 1:1: SVG')).bytes.toString();
    const width = await page.evaluate((source) => {
      const holder = document.createElement('div');
      holder.innerHTML = source.replace(/^<\?xml[^>]*>/, '');
      document.querySelector('dialog[open]')!.append(holder);
      const box = holder.querySelector<SVGPathElement>('#check-line')!.getBoundingClientRect();
      holder.remove();
      return box.width;
    }, svg);
    // CSS: 96 pixels to the inch; 5 cm on paper.
    expect(Math.abs(width / 96 * 25.4 - 50)).toBeLessThan(0.5);
    expect(svg).toContain('Small sock');
    const csv = (await take(page, 'Passes: CSV')).bytes.toString(), json = JSON.parse((await take(page, 'Passes: JSON')).bytes.toString()) as { passes: number };
    const { plan } = await see(page);
    const passes = plan!.legPasses + plan!.plainPasses + plan!.anklePasses + plan!.heelPasses + plan!.footPasses + plan!.toePasses;
    expect([csv.split('\r\n').filter((line) => line.includes(',pass,')).length, json.passes]).toEqual([passes, passes]);
  });

  it('as a moving picture shows the sock growing, frame by frame', async () => {
    const { page, errors } = await openSmallSock();
    await openExports(page);
    await page.getByRole('combobox', { name: 'A picture' }).selectOption('8');
    const about = await page.locator('.export-row').filter({ hasText: 'moving picture' }).locator('p').textContent();
    const { name, bytes } = await take(page, 'The sock growing, as a moving picture: GIF');
    expect(name).toBe('small-sock-growing.gif');
    const film = readGif(bytes), { plan } = await see(page);
    const passes = plan!.legPasses + plan!.plainPasses + plan!.anklePasses + plan!.heelPasses + plan!.footPasses + plan!.toePasses;
    expect([film.width, film.height, film.isEndless]).toEqual([480, 480, true]);
    expect(film.frames.length).toBe(Math.floor(passes / 8) + 1 + (passes % 8 === 0 ? 0 : 1));
    expect(about).toContain(`${film.frames.length} pictures`);
    // Chromium's own reader sees as many.
    expect(await page.evaluate(async (base64) => {
      const decoder = new ImageDecoder({ data: await (await fetch(`data:image/gif;base64,${base64}`)).arrayBuffer(), type: 'image/gif' });
      await decoder.completed;
      const { image } = await decoder.decode({ frameIndex: 3 });
      return [decoder.tracks.selectedTrack?.frameCount, image.displayWidth, image.displayHeight];
    }, bytes.toString('base64'))).toEqual([film.frames.length, 480, 480]);
    // How far down the cloth reaches: lower at each third of the work.
    const lowest = film.frames.map(({ rgb }) => {
      for (let i = rgb.length - 3; i >= 0; i -= 3) if (Math.abs(rgb[i] - rgb[0]) + Math.abs(rgb[i + 1] - rgb[1]) + Math.abs(rgb[i + 2] - rgb[2]) > 60) return Math.floor(i / 3 / film.width);
      return 0;
    });
    const thirds = [1, Math.floor(lowest.length / 3), Math.floor((2 * lowest.length) / 3), lowest.length - 1].map((place) => lowest[place]);
    expect([...thirds].sort((a, b) => a - b)).toEqual(thirds);
    expect(thirds[3] - thirds[0]).toBeGreaterThan(100);
    expect(errors).toEqual([]);
  });

  it('is stopped with its sheet, and leaves the page as it was', async () => {
    const { page, errors } = await openSmallSock();
    await weighed(page);
    const workers = page.workers().length;
    await openExports(page);
    await page.getByRole('button', { name: 'The sock growing, as a moving picture: GIF' }).click();
    await page.getByRole('button', { name: 'Stop', exact: true }).waitFor();
    await page.keyboard.press('Escape');
    await expect.poll(() => page.workers().length, { timeout: 60_000 }).toBe(workers);
    await openExports(page);
    await expect.poll(() => page.getByRole('button', { name: 'The sock growing, as a moving picture: GIF' }).isEnabled(), { timeout: 30_000 }).toBe(true);
    expect(errors).toEqual([]);
  });
});
