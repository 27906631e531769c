import type { Page } from 'playwright-core';
import { openPage } from './browser.ts';
import type { OpenedPage, OpenOptions } from './browser.ts';

/** 24 stitches, few passes: 10 rows of leg, 2 plain, 4 ankle, 12 heel, 8 foot, 6 toe are 42 (counted by hand from the counts). */
export const SHORT = {
  heelwright: 1, name: 'Short sock', gauge: { stitchesPer10cm: 20, rowsPer10cm: 28 }, heel: { turnDownWidth: 6 }, toe: { tipStitches: 8 },
  counts: { stitches: 24, legPasses: 10, footPasses: 8 },
} as const;
export const SHORT_PASSES = 42;
/** The same with a foot long enough for a pass 57. */
export const LONG = { ...SHORT, name: 'Long sock', counts: { ...SHORT.counts, footPasses: 40 } } as const;

interface Kept { readonly sock: number; readonly stop: number; readonly notes: readonly { readonly stop: number; readonly text: string }[]; readonly file: typeof SHORT; readonly second: string }

/** The page with a sock in the room at the machine, as after a visit that ended there. */
export async function openStand(sock: unknown, options: OpenOptions = {}): Promise<OpenedPage> {
  const keep = `try { if (localStorage.getItem('heelwright.sock') === null) {
    localStorage.setItem('heelwright.sock', ${JSON.stringify(JSON.stringify(sock))}); localStorage.setItem('heelwright.settings', '{"room":"stand"}'); } } catch {}`;
  const opened = await openPage({ ...options, before: `${keep}\n${options.before ?? ''}` });
  await shown(opened.page);
  return opened;
}

/** The room at the machine is there; the sock's shape may still be under way. */
export async function shown(page: Page): Promise<void> {
  await page.locator('.stand-acts li').first().waitFor();
}

export const kept = (page: Page): Promise<Kept> => page.evaluate(() => {
  const [id] = JSON.parse(localStorage.getItem('heelwright.stand') ?? '[]') as string[];
  return JSON.parse(localStorage.getItem(`heelwright.stand.${id}`) ?? 'null') as Kept;
});

/** Presses a key so many times, slower than a contact bounces. */
export async function press(page: Page, key: string, times = 1): Promise<void> {
  for (let i = 0; i < times; i += 1) await page.keyboard.press(key, { delay: 55 });
}

/** What the large counter shows: `57 of 74`. */
export const counted = (page: Page): Promise<string> => page.evaluate(() => ['.stand-count', '.stand-of'].map((part) => document.querySelector(part)?.textContent ?? '').join(' '));
export const said = (page: Page): Promise<string | null> => page.locator('.stand-said').textContent();
