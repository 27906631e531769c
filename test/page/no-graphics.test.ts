import { expect, it } from 'vitest';
import { openSmallSock, settled } from './sock-page.ts';

/** A browser that offers no WebGL: the canvas answers null, as the HTML standard has it for a context that is not supported. */
const WITHOUT_WEBGL = `
  const getContext = HTMLCanvasElement.prototype.getContext;
  HTMLCanvasElement.prototype.getContext = function (kind, ...rest) { return kind.startsWith('webgl') ? null : getContext.call(this, kind, ...rest); };
`;

it('without a graphics card every room works but its picture, and the page says so', async () => {
  const { page, errors } = await openSmallSock({ before: WITHOUT_WEBGL });
  const go = async (room: string): Promise<void> => { await page.getByRole('button', { name: room, exact: true }).first().click(); };
  expect(await page.locator('#notices').innerText()).toContain('This browser cannot draw the sock');
  expect(await page.evaluate(() => window.heelwright?.measures.posed?.heelDepthMm ?? 0)).toBeGreaterThan(0);

  await go('Passes');
  await page.getByRole('textbox', { name: 'Go to pass' }).fill('23');
  await page.keyboard.press('Enter');
  // 15 rows of rib, 2 plain, 4 ankle: pass 22 is the heel's first, on 15 of its 16 stitches; the next knits 14.
  await expect.poll(() => page.locator('.work-title').innerText()).toContain('pass 23');
  expect(await page.locator('#room-passes').innerText()).toContain('knits 14.');

  await go('Lesson');
  await page.getByRole('button', { name: 'Next', exact: true }).click();
  await expect.poll(() => page.locator('#room-lesson h2').first().innerText()).not.toBe('');

  await go('Chart');
  await page.locator('.chart-board').focus();
  await page.keyboard.press('ArrowRight');
  await expect.poll(() => page.locator('#room-chart').innerText()).toMatch(/needle [LR]\d/);

  await go('Sheet');
  await expect.poll(() => page.locator('#room-sheet').innerText()).toContain('32 round, 16 a bed');

  await go('At the machine');
  await expect.poll(() => page.locator('#room-stand').innerText()).toContain('Cast on 32');
  await page.keyboard.press('Escape');
  await settled(page);
  expect(errors.filter((error) => !error.includes('WebGL'))).toEqual([]);
});
