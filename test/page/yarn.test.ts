import type { Page } from 'playwright-core';
import { describe, expect, it, onTestFinished } from 'vitest';
import { LOOP, SECTION } from '../../src/machine/codes.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { threadYarn } from '../../src/yarn/thread-yarn.ts';
import { usePictureBrowser } from './picture-browser.ts';
import { between, lookAt, meanAt, type Picture, screenAxes, showSock, type ShownSock } from './yarn-page.ts';

/** Small, so that it relaxes fast: stripes of red and blue in leg and foot, a short-row heel with wraps. */
const SOCK: SockFile = {
  gauge: { stitchesPer10cm: 12, rowsPer10cm: 17 }, leg: { kind: 'tube', lengthMm: 120 }, counts: { stitches: 32, footPasses: 36 },
  yarns: [
    { colour: '#c43a2a', from: 'leg', stripePasses: 4 }, { colour: '#2a54c4', from: 'leg', stripePasses: 4 },
    { colour: '#2a54c4', from: 'ankle' }, { colour: '#c43a2a', from: 'heel' }, { colour: '#2a54c4', from: 'foot' }, { colour: '#c43a2a', from: 'toe' },
  ],
};
const RIB: SockFile = { ...SOCK, leg: { kind: 'flat-rib', lengthMm: 120 } };
const SIZE = { width: 480, height: 400 };
/** Pixels a stitch at which all is yarn on a screen without a graphics card, and at which nothing is. */
const NEAR = 80, FAR = 19;

const picture = usePictureBrowser();

/** `isLively`: for someone who did not ask for reduced motion; `asCard`: as on a graphics card, by its name alone. */
async function openPicture(viewport = SIZE, theme = 'light', isLively = false, asCard = false): Promise<{ readonly page: Page; readonly errors: string[] }> {
  const page = await picture.browser.newPage({ viewport, reducedMotion: isLively ? 'no-preference' : 'reduce' });
  onTestFinished(() => page.close());
  if (asCard) await page.addInitScript({ content: NAME_A_CARD });
  const errors: string[] = [];
  page.on('console', (message) => { if (message.type() === 'error' || message.type() === 'warning') errors.push(message.text()); });
  page.on('pageerror', (error) => errors.push(String(error)));
  await page.goto(`${picture.url}?theme=${theme}`, { waitUntil: 'load' });
  await page.waitForFunction(() => window.picture !== undefined);
  return { page, errors };
}

/** The drawing is told from its name to be done by a graphics card, which it is not (view/software-renderer.ts). */
const NAME_A_CARD = `const { getParameter } = WebGL2RenderingContext.prototype;
WebGL2RenderingContext.prototype.getParameter = function (name) { const value = getParameter.call(this, name); return typeof value === 'string' && /swiftshader|llvmpipe|software/i.test(value) ? 'a card' : value; };`;

const detailOf = (page: Page) => page.evaluate(() => window.picture!.view.detail());

/** Loops of a section that are knitted through, so many of them, spread over it. */
function loopsOf({ sock: { fabric, grid } }: ShownSock, section: number, count: number): number[] {
  const all = Array.from(fabric.vertexLoop.keys()).filter((v) => fabric.vertexSection[v] === section && grid.child[fabric.vertexLoop[v]] >= 0).map((v) => fabric.vertexLoop[v]);
  return Array.from({ length: count }, (_, i) => all[Math.floor(((i + 0.5) * all.length) / count)]);
}

describe('yarn near the eye', () => {
  it('has each loop of a striped sock in the colour of its pass', async () => {
    const { page, errors } = await openPicture(), shown = await showSock(page, SOCK), { fabric, grid, plan } = { ...shown.sock };
    const seen: string[] = [], told: string[] = [];
    for (const loop of loopsOf(shown, SECTION.leg, 8)) {
      const picture = await lookAt(page, loop, NEAR), vertex = fabric.loopVertex[loop];
      const toScreen = screenAxes(shown, vertex), scale = NEAR / fabric.courseMm, wale = toScreen(between(shown.positions, vertex, fabric.loopVertex[grid.child[loop]]));
      const course = toScreen(between(shown.positions, fabric.loopVertex[grid.leftOf[loop]], fabric.loopVertex[grid.rightOf[loop]]));
      // Half way up to where the next loop is drawn through it both its legs are on the outside, about a quarter of a stitch to either side.
      const legs = [-0.24, 0.24].map((u) => meanAt(picture, ...([0, 1].map((d) => (d === 0 ? SIZE.width : SIZE.height) / 2 + scale * (0.5 * wale[d] + 0.5 * u * course[d])) as [number, number]), 3));
      const red = legs.reduce((sum, [r]) => sum + r, 0), blue = legs.reduce((sum, [, , b]) => sum + b, 0);
      seen.push(red > 1.5 * blue ? 'red' : blue > 1.5 * red ? 'blue' : `${red} ${blue}`);
      told.push(plan.yarns[grid.yarn[loop]].colour.startsWith('#c4') ? 'red' : 'blue');
    }
    expect(seen).toEqual(told);
    expect(new Set(told).size).toBe(2);
    expect((await detailOf(page)).level).toBe('yarn');
    expect(errors).toEqual([]);
  });

  it('shows a wrap where the grid has one', async () => {
    const { page } = await openPicture(), { sock: { grid } } = await showSock(page, SOCK);
    const wraps = Array.from(grid.kind.keys()).filter((loop) => grid.kind[loop] === LOOP.wrap && grid.child[grid.wrapHost[loop]] >= 0);
    for (const wrap of [2, 9].map((i) => wraps[i])) {
      await page.evaluate((loop) => { window.picture!.view.setLit({ first: 0, end: 0, loops: [loop] }); }, wrap);
      const lit = litPixels(await lookAt(page, wrap, NEAR));
      await page.evaluate(() => { window.picture!.view.setLit(null); });
      expect(lit.near, `wrap ${wrap}`).toBeGreaterThan(40);
      expect(lit.far, `wrap ${wrap}`).toBe(0);
      expect(litPixels(await lookAt(page, wrap, NEAR)).near, `wrap ${wrap}`).toBe(0);
    }
  });

  it('runs along the wales on the outside and along the courses on the inside', async () => {
    const { page } = await openPicture(), shown = await showSock(page, SOCK, 'tube'), [loop] = loopsOf(shown, SECTION.foot, 1);
    const outside = slopeRatio(await lookAt(page, loop, NEAR), shown, loop);
    await page.evaluate(() => { window.picture!.view.setInsideOut(true); });
    const inside = slopeRatio(await lookAt(page, loop, NEAR), shown, loop);
    // Legs of a V stand beside each other; heads and feet of the other side lie over each other.
    expect(outside).toBeGreaterThan(1.15 * inside);
  });

  it('is all there, each piece once, when the whole sock is in the picture', async () => {
    const { page } = await openPicture({ width: 2200, height: 1500 }), { sock } = await showSock(page, SOCK);
    await page.evaluate(() => { window.picture!.view.resize(); });
    const detail = await detailOf(page);
    expect([detail.level, detail.pieces]).toEqual(['yarn', threadYarn(sock.grid).pieceCount]);
  });

  it('takes at most 1.5 million triangles and few calls at any zoom, and tells when it comes', async () => {
    const { page } = await openPicture(), shown = await showSock(page, SOCK), [loop] = loopsOf(shown, SECTION.foot, 1);
    await page.evaluate(() => { window.picture!.view.onDetail((level) => { window.picture!.contexts.push(level); }); });
    let most = 0;
    for (let pixels = 8; pixels < 1200; pixels *= 1.8) {
      await lookAt(page, loop, pixels);
      const { triangles, calls, level, pixelsPerStitch } = await detailOf(page);
      most = Math.max(most, triangles);
      expect(pixelsPerStitch).toBeGreaterThan(0.9 * pixels);
      if (level === 'yarn') expect(calls).toBeLessThanOrEqual(3);
    }
    expect(most).toBeLessThanOrEqual(1_500_000);
    expect(await page.evaluate(() => window.picture!.contexts)).toEqual(['yarn']);
  });

  // Without a graphics card all that is fine is drawn from twice as many pixels on.
  it.each([['without', 23], ['with', 11.5]] as const)('rests as mesh or as yarn wherever the zoom stops, %s a graphics card', async (card, from) => {
    const { page } = await openPicture(SIZE, 'light', true, card === 'with'), shown = await showSock(page, SOCK), [loop] = loopsOf(shown, SECTION.foot, 1);
    const seen = await page.evaluate(async ([loop, from]) => {
      const { view } = window.picture!, frame = () => new Promise(requestAnimationFrame);
      // Until nothing has been drawn for a while; what would stay between both is not waited for.
      const rest = async (): Promise<void> => {
        for (let before = -1, rounds = 0; rounds < 20 && (before !== view.counters().frames || view.detail().level === 'blend'); rounds++) {
          before = view.counters().frames;
          await new Promise((done) => setTimeout(done, 700));
          // A picture comes to rest by the page's frames, which may be late.
          for (let k = 0; k < 6; k++) await frame();
        }
      };
      view.approach(loop, from);
      await rest();
      const stays: string[] = [];
      // In to where all is yarn, and out again, with a rest each way where both may be seen: at 14.6 and at 12.7 pixels as a card counts them.
      for (const [step, rests] of [[1.008, [30, 80]], [1 / 1.008, [68, 80]]] as const) {
        for (let i = 1; i <= 80; i++) {
          view.zoomBy(step);
          await frame();
          if (rests.every((at) => at !== i)) continue;
          await rest();
          stays.push(view.detail().level);
        }
      }
      return stays;
    }, [loop, from] as const);
    expect(seen).toEqual(['yarn', 'yarn', 'mesh', 'mesh']);
  });
});

/** Colour that lights a loop on red and blue yarn (view/loop-looks.ts): near the middle, and so far away that it is another's. */
function litPixels({ width, height, bytes }: Picture): { near: number; far: number } {
  let near = 0, far = 0;
  for (let i = 0; i < width * height; i++) {
    const [r, g, b] = bytes.subarray(3 * i, 3 * i + 3);
    if (!(r > 120 && g > 90 && b < 0.45 * g)) continue;
    const away = Math.hypot((i % width) - width / 2, Math.floor(i / width) - height / 2);
    if (away < 1.6 * NEAR) near++;
    else if (away > 3 * NEAR) far++;
  }
  return { near, far };
}

/** Change of brightness along the course over that along the wale, in a square of four stitches about a loop. */
function slopeRatio(picture: Picture, shown: ShownSock, loop: number): number {
  const { fabric, grid } = shown.sock, vertex = fabric.loopVertex[loop], wale = screenAxes(shown, vertex)(between(shown.positions, vertex, fabric.loopVertex[grid.child[loop]]));
  const length = Math.hypot(...wale), up = [wale[0] / length, wale[1] / length], across = [-up[1], up[0]];
  const light = (a: number, b: number): number => meanAt(picture, SIZE.width / 2 + a * across[0] + b * up[0], SIZE.height / 2 + a * across[1] + b * up[1], 1)[2];
  let along = 0, over = 0;
  for (let a = -2 * NEAR; a <= 2 * NEAR; a += 4) {
    for (let b = -2 * NEAR; b <= 2 * NEAR; b += 4) {
      over += Math.abs(light(a + 4, b) - light(a, b));
      along += Math.abs(light(a, b + 4) - light(a, b));
    }
  }
  return over / along;
}

describe('mesh and yarn', () => {
  it.each([
    ['light', SOCK, SECTION.foot], ['light', SOCK, SECTION.leg], ['light', RIB, SECTION.leg], ['dark', SOCK, SECTION.foot], ['dark', RIB, SECTION.leg],
  ] as const)('look alike where one goes over into the other: %s', async (theme, file, section) => {
    const { page } = await openPicture(SIZE, theme), shown = await showSock(page, file), [loop] = loopsOf(shown, section, 1);
    const mesh = blockMeans(await lookAt(page, loop, FAR), 2 * FAR);
    expect((await detailOf(page)).level).toBe('mesh');
    const yarn = blockMeans(await lookAt(page, loop, FAR, true), 2 * FAR);
    const apart = mesh.map((value, i) => Math.abs(value - yarn[i])).sort((a, b) => a - b);
    // Blocks of two by two stitches; steps of 255. The edge of the sock may be a yarn's breadth elsewhere.
    expect(apart[Math.floor(0.5 * apart.length)], 'median').toBeLessThan(10);
    expect(apart[Math.floor(0.9 * apart.length)], 'nine of ten').toBeLessThan(26);
  });
});

/** Mean of each colour in each square block of the picture. */
function blockMeans(picture: Picture, side: number): number[] {
  const means: number[] = [], half = Math.floor(side / 2) - 1;
  for (let y = half; y + half < picture.height; y += side) for (let x = half; x + half < picture.width; x += side) means.push(...meanAt(picture, x, y, half));
  return means;
}

describe('the GPU', () => {
  it('holds no more after twenty other socks in yarn than after the first ones', async () => {
    const { page, errors } = await openPicture();
    const round = (times: number) => page.evaluate(async ([files, times, far]) => {
      const { view, make, companionOf } = window.picture!, cloths = files.map((file) => companionOf(make(file, 'flat'), ''));
      let laid = 0, most = [0, 0, 0];
      for (let i = 0; i < times; i++) {
        const { fabric, grid, yarnColours, positions } = cloths[i % cloths.length];
        view.setFabric(fabric, grid, yarnColours);
        view.setPositions(positions, true, 'flat');
        // Cloth in motion may stay a mesh until it rests.
        view.approach(fabric.vertexLoop[200], 60);
        view.resize();
        for (let wait = 0; wait < 100 && view.detail().level !== 'yarn'; wait++) {
          await new Promise((done) => setTimeout(done, 100));
          view.resize();
        }
        // Both sides of the fade, cut open, and whole again.
        for (const pixels of [far, 28, 64, 300]) {
          view.approach(fabric.vertexLoop[200], pixels);
          for (const cut of [null, 0.5, null]) { view.setCut(cut); view.resize(); }
        }
        if (view.detail().level === 'yarn') laid++;
        const { geometries, textures, programs } = view.counters();
        most = [geometries, textures, programs].map((count, k) => Math.max(count, most[k]));
      }
      return { laid, most };
    }, [[SOCK, RIB], times, FAR] as const);
    // A frame drawn before the cloth rests is coarser and holds less: the most of several is compared.
    const early = await round(6), late = await round(20);
    expect([early.laid, late.laid]).toEqual([6, 20]);
    late.most.forEach((count, k) => { expect(count, ['geometries', 'textures', 'programs'][k]).toBeLessThanOrEqual(early.most[k]); });
    expect(errors).toEqual([]);
  });

  it('taken away and given back, shows the same yarn', async () => {
    const { page } = await openPicture(), shown = await showSock(page, SOCK), [loop] = loopsOf(shown, SECTION.leg, 1);
    const before = await lookAt(page, loop, NEAR);
    await page.evaluate(async () => {
      const lose = (document.getElementById('sock') as HTMLCanvasElement).getContext('webgl2')!.getExtension('WEBGL_lose_context')!;
      lose.loseContext();
      await new Promise((done) => setTimeout(done, 300));
      lose.restoreContext();
      await new Promise((done) => setTimeout(done, 300));
    });
    expect(await page.evaluate(() => window.picture!.contexts)).toEqual(['lost', 'restored']);
    const after = await lookAt(page, loop, NEAR);
    expect(Buffer.compare(before.bytes, after.bytes)).toBe(0);
  });
});
