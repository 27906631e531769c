import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { buildSheet } from '../../src/sheet/build-sheet.ts';
import type { SheetPart, SheetTable, TableId } from '../../src/sheet/sheet.ts';
import { writeSheetText } from '../../src/sheet/write-sheet-text.ts';
import { WORDS } from '../../src/words/words.ts';
import { openPage } from './browser.ts';
import type { OpenedPage, OpenOptions } from './browser.ts';
import { namelessControls } from './name-controls.ts';
import { readPdf } from './read-pdf.ts';
import { SMALL_SOCK } from './sock-page.ts';

/** Opens the sheet of a sock; its shape need not have come to rest. */
async function openSheet(sock: SockFile, options: OpenOptions = {}): Promise<OpenedPage> {
  const keep = `try { if (localStorage.getItem('heelwright.sock') === null) localStorage.setItem('heelwright.sock', ${JSON.stringify(JSON.stringify(sock))}); } catch {}`;
  const opened = await openPage({ ...options, before: `${keep}\n${options.before ?? ''}` });
  await opened.page.getByRole('button', { name: 'Sheet', exact: true }).click();
  await opened.page.locator('.sheet-pages .paper').first().waitFor({ timeout: 90_000 });
  return opened;
}

function sheetOf(file: SockFile): ReturnType<typeof buildSheet> {
  const { sock } = knitSock(file);
  if (sock === null) throw new Error('the sock is refused');
  return buildSheet(sock, { words: WORDS.en, numbers: 'middle', unit: 'cm', hasTransfers: true, sizes: [] });
}

/** Every row of every table, as a line of words. */
function rowsOf(parts: readonly SheetPart[], but: readonly TableId[] = []): string[] {
  const tables = parts.flatMap(({ blocks }) => blocks).filter((block): block is SheetTable => block.kind === 'table' && !but.includes(block.id));
  return tables.flatMap(({ rows }) => rows.map((row) => row.join(' ')));
}

const pagesShown = (page: Page): Promise<number> => page.locator('.sheet-pages .paper').count();
const print = async (page: Page) => readPdf(await page.pdf({ preferCSSPageSize: true, printBackground: true }));
const example = async (name: string): Promise<SockFile> => JSON.parse(await readFile(new URL(`../../public/socks/${name}.json`, import.meta.url), 'utf8')) as SockFile;

describe('the knitting sheet on the page', () => {
  it('prints as many pages as it shows, of the chosen paper, with every row of its tables and none of the controls', async () => {
    const { page, errors } = await openSheet(SMALL_SOCK);
    // ISO 216 and ANSI sizes, in points.
    for (const [paper, widthPt, heightPt] of [['A4', 595.3, 841.9], ['US Letter', 612, 792]] as const) {
      await page.getByRole('radio', { name: paper }).check();
      const pages = await print(page), text = pages.map((printed) => printed.text).join(' ');
      expect(pages.length).toBe(await pagesShown(page));
      expect(pages.length).toBeLessThanOrEqual(4);
      expect(await page.locator('.sheet-status').textContent()).toBe(`${pages.length} pages of ${paper}`);
      for (const printed of pages) {
        expect(Math.abs(printed.widthPt - widthPt)).toBeLessThan(1);
        expect(Math.abs(printed.heightPt - heightPt)).toBeLessThan(1);
      }
      const { parts } = sheetOf(SMALL_SOCK);
      for (const { title } of parts) expect(text).toContain(title);
      for (const row of rowsOf(parts)) expect(text).toContain(row);
      expect(text).toContain('Knit 36 passes of tube, that is 18 rounds');
      expect(text).not.toMatch(/Copy as text|At the machine|Undo/);
    }
    expect(errors).toEqual([]);
  });

  it('is set in letters that can be read at the machine, and printed in black on white', async () => {
    const { page } = await openSheet(SMALL_SOCK, { colorScheme: 'dark' });
    await page.emulateMedia({ media: 'print' });
    const looks = await page.evaluate(() => {
      const of = (selector: string) => [...document.querySelectorAll(`.sheet-pages ${selector}`)].map((element) => {
        const { fontSize, color } = getComputedStyle(element);
        return { points: parseFloat(fontSize) * 0.75, color };
      });
      return { words: of('.part-body > p'), cells: of('tbody :is(th, td)'), paper: getComputedStyle(document.querySelector('.sheet-pages .paper')!).backgroundColor };
    });
    expect(looks.words.length).toBeGreaterThan(8);
    expect(looks.cells.length).toBeGreaterThan(100);
    expect(Math.min(...looks.words.map(({ points }) => points))).toBeGreaterThanOrEqual(11 - 1e-3);
    expect(Math.min(...looks.cells.map(({ points }) => points))).toBeGreaterThanOrEqual(10 - 1e-3);
    expect(new Set([...looks.words, ...looks.cells].map(({ color }) => color))).toEqual(new Set(['rgb(0, 0, 0)']));
    expect(looks.paper).toBe('rgb(255, 255, 255)');
  });

  it.each(['wide-heel', 'high-instep', 'short-row-toe'])('of the example %s needs two to four pages, on both papers and in both languages', async (name) => {
    const { page } = await openSheet(await example(name));
    for (const language of ['English', 'Deutsch']) {
      for (const paper of ['A4', 'US Letter']) {
        await page.getByRole('radio', { name: language }).check();
        await page.getByRole('radio', { name: paper }).check();
        const shown = await pagesShown(page), pages = await print(page);
        expect(pages.length, `${language}, ${paper}`).toBe(shown);
        expect(shown, `${language}, ${paper}`).toBeGreaterThanOrEqual(2);
        expect(shown, `${language}, ${paper}`).toBeLessThanOrEqual(4);
        // Nothing runs out of its page: the browser would shrink all of it.
        await page.emulateMedia({ media: 'print' });
        expect(await page.evaluate(() => [...document.querySelectorAll<HTMLElement>('.sheet-pages .paper-body')].filter((body) => body.scrollWidth > body.clientWidth || body.scrollHeight > body.clientHeight).length)).toBe(0);
        await page.emulateMedia({ media: null });
      }
    }
  });

  it('says so where a sock needs more, and still prints all of it', async () => {
    const stripes = Array.from({ length: 2 }, (_, i) => ({ name: `A yarn with a name that is long enough to be broken over lines ${i}`, from: 'leg' as const, stripePasses: 2 }));
    const huge: SockFile = { ...SMALL_SOCK, name: 'Narrow, long and striped', counts: { stitches: 16, legPasses: 150, footPasses: 300 }, heel: { turnDownWidth: 4 }, yarns: stripes };
    const { page } = await openSheet(huge), shown = await pagesShown(page);
    expect(shown).toBeGreaterThan(4);
    expect(await page.locator('.sheet-warnings').textContent()).toContain('more than four');
    const pages = await print(page), text = pages.map((printed) => printed.text).join(' ');
    expect(pages.length).toBe(shown);
    // A name is broken over lines where it must be, and its row then reads otherwise.
    for (const row of rowsOf(sheetOf(huge).parts, ['changes', 'yarns'])) expect(text).toContain(row);
    await page.getByRole('checkbox', { name: 'List every stitch that is moved' }).uncheck();
    expect(await page.locator('.sheet-warnings').textContent()).toContain('a great many passes or stripes');
  });

  it('goes to the clipboard and to a file as the text that the core writes, and to the printer', async () => {
    const { page, context } = await openSheet(SMALL_SOCK, { before: 'window.print = () => { document.documentElement.dataset.printed = "yes"; };' });
    await context.grantPermissions(['clipboard-read', 'clipboard-write']);
    const wanted = writeSheetText(sheetOf(SMALL_SOCK));
    await page.getByRole('button', { name: 'Copy as text' }).click();
    await expect.poll(() => page.locator('.sheet-said').textContent()).toBe('Copied.');
    expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(wanted);
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save text' }).click()]);
    expect(download.suggestedFilename()).toBe('small-sock-sheet.txt');
    expect(await readFile(await download.path(), 'utf8')).toBe(wanted);
    await page.getByRole('button', { name: 'Print', exact: true }).click();
    expect(await page.locator('html').getAttribute('data-printed')).toBe('yes');
  });

  it('is chosen by keyboard, takes sizes as columns, and is found again as it was', async () => {
    const { page, context } = await openSheet(SMALL_SOCK);
    expect(await namelessControls(page, '#room-sheet')).toEqual([]);
    await page.getByRole('radio', { name: 'A4' }).focus();
    await page.keyboard.press('ArrowRight');
    await page.getByRole('radio', { name: 'the middle' }).focus();
    await page.keyboard.press('ArrowRight');
    await page.getByRole('checkbox', { name: 'Adult, medium' }).focus();
    await page.keyboard.press('Space');
    const head = page.locator('.sheet-pages [data-table="sizes"] thead');
    await expect.poll(() => head.textContent(), { timeout: 30_000 }).toContain('Adult, medium');
    expect(await page.locator('.sheet-pages .paper').first().getAttribute('class')).toContain('is-letter');
    expect(await page.locator('.sheet-pages').textContent()).toContain('counted from the left end');
    const again = (await openPage({ context })).page;
    await again.locator('.sheet-pages [data-table="sizes"]').waitFor();
    expect(await again.getByRole('radio', { name: 'US Letter' }).isChecked()).toBe(true);
    expect(await again.getByRole('radio', { name: 'the left' }).isChecked()).toBe(true);
    expect(await again.getByRole('checkbox', { name: 'Adult, medium' }).isChecked()).toBe(true);
  });

  it('flows as words on a narrow screen, and prints on paper all the same', async () => {
    const { page } = await openSheet(SMALL_SOCK, { width: 390, height: 844 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
    const pages = await print(page);
    expect(pages.length).toBe(await pagesShown(page));
    expect(Math.abs(pages[0].widthPt - 595.3)).toBeLessThan(1);
  });
});
