import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Browser } from 'playwright-core';
import type {} from '../../src/main/page-hook.ts';
import type { WorkReply, WorkRequest } from '../../src/worker/messages.ts';
import { findBrowser } from '../page/find-browser.ts';
import { createScratchFolder } from '../page/scratch-folder.ts';
import { servePage } from '../page/serve-page.ts';
import { startBrowser } from '../page/start-browser.ts';
import { TEN_THOUSAND } from './bench-socks.ts';
import { median } from './timing.ts';
import { printTable } from './table.ts';

/** What the page may weigh, in bytes: the goal that sizes are set beside. */
const SCRIPT_GOAL = { raw: 1_000_000, gzip: 300_000 };
const RUNS = 3;

/** Sizes of the built page's scripts, and the worker's start in a real browser. */
export async function benchPage(root: string): Promise<void> {
  const scratch = createScratchFolder();
  try {
    const served = await servePage(root, scratch.path);
    try {
      const workerScript = printSizes(served.folder);
      const browser = await startBrowser(await findBrowser(root, join(scratch.path, 'browser')), scratch.path);
      try {
        await benchWorker(browser, served.url, workerScript);
        await benchOpening(browser, served.url);
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

/** Returns the path of the worker's script inside the folder. */
function printSizes(folder: string): string {
  const scripts = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((path) => path.endsWith('.js')).sort();
  const sizes = scripts.map((path) => {
    const bytes = readFileSync(join(folder, path));
    return { path, raw: bytes.length, gzip: gzipSync(bytes).length };
  });
  const raw = sizes.reduce((sum, size) => sum + size.raw, 0);
  const gzip = sizes.reduce((sum, size) => sum + size.gzip, 0);
  printTable(['script of the page', 'bytes', 'gzip', 'of the goal', 'gzip of the goal'],
    [...sizes, { path: 'together', raw, gzip }].map((size) => [
      size.path, String(size.raw), String(size.gzip), (size.raw / SCRIPT_GOAL.raw).toFixed(2), (size.gzip / SCRIPT_GOAL.gzip).toFixed(2),
    ]));
  const worker = scripts.find((path) => /worker/.test(path));
  if (worker === undefined) throw new Error('the built page has no worker script');
  return worker;
}

/** What the page's script runs inside the page is compiled by tsx, whose functions call a helper that the page has not. */
const TSX_HELPER = 'globalThis.__name = (made) => made;';

/** Time from starting a worker to its first knitted sock, beside the same of one already warm. */
async function benchWorker(browser: Browser, url: string, workerScript: string): Promise<void> {
  const page = await browser.newPage();
  await page.addInitScript({ content: TSX_HELPER });
  await page.goto(url);
  await page.waitForFunction(() => window.heelwright?.isBusy === false, undefined, { timeout: 120_000 });
  const runs: { cold: number; warm: number }[] = [];
  for (let run = 0; run < RUNS; run++) {
    runs.push(await page.evaluate(async ({ address, file }) => {
      const begun = performance.now();
      const worker = new Worker(address, { type: 'module' });
      const knit = (id: number): Promise<void> => new Promise((resolve, reject) => {
        worker.onerror = (event) => { reject(new Error(event.message)); };
        worker.onmessage = ({ data }: MessageEvent<WorkReply>) => {
          if (data.kind === 'done') resolve();
          else if (data.kind !== 'knitted') reject(new Error(`unexpected reply: ${data.kind}`));
        };
        worker.postMessage({ kind: 'make', id, file, pose: 'flat', pass: null, needsShape: false } satisfies WorkRequest);
      });
      await knit(1);
      const started = performance.now();
      await knit(2);
      const again = performance.now();
      worker.terminate();
      return { cold: started - begun, warm: again - started };
    }, { address: new URL(workerScript, url).href, file: TEN_THOUSAND }));
  }
  await page.close();
  const cold = median(runs.map((run) => run.cold));
  const warm = median(runs.map((run) => run.warm));
  printTable(['worker in the browser', 'over a warm one', 'ms'], [
    ['started and first sock knitted', (cold / warm).toFixed(2), cold.toFixed(1)],
    ['second sock knitted', '1.00', warm.toFixed(1)],
  ]);
}

/** Times from the start of loading to the first frame, to the first shape under way, and to its rest, in fresh profiles. */
async function benchOpening(browser: Browser, url: string): Promise<void> {
  const runs: { loaded: number; drawn: number; settled: number }[] = [];
  for (let run = 0; run < RUNS; run++) {
    const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
    const page = await context.newPage();
    await page.addInitScript({ content: TSX_HELPER });
    await page.goto(url, { waitUntil: 'commit' });
    runs.push(await page.evaluate(() => new Promise((resolve) => {
      let drawn = 0;
      const look = (): void => {
        const hook = window.heelwright;
        if (drawn === 0 && (hook?.view?.frames ?? 0) > 0) drawn = performance.now();
        if (drawn > 0 && hook?.isBusy === false) {
          const [entry] = performance.getEntriesByType('navigation') as PerformanceNavigationTiming[];
          resolve({ loaded: entry.loadEventEnd, drawn, settled: performance.now() });
        } else {
          setTimeout(look, 5);
        }
      };
      look();
    })));
    await context.close();
  }
  const loaded = median(runs.map((run) => run.loaded));
  const row = (name: string, ms: number): string[] => [name, (ms / loaded).toFixed(2), ms.toFixed(0)];
  printTable(['opening the page, software renderer', 'over loading', 'ms'], [
    row('loaded', loaded),
    row('first frame', median(runs.map((run) => run.drawn))),
    row('example sock at rest', median(runs.map((run) => run.settled))),
  ]);
}
