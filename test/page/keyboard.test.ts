import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { openSmallSock, see, settled } from './sock-page.ts';

/** Presses Tab until the focus is where it is wanted. */
async function tabTo(page: Page, selector: string): Promise<void> {
  for (let i = 0; i < 200; i += 1) {
    await page.keyboard.press('Tab');
    if (await page.evaluate((wanted) => document.activeElement?.matches(wanted) ?? false, selector)) return;
  }
  throw new Error(`Tab never came to ${selector}`);
}

describe('by keyboard alone', () => {
  it('the turn-down width is reached, moved by twos, typed, and given back to the plan', async () => {
    const { page } = await openSmallSock();
    const slider = page.getByRole('slider', { name: /turn-down/i });
    await slider.evaluate((element) => { element.id = 'wanted'; });
    await tabTo(page, '#wanted');
    await page.keyboard.press('ArrowLeft');
    expect((await see(page)).plan?.turnDownWidth).toBe(6);
    expect(await slider.getAttribute('aria-valuenow')).toBe('6');
    expect(await slider.getAttribute('aria-valuetext')).toBe('6 stitches');
    await page.keyboard.press('Home');
    expect((await see(page)).plan?.turnDownWidth).toBe(2);
    await page.keyboard.press('Tab');
    await page.keyboard.type('10');
    await page.keyboard.press('Enter');
    await expect.poll(async () => (await see(page)).plan?.turnDownWidth).toBe(10);
    await slider.focus();
    await page.keyboard.press('Tab');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    const { file, plan } = await see(page);
    expect(file.heel?.turnDownWidth).toBeUndefined();
    // A third of 16 is 5.33: the nearest even number is 6.
    expect(plan?.turnDownWidth).toBe(6);
  });

  it('undo and redo go by control; the buttons say when there is nothing left', async () => {
    const { page } = await openSmallSock();
    const [undo, redo] = [page.getByRole('button', { name: 'Undo' }), page.getByRole('button', { name: 'Redo' })];
    expect(await undo.isDisabled()).toBe(true);
    await page.getByRole('slider', { name: /turn-down/i }).focus();
    await page.keyboard.press('ArrowLeft');
    await page.getByRole('slider', { name: /plateau/i }).focus();
    await page.keyboard.press('ArrowRight');
    expect((await see(page)).plan).toMatchObject({ turnDownWidth: 6, plateauPasses: 2 });
    await page.keyboard.press('Control+z');
    expect((await see(page)).plan).toMatchObject({ turnDownWidth: 6, plateauPasses: 0 });
    await page.keyboard.press('Control+z');
    expect((await see(page)).plan).toMatchObject({ turnDownWidth: 8, plateauPasses: 0 });
    expect(await undo.isDisabled()).toBe(true);
    await page.keyboard.press('Control+Shift+z');
    await page.keyboard.press('Control+y');
    expect((await see(page)).plan).toMatchObject({ turnDownWidth: 6, plateauPasses: 2 });
    expect(await redo.isDisabled()).toBe(true);
    // By its button too, which keeps the focus when there is nothing left to do.
    await undo.focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Enter');
    expect((await see(page)).plan).toMatchObject({ turnDownWidth: 8, plateauPasses: 0 });
    expect(await undo.isDisabled()).toBe(true);
    expect(await undo.evaluate((element) => element === document.activeElement)).toBe(true);
  });

  it('the fabric firmness is chosen, moves no count but the shape, and is undone', async () => {
    const { page, errors } = await openSmallSock();
    await page.getByLabel('Tube').check();
    await settled(page);
    const soft = await see(page), choice = page.getByRole('combobox', { name: 'Fabric firmness' });
    expect(await choice.inputValue()).toBe('soft');
    await choice.focus();
    await page.keyboard.press('End');
    await expect.poll(async () => (await see(page)).file.cloth?.firmness).toBe('firm');
    await settled(page);
    const firm = await see(page);
    expect({ ...firm.plan, firmness: 'soft' }).toEqual(soft.plan);
    expect(firm.measures.rest).toEqual(soft.measures.rest);
    // The same pressure rounds firm cloth less.
    expect(firm.measures.posed!.footGirthMm!).toBeLessThan(soft.measures.posed!.footGirthMm!);
    await page.keyboard.press('Control+z');
    await expect.poll(async () => choice.inputValue()).toBe('soft');
    expect((await see(page)).file.cloth).toBeUndefined();
    expect(errors).toEqual([]);
  });

  it('every control of the panel has a role, a name and, if it is a number, its range', async () => {
    const { page } = await openSmallSock();
    const nameless = await page.evaluate(() => [...document.querySelectorAll('#panel input, #panel select, #panel button, #panel [role=slider]')]
      .filter((control) => {
        const labelled = control.getAttribute('aria-labelledby')?.split(' ').map((id) => document.getElementById(id)?.textContent ?? '').join('') ?? '';
        return (control.getAttribute('aria-label') ?? labelled + (control.textContent ?? '')).trim() === '';
      }).map((control) => control.outerHTML));
    expect(nameless).toEqual([]);
    const sliders = await page.evaluate(() => [...document.querySelectorAll('#panel [role=slider]')].map((slider) => ({
      min: Number(slider.getAttribute('aria-valuemin')), max: Number(slider.getAttribute('aria-valuemax')), words: slider.getAttribute('aria-valuetext'),
    })));
    expect(sliders.length).toBeGreaterThan(15);
    for (const { min, max, words } of sliders) {
      expect(min).toBeLessThanOrEqual(max);
      expect(words).toBeTruthy();
    }
  });

  it('the picture turns by arrow keys', async () => {
    const { page } = await openSmallSock();
    const { frames } = (await see(page)).view!;
    await page.locator('#sock').focus();
    await page.keyboard.press('ArrowLeft');
    await expect.poll(async () => (await see(page)).view!.frames).toBeGreaterThan(frames);
    await settled(page);
  });
});
