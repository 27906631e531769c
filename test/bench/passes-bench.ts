import { join } from 'node:path';
import type { Page } from 'playwright-core';
import type {} from '../../src/main/page-hook.ts';
import { findBrowser } from '../page/find-browser.ts';
import { createScratchFolder } from '../page/scratch-folder.ts';
import { servePage } from '../page/serve-page.ts';
import { startBrowser } from '../page/start-browser.ts';
import { TEN_THOUSAND } from './bench-socks.ts';
import { median } from './timing.ts';
import { printTable } from './table.ts';

/** What the room of passes is to reach: milliseconds to open it, frames a second while it is scrubbed. */
const GOAL = { openMs: 1000, framesPerSecond: 15 };
/** What the page's script runs inside the page is compiled by tsx, whose functions call a helper that the page has not. */
const TSX_HELPER = 'globalThis.__name = (made) => made;';

/** The room of passes of a sock of ten thousand loops in a real browser with a software renderer: opening it, and scrubbing through all of it. */
export async function benchPassesRoom(root: string): Promise<void> {
  const scratch = createScratchFolder();
  try {
    const served = await servePage(root, scratch.path);
    try {
      const browser = await startBrowser(await findBrowser(root, join(scratch.path, 'browser')), scratch.path);
      try {
        const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
        await page.addInitScript({ content: `${TSX_HELPER}\nlocalStorage.setItem('heelwright.sock', ${JSON.stringify(JSON.stringify(TEN_THOUSAND))});` });
        await page.goto(served.url);
        await page.waitForFunction(() => window.heelwright?.isBusy === false, undefined, { timeout: 300_000 });
        const openMs = await openRoom(page), { scriptMs, frameMs, stops } = await scrub(page);
        printTable(['room of passes, software renderer', 'of the goal', 'measured'], [
          ['opening, to the first frame with beds and words', (openMs / GOAL.openMs).toFixed(2), `${openMs.toFixed(0)} ms`],
          [`scrubbing ${stops} stops, script a stop`, '', `${median(scriptMs).toFixed(1)} ms`],
          ['scrubbing, frames a second (median)', (1000 / median(frameMs) / GOAL.framesPerSecond).toFixed(2), (1000 / median(frameMs)).toFixed(1)],
          ['scrubbing, frames a second (slowest tenth)', (1000 / slowTenth(frameMs) / GOAL.framesPerSecond).toFixed(2), (1000 / slowTenth(frameMs)).toFixed(1)],
        ]);
      } finally {
        await browser.close();
      }
    } finally {
      await served.close();
    }
  } finally {
    scratch.remove();
  }
}

function openRoom(page: Page): Promise<number> {
  return page.evaluate(() => new Promise<number>((resolve) => {
    const begun = performance.now();
    document.querySelector<HTMLElement>('.room-tab[data-room=passes]')?.click();
    // The frame after next begins when the first one has been drawn.
    requestAnimationFrame(() => { requestAnimationFrame(() => { resolve(performance.now() - begun); }); });
  }));
}

/** A hand that drags the scrubber through the whole work, one frame a place, once shapes all along it are known or a minute has gone. */
async function scrub(page: Page): Promise<{ readonly scriptMs: number[]; readonly frameMs: number[]; readonly stops: number }> {
  await page.waitForFunction(() => !/\d+ %/.test(document.querySelector('.growth-words')?.textContent ?? ''), undefined, { timeout: 60_000 }).catch(() => undefined);
  return page.evaluate(async () => {
    const slider = document.querySelector<HTMLInputElement>('.way-slider');
    if (slider === null) throw new Error('the room of passes has no scrubber');
    const nextFrame = (): Promise<number> => new Promise((resolve) => { requestAnimationFrame(resolve); });
    const scriptMs: number[] = [], frameMs: number[] = [];
    let before = await nextFrame();
    for (let stop = 0; stop <= Number(slider.max); stop += 2) {
      const begun = performance.now();
      slider.value = String(stop);
      slider.dispatchEvent(new Event('input'));
      scriptMs.push(performance.now() - begun);
      const now = await nextFrame();
      frameMs.push(now - before);
      before = now;
    }
    return { scriptMs, frameMs, stops: scriptMs.length };
  });
}

function slowTenth(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(0.9 * values.length)];
}
