import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { chooseColours, countersAtRest, countPixels, openSmallSock, see, settled } from './sock-page.ts';

const choose = async (page: Page, name: string): Promise<void> => {
  await page.getByRole('radio', { name, exact: true }).check();
  await settled(page);
};
const passOf = (page: Page): Promise<number | null | undefined> => page.evaluate(() => window.heelwright?.pass);
const passesOf = (page: Page): Promise<number> => page.evaluate(() => {
  const { legPasses, plainPasses, anklePasses, heelPasses, footPasses, toePasses } = window.heelwright!.plan!;
  return legPasses + plainPasses + anklePasses + heelPasses + footPasses + toePasses;
});

describe('the picture', () => {
  it('fills the page at a press, its shape and its buttons with it, and goes back by Escape', async () => {
    const { page, errors } = await openSmallSock();
    const small = (await page.locator('#sock').boundingBox())!, before = await countPixels(page), large = page.getByRole('button', { name: 'Large picture' });
    await large.click();
    expect(await page.locator('#panel').isVisible()).toBe(false);
    const size = page.viewportSize()!, box = (await page.locator('#sock').boundingBox())!;
    expect(box.width).toBeGreaterThan(size.width * 0.95);
    expect(box.x + box.width).toBeLessThanOrEqual(size.width);
    expect(box.y + box.height).toBeLessThanOrEqual(size.height);
    expect(await page.evaluate(() => document.documentElement.scrollHeight - window.innerHeight)).toBeLessThanOrEqual(0);
    await countersAtRest(page);
    expect((await countPixels(page)).blue).toBeGreaterThan(before.blue * 1.3);
    await choose(page, 'Tube');
    expect(await large.getAttribute('aria-pressed')).toBe('true');
    await page.keyboard.press('Escape');
    expect(await page.locator('#panel').isVisible()).toBe(true);
    expect((await page.locator('#sock').boundingBox())!.width).toBe(small.width);
    expect(errors).toEqual([]);
  });
});

it('a sock seen from the sole or the front is not left edge on when it comes to lie flat', async () => {
  const { page } = await openSmallSock();
  await countersAtRest(page);
  const side = await countPixels(page);
  await choose(page, 'Tube');
  await page.getByRole('button', { name: 'Sole' }).click();
  await choose(page, 'Laid flat');
  expect(await page.locator('.stage-words').innerText()).toBe('At rest, laid flat');
  await countersAtRest(page);
  expect((await countPixels(page)).blue).toBeGreaterThan(side.blue * 0.9);
});

describe('the poses', () => {
  it('each comes to rest, shows its sock, says which it is, and is kept for the next visit', async () => {
    const { page, errors } = await openSmallSock();
    const blues: number[] = [];
    for (const [pose, name, words] of [
      ['tube', 'Tube', 'At rest, as a tube'], ['worn', 'Worn', 'At rest, on an average foot'], ['beds', 'On the beds', 'At rest, on the beds'], ['flat', 'Laid flat', 'At rest, laid flat'],
    ] as const) {
      await choose(page, name);
      const seen = await see(page);
      expect([seen.pose, seen.poseStatus]).toEqual([pose, 'converged']);
      expect(await page.locator('.stage-words').innerText()).toBe(words);
      await countersAtRest(page);
      const picture = await countPixels(page);
      expect(picture.blue / picture.all, pose).toBeGreaterThan(0.02);
      blues.push(picture.blue);
    }
    expect(new Set(blues).size).toBe(4);
    await choose(page, 'Worn');
    // The foot's own length, not the empty sock's: a foot of the sock's size fills it.
    expect((await see(page)).measures.posed?.footLengthMm).toBeGreaterThan(0);
    await page.reload();
    await settled(page);
    expect((await see(page)).pose).toBe('worn');
    expect(await page.getByRole('radio', { name: 'Worn' }).isChecked()).toBe(true);
    expect(errors).toEqual([]);
  });

  it('are chosen by keyboard, one after another', async () => {
    const { page } = await openSmallSock();
    await page.getByRole('radio', { name: 'Laid flat' }).focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    expect((await see(page)).pose).toBe('beds');
    await settled(page);
    expect((await see(page)).poseStatus).toBe('converged');
  });

  it('twenty changes of pose hold no more of the GPU than the first ones', async () => {
    const { page } = await openSmallSock();
    const round = async (): Promise<void> => {
      for (const name of ['On the beds', 'Worn', 'Tube', 'Laid flat']) {
        await choose(page, name);
        await countersAtRest(page);
      }
    };
    await round();
    const early = (await countersAtRest(page))!;
    for (let i = 0; i < 5; i += 1) await round();
    const late = (await countersAtRest(page))!;
    expect([late.geometries, late.textures, late.programs]).toEqual([early.geometries, early.textures, early.programs]);
    expect(late.frames).toBeGreaterThan(early.frames);
  });

  it('measures nothing on the machine; colours of stretch are those of the piece that hangs', async () => {
    const { page } = await openSmallSock();
    const flat = await page.evaluate(() => window.heelwright!.stretch!.widthMedianPercent);
    await choose(page, 'On the beds');
    const { measures } = await see(page);
    expect(Object.values(measures.posed!).every((value) => value === null)).toBe(true);
    await chooseColours(page, 'Width stretch');
    const beds = await page.evaluate(() => window.heelwright!.stretch!.widthMedianPercent);
    expect(Math.abs(beds - flat)).toBeGreaterThan(1);
    await countersAtRest(page);
    expect(await page.locator('.map-spread').textContent()).toContain('median');
  });
});

describe('the pass on the beds', () => {
  it('is asked for there only; the usual one is in the heel, its words say where', async () => {
    const { page } = await openSmallSock();
    const slider = page.getByRole('slider', { name: 'Pass', exact: true });
    expect(await slider.isVisible()).toBe(false);
    await choose(page, 'On the beds');
    const last = await passesOf(page);
    expect(await slider.isVisible()).toBe(true);
    expect([await slider.getAttribute('min'), await slider.getAttribute('max')]).toEqual(['0', String(last)]);
    expect(await slider.inputValue()).toBe(String(await passOf(page)));
    expect(await slider.getAttribute('aria-valuetext')).toBe(`pass ${String(await passOf(page))} of ${String(last)}, heel turning out`);
  });

  it('changes the piece: by keyboard, step by step, and by dragging, where the last place wins', async () => {
    const { page, errors } = await openSmallSock();
    await choose(page, 'On the beds');
    await countersAtRest(page);
    const usual = (await passOf(page))!, heel = await countPixels(page);
    const slider = page.getByRole('slider', { name: 'Pass', exact: true });
    await slider.focus();
    await page.keyboard.press('ArrowLeft');
    await settled(page);
    expect(await passOf(page)).toBe(usual - 1);
    await page.getByRole('button', { name: 'One pass back' }).click();
    await settled(page);
    expect(await passOf(page)).toBe(usual - 2);
    await slider.focus();
    await page.keyboard.press('Home');
    await settled(page);
    expect(await passOf(page)).toBe(0);
    expect(await page.locator('.pass-words').textContent()).toMatch(/^cast-on/);
    expect((await see(page)).poseStatus).toBe('converged');
    await countersAtRest(page);
    const castOn = await countPixels(page);
    expect(castOn.blue).toBeLessThan(heel.blue / 5);
    const box = (await slider.boundingBox())!, y = box.y + box.height / 2;
    await page.mouse.move(box.x + 10, y);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width - 4, y, { steps: 12 });
    await page.mouse.up();
    await settled(page);
    const last = await passesOf(page);
    expect(await passOf(page)).toBe(last);
    await countersAtRest(page);
    const all = await countPixels(page);
    // The whole piece is framed farther off than its cast-on was.
    expect(all.blue).toBeGreaterThan(4 * castOn.blue);
    expect(all.blue / all.red).not.toBeCloseTo(heel.blue / heel.red, 2);
    expect(errors).toEqual([]);
  });

  it('does not go beyond the last pass of a sock that has become shorter', async () => {
    const { page, errors } = await openSmallSock();
    await choose(page, 'On the beds');
    const slider = page.getByRole('slider', { name: 'Pass', exact: true });
    await slider.focus();
    await page.keyboard.press('End');
    await settled(page);
    const before = await passesOf(page);
    // Fewer rows a leg: fewer passes.
    await page.getByRole('slider', { name: /^leg length/i }).focus();
    for (let i = 0; i < 4; i += 1) await page.keyboard.press('PageDown');
    await settled(page);
    const last = await passesOf(page);
    expect(last).toBeLessThan(before);
    expect(await passOf(page)).toBe(last);
    expect(await slider.inputValue()).toBe(String(last));
    expect((await see(page)).poseStatus).toBe('converged');
    expect(errors).toEqual([]);
  });

  it('takes new colours of yarn though the shape is an old one', async () => {
    const { page } = await openSmallSock();
    await choose(page, 'On the beds');
    await countersAtRest(page);
    const before = await countPixels(page);
    expect(before.red).toBeGreaterThan(0);
    await page.locator('#panel input[type=color]').first().evaluate((input: HTMLInputElement) => {
      input.value = '#e01818';
      input.dispatchEvent(new Event('input', { bubbles: true }));
    });
    await settled(page);
    await countersAtRest(page);
    expect((await countPixels(page)).red).toBeGreaterThan(2 * before.red);
  });
});

it('buttons and pass bar lie within the picture at every size, and the beds under them', async () => {
  const { page } = await openSmallSock();
  await choose(page, 'On the beds');
  for (const [width, height] of [[1440, 900], [1024, 768], [768, 1024], [390, 844]] as const) {
    await page.setViewportSize({ width, height });
    const at = `at ${width} x ${height}`, stage = (await page.locator('#stage').boundingBox())!;
    for (const selector of ['#stage-top .segments', '.view-buttons', '.pass-bar', '.pass-words']) {
      const box = (await page.locator(selector).boundingBox())!;
      expect(box.x, `${selector} ${at}`).toBeGreaterThanOrEqual(stage.x);
      expect(box.x + box.width, `${selector} ${at}`).toBeLessThanOrEqual(stage.x + stage.width);
    }
    const [bar, words] = await Promise.all(['.pass-bar', '.stage-words'].map((selector) => page.locator(selector).boundingBox()));
    expect(bar!.y + bar!.height, at).toBeLessThan(words!.y);
  }
});
