import type { Page } from 'playwright-core';
import { describe, expect, it, onTestFinished } from 'vitest';
import { countersAtRest, countPixels, openSmallSock, settled } from './sock-page.ts';
import { usePictureBrowser } from './picture-browser.ts';

/** Small: blue, with a red heel. What is drawn of a shape does not hang on its being at rest. */
const SOCK = {
  gauge: { stitchesPer10cm: 12, rowsPer10cm: 17 }, counts: { stitches: 24, legPasses: 12, footPasses: 10 }, heel: { turnDownWidth: 4 },
  yarns: [{ colour: '#1848e0', from: 'leg' }, { colour: '#e01818', from: 'heel' }, { colour: '#1848e0', from: 'foot' }],
} as const;

const picture = usePictureBrowser();

declare global {
  interface Window { growing?: ReturnType<NonNullable<Window['picture']>['grow']> }
}

/** `isQuick`: shapes hung up only, which are drawn pale. */
async function openGrowth(theme: 'light' | 'dark' = 'light', yarn?: string, isQuick = true): Promise<{ readonly page: Page; readonly errors: string[] }> {
  const page = await picture.browser.newPage({ viewport: { width: 800, height: 560 }, reducedMotion: 'reduce' });
  onTestFinished(() => page.close());
  const errors: string[] = [];
  page.on('console', (message) => { if (message.type() === 'error') errors.push(message.text()); });
  page.on('pageerror', (error) => errors.push(String(error)));
  await page.goto(`${picture.url}?theme=${theme}`, { waitUntil: 'load' });
  await page.waitForFunction(() => window.picture !== undefined);
  await page.evaluate(([sock, colour, quick]) => {
    window.growing = window.picture!.grow({ ...sock, yarns: colour === undefined ? sock.yarns : [{ colour }] }, quick);
    window.picture!.view.keepFree(10, 10);
  }, [SOCK, yarn, isQuick] as const);
  return { page, errors };
}

const framesOf = (page: Page): Promise<number> => page.evaluate(() => window.picture!.view.counters().frames);

async function atRest(page: Page): Promise<void> {
  for (let before = -1, now = await framesOf(page); before !== now; now = await framesOf(page)) {
    before = now;
    await page.waitForTimeout(400);
  }
}

async function show(page: Page, pass: number): Promise<void> {
  await page.evaluate((at) => { window.picture!.view.setGrowth(window.growing!.frameAt(at)); }, pass);
  await atRest(page);
}

/** Pixels that plainly differ between two screenshots. */
async function countChanged(page: Page, before: Buffer, after: Buffer): Promise<number> {
  return page.evaluate(async (shots) => {
    const [a, b] = await Promise.all(shots.map(async (base64) => {
      const image = new Image();
      image.src = `data:image/png;base64,${base64}`;
      await image.decode();
      const context = new OffscreenCanvas(image.width, image.height).getContext('2d')!;
      context.drawImage(image, 0, 0);
      return context.getImageData(0, 0, image.width, image.height).data;
    }));
    let changed = 0;
    for (let i = 0; i < a.length; i += 4) if ([0, 1, 2].some((channel) => Math.abs(a[i + channel] - b[i + channel]) > 70)) changed++;
    return changed;
  }, [before.toString('base64'), after.toString('base64')]);
}

describe('a growing sock in the picture', () => {
  it('shows more cloth with the passes, the heel from its first pass on, and none of it going back', async () => {
    const { page, errors } = await openGrowth('light', undefined, false);
    const passes = await page.evaluate(() => {
      const { passes: all } = window.growing!.sock.trace, first = (section: string): number => all.findIndex((pass) => pass.section === section);
      return { cast: 0, leg: first('plain'), before: first('heel-in') - 1, pouch: first('foot') - 1, last: window.growing!.lastPass };
    });
    const seen: Record<string, { blue: number; red: number }> = {};
    // As far off as the whole piece needs; where a person has put the camera it stays.
    await show(page, passes.last);
    await page.evaluate(() => { window.picture!.view.zoomBy(1); });
    for (const [name, pass] of Object.entries(passes)) {
      await show(page, pass);
      seen[name] = await countPixels(page);
    }
    expect(seen['cast'].blue).toBeLessThan(seen['leg'].blue / 5);
    // Held needles are red too, though duller: a few pixels of them are no heel.
    expect(seen['pouch'].red).toBeGreaterThan(10 * Math.max(5, seen['before'].red));
    await show(page, passes.before);
    expect(await countPixels(page)).toEqual(seen['before']);
    expect(errors).toEqual([]);
  });

  it('holds no more of the GPU after scrubbing there and back, and lets go of all that growth took', async () => {
    const { page, errors } = await openGrowth();
    const counters = async (): Promise<number[]> => {
      await atRest(page);
      return page.evaluate(() => { const { geometries, textures, programs } = window.picture!.view.counters(); return [geometries, textures, programs]; });
    };
    const scrub = (): Promise<void> => page.evaluate(async () => {
      const { frameAt, lastPass, sock } = window.growing!, { view } = window.picture!;
      const passes = Array.from({ length: lastPass + 1 }, (_, pass) => pass);
      for (const pass of [...passes, ...passes.reverse()]) {
        view.setGrowth(frameAt(pass));
        view.setLit({ first: sock.trace.passes[pass].firstLoop, end: sock.trace.passes[pass].endLoop, loops: [] });
        await new Promise((resolve) => requestAnimationFrame(resolve));
      }
    });
    await scrub();
    const early = await counters(), frames = await framesOf(page);
    await scrub();
    expect(await counters()).toEqual(early);
    expect(await framesOf(page)).toBeGreaterThan(frames + 20);
    await page.evaluate(() => { window.picture!.view.setGrowth(null); });
    expect((await counters())[0]).toBeLessThan(early[0]);
    expect(errors).toEqual([]);
  });

  it('gives the sock that was there before back, where it was', async () => {
    const { page, errors } = await openGrowth();
    await page.evaluate((file) => {
      const { view, make, companionOf } = window.picture!, { fabric, grid, yarnColours, positions } = companionOf(make(file, 'flat'), '');
      view.setFabric(fabric, grid, yarnColours);
      view.setPositions(positions, true, 'flat');
    }, SOCK);
    await atRest(page);
    const before = await countPixels(page);
    await show(page, 20);
    expect((await countPixels(page)).blue).not.toBe(before.blue);
    await page.evaluate(() => { window.picture!.view.setGrowth(null); });
    await atRest(page);
    expect(await countPixels(page)).toEqual(before);
    expect(errors).toEqual([]);
  });

  it('tells the loop under the pointer, one that exists', async () => {
    const { page } = await openGrowth();
    await show(page, 20);
    const box = (await page.locator('#sock').boundingBox())!, loops: number[] = [];
    for (let k = 1; k < 12; k++) {
      await page.mouse.move(box.x + box.width / 2, box.y + (box.height * k) / 12);
      await page.waitForTimeout(80);
      const loop = await page.evaluate(() => window.picture!.hovered?.loop ?? -1);
      if (loop >= 0) loops.push(loop);
    }
    expect(loops.length).toBeGreaterThan(1);
    const end = await page.evaluate(() => window.growing!.sock.trace.passes[20].endLoop);
    for (const loop of loops) expect(loop).toBeLessThan(end);
    // Down the cloth loops are older.
    expect(loops[0]).toBeGreaterThan(loops.at(-1)!);
  });

  it('leaves a camera that a person has turned where it is', async () => {
    const { page } = await openGrowth();
    await show(page, 20);
    await page.evaluate(() => { window.picture!.view.zoomBy(3); });
    await show(page, 21);
    const near = await countPixels(page);
    await show(page, 30);
    await show(page, 21);
    expect(await countPixels(page)).toEqual(near);
  });
});

describe('lit loops', () => {
  // A dark, a pale, a yellow and a pink yarn, in both themes: what is lit is plainly another colour.
  it.each([['light', '#20242c'], ['light', '#f2efe6'], ['dark', '#ffd400'], ['dark', '#e0338f']] as const)('stand out in %s on %s, growing and laid flat', async (theme, yarn) => {
    const { page, errors } = await openGrowth(theme, yarn);
    const light = (isLit: boolean): Promise<void> => page.evaluate((is) => {
      const { passes } = window.growing!.sock.trace;
      window.picture!.view.setLit(is ? { first: passes[14].firstLoop, end: passes[20].endLoop, loops: [0, 1] } : null);
    }, isLit);
    const changed = async (): Promise<number> => {
      const shots: Buffer[] = [];
      for (const isLit of [false, true]) {
        await light(isLit);
        await atRest(page);
        shots.push(await page.locator('#sock').screenshot());
      }
      return countChanged(page, shots[0], shots[1]);
    };
    await show(page, 22);
    expect(await changed()).toBeGreaterThan(150);
    await page.evaluate(([file, colour]) => {
      const { view, make, companionOf } = window.picture!, { fabric, grid, yarnColours, positions } = companionOf(make({ ...file, yarns: [{ colour }] }, 'flat'), '');
      view.setGrowth(null);
      view.setFabric(fabric, grid, yarnColours);
      view.setPositions(positions, true, 'flat');
    }, [SOCK, yarn] as const);
    expect(await changed()).toBeGreaterThan(150);
    expect(errors).toEqual([]);
  });
});

it('in the page the pose on the beds is scrubbed through the growing sock, and ends at rest', async () => {
  const { page, errors } = await openSmallSock();
  await page.getByRole('radio', { name: 'On the beds', exact: true }).check();
  await settled(page);
  await countersAtRest(page);
  const slider = page.getByRole('slider', { name: 'Pass', exact: true });
  await slider.focus();
  await page.keyboard.press('Home');
  await settled(page);
  for (let k = 0; k < 30; k++) await page.keyboard.press('ArrowRight');
  await settled(page);
  expect(await page.evaluate(() => [window.heelwright!.pass, window.heelwright!.poseStatus])).toEqual([30, 'converged']);
  const once = await countersAtRest(page);
  await page.keyboard.press('End');
  await settled(page);
  for (let k = 0; k < 30; k++) await page.keyboard.press('ArrowLeft');
  await settled(page);
  await slider.focus();
  const late = await countersAtRest(page);
  expect([late!.geometries, late!.textures, late!.programs]).toEqual([once!.geometries, once!.textures, once!.programs]);
  expect(errors).toEqual([]);
});
