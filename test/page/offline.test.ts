import { createHash } from 'node:crypto';
import { cp, readFile, writeFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join } from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { describe, expect, inject, it, onTestFinished } from 'vitest';
import { openPage } from './browser.ts';
import { createScratchFolder } from './scratch-folder.ts';
import { KEEP_SMALL_SOCK, see, settled } from './sock-page.ts';

const TYPES: Readonly<Record<string, string>> = { '.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css', '.json': 'application/json', '.svg': 'image/svg+xml', '.png': 'image/png', '.webmanifest': 'application/manifest+json' };

/** A plain static host of a copy of the built page, which can be changed while it runs. */
async function hostCopy(): Promise<{ readonly url: string; readonly folder: string }> {
  const scratch = createScratchFolder(), folder = join(scratch.path, 'page');
  await cp(inject('pageFolder'), folder, { recursive: true });
  const server = createServer((request, response) => {
    const path = decodeURIComponent(new URL(request.url ?? '/', 'http://host').pathname).replace(/^\/deep\/down\//, '');
    readFile(join(folder, path === '' ? 'index.html' : path)).then(
      (body) => { response.writeHead(200, { 'content-type': TYPES[extname(path === '' ? 'index.html' : path)] ?? 'application/octet-stream' }).end(body); },
      () => { response.writeHead(404).end(); });
  });
  await new Promise<void>((settle) => { server.listen(0, '127.0.0.1', settle); });
  onTestFinished(async () => {
    server.closeAllConnections();
    await new Promise((settle) => { server.close(settle); });
    scratch.remove();
  });
  return { url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/deep/down/`, folder };
}

const controlled = (page: Page): Promise<unknown> => page.waitForFunction(() => navigator.serviceWorker.controller !== null, null, { timeout: 60_000 });

const isNewer = async (page: Page): Promise<boolean> => await page.locator('meta[name=newer]').count() === 1;

async function openAt(url: string, context: BrowserContext): Promise<Page> {
  const page = await context.newPage();
  await page.goto(url);
  await settled(page);
  return page;
}

describe('after the first visit', () => {
  it('the page is all there without a network: shape, examples, other workers', async () => {
    const { page, context, errors, outside } = await openPage({ isOffline: true });
    await settled(page);
    await controlled(page);
    await context.setOffline(true);
    await page.reload();
    await settled(page);
    expect(await see(page)).toMatchObject({ poseStatus: 'converged', problems: [] });
    await page.getByRole('combobox', { name: 'Open an example sock' }).selectOption({ index: 6 });
    await expect.poll(async () => (await see(page)).plan?.name).not.toBe('Plain sock, striped leg');
    await settled(page);
    await page.getByRole('button', { name: 'Sizes…' }).click();
    // Its counts come from a worker of its own.
    await expect.poll(() => page.locator('.size-row').count(), { timeout: 30_000 }).toBeGreaterThan(3);
    await page.keyboard.press('Escape');
    // A room is fetched when it is first entered.
    await page.getByRole('button', { name: 'Chart', exact: true }).click();
    await page.locator('.chart-board').waitFor();
    expect([errors, outside]).toEqual([[], []]);
  });

  it('it can be installed: a manifest with icons that are pictures of the size they say', async () => {
    const { page } = await openPage();
    const icons = await page.evaluate(async () => {
      const link = document.querySelector<HTMLLinkElement>('link[rel=manifest]')!;
      const manifest = await (await fetch(link.href)).json() as { start_url: string; scope: string; icons: { src: string; sizes: string; purpose?: string }[] };
      const sizes = await Promise.all(manifest.icons.map(async ({ src, sizes }) => {
        const image = new Image();
        image.src = new URL(src, link.href).href;
        await image.decode();
        return [sizes, `${image.naturalWidth}x${image.naturalHeight}`];
      }));
      return { start: new URL(manifest.start_url, link.href).href, scope: new URL(manifest.scope, link.href).href, sizes };
    });
    expect([icons.start, icons.scope]).toEqual([inject('pageUrl'), inject('pageUrl')]);
    // W3C Web Application Manifest; browsers ask for 192 and 512 pixels before they offer to install.
    expect(icons.sizes.filter(([said]) => said !== 'any').map(([said, found]) => [said, found === said])).toEqual([['192x192', true], ['512x512', true], ['512x512', true]]);
  });
});

describe('a newer version', () => {
  it('is offered, comes when it is asked for, and no window mixes it with the old one', async () => {
    const { url, folder } = await hostCopy(), { context, page: first } = await openPage({ isOffline: true });
    await first.close();
    await context.addInitScript({ content: KEEP_SMALL_SOCK });
    const page = await openAt(url, context);
    await controlled(page);
    const other = await openAt(url, context);

    // A build that differs in its page alone, and so in its list of checksums.
    const index = await readFile(join(folder, 'index.html'), 'utf8'), worker = await readFile(join(folder, 'sw.js'), 'utf8');
    const sum = (text: string): string => `sha256-${createHash('sha256').update(text).digest('base64')}`;
    const newer = index.replace('<title>', '<meta name="newer" content=""><title>');
    expect(worker).toContain(sum(index));
    await writeFile(join(folder, 'sw.js'), worker.replace(sum(index), sum(newer)).replace(/^const VERSION = "[^"]*"/, 'const VERSION = "newer"'));

    // Half of it is there: nothing is taken from it.
    await page.evaluate(async () => { await (await navigator.serviceWorker.getRegistration())?.update(); });
    await page.waitForTimeout(1000);
    expect(await page.locator('[data-notice=update]').count()).toBe(0);
    await writeFile(join(folder, 'index.html'), newer);
    await page.evaluate(async () => { await (await navigator.serviceWorker.getRegistration())?.update(); });
    const notice = page.locator('[data-notice=update]');
    await notice.waitFor({ timeout: 30_000 });
    expect(await notice.textContent()).toContain('when it suits you');

    // Until then the old one goes on, even after a reload.
    await other.reload();
    await settled(other);
    expect([await isNewer(page), await isNewer(other)]).toEqual([false, false]);
    await Promise.all([page.waitForEvent('load'), notice.getByRole('button', { name: 'Reload' }).click()]);
    await settled(page);
    expect(await isNewer(page)).toBe(true);
    // The other window has not been touched, and still finds its own worker's script.
    expect(await isNewer(other)).toBe(false);
    await other.getByRole('slider', { name: /turn-down/i }).focus();
    await other.keyboard.press('ArrowLeft');
    await settled(other);
    expect((await see(other)).problems).toEqual([]);
  });
});
