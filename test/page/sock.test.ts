import { describe, expect, it } from 'vitest';
import { openPage } from './browser.ts';
import { countersAtRest, countPixels, openSmallSock, see, settled, weighed } from './sock-page.ts';

describe('on opening', () => {
  it('a sock is in view, no dialog asks anything, and what matters can be read without a click', async () => {
    const { page, errors, outside } = await openPage();
    await settled(page);
    const { plan, poseStatus, measures } = await see(page);
    expect(plan?.stitches).toBeGreaterThan(0);
    expect(poseStatus).toBe('converged');
    expect(measures.posed?.heelDepthMm).toBeGreaterThan(0);
    for (const words of [/turn-down/i, /decrease/i, /heel depth/i, /\d+\s+passes/i]) {
      expect(await page.getByText(words).filter({ visible: true }).first().isVisible(), String(words)).toBe(true);
    }
    expect(await page.locator('dialog[open], [role=dialog]').count()).toBe(0);
    expect(errors).toEqual([]);
    expect(outside).toEqual([]);
  });

  // The plain one is what the page opens with, above. One page for all, as a person would look through them.
  it('every example opens and comes to rest', async () => {
    const { page, errors } = await openSmallSock();
    for (const [file, name] of [
      ['socks/high-instep.json', 'high instep'], ['socks/short-row-toe.json', 'Short-row toe'], ['socks/slanted-toe.json', 'Slanted'],
      ['socks/wide-heel.json', 'Broad heel'], ['socks/child.json', 'Child'],
    ] as const) {
      await page.getByRole('combobox', { name: /example/i }).selectOption(file);
      await page.waitForFunction((wanted) => window.heelwright?.plan?.name.includes(wanted), name);
      await settled(page);
      const { problems, poseStatus } = await see(page);
      expect({ problems, poseStatus }, file).toEqual({ problems: [], poseStatus: 'converged' });
    }
    expect(errors).toEqual([]);
  }, 300_000);
});

describe('the picture', () => {
  it('shows the sock in each pose: a good part of the canvas in its yarn, the two poses not the same', async () => {
    const { page, errors } = await openSmallSock();
    const flat = await countPixels(page);
    expect(flat.blue / flat.all).toBeGreaterThan(0.05);
    expect(flat.red / flat.all).toBeGreaterThan(0.01);
    await page.getByLabel('Tube').check();
    await settled(page);
    const tube = await countPixels(page);
    expect((await see(page)).pose).toBe('tube');
    expect(tube.blue / tube.all).toBeGreaterThan(0.05);
    expect(tube.blue).not.toBe(flat.blue);
    expect(errors).toEqual([]);
  });

  it('dragging the turn-down width to fewer stitches deepens the heel, in the numbers at once and in the picture after', async () => {
    const { page } = await openSmallSock();
    const before = await see(page);
    const wide = await countPixels(page);
    const slider = page.getByRole('slider', { name: /turn-down/i });
    await slider.scrollIntoViewIfNeeded();
    const box = await slider.boundingBox();
    if (box === null) throw new Error('the slider is not shown');
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + 3, box.y + box.height / 2, { steps: 6 });
    const during = await see(page);
    await page.mouse.up();
    expect(during.plan?.turnDownWidth).toBe(2);
    // Geometry: the depth at rest is H - W rows.
    expect(during.measures.rest?.heelDepthMm).toBeCloseTo((16 - 2) * 100 / 17, 6);
    await settled(page);
    const after = await see(page);
    expect(after.measures.posed!.heelDepthMm!).toBeGreaterThan(before.measures.posed!.heelDepthMm! * 1.1);
    expect((await countPixels(page)).red).toBeGreaterThan(wide.red * 1.05);
    await page.keyboard.press('Control+z');
    expect((await see(page)).plan?.turnDownWidth).toBe(8);
  });

  it('a measure that is pointed at, or has the focus, is drawn on the sock', async () => {
    const { page } = await openSmallSock();
    const label = page.locator('.line-label');
    await page.getByRole('button', { name: 'Heel-tip girth' }).hover();
    await expect.poll(() => label.textContent()).toMatch(/Heel-tip girth \d+\.\d cm/);
    expect(await label.isVisible()).toBe(true);
    await page.getByRole('button', { name: 'Foot length' }).focus();
    await expect.poll(() => label.textContent()).toMatch(/Foot length \d+\.\d cm/);
  });

  it('comes back after the graphics card was taken away', async () => {
    const { page } = await openSmallSock();
    const before = await countPixels(page);
    await page.evaluate(() => {
      const gl = document.querySelector<HTMLCanvasElement>('#sock')?.getContext('webgl2');
      const lose = gl?.getExtension('WEBGL_lose_context');
      lose?.loseContext();
      setTimeout(() => lose?.restoreContext(), 300);
    });
    await page.locator('[data-notice=graphics]').waitFor();
    await page.locator('[data-notice=graphics]').waitFor({ state: 'detached' });
    await expect.poll(async () => (await countPixels(page)).blue).toBe(before.blue);
  });

  it('twenty rebuilds hold no more of the GPU than the first ones', async () => {
    const { page } = await openSmallSock();
    const slider = page.getByRole('slider', { name: /turn-down/i });
    await slider.focus();
    const turn = async (key: string): Promise<void> => {
      await page.keyboard.press(key);
      await settled(page);
    };
    await turn('ArrowLeft');
    await turn('ArrowRight');
    const early = await countersAtRest(page);
    for (let i = 0; i < 10; i += 1) {
      await turn('ArrowLeft');
      await turn('ArrowRight');
    }
    const late = await countersAtRest(page);
    expect(late?.geometries).toBe(early?.geometries);
    expect(late?.textures).toBe(early?.textures);
    expect(late?.programs).toBe(early?.programs);
    expect(late!.frames).toBeGreaterThan(early!.frames);
  });

  it('is drawn on demand: when nothing moves, no frame is drawn', async () => {
    const { page } = await openSmallSock();
    // What the page still has to say of this sock, its yarn among it, may move the picture's frame.
    await weighed(page);
    const { frames } = (await countersAtRest(page))!;
    await page.waitForTimeout(1000);
    expect((await see(page)).view?.frames).toBe(frames);
  });
});
