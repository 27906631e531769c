import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { readSock } from '../../src/plan/read-sock.ts';
import { openPage } from './browser.ts';
import { openSmallSock, see, settled, SMALL_SOCK } from './sock-page.ts';

const asFile = (name: string, change: object = {}): { name: string; mimeType: string; buffer: Buffer } =>
  ({ name: `${name}.json`, mimeType: 'application/json', buffer: Buffer.from(JSON.stringify({ ...SMALL_SOCK, name, ...change })) });
const nameOf = async (page: Page): Promise<string | undefined> => (await see(page)).plan?.name;
const openList = (page: Page): Promise<void> => page.getByRole('button', { name: /^My socks/ }).click();
const listed = (page: Page): Promise<string[]> => page.locator('.socks-dialog .socks-list').first().locator('.socks-name').allTextContents();
const row = (page: Page, name: string): ReturnType<Page['locator']> => page.locator('.socks-row').filter({ has: page.getByText(name, { exact: true }) });

describe('my socks', () => {
  it('are opened, renamed, doubled, deleted and put back by keyboard alone; each keeps its own undo', async () => {
    const { page, errors } = await openSmallSock();
    await page.locator('input[type=file]').setInputFiles(asFile('Second'));
    await expect.poll(() => nameOf(page)).toBe('Second');
    await page.getByRole('slider', { name: /turn-down/i }).focus();
    await page.keyboard.press('ArrowLeft');
    await expect.poll(async () => (await see(page)).plan?.turnDownWidth).toBe(6);

    await page.getByRole('button', { name: /^My socks/ }).focus();
    await page.keyboard.press('Enter');
    expect(await listed(page)).toEqual(['Second', 'Small sock']);
    // The one on the page has the focus, and says so.
    expect(await page.evaluate(() => [document.activeElement?.textContent, document.activeElement?.getAttribute('aria-current')])).toEqual(['Second', 'true']);
    await page.getByRole('button', { name: 'Open Small sock' }).focus();
    await page.keyboard.press('Enter');
    await expect.poll(() => nameOf(page)).toBe('Small sock');
    expect((await see(page)).plan?.turnDownWidth).toBe(8);
    expect(await page.getByRole('button', { name: 'Undo' }).first().isDisabled()).toBe(true);

    await openList(page);
    await page.getByRole('button', { name: 'Open Second' }).click();
    await expect.poll(async () => (await see(page)).plan?.turnDownWidth).toBe(6);
    await page.keyboard.press('Control+z');
    await expect.poll(async () => (await see(page)).plan?.turnDownWidth).toBe(8);
    expect(await nameOf(page)).toBe('Second');

    await openList(page);
    await page.getByRole('button', { name: 'Rename: Small sock' }).press('Enter');
    await page.keyboard.type('Grandmother’s');
    await page.keyboard.press('Enter');
    expect((await listed(page)).sort()).toEqual(['Grandmother’s', 'Second']);
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Rename');
    await page.getByRole('button', { name: 'Duplicate: Grandmother’s' }).press('Enter');
    await expect.poll(() => nameOf(page)).toBe('Grandmother’s, copy');
    await page.getByRole('button', { name: 'Delete: Grandmother’s, copy' }).press('Enter');
    await expect.poll(() => nameOf(page)).not.toBe('Grandmother’s, copy');
    expect((await listed(page)).length).toBe(2);
    // The focus is on the way back.
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Put back');
    await page.keyboard.press('Enter');
    expect((await listed(page)).sort()).toEqual(['Grandmother’s', 'Grandmother’s, copy', 'Second']);
    await page.keyboard.press('Escape');
    await page.reload();
    await settled(page);
    await openList(page);
    expect((await listed(page)).sort()).toEqual(['Grandmother’s', 'Grandmother’s, copy', 'Second']);
    expect(errors).toEqual([]);
  });

  it('are saved to a file each, and the last one deleted makes room for a new one', async () => {
    const { page } = await openSmallSock();
    await openList(page);
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save to file: Small sock' }).click()]);
    expect(readSock(await readFile(await download.path(), 'utf8')).file).toEqual(SMALL_SOCK);
    await page.getByRole('button', { name: 'Delete: Small sock' }).click();
    await expect.poll(() => nameOf(page)).toBe('New sock');
    await page.locator('summary').filter({ hasText: 'Deleted lately: 1' }).click();
    await page.getByRole('button', { name: 'Put back: Small sock' }).click();
    await page.getByRole('button', { name: 'Open Small sock' }).click();
    await expect.poll(() => nameOf(page)).toBe('Small sock');
  });

  it('one that can no longer be read is shown, and its text can be saved', async () => {
    const damaged = JSON.stringify({ stamp: 'x', changed: 1, file: { heelwright: 2, lace: [1, 2] } });
    const { page } = await openSmallSock({ before: `if (localStorage.getItem('heelwright.socks.old') === null) localStorage.setItem('heelwright.socks.old', ${JSON.stringify(damaged)});` });
    expect(await nameOf(page)).toBe('Small sock');
    await openList(page);
    const line = row(page, 'Sock without a name');
    expect(await line.textContent()).toContain('cannot be read');
    const [download] = await Promise.all([page.waitForEvent('download'), line.getByRole('button', { name: /^Save/ }).click()]);
    expect(JSON.parse(await readFile(await download.path(), 'utf8'))).toEqual({ heelwright: 2, lace: [1, 2] });
  });
});

describe('several files at once', () => {
  it('come into the list, the first one onto the page, and those that are none are named', async () => {
    const { page } = await openSmallSock();
    await page.evaluate((texts) => {
      const data = new DataTransfer();
      texts.forEach((text, i) => data.items.add(new File([text], `file ${i}.json`, { type: 'application/json' })));
      for (const type of ['dragover', 'drop']) document.body.dispatchEvent(new DragEvent(type, { dataTransfer: data, bubbles: true, cancelable: true }));
    }, ['{"hell": 1}', JSON.stringify({ ...SMALL_SOCK, name: 'one' }), JSON.stringify({ ...SMALL_SOCK, name: 'two' }), JSON.stringify({ ...SMALL_SOCK, heelwright: 2 })]);
    await expect.poll(() => nameOf(page)).toBe('one');
    const notice = page.locator('[data-notice=file]');
    expect(await notice.locator('h2').textContent()).toBe('2 socks are in your list now; 2 files could not be opened');
    expect(await notice.textContent()).toMatch(/“file 0\.json”.*hell.*“file 3\.json”.*newer Heelwright/s);
    await openList(page);
    expect((await listed(page)).sort()).toEqual(['Small sock', 'one', 'two']);
  });
});

describe('storage', () => {
  const switches = [
    ['throws when it is asked for', "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('no', 'SecurityError'); } }); Object.defineProperty(window, 'sessionStorage', { get() { throw new DOMException('no', 'SecurityError'); } });", /does not let the page keep anything/],
    ['has no room', "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };", /no room left/],
  ] as const;
  it.each(switches)('that %s is told of; socks go on in this window, and files can be saved', async (_what, before, told) => {
    const { page, errors } = await openPage({ before });
    await settled(page);
    const notice = page.locator('[data-notice=keep]');
    expect(await notice.textContent()).toMatch(told);
    expect(await notice.textContent()).toContain('Save the sock to a file');
    await page.locator('input[type=file]').setInputFiles(asFile('Second'));
    await expect.poll(() => nameOf(page)).toBe('Second');
    await openList(page);
    expect((await listed(page)).length).toBe(2);
    expect(await page.locator('.socks-mark.is-loose').count()).toBe(2);
    await page.locator('.socks-name').nth(1).click();
    await expect.poll(() => nameOf(page)).not.toBe('Second');
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save', exact: true }).click()]);
    expect(readSock(await readFile(await download.path(), 'utf8')).file).not.toBeNull();
    expect(errors).toEqual([]);
  });
});

describe('two windows', () => {
  it('that change the same sock keep both, and each sees the other\'s', async () => {
    const { page, context } = await openSmallSock();
    const { page: other } = await openPage({ context });
    await settled(other);
    expect(await nameOf(other)).toBe('Small sock');
    for (const [window, key, width] of [[page, 'ArrowLeft', 6], [other, 'ArrowRight', 10]] as const) {
      await window.getByRole('slider', { name: /turn-down/i }).focus();
      await window.keyboard.press(key);
      await expect.poll(async () => (await see(window)).plan?.turnDownWidth).toBe(width);
    }
    expect(await other.locator('[data-notice=socks]').textContent()).toContain('nothing is lost');
    await openList(page);
    await expect.poll(async () => (await page.locator('.socks-about').allTextContents()).map((text) => /turned down to (\d+)/.exec(text)?.[1]).sort()).toEqual(['10', '6']);
    // Each window comes back to its own.
    await other.reload();
    await settled(other);
    expect((await see(other)).plan?.turnDownWidth).toBe(10);
    await page.reload();
    await settled(page);
    expect((await see(page)).plan?.turnDownWidth).toBe(6);
  });
});

describe('a link', () => {
  it('is copied, and opened elsewhere it is the same sock beside one\'s own', async () => {
    const { page, context } = await openSmallSock();
    await context.grantPermissions(['clipboard-read', 'clipboard-write']);
    await page.getByRole('button', { name: 'Copy link' }).click();
    await page.getByRole('button', { name: 'Link copied' }).waitFor();
    const link = await page.evaluate(() => navigator.clipboard.readText());
    expect(link.startsWith(page.url())).toBe(true);
    const { page: other, errors } = await openPage({ suffix: link.slice(page.url().length) });
    await settled(other);
    await expect.poll(async () => (await see(other)).file).toEqual(SMALL_SOCK);
    expect(other.url()).toBe(page.url());
    await openList(other);
    expect((await listed(other)).sort()).toEqual(['Plain sock, striped leg', 'Small sock']);
    await other.keyboard.press('Escape');
    // In a page that is open already, as by a press on a link; undo leads back.
    await other.keyboard.press('Control+z');
    await expect.poll(() => nameOf(other)).toBe('Plain sock, striped leg');
    await other.evaluate((hash) => { location.hash = hash; }, new URL(link).hash);
    await expect.poll(() => nameOf(other)).toBe('Small sock');
    expect(errors).toEqual([]);
  });

  it('that is damaged, too long, or from a newer page is said to be so, and the sock stays', async () => {
    const { page } = await openSmallSock({ suffix: '#sock=aAAAAabcd' });
    const notice = page.locator('[data-notice=link]');
    await notice.waitFor();
    expect(await notice.textContent()).toContain('damaged');
    for (const [hash, told] of [[`#sock=a${'A'.repeat(9000)}`, 'too long'], ['#sock=bAAAA', 'newer Heelwright'], ['#sock=', 'damaged']] as const) {
      await page.evaluate((next) => { location.hash = next; }, hash);
      await expect.poll(() => notice.textContent()).toContain(told);
      expect((await see(page)).file).toEqual(SMALL_SOCK);
      expect(await page.evaluate(() => location.hash)).toBe('');
    }
  });
});
