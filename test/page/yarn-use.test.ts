import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { fingerprint } from '../../src/base/fingerprint.ts';
import { BED, LOOP } from '../../src/machine/codes.ts';
import type { StitchGrid } from '../../src/machine/grid.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import type { KnittedSock } from '../../src/pipeline/result.ts';
import { labelNeedle } from '../../src/sheet/needle-label.ts';
import { layYarn } from '../../src/yarn/lay-yarn.ts';
import { centreLine } from '../../src/yarn/spline.ts';
import { threadYarn } from '../../src/yarn/thread-yarn.ts';
import { yarnDiameterMm } from '../../src/yarn/yarn-size.ts';
import { chooseColours, countersAtRest, countPixels, openSmallSock, see, settled } from './sock-page.ts';
import { audit, findCovered, findCutOff, withSettings } from './walk-page.ts';

const cardOf = (page: Page) => page.locator('.stitch-card');

/** Presses on the middle of the picture, where a flat sock always has cloth. */
async function pickInPicture(page: Page): Promise<void> {
  await countersAtRest(page);
  const box = (await page.locator('#sock').boundingBox())!, [x, y] = [box.x + 0.5 * box.width, box.y + 0.5 * box.height];
  await page.mouse.move(x - 3, y);
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.up();
  await cardOf(page).waitFor();
}

/** The page's own sock, knitted anew. */
async function sockOf(page: Page): Promise<KnittedSock> {
  const { sock } = knitSock((await see(page)).file);
  if (sock === null) throw new Error('the page shows a sock that cannot be knitted');
  return sock;
}

interface Told { readonly title: string; readonly place: string; readonly rows: Readonly<Record<string, string>> }

/** As it stands once the yarn is measured. */
async function readCard(page: Page): Promise<Told> {
  await page.waitForFunction(() => document.querySelector('.stitch-facts')?.textContent.match(/measured|gemessen/) === null);
  return cardOf(page).evaluate((card) => ({
    title: card.querySelector('h2')?.textContent ?? '', place: card.querySelector('.stitch-place')?.textContent ?? '',
    rows: Object.fromEntries([...card.querySelectorAll('dt')].map((name) => [name.textContent, name.nextElementSibling?.textContent ?? ''])),
  }));
}

/** The loop whose pass, needle and bed a card names. */
function loopOf({ grid, trace }: KnittedSock, { place }: Told): number {
  const [, pass, label, bed] = /(?:pass (\d+)).*needle ([LR]\d+), (front|back) bed/.exec(place) ?? [];
  const found = [...grid.pass.keys()].filter((loop) => grid.pass[loop] === Number(pass) && labelNeedle(grid.needle[loop], trace.needlesPerBed, 'middle') === label
    && grid.bed[loop] === (bed === 'front' ? BED.front : BED.back) && grid.kind[loop] === LOOP.knit);
  expect(found, place).toHaveLength(1);
  return found[0];
}

const parentsOf = (grid: StitchGrid, loop: number): number[] => [...grid.parents.slice(grid.parentStart[loop], grid.parentStart[loop + 1])];

describe('a stitch that is pressed', () => {
  it('is told as the grid has it: pass, needle and bed, what it hangs in and what hangs in it, and its yarn', async () => {
    const { page, errors } = await openSmallSock();
    await pickInPicture(page);
    const sock = await sockOf(page), { grid, trace, plan } = sock, told = await readCard(page), loop = loopOf(sock, told);
    const ref = (id: number): string => `pass ${grid.pass[id]} at ${labelNeedle(grid.needle[id], trace.needlesPerBed, 'middle')}`;
    expect(told.title).toBe(grid.isPurl[loop] === 1 ? 'Purl stitch' : 'Knit stitch');
    expect(told.rows['Drawn through']).toBe(parentsOf(grid, loop).map(ref).join(', '));
    expect(told.rows['Through it']).toBe(ref(grid.child[loop]));
    expect(told.rows['Yarn']).toContain(plan.yarns[grid.yarn[loop]].name);
    expect(errors).toEqual([]);
  });

  it('lies as far from its yarn\'s cut end as the card says: chords of the drawn line, added up', async () => {
    const { page } = await openSmallSock();
    await pickInPicture(page);
    const sock = await sockOf(page), { grid, fabric, plan } = sock, told = await readCard(page), loop = loopOf(sock, told);
    const { positions } = poseSock(sock, 'flat').pose;
    expect(fingerprint(positions)).toBe(await page.evaluate(() => window.heelwright?.fingerprint));
    const thread = threadYarn(grid), lay = layYarn({ fabric, grid, thread, diameterMm: Float64Array.from(plan.yarns, ({ metresPer100g }) => yarnDiameterMm(metresPer100g)) }, positions, { isFlat: true });
    const piece = thread.loopPiece[loop], length = thread.lengthStart.findIndex((first) => first > piece) - 1;
    const metres = (from: number, to: number): number => chordMm(centreLine(lay, from, to, 12)) / 1000;
    const [, at, whole, number, count] = /^([\d.]+) of ([\d.]+) m, from the cut end(?:; length (\d+) of (\d+))?$/.exec(told.rows['Yarn metre'])!;
    expect([Number(number), Number(count)]).toEqual([length + 1, thread.lengthStart.length - 1]);
    expect(Math.abs(Number(at) - metres(thread.lengthStart[length], piece))).toBeLessThan(0.01 + 0.005 * Number(at));
    expect(Math.abs(Number(whole) - metres(thread.lengthStart[length], thread.lengthStart[length + 1]))).toBeLessThan(0.01 + 0.005 * Number(whole));
    expect(Number(/([\d.]+) mm in this stitch/.exec(told.rows['Yarn'])?.[1]) / (1000 * metres(piece, piece + 1))).toBeCloseTo(1, 1);
  });

  it('is lit, stays picked from room to room, and is let go by a press beside the sock', async () => {
    const { page, errors } = await openSmallSock();
    await countersAtRest(page);
    const yellowBefore = await countYellow(page);
    await pickInPicture(page);
    await countersAtRest(page);
    expect(await countYellow(page)).toBeGreaterThan(yellowBefore + 20);
    const sock = await sockOf(page), told = await readCard(page), loop = loopOf(sock, told), pass = sock.grid.pass[loop];
    await cardOf(page).getByRole('button', { name: 'Its pass' }).click();
    await page.locator('.way-pin.is-picked').waitFor({ state: 'attached' });
    expect(await page.locator('.work-counters .is-pass dd').textContent()).toBe(String(pass));
    expect(await readCard(page)).toEqual(told);
    const pins = await page.locator('.way-pin').evaluateAll((all) => all.map((pin) => parseFloat((pin as HTMLElement).style.left)));
    const passes = [...new Set([loop, ...parentsOf(sock.grid, loop), sock.grid.child[loop]].map((id) => sock.grid.pass[id]))];
    expect(pins.length).toBe(passes.length);
    pins.forEach((left, i) => { expect(left).toBeCloseTo((100 * passes[i]) / sock.trace.passes.length, 3); });
    await cardOf(page).getByRole('button', { name: 'In the chart' }).click();
    await expect.poll(() => page.locator('.chart-stitch').textContent()).toContain(`pass ${pass}, `);
    expect(await readCard(page)).toEqual(told);
    await page.locator('.room-tab[data-room=shape]').click();
    await settled(page);
    expect(await readCard(page)).toEqual(told);
    await countersAtRest(page);
    const box = (await page.locator('#sock').boundingBox())!;
    await page.mouse.click(box.x + 30, box.y + box.height - 90);
    await cardOf(page).waitFor({ state: 'hidden' });
    expect(errors).toEqual([]);
  });

  it('is let go where the sock is changed so that another one has its place', async () => {
    const { page } = await openSmallSock();
    await pickInPicture(page);
    await page.getByRole('slider', { name: /turn-down/i }).focus();
    await page.keyboard.press('ArrowLeft');
    await settled(page);
    const sock = await sockOf(page);
    // Where it is still told of, it is told of this sock.
    if (await cardOf(page).isVisible()) loopOf(sock, await readCard(page));
    await page.keyboard.press('Control+z');
    await settled(page);
    loopOf(await sockOf(page), await readCard(page));
  });
});

describe('by keyboard alone', () => {
  it('a stitch is picked, walked from along its yarn and its wale, shown close, and let go', async () => {
    const { page, errors } = await openSmallSock();
    const sock = await sockOf(page), { grid } = sock;
    await page.locator('#sock').focus();
    await page.keyboard.press('Enter');
    let loop = loopOf(sock, await readCard(page));
    for (let i = 0; i < 6; i++) {
      const next = grid.yarnAfter[loop];
      if (grid.kind[next] !== LOOP.knit) break;
      await page.keyboard.press('ArrowRight');
      expect(loopOf(sock, await readCard(page))).toBe(next);
      loop = next;
    }
    await page.keyboard.press('ArrowLeft');
    expect(loopOf(sock, await readCard(page))).toBe(loop = grid.yarnBefore[loop]);
    const above = grid.child[loop];
    await page.keyboard.press('ArrowUp');
    expect(loopOf(sock, await readCard(page))).toBe(above);
    await page.keyboard.press('ArrowDown');
    expect(loopOf(sock, await readCard(page))).toBe(loop);
    await page.keyboard.press('Enter');
    await countersAtRest(page);
    expect(await page.evaluate(() => document.activeElement?.closest('.stitch-card') !== null)).toBe(true);
    await page.keyboard.press('Escape');
    await cardOf(page).waitFor({ state: 'hidden' });
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('sock');
    expect(errors).toEqual([]);
  });

  it('in the chart and on the beds, Enter picks the stitch that is walked to', async () => {
    const { page } = await openSmallSock();
    const sock = await sockOf(page);
    await page.locator('.room-tab[data-room=chart]').click();
    await page.locator('.chart-board').focus();
    for (const key of ['ArrowUp', 'PageUp', 'ArrowRight']) await page.keyboard.press(key);
    const words = await page.locator('.chart-stitch').textContent();
    await page.keyboard.press('Enter');
    const loop = loopOf(sock, await readCard(page));
    expect(words).toContain(`pass ${sock.grid.pass[loop]}, needle ${labelNeedle(sock.grid.needle[loop], sock.trace.needlesPerBed, 'middle')}`);
    await page.locator('.room-tab[data-room=passes]').click();
    await page.locator('.beds-canvas').focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Enter');
    const needle = /Needle (\w+),/.exec(await page.locator('.beds-readout').textContent() ?? '')?.[1];
    expect((await readCard(page)).place).toContain(`needle ${needle}, `);
  });
});

describe('the close look', () => {
  it('comes as near as it says, and tells what is drawn', async () => {
    const { page } = await openSmallSock();
    await page.getByRole('button', { name: 'Look', exact: true }).click();
    const drawn = page.locator('.look-drawn');
    await expect.poll(() => drawn.textContent()).toMatch(/^Knitted picture, [\d.]+ pixels a stitch$/);
    for (const [step, pixels] of [['A few stitches', 40], ['One stitch', 160]] as const) {
      await page.getByRole('button', { name: step }).click();
      await countersAtRest(page);
      const seen = Number(/([\d.]+) pixels/.exec(await drawn.textContent() ?? '')?.[1]);
      // A stitch that is nearer to the eye than the one looked at is a little wider.
      expect(seen / pixels).toBeGreaterThan(0.9);
      expect(seen / pixels).toBeLessThan(1.6);
    }
    expect(await drawn.textContent()).toMatch(/^Yarn, loop by loop/);
    await page.locator('#sock').focus();
    await page.keyboard.press('1');
    await countersAtRest(page);
    await expect.poll(() => drawn.textContent()).toMatch(/^Knitted picture/);
  });

  it('cuts the sock away and turns it inside out, by hand and by key, gives it back, and keeps the choice', async () => {
    const { page, errors } = await openSmallSock();
    await page.getByRole('radio', { name: 'Tube' }).check();
    await settled(page);
    await page.getByRole('button', { name: 'Look', exact: true }).click();
    const rest = await shotOf(page), slider = page.getByRole('slider', { name: /cut away/i });
    await slider.focus();
    for (let i = 0; i < 10; i++) await page.keyboard.press('ArrowRight');
    expect(await slider.getAttribute('aria-valuetext')).toBe('50 % of its breadth');
    expect(await changedShare(page, rest, await shotOf(page))).toBeGreaterThan(0.05);
    await page.keyboard.press('Home');
    expect(await slider.getAttribute('aria-valuetext')).toBe('nothing');
    expect(await changedShare(page, rest, await shotOf(page))).toBeLessThan(0.002);
    await page.locator('#sock').focus();
    await page.keyboard.press('i');
    expect(await page.getByRole('checkbox', { name: 'Inside out' }).isChecked()).toBe(true);
    expect(await changedShare(page, rest, await shotOf(page))).toBeGreaterThan(0.05);
    await page.keyboard.press('x');
    await page.reload();
    await settled(page);
    expect([await slider.inputValue(), await page.getByRole('checkbox', { name: 'Inside out' }).isChecked()]).toEqual(['25', true]);
    await page.getByRole('checkbox', { name: 'Inside out' }).uncheck();
    await page.getByRole('radio', { name: 'On the beds' }).check();
    expect(await page.getByRole('checkbox', { name: 'Inside out' }).isDisabled()).toBe(true);
    expect(await slider.isDisabled()).toBe(true);
    expect(errors).toEqual([]);
  });
});

describe('the colours of pass and bed', () => {
  it('have legends with the sock\'s own passes and both beds, and the beds\' colours on it', async () => {
    const { page } = await openSmallSock();
    const { trace, grid } = await sockOf(page), legend = page.getByRole('group', { name: 'Legend' });
    await chooseColours(page, 'Pass');
    await expect.poll(() => legend.locator('.map-ticks li').allTextContents()).toHaveLength(9);
    const ticks = await legend.locator('.map-ticks li').allTextContents(), last = trace.passes.length - 1;
    expect([ticks[0], ticks[4], ticks[8]]).toEqual(['0', String(Math.round(last / 2)), String(last)]);
    expect(await legend.getByRole('img', { name: new RegExp(`last pass, ${last}`) }).isVisible()).toBe(true);
    await chooseColours(page, 'Bed');
    const on = (bed: number): string => [...grid.kind.keys()].filter((loop) => grid.kind[loop] === LOOP.knit && grid.bed[loop] === bed).length.toLocaleString('en');
    expect(await legend.locator('.map-spread').textContent()).toBe(`Knitted on the front bed: ${on(BED.front)} stitches; on the back bed: ${on(BED.back)}`);
    await countersAtRest(page);
    // The heel is on the front bed, amber; the instep and the top of the foot on the back bed, blue.
    expect((await countPixels(page)).blue).toBeGreaterThan(5000);
    expect((await countPixels(page)).red).toBeLessThan(2000);
    expect(await countYellow(page)).toBeGreaterThan(5000);
  });
});

describe.each([['en', 'light'], ['de', 'dark']])('the card and the close look in %s, %s', (language, theme) => {
  it('give axe-core nothing serious to say, are not cut off and cover no other control', async () => {
    const { page } = await openSmallSock({ before: withSettings({ language, theme }) });
    const found: Record<string, readonly string[]> = {};
    await page.locator('#sock').focus();
    await page.keyboard.press('Enter');
    await page.locator('.look-toggle').click();
    for (const room of ['shape', 'passes', 'chart']) {
      await page.locator(`.room-tab[data-room=${room}]`).click();
      await cardOf(page).waitFor();
      await settled(page);
      for (const [width, height] of [[1440, 900], [820, 1180]] as const) {
        await page.setViewportSize({ width, height });
        // Drawings take their new width from the frame after.
        await countersAtRest(page);
        const wrong = [...await audit(page), ...await findCutOff(page), ...await findCovered(page, '.stitch-card'), ...await findCovered(page, '.look-bar')];
        if (wrong.length > 0) found[`${room} at ${width}`] = wrong;
      }
      await page.setViewportSize({ width: 1440, height: 900 });
    }
    expect(found).toEqual({});
    if (language === 'de') expect((await readCard(page)).place).toMatch(/Nadel [LR]\d+, (vorderes|hinteres) Bett$/);
  }, 300_000);
});

function chordMm(line: Float64Array): number {
  let sum = 0;
  for (let i = 3; i < line.length; i += 3) sum += Math.hypot(line[i] - line[i - 3], line[i + 1] - line[i - 2], line[i + 2] - line[i - 1]);
  return sum;
}

async function shotOf(page: Page): Promise<string> {
  await countersAtRest(page);
  return (await page.locator('#sock').screenshot({ animations: 'disabled' })).toString('base64');
}

/** Share of the picture's pixels that are plainly others, where nothing lies over it. */
function changedShare(page: Page, before: string, after: string): Promise<number> {
  return page.evaluate(async (shots) => {
    const [a, b] = await Promise.all(shots.map(async (base64) => {
      const image = new Image();
      image.src = `data:image/png;base64,${base64}`;
      await image.decode();
      const context = new OffscreenCanvas(image.width, image.height).getContext('2d')!;
      context.drawImage(image, 0, 0);
      // The upper two thirds: controls stand at the foot.
      return context.getImageData(0, 60, image.width, Math.round(0.6 * image.height)).data;
    }));
    let changed = 0;
    for (let i = 0; i < a.length; i += 4) if (Math.abs(a[i] - b[i]) + Math.abs(a[i + 1] - b[i + 1]) + Math.abs(a[i + 2] - b[i + 2]) > 24) changed += 1;
    return changed / (a.length / 4);
  }, [before, after]);
}

/** Pixels in yellow to amber: what lights stitches, and the front bed. */
function countYellow(page: Page): Promise<number> {
  return page.locator('#sock').screenshot({ animations: 'disabled' }).then((shot) => page.evaluate(async (base64) => {
    const image = new Image();
    image.src = `data:image/png;base64,${base64}`;
    await image.decode();
    const context = new OffscreenCanvas(image.width, image.height).getContext('2d')!;
    context.drawImage(image, 0, 0);
    const { data } = context.getImageData(0, 0, image.width, image.height);
    let count = 0;
    for (let i = 0; i < data.length; i += 4) if (data[i] > 110 && data[i + 1] > 0.6 * data[i] && data[i + 2] < 0.62 * data[i]) count += 1;
    return count;
  }, shot.toString('base64')));
}
