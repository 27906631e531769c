import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { chooseUnit, countPixels, openSmallSock, see, settled, SMALL_SOCK } from './sock-page.ts';

async function type(page: Page, name: RegExp, text: string): Promise<void> {
  await page.getByRole('spinbutton', { name }).first().fill(text);
  await page.keyboard.press('Enter');
}

describe('a knitter', () => {
  it('starts from a shoe size, sees how far it can be trusted, then gives the measured foot', async () => {
    const { page } = await openSmallSock();
    const source = page.getByRole('combobox', { name: 'Length from' });
    await source.selectOption('shoe size, continental');
    await type(page, /shoe size/i, '39');
    await expect.poll(async () => (await see(page)).file.foot?.shoeSize).toEqual({ system: 'continental', value: 39 });
    // Common practice, no source: a continental size is 1.5 a centimetre of foot, and 2. (39 - 2) / 1.5 = 24.67 cm.
    expect(await page.getByRole('spinbutton', { name: /shoe size/i }).getAttribute('aria-valuetext')).toMatch(/^39 24\.7 ± \d\.\d cm$/);
    await source.selectOption('the foot, measured');
    await type(page, /foot length/i, '24.9');
    await expect.poll(async () => (await see(page)).file.foot).toEqual({ lengthMm: 249 });
    await expect.poll(() => page.locator('[data-measure=footLengthMm] td').last().textContent()).toBe('24.9');
  });

  it('is told of a leg that is too tight, in her own unit, and can knit it all the same', async () => {
    const { page } = await openSmallSock();
    const cautions = page.getByRole('list', { name: 'Cautions for this sock' });
    expect(await cautions.isVisible()).toBe(false);
    await type(page, /ankle girth/i, '45');
    await expect.poll(() => cautions.textContent()).toMatch(/ankle of 45\.0 cm.*clinician/);
    await chooseUnit(page, 'Inches');
    expect(await cautions.textContent()).toMatch(/ankle of 17\.72 in/);
    await settled(page);
    expect((await see(page)).problems).toEqual([]);
    expect((await see(page)).poseStatus).toBe('converged');
  });

  it('sees that the shape is under way, how far, and that it has come to rest', async () => {
    const { page } = await openSmallSock();
    await page.evaluate(() => {
      const words = document.querySelector('.stage-words')!, bar = document.querySelector<HTMLProgressElement>('.stage-progress')!;
      const seen: string[] = [];
      const note = (): void => { seen.push(`${words.getAttribute('data-shape') ?? ''} ${bar.hidden ? 'without' : 'with'} a bar`); };
      new MutationObserver(note).observe(words, { attributes: true });
      Object.assign(window, { seenShapes: seen });
    });
    await page.getByRole('slider', { name: /turn-down/i }).focus();
    await page.keyboard.press('ArrowLeft');
    // Another sock's shape is no measure of this one.
    expect(await page.locator('#measures').getAttribute('class')).toContain('is-waiting');
    await settled(page);
    const seen = await page.evaluate(() => (window as unknown as { seenShapes: string[] }).seenShapes);
    expect([seen[0], seen.at(-1)]).toEqual(['relaxing with a bar', 'settled without a bar']);
    expect(await page.locator('#measures').getAttribute('class')).not.toContain('is-waiting');
  });
});

describe('a designer', () => {
  it('sets decrease rate, tip, toe, closing and leg, and undoes all of it step by step', async () => {
    const { page, errors } = await openSmallSock();
    const rate = page.getByRole('slider', { name: /decrease rate/i });
    await rate.focus();
    await page.keyboard.press('Home');
    // Geometry: k (D - 1) + 2 passes, with D = (16 - 8) / 2 decreases.
    for (const k of [2, 4, 6, 8]) {
      expect((await see(page)).plan).toMatchObject({ passesPerDecrease: k, toeDecreases: 4, toePasses: 3 * k + 2 });
      await page.keyboard.press('ArrowRight');
    }
    await type(page, /tip width/i, '12');
    await expect.poll(async () => (await see(page)).plan?.toeDecreases).toBe(2);
    await page.getByRole('combobox', { name: 'Shaped by' }).selectOption('short rows');
    expect(await rate.isVisible()).toBe(false);
    // Turned from 16 down to 12 and out again.
    expect((await see(page)).plan).toMatchObject({ toeKind: 'short-row', toePasses: 8, toeDecreases: 0 });
    await page.getByRole('combobox', { name: 'Closed by' }).selectOption('binding off, a small ridge');
    await page.getByRole('combobox', { name: 'Knitted as' }).selectOption('plain tube');
    await settled(page);
    // 90 mm at 17 rows in 10 cm are 15.3 rounds of two passes.
    expect(await see(page)).toMatchObject({ plan: { closing: 'bind-off', legKind: 'tube', legPasses: 30 }, problems: [], poseStatus: 'converged' });
    // Five key presses on the rate, and four choices.
    for (let i = 0; i < 9; i += 1) await page.keyboard.press('Control+z');
    expect((await see(page)).file).toEqual(SMALL_SOCK);
    expect(errors).toEqual([]);
  });

  it('changes a yarn’s colour and sees it on the sock', async () => {
    const { page } = await openSmallSock();
    const before = await countPixels(page);
    await page.getByRole('button', { name: 'Yarns and stripes' }).click();
    const colour = page.getByRole('textbox', { name: 'Yarn 3 colour', exact: true });
    await colour.fill('#e01818');
    await colour.press('Enter');
    await expect.poll(async () => (await see(page)).file.yarns?.[2]?.colour).toBe('#e01818');
    await settled(page);
    const after = await countPixels(page);
    // The foot is the greater part of the sock.
    expect(after.red).toBeGreaterThan(before.red * 2);
    expect(after.blue).toBeLessThan(before.blue / 2);
  });
});

describe('a teacher', () => {
  it('turns the sock: each view shows it, and a flat one seen edge on is explained', async () => {
    const { page } = await openSmallSock();
    const side = await countPixels(page);
    await page.getByRole('button', { name: 'Front', exact: true }).click();
    await expect.poll(() => page.locator('.stage-words').textContent()).toContain('edge on');
    await expect.poll(async () => (await countPixels(page)).red).toBeLessThan(side.red / 2);
    await page.getByLabel('Tube').check();
    await settled(page);
    expect(await page.locator('.stage-words').textContent()).not.toContain('edge on');
    for (const view of ['Back', 'Sole', 'Turned', 'Side']) {
      await page.getByRole('button', { name: view, exact: true }).click();
      await expect.poll(async () => { const { red, all } = await countPixels(page); return red / all; }, { message: view }).toBeGreaterThan(0.01);
    }
  });
});
