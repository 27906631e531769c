import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { Box3, Mesh, type MeshStandardMaterial, Vector3 } from 'three';
import { GLTFLoader } from 'three/examples/jsm/loaders/GLTFLoader.js';
import { readPng } from '../sheet/read-png.ts';
import { openSmallSock, see, settled } from './sock-page.ts';

async function openExports(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Export…' }).click();
}

async function take(page: Page, name: string): Promise<{ readonly name: string; readonly bytes: Buffer }> {
  const [download] = await Promise.all([page.waitForEvent('download', { timeout: 110_000 }), page.getByRole('button', { name, exact: true }).click()]);
  return { name: download.suggestedFilename(), bytes: await readFile(await download.path()) };
}

const aboutOf = async (page: Page, title: string): Promise<string> => await page.getByRole('region', { name: title }).locator('.export-what').innerText();

/** `1.2 MB` or `340 kB` among words, in bytes. */
function bytesIn(words: string): number {
  const [, figure, unit] = /([\d.]+) (MB|kB)/.exec(words)!;
  return Number(figure) * (unit === 'MB' ? 1e6 : 1e3);
}

describe('yarn that is taken away', () => {
  it('as a model has the size told before, every yarn in its colour, and the sock\'s measures; a finer one is larger', async () => {
    const { page, errors } = await openSmallSock();
    await page.getByLabel('Tube').check();
    await settled(page);
    await openExports(page);
    const detail = page.getByRole('combobox', { name: 'Detail' });
    const said: number[] = [];
    for (const choice of ['fine', 'coarse']) {
      await detail.selectOption(choice);
      said.push(bytesIn(await aboutOf(page, 'Yarn, loop by loop, as a model')));
    }
    // 32 x 8 points a loop over 12 x 4.
    expect(said[0] / said[1]).toBeGreaterThan(4.5);
    const { name, bytes } = await take(page, 'Yarn, loop by loop, as a model: GLB');
    expect(name).toBe('small-sock-tube-yarn.glb');
    expect(Math.abs(bytes.length / said[1] - 1)).toBeLessThan(0.03);
    expect(await page.locator('.socks-said').last().textContent()).toContain(name);
    const { scene } = await new GLTFLoader().parseAsync(Uint8Array.from(bytes).buffer, ''), box = new Box3().setFromObject(scene), colours = new Set<string>();
    scene.traverse((node) => { if (node instanceof Mesh) colours.add((node.material as MeshStandardMaterial).color.getHexString()); });
    // The yarns of the small sock; three turns a colour to sRGB again.
    expect([...colours].sort()).toEqual(['1848e0', 'e01818']);
    // Metres, y up: as large as the same pose's cloth, within two stitches (a stitch is some 8 mm, a yarn's tails hang on).
    const glb = await take(page, 'Shape, as a model: GLB'), cloth = new Box3().setFromObject((await new GLTFLoader().parseAsync(Uint8Array.from(glb.bytes).buffer, '')).scene);
    expect(box.getSize(new Vector3()).distanceTo(cloth.getSize(new Vector3()))).toBeLessThan(0.06);
    expect((await see(page)).view).toBeDefined();
    expect(errors).toEqual([]);
  });

  it('as a picture to print has the pixels told, and its size on paper', async () => {
    const { page, errors } = await openSmallSock();
    const box = await page.locator('#sock').evaluate((canvas) => [canvas.clientWidth, canvas.clientHeight]);
    await openExports(page);
    const title = 'Picture to print', width = page.getByRole('spinbutton', { name: `${title}: Width, cm` });
    await width.fill('10');
    await page.getByRole('combobox', { name: 'Density' }).selectOption('150');
    // 10 cm are 3.937 inches (25.4 mm each), 591 pixels at 150.
    await expect.poll(() => aboutOf(page, title)).toContain(`591 × ${Math.round((591 * box[1]) / box[0])}`);
    const small = await take(page, `${title}: PNG`), read = readPng(small.bytes);
    expect(small.name).toBe('small-sock-print.png');
    expect([read.width, read.height, read.channels]).toEqual([591, Math.round((591 * box[1]) / box[0]), 3]);
    // PNG specification, 11.3.4.3: pixels to the metre; 150 / 0.0254.
    expect(read.pixelsPerMetre).toEqual([5906, 5906]);
    const blues = (data: Uint8Array, step: number): number => {
      let count = 0;
      for (let i = 0; i < data.length; i += step) if (data[i + 2] > 1.5 * data[i] && data[i + 2] > 1.25 * data[i + 1] && (step === 3 || data[i + 3] > 250)) count++;
      return count / (data.length / step);
    };
    expect(blues(read.data, 3)).toBeGreaterThan(0.05);
    // Wider than one part: the same sock, in parts.
    await width.fill('12');
    await page.getByRole('combobox', { name: 'Density' }).selectOption('300');
    await page.getByRole('region', { name: title }).getByLabel('with its ground').uncheck();
    await expect.poll(() => aboutOf(page, title)).toContain('1417 ×');
    const large = readPng((await take(page, `${title}: PNG`)).bytes);
    expect([large.width, large.channels, large.pixelsPerMetre]).toEqual([1417, 4, [11811, 11811]]);
    expect(Math.abs(blues(large.data, 4) / blues(read.data, 3) - 1)).toBeLessThan(0.15);
    // The browser's own reader agrees with ours.
    expect(await page.evaluate(async (base64) => {
      const bitmap = await createImageBitmap(await (await fetch(`data:image/png;base64,${base64}`)).blob());
      return [bitmap.width, bitmap.height];
    }, small.bytes.toString('base64'))).toEqual([read.width, read.height]);
    expect(await page.locator('#sock').evaluate((canvas) => [(canvas as HTMLCanvasElement).width, (canvas as HTMLCanvasElement).height])).toEqual(box);
    expect(errors).toEqual([]);
  });

  it('as a picture of no size, or one that is too wide, is refused with what would be right', async () => {
    const { page } = await openSmallSock();
    await openExports(page);
    const title = 'Picture to print', width = page.getByRole('spinbutton', { name: `${title}: Width, cm` }), save = page.getByRole('button', { name: `${title}: PNG` });
    for (const wrong of ['1', '900', '']) {
      await width.fill(wrong);
      await expect.poll(() => aboutOf(page, title)).toMatch(/between 2\.0 cm and|from 2\.0 cm to/);
      expect([await save.isDisabled(), await width.getAttribute('aria-invalid')]).toEqual([true, 'true']);
    }
    await width.fill('12');
    await expect.poll(() => save.isEnabled()).toBe(true);
    expect(await width.getAttribute('aria-invalid')).toBe(null);
  });

  it('is stopped with its sheet, and leaves the page as it was', async () => {
    const { page, errors } = await openSmallSock();
    await openExports(page);
    await page.getByRole('spinbutton', { name: 'Picture to print: Width, cm' }).fill('40');
    await expect.poll(() => aboutOf(page, 'Picture to print')).toContain('4724 ×');
    await page.getByRole('button', { name: 'Picture to print: PNG' }).click();
    await page.getByRole('button', { name: 'Picture to print: Stop' }).click();
    await expect.poll(() => page.getByRole('button', { name: 'Picture to print: PNG' }).isEnabled(), { timeout: 60_000 }).toBe(true);
    expect(await page.locator('#sock').evaluate((canvas) => (canvas as HTMLCanvasElement).width === canvas.clientWidth)).toBe(true);
    expect(errors).toEqual([]);
  });
});
