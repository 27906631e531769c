import { loadavg } from 'node:os';
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
        const opened = await openRoom(page), early = await scrub(page), readyMs = await waitForShapes(page), late = await scrub(page);
        printTable([`room of passes, software renderer, load average ${loadavg()[0].toFixed(1)}`, 'of the goal', 'measured'], [
          ['opening, to the first frame with beds and words', (opened.wordsMs / GOAL.openMs).toFixed(2), `${opened.wordsMs.toFixed(0)} ms`],
          ['opening, to the first frame with the fabric', (opened.fabricMs / GOAL.openMs).toFixed(2), `${opened.fabricMs.toFixed(0)} ms`],
          ...scrubRows('while shapes are made', early),
          ['shapes all along the making, after that', '', `${(readyMs / 1000).toFixed(1)} s`],
          ...scrubRows('with all shapes', late),
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

interface Opened { readonly wordsMs: number; readonly fabricMs: number }

/** A click on the room's tab; a frame has been drawn when the one after it begins. The fabric is there when its words tell of it. */
function openRoom(page: Page): Promise<Opened> {
  return page.evaluate(async () => {
    const nextFrame = (): Promise<number> => new Promise((resolve) => { requestAnimationFrame(resolve); }), begun = performance.now();
    document.querySelector<HTMLElement>('.room-tab[data-room=passes]')?.click();
    await nextFrame();
    await nextFrame();
    const wordsMs = performance.now() - begun;
    while ((document.querySelector('.growth-words')?.textContent ?? '') === '') await nextFrame();
    await nextFrame();
    return { wordsMs, fabricMs: performance.now() - begun };
  });
}

/** Until shapes all along the work are close enough, ms; two minutes at most. */
async function waitForShapes(page: Page): Promise<number> {
  const begun = performance.now();
  await page.waitForFunction(() => {
    const told = document.querySelector('.growth-words')?.textContent ?? '';
    return told !== '' && !/\d+ %/.test(told);
  }, undefined, { timeout: 120_000 }).catch(() => undefined);
  return performance.now() - begun;
}

interface Scrub { readonly scriptMs: number[]; readonly frameMs: number[]; readonly allMs: number }

/** Passes from one frame to the next. */
const STRIDE = 4;

/** A hand that drags the scrubber through the whole work, one place a frame. */
function scrub(page: Page): Promise<Scrub> {
  return page.evaluate(async (stride) => {
    const slider = document.querySelector<HTMLInputElement>('.way-slider');
    if (slider === null) throw new Error('the room of passes has no scrubber');
    const nextFrame = (): Promise<number> => new Promise((resolve) => { requestAnimationFrame(resolve); });
    const scriptMs: number[] = [], frameMs: number[] = [], first = await nextFrame();
    let before = first;
    for (let stop = 0; stop <= Number(slider.max); stop += stride) {
      const begun = performance.now();
      slider.value = String(stop);
      slider.dispatchEvent(new Event('input'));
      scriptMs.push(performance.now() - begun);
      const now = await nextFrame();
      frameMs.push(now - before);
      before = now;
    }
    return { scriptMs, frameMs, allMs: before - first };
  }, STRIDE);
}

function scrubRows(when: string, { scriptMs, frameMs, allMs }: Scrub): string[][] {
  const rate = (ms: number): [string, string] => [(1000 / ms / GOAL.framesPerSecond).toFixed(2), `${(1000 / ms).toFixed(1)} frames a second, ${ms.toFixed(0)} ms a frame`];
  return [
    [`scrubbing ${frameMs.length} stops ${when}, on the whole`, ...rate(allMs / frameMs.length)],
    ['- in the middle', ...rate(median(frameMs))],
    ['- of the slowest tenth', ...rate(slowTenth(frameMs))],
    ['- script a stop', '', `${median(scriptMs).toFixed(1)} ms`],
  ];
}

function slowTenth(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(0.9 * values.length)];
}
