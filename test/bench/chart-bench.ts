import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { layChart } from '../../src/sheet/lay-chart.ts';
import { writeChart } from '../../src/sheet/write-chart.ts';
import { WORDS } from '../../src/words/words.ts';
import { findBrowser } from '../page/find-browser.ts';
import { createScratchFolder } from '../page/scratch-folder.ts';
import { servePage } from '../page/serve-page.ts';
import { startBrowser } from '../page/start-browser.ts';
import { knitOrThrow, TEN_THOUSAND } from './bench-socks.ts';
import { printTable } from './table.ts';
import { median, medianMs } from './timing.ts';

const FRAMES = 60;
/** What the page's script runs inside the page is compiled by tsx, whose functions call a helper that the page has not. */
const TSX_HELPER = 'globalThis.__name = (made) => made;';

/** Laying out and writing the chart of ten thousand stitches, and moving it in a real browser. */
export async function benchChart(root: string): Promise<void> {
  benchWriting();
  const scratch = createScratchFolder();
  try {
    const served = await servePage(root, scratch.path);
    try {
      const browser = await startBrowser(await findBrowser(root, join(scratch.path, 'browser')), scratch.path);
      try {
        await benchMoving(browser, served.url);
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

function benchWriting(): void {
  const sock = knitOrThrow(TEN_THOUSAND), chart = layChart(sock, 'sock', 'beds');
  const style = { words: WORDS.en, numbers: 'middle', needlesPerBed: sock.trace.needlesPerBed, yarns: sock.plan.yarns, name: 'Bench', cellWidthMm: 4, isTinted: true } as const;
  const knit = medianMs(() => { knitSock(TEN_THOUSAND); }, 9), lay = medianMs(() => { layChart(sock, 'sock', 'beds'); }, 9), write = medianMs(() => { writeChart(chart, style); }, 9);
  printTable([`chart of ${chart.cellCount} cells`, 'over knitting it', 'ms'], [
    ['knitted', '1.00', knit.toFixed(1)], ['laid out', (lay / knit).toFixed(2), lay.toFixed(1)],
    [`written, ${(writeChart(chart, style).length / 1000).toFixed(0)} kB`, (write / knit).toFixed(2), write.toFixed(1)],
  ]);
}

/** Frames of a page at rest, and while the chart is panned, zoomed and pointed at: the time from one to the next. */
async function benchMoving(browser: Browser, url: string): Promise<void> {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await page.addInitScript({ content: `${TSX_HELPER} try { localStorage.setItem('heelwright.sock', ${JSON.stringify(JSON.stringify(TEN_THOUSAND))}); localStorage.setItem('heelwright.chart', '{"part":"sock"}'); } catch {}` });
  await page.goto(url);
  await page.waitForFunction(() => window.heelwright?.isBusy === false && window.heelwright.plan !== null, undefined, { timeout: 120_000 });
  await page.locator('.room-tab[data-room=chart]').click();
  await page.waitForTimeout(1500);
  const idle = await framesOf(page, 'idle');
  const rows: string[][] = [['page at rest', '1.00', idle.toFixed(1)]];
  for (const [name, wheel] of [['all of it in sight', 0], ['cells of some 10 px', 4], ['cells of some 40 px', 5]] as const) {
    const box = await page.locator('.chart-board').boundingBox();
    if (box === null) throw new Error('chart-bench: no board');
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    for (let i = 0; i < wheel; i++) await page.mouse.wheel(0, -200);
    await page.waitForTimeout(800);
    for (const move of ['pan', 'hover'] as const) {
      const ms = await framesOf(page, move);
      rows.push([`${name}, ${move}`, (ms / idle).toFixed(2), ms.toFixed(1)]);
    }
  }
  await page.close();
  printTable(['frame of the chart, software renderer', 'over a page at rest', 'ms'], rows);
}

/** Median milliseconds from frame to frame while the pointer moves once a frame. */
async function framesOf(page: Page, move: 'idle' | 'pan' | 'hover'): Promise<number> {
  return median(await page.evaluate(({ what, frames }) => new Promise<number[]>((resolve) => {
    const board = document.querySelector('.chart-board');
    if (board === null) throw new Error('no board');
    const box = board.getBoundingClientRect(), times: number[] = [];
    const send = (type: string, x: number, y: number): void => {
      board.dispatchEvent(new PointerEvent(type, { pointerId: 1, button: 0, clientX: box.left + x, clientY: box.top + y, bubbles: true }));
    };
    // A pointer that no hand holds cannot be captured.
    (board as HTMLElement).setPointerCapture = () => undefined;
    if (what === 'pan') send('pointerdown', 300, 300);
    const step = (now: number): void => {
      times.push(now);
      const turn = times.length / 6;
      if (what !== 'idle') send('pointermove', 300 + 120 * Math.sin(turn), 300 + 90 * Math.cos(turn));
      if (times.length <= frames) requestAnimationFrame(step);
      else {
        if (what === 'pan') send('pointerup', 300, 300);
        resolve(times.slice(1).map((time, i) => time - times[i]));
      }
    };
    requestAnimationFrame(step);
  }), { what: move, frames: FRAMES }));
}
