import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import type { OpenedPage, OpenOptions } from './browser.ts';
import { namelessControls } from './name-controls.ts';
import { chooseUnit, openSmallSock, see } from './sock-page.ts';

async function openSwatches(options: OpenOptions = {}): Promise<OpenedPage> {
  const opened = await openSmallSock(options);
  await opened.page.getByRole('button', { name: 'Swatches…' }).click();
  return opened;
}

async function putIn(page: Page, number: number, stitches: string, rows: string): Promise<void> {
  await page.getByRole('spinbutton', { name: `Stitches of swatch ${number}` }).fill(stitches);
  await page.getByRole('spinbutton', { name: `Rows of swatch ${number}` }).fill(rows);
  await page.keyboard.press('Enter');
}

const words = (page: Page): Promise<string | null> => page.locator('.swatch-reading').textContent();

describe('swatches', () => {
  it('are averaged with their spread, and their gauge is used in one step', async () => {
    const { page, errors } = await openSwatches();
    const use = page.getByRole('button', { name: 'Use this gauge' });
    expect(await use.isDisabled()).toBe(true);
    await putIn(page, 1, '13', '18');
    await expect.poll(() => words(page)).toMatch(/^13\.0 stitches and 18\.0 rows in 10 cm.*second one/);
    await page.getByRole('button', { name: 'Add a swatch' }).click();
    await putIn(page, 2, '12,5', '19');
    // Of 13 and 12.5: mean 12.75, deviation 0.354, of the mean 0.25. Of 18 and 19: 18.5, 0.707, 0.5.
    await expect.poll(() => words(page)).toMatch(/^12\.8 stitches and 18\.5 rows.*±0\.4 stitches and ±0\.7 rows.*±0\.[23] and ±0\.5.*For this sock/);
    await use.click();
    await expect.poll(async () => (await see(page)).file.gauge).toEqual({
      stitchesPer10cm: 12.75, rowsPer10cm: 18.5,
      swatches: [{ stitches: 13, widthMm: 100, rows: 18, heightMm: 100, washed: true }, { stitches: 12.5, widthMm: 100, rows: 19, heightMm: 100, washed: true }],
    });
    await page.keyboard.press('Control+z');
    await expect.poll(async () => (await see(page)).file.gauge).toEqual({ stitchesPer10cm: 12, rowsPer10cm: 17 });
    expect(errors).toEqual([]);
  });

  it('before and after washing tell how the cloth shrinks; the gauge is that of the washed ones', async () => {
    const { page } = await openSwatches();
    await putIn(page, 1, '12', '17');
    await page.getByRole('button', { name: 'Add a swatch' }).click();
    await putIn(page, 2, '11,4', '17,85');
    await page.getByRole('combobox', { name: 'Swatch 2 was counted' }).selectOption('before washing');
    // 11.4 stitches before, 12 after: 0.95 of the width. 17.85 rows before, 17 after: 1.05 of the length.
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Swatches…' }).click();
    // Closed without keeping them, the counts are still there.
    await expect.poll(() => words(page)).toMatch(/^12\.0 stitches and 17\.0 rows.*loses 5\.0 % of its width and gains 5\.0 % of its length/);
  });

  it('over any patch, in inches too; what is impossible is said and does not count', async () => {
    const { page } = await openSwatches();
    await page.keyboard.press('Escape');
    await chooseUnit(page, 'Inches');
    await page.getByRole('button', { name: 'Swatches…' }).click();
    await page.getByRole('spinbutton', { name: 'Width of swatch 1, in' }).fill('2');
    await putIn(page, 1, '6', '17');
    // 6 over 2 inches; 17 over the usual 4 inches.
    await expect.poll(() => words(page)).toMatch(/^3\.00 stitches and 4\.25 rows to the inch/);
    await putIn(page, 1, '1500', '17');
    const box = page.getByRole('spinbutton', { name: 'Stitches of swatch 1' });
    await expect.poll(() => box.getAttribute('aria-invalid')).toBe('true');
    expect(await page.locator(`#${await box.getAttribute('aria-describedby') ?? ''}`).textContent()).toContain('from 1 to 1000');
    await expect.poll(() => words(page)).toMatch(/one swatch at least/);
  });

  it('are kept without their gauge, come back with the sock, and are taken out one by one', async () => {
    const { page } = await openSwatches();
    await putIn(page, 1, '14', '20');
    await page.getByRole('button', { name: 'Keep the counts only' }).click();
    await expect.poll(async () => (await see(page)).file.gauge).toEqual({
      stitchesPer10cm: 12, rowsPer10cm: 17, swatches: [{ stitches: 14, widthMm: 100, rows: 20, heightMm: 100, washed: true }],
    });
    await page.reload();
    await page.getByRole('button', { name: 'Swatches…' }).click();
    expect(await page.getByRole('spinbutton', { name: 'Stitches of swatch 1' }).inputValue()).toBe('14');
    await page.getByRole('button', { name: 'Take out swatch 1' }).click();
    await page.getByRole('button', { name: 'Keep the counts only' }).click();
    await expect.poll(async () => (await see(page)).file.gauge).toEqual({ stitchesPer10cm: 12, rowsPer10cm: 17 });
  });

  it('have a name on every control, and fit small windows', async () => {
    const { page } = await openSwatches();
    expect(await namelessControls(page, '.swatch-dialog')).toEqual([]);
    for (const [width, height] of [[1440, 900], [1024, 768], [768, 1024]] as const) {
      await page.setViewportSize({ width, height });
      const box = (await page.getByRole('dialog').boundingBox())!;
      expect(box.x >= 0 && box.y >= 0 && box.x + box.width <= width && box.y + box.height <= height, `at ${width} x ${height}`).toBe(true);
    }
  });
});
