import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { STANDARD_SIZES } from '../../src/foot/standard-sizes.ts';
import type { OpenedPage, OpenOptions } from './browser.ts';
import { namelessControls } from './name-controls.ts';
import { openSmallSock, see, weighed } from './sock-page.ts';

async function openSizes(options: OpenOptions = {}): Promise<OpenedPage> {
  const opened = await openSmallSock(options);
  await opened.page.getByRole('button', { name: 'Sizes…' }).click();
  await counted(opened.page);
  return opened;
}

/** Until no row waits for its counts. */
async function counted(page: Page): Promise<void> {
  await page.waitForFunction(() => {
    const rows = [...document.querySelectorAll('.size-row')];
    return rows.length > 0 && rows.every((row) => !(row.textContent ?? '').includes('…'));
  });
}

const rowOf = (page: Page, name: string) => page.locator('.size-row', { has: page.getByRole('button', { name: `Open ${name}`, exact: true }) });
const MEDIUM = STANDARD_SIZES.find(({ name }) => name === 'Adult, medium')!;

describe('the table of sizes', () => {
  it('has infant to extra-large adult, each with the counts that its foot and the gauge ask for', async () => {
    const { page, errors } = await openSizes();
    expect(await page.locator('.size-row').count()).toBe(STANDARD_SIZES.length);
    for (const { name, ballGirthMm, isEstimate } of STANDARD_SIZES) {
      // README's formula: girth x (1 - 10 %) x stitches/mm, the nearest multiple of 4.
      const wanted = 4 * Math.round((ballGirthMm * 0.9 * 0.12) / 4), stitches = await rowOf(page, name).locator('td').nth(3).textContent();
      // So thick a yarn makes no sock of 8 stitches.
      if (wanted <= 8) expect(await rowOf(page, name).locator('xpath=following-sibling::tr[1]').isVisible(), name).toBe(true);
      else expect(stitches, name).toBe(String(wanted));
      expect(await rowOf(page, name).locator('.size-estimate').isVisible(), name).toBe(isEstimate);
    }
    await expect.poll(() => page.locator('.size-shape svg').count(), { timeout: 60_000 }).toBeGreaterThan(1);
    expect(errors).toEqual([]);
  });

  it('takes another foot in a row, says of an impossible one why, and goes on with the rest', async () => {
    const { page } = await openSizes();
    const girth = page.getByRole('spinbutton', { name: 'Ball girth of Adult, medium, cm' }), before = await rowOf(page, 'Adult, small').textContent();
    await girth.fill('30');
    // 300 x 0.9 x 0.12 = 32.4: 32 stitches.
    await expect.poll(() => rowOf(page, MEDIUM.name).locator('td').nth(3).textContent()).toBe('32');
    await girth.fill('90');
    await expect.poll(() => girth.getAttribute('aria-invalid')).toBe('true');
    expect(await page.locator(`#${await girth.getAttribute('aria-describedby') ?? ''}`).textContent()).toMatch(/45/);
    expect(await page.getByRole('button', { name: 'Open Adult, medium' }).isDisabled()).toBe(true);
    expect(await rowOf(page, 'Adult, small').textContent()).toBe(before);
    await page.getByRole('button', { name: 'Standard sizes again' }).click();
    await counted(page);
    await expect.poll(() => page.getByRole('button', { name: 'Open Adult, medium' }).isEnabled()).toBe(true);
  });

  it('takes a size of one’s own, whose new name is copied at once, and gives one up', async () => {
    const { page, context } = await openSizes();
    await page.getByRole('button', { name: 'Add a size' }).click();
    expect(await page.locator('.size-row').count()).toBe(STANDARD_SIZES.length + 1);
    await page.keyboard.type('Grandmother');
    await page.keyboard.press('Tab');
    await page.getByRole('spinbutton', { name: 'Foot length of Grandmother, cm' }).fill('23,5');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Take out Adult, medium' }).click();
    await counted(page);
    expect(await page.locator('.size-row').count()).toBe(STANDARD_SIZES.length);
    await context.grantPermissions(['clipboard-read', 'clipboard-write']);
    await page.getByRole('textbox', { name: 'Name of the size' }).last().fill('Aunt');
    await page.getByRole('button', { name: 'Copy as text' }).click();
    await expect.poll(() => page.evaluate(() => navigator.clipboard.readText())).toMatch(/Aunt +23\.5 /);
    await page.getByRole('button', { name: 'Open Aunt' }).click();
    await expect.poll(async () => (await see(page)).file.foot?.lengthMm).toBe(235);
  });

  it('a row is opened as the sock on the panel, in one step, and its worker goes with the table', async () => {
    const { page, errors } = await openSizes();
    await weighed(page);
    const atWork = page.workers().length;
    await page.getByRole('button', { name: 'Open Adult, medium' }).click();
    await expect.poll(async () => (await see(page)).plan?.name).toBe('Small sock, Adult, medium');
    expect(await page.getByRole('dialog').count()).toBe(0);
    await expect.poll(() => page.workers().length).toBe(atWork - 1);
    await page.keyboard.press('Control+z');
    await expect.poll(async () => (await see(page)).plan?.name).toBe('Small sock');
    expect(await page.getByRole('button', { name: 'Undo' }).first().isDisabled()).toBe(true);
    expect(errors).toEqual([]);
  });

  it('goes out as text in the page’s unit, and as CSV', async () => {
    const { page, context } = await openSizes();
    await context.grantPermissions(['clipboard-read', 'clipboard-write']);
    await page.getByRole('button', { name: 'Copy as text' }).click();
    await expect.poll(() => page.locator('.sizes-said').textContent()).toContain('Copied');
    const text = await page.evaluate(() => navigator.clipboard.readText());
    expect(text).toContain('Small sock, 12 stitches and 17 rows in 10 cm');
    for (const { name } of STANDARD_SIZES) expect(text).toContain(name);
    expect(text).toContain(`  ${(MEDIUM.lengthMm / 10).toFixed(1).replace(/\.0$/, '')}  `);
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Download as CSV' }).click()]);
    expect(download.suggestedFilename()).toBe('small-sock-sizes.csv');
    expect((await readFile(await download.path(), 'utf8')).split('\r\n').length).toBe(STANDARD_SIZES.length + 2);
  });

  it.each(['A4', 'Letter'] as const)('is printed on one page of %s: the table with name and gauge, and nothing else', async (format) => {
    const { page } = await openSizes();
    const pdf = await page.pdf({ format });
    // Each page of a PDF is an object of this type.
    expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length).toBe(1);
    await page.emulateMedia({ media: 'print' });
    for (const selector of ['.top-bar', '.page', '.sizes-dialog']) expect(await page.locator(selector).isVisible(), selector).toBe(false);
    const sheet = page.locator('.print-sheet');
    expect(await sheet.isVisible()).toBe(true);
    expect(await sheet.textContent()).toMatch(/^Small sockGauge: 12 stitches and 17 rows in 10 cm/);
    expect(await sheet.textContent()).not.toMatch(/20\d\d-|\d{1,2}:\d\d/);
    // The paper's width less both margins of 14 mm, at 96 pixels to the inch.
    await page.setViewportSize({ width: Math.floor(((format === 'A4' ? 210 : 215.9) - 28) / 25.4 * 96), height: 900 });
    expect(await sheet.evaluate((element) => element.scrollWidth - element.clientWidth)).toBeLessThanOrEqual(0);
  });

  it('is closed by Escape and by its button, the focus comes back, and every control has a name', async () => {
    const { page } = await openSizes();
    expect(await namelessControls(page, '.sizes-dialog')).toEqual([]);
    await page.keyboard.press('Escape');
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Sizes…');
    await page.keyboard.press('Enter');
    await page.getByRole('dialog').getByRole('button', { name: 'Close' }).click();
    expect(await page.getByRole('dialog').count()).toBe(0);
  });

  it('fits small windows', async () => {
    const { page } = await openSizes();
    for (const [width, height] of [[1440, 900], [1024, 768], [768, 1024]] as const) {
      await page.setViewportSize({ width, height });
      const at = `at ${width} x ${height}`, box = (await page.getByRole('dialog').boundingBox())!;
      expect(box.x >= 0 && box.y >= 0 && box.x + box.width <= width && box.y + box.height <= height, at).toBe(true);
      expect(await page.locator('.sizes-dialog .sizes-scroll').evaluate((element) => element.scrollWidth - element.clientWidth), at).toBeLessThanOrEqual(0);
      expect(await page.getByRole('button', { name: 'Print' }).isVisible(), at).toBe(true);
    }
  });
});
