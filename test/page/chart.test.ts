import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { fitChart } from '../../src/panel/chart-camera.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import type { KnittedSock } from '../../src/pipeline/result.ts';
import type { ChartModel } from '../../src/sheet/chart-model.ts';
import { layChart } from '../../src/sheet/lay-chart.ts';
import { allOf, readSvg } from '../sheet/read-svg.ts';
import type { OpenOptions } from './browser.ts';
import { openSmallSock, settled, SMALL_SOCK } from './sock-page.ts';

let sock: KnittedSock, heel: ChartModel;
beforeAll(() => {
  sock = knitSock(SMALL_SOCK).sock!;
  heel = layChart(sock, 'heel', 'beds');
});

async function openChart(options: OpenOptions = {}): Promise<Awaited<ReturnType<typeof openSmallSock>>> {
  const opened = await openSmallSock(options);
  await opened.page.locator('.room-tab[data-room=chart]').click();
  await opened.page.locator('.chart-board').waitFor();
  return opened;
}

/** Where a loop of the fitted heel chart is on the screen. */
async function placeOf(page: Page, loop: number): Promise<{ x: number; y: number }> {
  const box = (await page.locator('.chart-board').boundingBox())!, cell = heel.cellOfLoop[loop], camera = fitChart(heel, box);
  return {
    x: box.x + camera.x + (heel.column[cell] + 0.5) * heel.cellWidthMm * camera.scale,
    y: box.y + camera.y + (heel.rowCount - heel.row[cell] - 0.5) * heel.cellHeightMm * camera.scale,
  };
}

const wordsOf = (page: Page): Promise<string> => page.locator('.chart-stitch').innerText();

describe('the room of the chart', () => {
  it('a stitch under the pointer is told in words and lit on the sock; it is let go with the pointer', async () => {
    const { page, errors } = await openChart();
    const record = sock.trace.passes.find(({ section }) => section === 'heel-in')!, at = await placeOf(page, record.firstLoop + 4);
    const framesBefore = await page.evaluate(() => window.heelwright?.view?.frames ?? 0);
    await page.mouse.move(at.x, at.y);
    await expect.poll(() => wordsOf(page)).toContain(`Heel, turning down: pass ${record.pass}, needle `);
    expect(await page.locator('.chart-work').innerText()).toContain(`pass ${record.pass} of ${sock.trace.passes.length - 1}`);
    await expect.poll(() => page.evaluate(() => window.heelwright?.view?.frames ?? 0)).toBeGreaterThan(framesBefore);
    await page.mouse.move(5, 5);
    await expect.poll(() => wordsOf(page)).toContain('Point at a stitch');
    expect(errors).toEqual([]);
  });

  it('a click goes to the pass: on the beds the sock hangs as it does after it', async () => {
    const { page } = await openChart();
    await page.getByRole('radio', { name: 'On the beds' }).check();
    await settled(page);
    const record = sock.trace.passes.filter(({ section }) => section === 'heel-out')[1], at = await placeOf(page, record.firstLoop + 2);
    await page.mouse.click(at.x, at.y);
    await expect.poll(() => page.evaluate(() => window.heelwright?.pass ?? null), { timeout: 60_000 }).toBe(record.pass);
  });

  it('by keyboard: along the course, up and down the wale, by passes, to the row\'s ends, and to the pass', async () => {
    const { page } = await openChart();
    const board = page.getByRole('application', { name: /chart, heel: small sock/i });
    await board.focus();
    await page.keyboard.press('ArrowUp');
    const passOf = async (): Promise<number> => Number(/pass (\d+),/.exec(await wordsOf(page))?.[1]);
    const first = await passOf();
    await page.keyboard.press('PageUp');
    expect(await passOf()).toBe(first + 1);
    const [row] = [sock.trace.passes[first + 1]], needles: string[] = [];
    await page.keyboard.press('Home');
    for (let i = 0; i < row.knitted; i++) {
      needles.push(/needle (\w+)/.exec(await wordsOf(page))![1]);
      await page.keyboard.press('ArrowRight');
    }
    expect(new Set(needles).size).toBe(row.knitted);
    expect(await passOf()).toBe(first + 1);
    await page.keyboard.press('End');
    const end = await wordsOf(page);
    await page.keyboard.press('ArrowUp');
    expect(await passOf()).toBe(first + 2);
    await page.keyboard.press('ArrowDown');
    expect(await wordsOf(page)).toBe(end);
    await page.keyboard.press('Enter');
    await page.getByRole('radio', { name: 'On the beds' }).check();
    await settled(page);
    expect(await page.evaluate(() => window.heelwright?.pass)).toBe(first + 1);
  });

  it('the drawing that is saved is XML to the browser and to a reader of our own, with every loop of its part', async () => {
    const { page } = await openChart();
    for (const [part, name] of [['sock', 'Whole sock'], ['heel', 'Heel'], ['toe', 'Toe']] as const) {
      await page.getByRole('radio', { name, exact: true }).check();
      const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save as SVG' }).click()]);
      expect(download.suggestedFilename()).toBe(`small-sock-${part}.svg`);
      const text = readFileSync(await download.path(), 'utf8'), chart = layChart(sock, part, 'beds');
      expect(await page.evaluate((source) => new DOMParser().parseFromString(source, 'image/svg+xml').querySelector('parsererror')?.textContent ?? null, text)).toBeNull();
      const cells = allOf(readSvg(text)).filter(({ attributes }) => attributes['data-pass'] !== undefined).flatMap(({ children }) => children);
      expect(cells.length).toBe(chart.cellCount);
    }
  });

  it('prints the chart and its legend alone, on one page and a second; large cells over more', async () => {
    const { page } = await openChart();
    const pagesOf = async (): Promise<number> => ((await page.pdf({ preferCSSPageSize: true, format: 'A4' })).toString('latin1').match(/\/Type\s*\/Page[^s]/g) ?? []).length;
    expect(await pagesOf()).toBe(2);
    await page.getByRole('radio', { name: 'Whole sock' }).check();
    await page.getByRole('combobox', { name: /cell on paper/i }).selectOption('8');
    // Of 180 x 245 mm a page loses 30 mm at its sides, 27 above and below: 18 cells of 8 mm across, 38 of 8 x 12 / 17 mm up, two in common with the next.
    const { stitches, legPasses, plainPasses, anklePasses, heelPasses, footPasses, toePasses } = sock.plan;
    const rows = 1 + legPasses + plainPasses + heelPasses + (anklePasses + footPasses + toePasses) / 2 + 1;
    expect(await pagesOf()).toBe(Math.ceil((stitches - 2) / (18 - 2)) * Math.ceil((rows - 2) / (38 - 2)) + 1);
    await page.locator('.room-tab[data-room=shape]').click();
    expect(await page.evaluate(() => document.querySelectorAll('.chart-page').length)).toBe(0);
  });

  it('keeps the choices for the next visit', async () => {
    const { page, context } = await openChart();
    await page.getByRole('radio', { name: 'Toe', exact: true }).check();
    await page.getByRole('checkbox', { name: /yarn colours/i }).uncheck();
    const next = await openChart({ context });
    expect(await next.page.getByRole('radio', { name: 'Toe', exact: true }).isChecked()).toBe(true);
    expect(await next.page.getByRole('checkbox', { name: /yarn colours/i }).isChecked()).toBe(false);
  });

  it.each([[820, 1180], [390, 844]])('at %i x %i nothing runs over the side', async (width, height) => {
    const { page } = await openChart({ width, height });
    expect(await page.evaluate(() => [...document.querySelectorAll('#room-chart > *')].filter((part) => part.getBoundingClientRect().right > innerWidth + 1).map((part) => part.className))).toEqual([]);
    const board = (await page.locator('.chart-board').boundingBox())!;
    expect(Math.min(board.width, board.height)).toBeGreaterThan(240);
  });
});
