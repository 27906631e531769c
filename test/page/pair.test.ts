import type { Page } from 'playwright-core';
import { describe, expect, it, onTestFinished } from 'vitest';
import type { ViewPreset } from '../../src/view/sock-view-types.ts';
import { usePictureBrowser } from './picture-browser.ts';

/** Small, so that they relax fast: a red one, and a blue one that is longer, wider and has another toe. */
const RED = { gauge: { stitchesPer10cm: 12, rowsPer10cm: 17 }, leg: { lengthMm: 90 }, counts: { stitches: 32, footPasses: 36 }, yarns: [{ colour: '#e01818' }] };
const BLUE = { ...RED, counts: { stitches: 40, footPasses: 44 }, toe: { kind: 'short-row' }, yarns: [{ colour: '#1848e0' }] };

const picture = usePictureBrowser();

type Shown = readonly [pose: 'flat' | 'tube' | 'worn' | 'beds', arrangement: 'beside' | 'over' | 'alone'];

async function openPicture(): Promise<{ readonly page: Page; readonly errors: string[] }> {
  const page = await picture.browser.newPage({ viewport: { width: 800, height: 560 }, reducedMotion: 'reduce' });
  onTestFinished(() => page.close());
  const errors: string[] = [];
  page.on('console', (message) => { if (message.type() === 'error') errors.push(message.text()); });
  page.on('pageerror', (error) => errors.push(String(error)));
  await page.goto(picture.url, { waitUntil: 'load' });
  await page.waitForFunction(() => window.picture !== undefined);
  return { page, errors };
}

/** The red sock first, the blue one second, or alone. */
async function show(page: Page, [pose, arrangement]: Shown): Promise<void> {
  await page.evaluate(([red, blue, pose, arrangement]) => {
    const { view, make, companionOf } = window.picture!;
    const first = companionOf(make(red, pose), ''), second = companionOf(make(blue as typeof red, pose), 'The blue one');
    view.keepFree(10, 10);
    view.setFabric(first.fabric, first.grid, first.yarnColours);
    view.setPositions(first.positions, true, pose, first.around);
    view.setCompanion(arrangement === 'alone' ? null : { ...second, firstLabel: 'The red one' }, arrangement === 'over' ? 'over' : 'beside');
  }, [RED, BLUE, pose, arrangement] as const);
  await atRest(page);
}

const framesOf = (page: Page): Promise<number> => page.evaluate(() => window.picture!.view.counters().frames);

async function atRest(page: Page): Promise<void> {
  for (let before = -1, now = await framesOf(page); before !== now; now = await framesOf(page)) {
    before = now;
    await page.waitForTimeout(400);
  }
}

interface Patch { readonly count: number; readonly left: number; readonly right: number; readonly top: number; readonly bottom: number }

/** Where pixels of the red and the blue yarn lie, and violet ones of a veil; a held needle's red is duller, an outline's blue redder than the yarn's. */
async function patches(page: Page): Promise<Readonly<Record<'red' | 'blue' | 'violet', Patch>>> {
  const shot = (await page.locator('#sock').screenshot({ style: '.sock-caption { opacity: 0; }' })).toString('base64');
  return page.evaluate(async (base64) => {
    const image = new Image();
    image.src = `data:image/png;base64,${base64}`;
    await image.decode();
    const canvas = new OffscreenCanvas(image.width, image.height), context = canvas.getContext('2d')!;
    context.drawImage(image, 0, 0);
    const { data } = context.getImageData(0, 0, image.width, image.height);
    const patch = (is: (r: number, g: number, b: number) => boolean): { count: number; left: number; right: number; top: number; bottom: number } => {
      const found = { count: 0, left: Infinity, right: -Infinity, top: Infinity, bottom: -Infinity };
      for (let i = 0; i < data.length; i += 4) {
        if (!is(data[i], data[i + 1], data[i + 2])) continue;
        const x = (i / 4) % image.width, y = Math.floor(i / 4 / image.width);
        found.count++;
        found.left = Math.min(found.left, x); found.right = Math.max(found.right, x);
        found.top = Math.min(found.top, y); found.bottom = Math.max(found.bottom, y);
      }
      return found;
    };
    return {
      red: patch((r, g, b) => r > 90 && r > 3.2 * g && r > 3 * b),
      blue: patch((r, g, b) => b > 90 && b > 2.8 * r && b > 1.4 * g),
      violet: patch((r, g, b) => b > 1.15 * g && r > 1.05 * g && b > r),
    };
  }, shot);
}

const captionOf = async (page: Page, words: string): Promise<{ x: number; y: number; width: number; height: number }> =>
  (await page.locator('.sock-caption', { hasText: words }).boundingBox())!;

describe('two socks side by side', () => {
  it.each(['flat', 'worn', 'beds'] as const)('%s: are both whole in the picture from every side, neither before the other, each over its name', async (pose) => {
    const { page, errors } = await openPicture();
    await show(page, [pose, 'beside']);
    // Edge on a sock that lies flat is a line.
    const presets: readonly ViewPreset[] = pose === 'flat' ? ['side', 'three-quarter'] : ['side', 'three-quarter', 'front', 'back', 'sole'];
    for (const preset of presets) {
      await page.evaluate((to) => { window.picture!.view.showPreset(to); }, preset);
      await atRest(page);
      const { red, blue } = await patches(page);
      expect(Math.min(red.count, blue.count), preset).toBeGreaterThan(1500);
      expect(red.right, preset).toBeLessThan(blue.left);
      for (const { left, right, top, bottom } of [red, blue]) {
        expect(Math.min(left, top), preset).toBeGreaterThan(0);
        expect(right, preset).toBeLessThan(799);
        expect(bottom, preset).toBeLessThan(559);
      }
      for (const [words, { left, right, bottom }] of [['The red one', red], ['The blue one', blue]] as const) {
        const caption = await captionOf(page, words);
        expect(caption.y, `${words}, ${preset}`).toBeGreaterThan(bottom);
        expect(caption.y + caption.height, `${words}, ${preset}`).toBeLessThan(560);
        expect(Math.abs(caption.x + caption.width / 2 - (left + right) / 2), `${words}, ${preset}`).toBeLessThan(60);
      }
    }
    expect(errors).toEqual([]);
  });

  it('are both pointed at, by mouse and by tap', async () => {
    const { page } = await openPicture();
    await show(page, ['tube', 'beside']);
    const { red, blue } = await patches(page);
    for (const [sock, { left, right, top, bottom }] of [['first', red], ['second', blue]] as const) {
      const x = left + 0.6 * (right - left), y = top + 0.7 * (bottom - top);
      await page.mouse.move(x, y);
      await page.mouse.move(x + 2, y);
      await expect.poll(() => page.evaluate(() => window.picture!.hovered?.sock)).toBe(sock);
      await page.mouse.move(2, 2);
      await expect.poll(() => page.evaluate(() => window.picture!.hovered)).toBeNull();
      const touch = { pointerType: 'touch', clientX: x, clientY: y, pointerId: 7, isPrimary: true, bubbles: true };
      await page.locator('#sock').dispatchEvent('pointerdown', touch);
      await page.locator('#sock').dispatchEvent('pointerup', touch);
      await expect.poll(() => page.evaluate(() => window.picture!.hovered?.sock)).toBe(sock);
    }
  });
});

describe('two socks over each other', () => {
  it('the larger is a veil where it stands out, and its outline shows on the smaller\'s edge; the cloth keeps its colour', async () => {
    const { page, errors } = await openPicture();
    await show(page, ['flat', 'over']);
    const { red, blue, violet } = await patches(page);
    expect(blue.count).toBeLessThan(red.count / 50 + violet.count);
    expect(violet.count).toBeGreaterThan(1000);
    expect(violet.right).toBeGreaterThan(red.right + 10);
    expect(red.count).toBeGreaterThan(20_000);
    const captions = await Promise.all(['The red one', 'The blue one'].map((words) => captionOf(page, words)));
    for (const caption of captions) expect(caption.y).toBeGreaterThan(Math.max(red.bottom, violet.bottom));
    expect(captions[0].x + captions[0].width).toBeLessThan(captions[1].x);
    expect(await page.locator('.sock-caption[data-look=veil]').innerText()).toBe('The blue one');
    expect(errors).toEqual([]);
  });

  it('the one that alone has numbers is the cloth, and the other its outline', async () => {
    const { page } = await openPicture();
    await show(page, ['tube', 'over']);
    await page.evaluate(([blue]) => {
      const { view, make, companionOf, scales } = window.picture!, second = companionOf(make(blue as Parameters<typeof make>[0], 'tube'), 'The blue one');
      const values = new Float64Array(second.fabric.vertexCount).fill(10);
      view.setCompanion({ ...second, firstLabel: 'The red one', map: { values, scale: scales.DIFFERENCE_SCALE } }, 'over');
    }, [BLUE]);
    await atRest(page);
    expect(await page.locator('.sock-caption[data-look=veil]').innerText()).toBe('The red one');
    const { red, blue } = await patches(page);
    expect([red.count, blue.count].map((count) => count < 400)).toEqual([true, true]);
  });
});

describe('the GPU', () => {
  it('holds no more after twenty changes of the second sock than after the first ones, and draws on demand', async () => {
    const { page, errors } = await openPicture();
    const round = async (): Promise<void> => {
      for (const arrangement of ['beside', 'over', 'alone'] as const) await show(page, ['flat', arrangement]);
      await show(page, ['flat', 'beside']);
    };
    const counters = () => page.evaluate(() => { const { geometries, textures, programs } = window.picture!.view.counters(); return [geometries, textures, programs]; });
    await round();
    const early = await counters();
    for (let i = 0; i < 5; i += 1) await round();
    expect(await counters()).toEqual(early);
    const before = await framesOf(page);
    await page.waitForTimeout(1200);
    expect(await framesOf(page)).toBe(before);
    expect(errors).toEqual([]);
  });

  it('taken away and given back, shows both socks as before', async () => {
    const { page } = await openPicture();
    await show(page, ['flat', 'over']);
    const before = await patches(page);
    await page.evaluate(async () => {
      const lose = (document.getElementById('sock') as HTMLCanvasElement).getContext('webgl2')!.getExtension('WEBGL_lose_context')!;
      lose.loseContext();
      await new Promise((done) => setTimeout(done, 300));
      lose.restoreContext();
      await new Promise((done) => setTimeout(done, 300));
    });
    await atRest(page);
    expect(await page.evaluate(() => window.picture!.contexts)).toEqual(['lost', 'restored']);
    expect(await patches(page)).toEqual(before);
  });
});

describe('a worn sock\'s foot', () => {
  it('shows through cloth like glass, and can be left out', async () => {
    const { page } = await openPicture();
    await show(page, ['worn', 'alone']);
    const inside = await patches(page);
    await page.evaluate(() => { window.picture!.view.setFootLook('glass'); });
    await atRest(page);
    expect((await patches(page)).red.count).toBeLessThan(inside.red.count / 2);
    await page.evaluate(() => { const { view } = window.picture!; view.setFootLook('hidden'); view.reset(); });
    await atRest(page);
    // Without a leg over it the sock has more of the picture.
    expect((await patches(page)).red.count).toBeGreaterThan(inside.red.count);
  });
});
