import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import type { OpenedPage, OpenOptions } from './browser.ts';
import { namelessControls } from './name-controls.ts';
import { chooseUnit, openSmallSock, see, settled, SMALL_SOCK, weighed } from './sock-page.ts';

async function openCompare(options: OpenOptions = {}): Promise<OpenedPage> {
  const opened = await openSmallSock(options);
  await opened.page.getByRole('tab', { name: 'Compare' }).click();
  return opened;
}

/** Until both socks are at rest in the same pose. */
async function bothSettled(page: Page): Promise<void> {
  await settled(page);
  await page.waitForFunction(() => window.heelwright?.companion?.pose === window.heelwright?.pose, null, { timeout: 100_000 });
}

/** This sock, the other, and the difference, of a row of the table; null where it is folded away. */
async function rowOf(page: Page, name: string): Promise<string[] | null> {
  const cells = page.locator(`[data-row="${name}"] td`);
  return await cells.count() === 0 ? null : cells.allTextContents();
}

const keptSock = (text: string): OpenOptions => ({ before: `if (localStorage.getItem('heelwright.companion') === null) localStorage.setItem('heelwright.companion', ${JSON.stringify(text)});` });

describe('two socks', () => {
  it('the same with another toe comes beside at one press, in numbers too, and is let go', async () => {
    const { page, errors } = await openCompare();
    await page.getByRole('button', { name: 'The same with a short-row toe' }).click();
    await bothSettled(page);
    // Of 16 stitches to 8, README's formulas: 4 decreases every 4 passes are 4 x 3 + 2 passes, short rows 2 x 8.
    expect(await rowOf(page, 'toePasses')).toEqual(['14', '16', '+2']);
    expect(await rowOf(page, 'stitches')).toBeNull();
    await page.getByRole('button', { name: /^Show \d+ alike$/ }).click();
    expect(await rowOf(page, 'stitches')).toEqual(['32', '32', '=']);
    // 16 stitches to 8 in both: a short-row toe is 8 rows long, the decreased one above 14 / 2.
    expect(await page.locator('#compare .toe-drawing').getAttribute('aria-label')).toMatch(/This sock: 16 stitches a bed to 8, over 7 rounds\. The other: 16 stitches a bed to 8, over 8 rows/);
    expect((await see(page)).plan?.toeKind).toBe('decreased');
    expect(await page.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true);
    await page.getByRole('button', { name: 'Let go' }).click();
    expect(await page.evaluate(() => window.heelwright?.companion)).toBeNull();
    expect(await page.getByRole('button', { name: 'Keep this sock to compare with' }).isVisible()).toBe(true);
    expect(errors).toEqual([]);
  });

  it('a kept sock stays while the other is changed, follows its pose, and is there after a reload', async () => {
    const { page, errors } = await openCompare();
    await page.getByRole('button', { name: 'Keep this sock to compare with' }).click();
    await bothSettled(page);
    await expect.poll(() => page.locator('.compare-alike').textContent()).toContain('Alike in every number');
    expect(await page.locator('.compare-names dd').allTextContents()).toEqual(['Small sock', 'Small sock, as kept']);
    expect(await page.locator('#compare .toe-drawing').isVisible()).toBe(false);
    await page.getByRole('slider', { name: /turn-down/i }).focus();
    await page.keyboard.press('ArrowLeft');
    await bothSettled(page);
    expect(await rowOf(page, 'turnDownWidth')).toEqual(['6', '8', '+2']);
    // Geometry: 16 - 6 and 16 - 8 rows at 17 in 10 cm are 58.8 and 47.1 mm; the difference is that of the figures shown.
    await expect.poll(() => rowOf(page, 'rest.heelDepthMm')).toEqual(['5.9', '4.7', '−1.2']);
    await chooseUnit(page, 'Inches');
    await expect.poll(() => rowOf(page, 'rest.heelDepthMm')).toEqual(['2.32', '1.85', '−0.47']);
    await page.getByRole('radio', { name: 'Tube' }).check();
    await bothSettled(page);
    expect(await page.locator('[data-row^="tube."]').count()).toBeGreaterThan(0);
    // A worker that is still being fetched would be one request that failed.
    await weighed(page);
    await page.reload();
    await bothSettled(page);
    expect(await page.evaluate(() => [window.heelwright?.plan?.turnDownWidth, window.heelwright?.companion?.plan?.turnDownWidth])).toEqual([6, 8]);
    expect(errors).toEqual([]);
  });

  it('they change places by one press, which undo takes back', async () => {
    const { page } = await openCompare();
    await page.getByRole('button', { name: /Heel turned down to 6/ }).click();
    await bothSettled(page);
    const widths = (): Promise<(number | undefined)[]> => page.evaluate(() => [window.heelwright?.plan?.turnDownWidth, window.heelwright?.companion?.plan?.turnDownWidth]);
    expect(await widths()).toEqual([8, 6]);
    await page.getByRole('button', { name: 'Swap' }).click();
    await expect.poll(widths).toEqual([6, 8]);
    await page.getByRole('button', { name: 'Undo' }).first().click();
    await expect.poll(widths).toEqual([8, 8]);
  });

  it('a turn-down of one’s own is compared, one that the heel does not have is refused beside its box', async () => {
    const { page } = await openCompare();
    const box = page.getByRole('spinbutton', { name: /Turn-down width of the other/ });
    await box.fill('7');
    await page.keyboard.press('Enter');
    expect(await page.locator(`#${await box.getAttribute('aria-describedby') ?? ''}`).textContent()).toContain('from 2 to 14');
    expect(await page.evaluate(() => window.heelwright?.companion)).toBeNull();
    await box.fill('12');
    await page.keyboard.press('Enter');
    await expect.poll(() => page.evaluate(() => window.heelwright?.companion?.plan?.turnDownWidth)).toBe(12);
  });

  it('an example or a file is the other one too; a file that is no sock is told of, and nothing changes', async () => {
    const { page } = await openCompare();
    const name = (): Promise<string | undefined> => page.evaluate(() => window.heelwright?.companion?.file?.name);
    const choose = async (text: string): Promise<void> => {
      const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.getByRole('button', { name: 'A file…' }).click()]);
      await chooser.setFiles({ name: 'other.json', mimeType: 'application/json', buffer: Buffer.from(text) });
    };
    await choose(JSON.stringify({ ...SMALL_SOCK, name: 'From a file' }));
    await expect.poll(name).toBe('From a file');
    await page.getByText('Compare with another').click();
    await choose('no sock');
    await page.locator('[data-notice=file]').waitFor();
    expect(await name()).toBe('From a file');
    await page.getByRole('combobox', { name: 'Compare with an example sock' }).selectOption({ index: 2 });
    await expect.poll(name).toBe('Deep heel for a high instep');
    expect((await see(page)).file.name).toBe(SMALL_SOCK.name);
  });

  it('by keyboard alone: kept, laid over each other, and let go', async () => {
    const { page } = await openCompare();
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await bothSettled(page);
    await page.getByRole('radio', { name: 'Beside' }).focus();
    await page.keyboard.press('ArrowRight');
    expect(await page.getByRole('radio', { name: 'Over each other' }).isChecked()).toBe(true);
    await page.getByRole('button', { name: 'Let go' }).focus();
    await page.keyboard.press('Enter');
    expect(await page.evaluate(() => window.heelwright?.companion)).toBeNull();
  });

  it('another gauge is remarked on, and compared all the same', async () => {
    const { page } = await openCompare();
    await page.getByRole('button', { name: /knitted by the same counts/ }).click();
    await bothSettled(page);
    expect(await page.getByRole('list', { name: 'To mind in comparing these two' }).textContent()).toContain('different gauges');
    // 32 stitches at 12 and at 13 in 10 cm: 26.7 and 24.6 cm.
    expect(await rowOf(page, 'rest.footGirthMm')).toEqual(['26.7', '24.6', '−2.1']);
  });

  it('the other one is coloured by how much longer or wider it is, beside or over the first', async () => {
    const { page, errors } = await openCompare();
    await page.getByRole('button', { name: 'The same with a short-row toe' }).click();
    await bothSettled(page);
    await page.getByRole('radio', { name: 'Longer', exact: true }).check();
    const legend = page.getByRole('group', { name: 'Legend' });
    await expect.poll(() => legend.textContent()).toMatch(/shorter.*longer/);
    await page.getByRole('radio', { name: 'Over each other' }).check();
    await page.getByRole('radio', { name: 'Wider', exact: true }).check();
    await expect.poll(() => legend.textContent()).toMatch(/narrower.*wider/);
    await page.getByRole('button', { name: 'Let go' }).click();
    await expect.poll(() => legend.isVisible()).toBe(false);
    expect(errors).toEqual([]);
  });
});

describe('a kept sock that is no good any more', () => {
  it.each([
    ['cannot be read', '{ "gauge": ', /cannot be read any more/],
    ['cannot be knitted', JSON.stringify({ ...SMALL_SOCK, heel: { turnDownWidth: 40 } }), /cannot be knitted.*turn/is],
  ])('one that %s is told of plainly, the rest works, and it is let go', async (_what, text, told) => {
    const { page, errors } = await openCompare(keptSock(text));
    await expect.poll(() => page.locator('.compare-pair').textContent()).toMatch(told);
    expect((await see(page)).poseStatus).toBe('converged');
    await page.getByRole('button', { name: 'Let go' }).click();
    await page.getByRole('button', { name: 'Keep this sock to compare with' }).click();
    await bothSettled(page);
    expect(errors).toEqual([]);
  });
});

it('every control of the tab has a name, and no size of window is too small for it', async () => {
  const { page } = await openCompare();
  expect(await namelessControls(page, '#compare')).toEqual([]);
  await page.getByRole('button', { name: /Heel turned down to 6/ }).click();
  await bothSettled(page);
  expect(await namelessControls(page, '#compare')).toEqual([]);
  for (const [width, height] of [[1440, 900], [1024, 768], [768, 1024]] as const) {
    await page.setViewportSize({ width, height });
    const at = `at ${width} x ${height}`;
    expect(await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth), at).toBeLessThanOrEqual(0);
    expect(await page.locator('#compare').evaluate((element) => element.scrollWidth - element.clientWidth), at).toBeLessThanOrEqual(0);
  }
});
