import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { chooseColours, countersAtRest, countPixels, openSmallSock, settled } from './sock-page.ts';

const optionsOf = (page: Page): Promise<readonly (readonly [string, boolean])[]> =>
  page.getByRole('combobox', { name: 'Colours' }).locator('option').evaluateAll((options) => options.map((option) => [option.textContent, (option as HTMLOptionElement).disabled] as const));

const layerOf = (page: Page): Promise<string | undefined> => page.evaluate(() => window.heelwright?.layer);

describe('the colours of stretch', () => {
  it('take the yarn\'s place on the sock and give it back, with a legend that has numbers', async () => {
    const { page, errors } = await openSmallSock();
    await countersAtRest(page);
    const yarn = await countPixels(page);
    const legend = page.getByRole('group', { name: 'Legend' });
    expect(await legend.isVisible()).toBe(false);
    await chooseColours(page, 'Width stretch');
    await countersAtRest(page);
    const width = await countPixels(page);
    // The buttons over the picture have their own red.
    expect(width.red).toBeLessThan(yarn.red / 5);
    expect(width.blue).toBeLessThan(yarn.blue / 2);
    expect(await legend.getByRole('img', { name: /narrower, darkest at −40 %.*wider, darkest at \+40 %/ }).isVisible()).toBe(true);
    const { low, high, median } = await page.evaluate(() => {
      const summary = window.heelwright!.stretch!;
      return { low: summary.width5Percent, high: summary.width95Percent, median: summary.widthMedianPercent };
    });
    expect(low).toBeLessThanOrEqual(median);
    expect(median).toBeLessThanOrEqual(high);
    const words = (percent: number): string => String(Math.abs(Math.round(percent)));
    expect(await legend.locator('.map-spread').textContent()).toMatch(new RegExp(`${words(low)} to .?${words(high)} %; median .?${words(median)} %`));
    await chooseColours(page, 'Length stretch');
    await expect.poll(() => legend.textContent()).toContain('longer');
    await chooseColours(page, 'Yarn');
    expect(await legend.isVisible()).toBe(false);
    await expect.poll(async () => (await countPixels(page)).red).toBe(yarn.red);
    expect(errors).toEqual([]);
  });

  it('are at hand by keyboard, on the switch and on the picture, and kept for the next visit', async () => {
    const { page } = await openSmallSock();
    await page.getByRole('combobox', { name: 'Colours' }).focus();
    await page.keyboard.press('ArrowDown');
    expect(await layerOf(page)).toBe('stretch-width');
    await page.locator('#sock').focus();
    await page.keyboard.press('c');
    expect(await layerOf(page)).toBe('stretch-length');
    await page.reload();
    await settled(page);
    expect(await layerOf(page)).toBe('stretch-length');
    expect(await page.getByRole('combobox', { name: 'Colours' }).inputValue()).toBe('stretch-length');
    await page.locator('#sock').focus();
    for (const next of ['pass', 'bed', 'yarn']) {
      await page.keyboard.press('c');
      expect(await layerOf(page)).toBe(next);
    }
  });

  it('stand in numbers beside the loop that is pointed at, in any layer', async () => {
    const { page } = await openSmallSock();
    await countersAtRest(page);
    const box = (await page.locator('#sock').boundingBox())!;
    const readout = page.locator('.loop-readout');
    for (const layer of ['Yarn', 'Length stretch']) {
      await chooseColours(page, layer);
      await countersAtRest(page);
      await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
      await page.mouse.move(box.x + box.width / 2 + 4, box.y + box.height / 2);
      await expect.poll(() => readout.textContent()).toMatch(/needle \d+.*Stretch: width \S+ %, length \S+ %$/);
    }
  });

  it('twenty changes of layer hold no more of the GPU than the first ones', async () => {
    const { page } = await openSmallSock();
    const round = async (): Promise<void> => {
      for (const name of ['Width stretch', 'Length stretch', 'Yarn'] as const) await chooseColours(page, name);
    };
    await round();
    const early = (await countersAtRest(page))!;
    for (let i = 0; i < 7; i += 1) await round();
    const late = (await countersAtRest(page))!;
    expect([late.geometries, late.textures, late.programs]).toEqual([early.geometries, early.textures, early.programs]);
    expect(late.frames).toBeGreaterThan(early.frames);
  });

  it('those that ask for a foot or a second sock are named with what they ask for, and cannot be chosen before', async () => {
    const { page } = await openSmallSock();
    const off = (await optionsOf(page)).filter(([, isOff]) => isOff).map(([words]) => words);
    expect(off).toEqual(['Pressure (when worn)', 'Gaps (when worn)', 'Longer or shorter (with a second sock)', 'Wider or narrower (with a second sock)']);
    await page.locator('#sock').focus();
    for (const layer of ['stretch-width', 'stretch-length', 'pass', 'bed', 'yarn']) {
      await page.keyboard.press('c');
      await expect.poll(() => layerOf(page)).toBe(layer);
    }
  });

  it('a worn sock\'s foot is seen through the cloth when asked for, and the choice is kept', async () => {
    const { page } = await openSmallSock();
    const foot = page.getByRole('combobox', { name: 'Foot', exact: true });
    expect(await foot.isVisible()).toBe(false);
    await page.getByRole('radio', { name: 'Worn', exact: true }).check();
    await settled(page);
    await countersAtRest(page);
    const inside = await countPixels(page);
    await foot.selectOption({ label: 'seen through' });
    await countersAtRest(page);
    expect((await countPixels(page)).blue).toBeLessThan(inside.blue / 2);
    await page.reload();
    await settled(page);
    expect(await foot.inputValue()).toBe('glass');
  });

  it('leave room: switch and legend lie within the picture and on no other words', async () => {
    const { page } = await openSmallSock();
    await chooseColours(page, 'Width stretch');
    for (const [width, height] of [[1440, 900], [1024, 768], [768, 1024], [390, 844]] as const) {
      await page.setViewportSize({ width, height });
      const at = `at ${width} x ${height}`;
      const [stage, card, words] = await Promise.all(['#stage', '.map-card', '.stage-words'].map((selector) => page.locator(selector).boundingBox()));
      expect(card!.x, at).toBeGreaterThanOrEqual(stage!.x);
      expect(card!.x + card!.width, at).toBeLessThanOrEqual(stage!.x + stage!.width);
      expect(card!.y + card!.height, at).toBeLessThanOrEqual(stage!.y + stage!.height);
      const isApart = words!.x + words!.width <= card!.x || words!.y >= card!.y + card!.height;
      const switchBox = (await page.locator('.map-switch').boundingBox())!;
      expect(isApart || words!.x + words!.width <= switchBox.x, at).toBe(true);
    }
  });
});
