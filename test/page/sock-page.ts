import type { Page } from 'playwright-core';
import type { PageHook } from '../../src/main/page-hook.ts';
import { openPage } from './browser.ts';
import type { OpenedPage, OpenOptions } from './browser.ts';

/** A small sock, so that it relaxes fast on the software renderer's machine: blue, with a red heel and toe. */
export const SMALL_SOCK = {
  heelwright: 1, name: 'Small sock', gauge: { stitchesPer10cm: 12, rowsPer10cm: 17 },
  leg: { lengthMm: 90 }, counts: { stitches: 32, footPasses: 36 }, heel: { turnDownWidth: 8 },
  yarns: [{ colour: '#1848e0', from: 'leg' }, { colour: '#e01818', from: 'heel' }, { colour: '#1848e0', from: 'foot' }, { colour: '#e01818', from: 'toe' }],
} as const;

/** Script that leaves the small sock behind as that of the last visit, unless there was one. */
export const KEEP_SMALL_SOCK = `try { if (localStorage.getItem('heelwright.sock') === null) localStorage.setItem('heelwright.sock', ${JSON.stringify(JSON.stringify(SMALL_SOCK))}); } catch {}`;

/** Opens the page with the small sock as that of the last visit, and waits until it is at rest. */
export async function openSmallSock(options: OpenOptions = {}): Promise<OpenedPage> {
  const opened = await openPage({ ...options, before: `${KEEP_SMALL_SOCK}\n${options.before ?? ''}` });
  await settled(opened.page);
  return opened;
}

/** Until the shape on show belongs to the sock on the panel. */
export async function settled(page: Page): Promise<void> {
  await page.waitForFunction(() => window.heelwright !== undefined && !window.heelwright.isBusy && window.heelwright.plan !== null, null, { timeout: 100_000 });
}

/** Until the yarn of the shape at rest has been measured, and the worker that did it is gone. */
export async function weighed(page: Page): Promise<void> {
  await page.waitForFunction(() => document.querySelector('.yarn-said')?.textContent.startsWith('Measured along its loops'), null, { timeout: 60_000 });
  // The worker that weighed it is closed with its answer; the browser tells of that a moment later.
  for (let before = -1, now = page.workers().length; now !== before; now = page.workers().length) {
    before = now;
    await page.waitForTimeout(400);
  }
}

export type Seen = Pick<PageHook, 'file' | 'plan' | 'problems' | 'pose' | 'poseStatus' | 'measures' | 'isBusy' | 'view'>;

/** What the page says of itself, as plain data. */
export function see(page: Page): Promise<Seen> {
  return page.evaluate(() => {
    const hook = window.heelwright;
    if (hook === undefined) throw new Error('the page has not started');
    const { file, plan, problems, pose, poseStatus, measures, isBusy, view } = hook;
    return { file, plan, problems, pose, poseStatus, measures, isBusy, view };
  });
}

/** The picture's counters once no frame is drawn any more: a new cloth reaches the GPU, and is counted, only with the first frame that shows it. */
export async function countersAtRest(page: Page): Promise<Seen['view']> {
  for (let before = (await see(page)).view; ;) {
    await page.waitForTimeout(500);
    const now = (await see(page)).view;
    if (now?.frames === before?.frames) return now;
    before = now;
  }
}

/** The unit of lengths, in the settings. */
export async function chooseUnit(page: Page, name: 'Inches' | 'Centimetres'): Promise<void> {
  await page.getByRole('button', { name: 'Settings' }).click();
  await page.getByLabel(name).check();
  await page.keyboard.press('Escape');
}

/** What the cloth's colours tell, by its name in the switch. */
export async function chooseColours(page: Page, name: string): Promise<void> {
  await page.getByRole('combobox', { name: 'Colours' }).selectOption({ label: name });
}

export interface Picture {
  /** Pixels that are plainly blue, plainly red, and all of them. */
  readonly blue: number;
  readonly red: number;
  readonly all: number;
}

/** Counts the pixels of the canvas as it stands on the screen. */
export async function countPixels(page: Page): Promise<Picture> {
  const shot = await page.locator('#sock').screenshot({ animations: 'disabled' });
  return page.evaluate(async (base64) => {
    const image = new Image();
    image.src = `data:image/png;base64,${base64}`;
    await image.decode();
    const canvas = new OffscreenCanvas(image.width, image.height);
    const context = canvas.getContext('2d');
    if (context === null) throw new Error('no 2d canvas');
    context.drawImage(image, 0, 0);
    const { data } = context.getImageData(0, 0, image.width, image.height);
    let blue = 0, red = 0;
    for (let i = 0; i < data.length; i += 4) {
      const [r, g, b] = [data[i], data[i + 1], data[i + 2]];
      if (b > 1.5 * r && b > 1.25 * g) blue += 1;
      else if (r > 2 * g && r > 2 * b) red += 1;
    }
    return { blue, red, all: data.length / 4 };
  }, shot.toString('base64'));
}
