import { join } from 'node:path';
import type {} from '../page/picture/picture.ts';
import { runToEnd } from '../../src/base/run-to-end.ts';
import { createGrower } from '../../src/pipeline/grow-sock.ts';
import { createSockHanger } from '../../src/pipeline/hang-sock.ts';
import { findBrowser } from '../page/find-browser.ts';
import { createScratchFolder } from '../page/scratch-folder.ts';
import { servePicture } from '../page/serve-picture.ts';
import { startBrowser } from '../page/start-browser.ts';
import { benchSock, knitOrThrow, TEN_THOUSAND } from './bench-socks.ts';
import { printTable } from './table.ts';

const SOCKS = [['2,456 loops', benchSock(0.5)], ['9,980 loops', TEN_THOUSAND]] as const;
/** Goals: fifteen frames a second, and a timeline that opens within a second, ms. */
const FRAME_GOAL_MS = 1000 / 15, OPEN_GOAL_MS = 1000;
const FRAMES = 60;

/** A growing sock: its keyframes as the worker makes them, and pass after pass drawn in a real browser at the size of the page's stage. */
export async function benchTimeline(root: string): Promise<void> {
  benchKeyframes();
  const scratch = createScratchFolder();
  try {
    const served = await servePicture(scratch.path), browser = await startBrowser(await findBrowser(root, join(scratch.path, 'browser')), scratch.path);
    try {
      const rows: string[][] = [];
      for (const [name, file] of SOCKS) {
        const page = await browser.newPage({ viewport: { width: 900, height: 480 } });
        await page.addInitScript({ content: 'globalThis.__name = (made) => made;' });
        await page.goto(served.url);
        await page.waitForFunction(() => window.picture !== undefined);
        const run = await page.evaluate(async ([sock, count]) => {
          const { view, grow } = window.picture!, { frameAt, lastPass, sock: { trace } } = grow(sock, true);
          const nextFrame = (): Promise<unknown> => new Promise((resolve) => requestAnimationFrame(resolve));
          view.setGrowth(frameAt(lastPass));
          await nextFrame();
          let hung = 0, taken = 0;
          const begun = performance.now(), drawnBefore = view.counters().frames;
          for (let k = 0; k < count; k++) {
            const pass = Math.round((k + 1) * lastPass / count), start = performance.now(), frame = frameAt(pass), made = performance.now();
            view.setGrowth(frame);
            view.setLit({ first: trace.passes[pass].firstLoop, end: trace.passes[pass].endLoop, loops: [] });
            hung += made - start;
            taken += performance.now() - made;
            await nextFrame();
          }
          // Reading a pixel waits until all is drawn.
          const gl = (document.getElementById('sock') as HTMLCanvasElement).getContext('webgl2')!;
          gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, new Uint8Array(4));
          const frames = view.counters().frames - drawnBefore;
          return { hung: hung / count, taken: taken / count, frame: (performance.now() - begun) / frames, frames };
        }, [file, FRAMES] as const);
        await page.close();
        rows.push([name, (run.frame / FRAME_GOAL_MS).toFixed(2), run.frame.toFixed(1), (1000 / run.frame).toFixed(0), run.hung.toFixed(2), run.taken.toFixed(1), String(run.frames)]);
      }
      printTable(['pass after pass, software renderer, 900 x 480', 'frame / goal', 'frame ms', 'frames a second', 'hangAt ms', 'to the GPU ms', 'frames'], rows);
    } finally {
      await browser.close();
      await served.close();
    }
  } finally {
    scratch.remove();
  }
}

/** As in the worker, from a knitted sock: a shape for every pass, the pass that is looked at near rest, all close enough. */
function benchKeyframes(): void {
  const rows = SOCKS.map(([name, file]) => {
    const begun = performance.now(), sock = knitOrThrow(file), hanger = createSockHanger(sock), grower = createGrower(sock, hanger.growth, hanger.book);
    const attention = { pass: sock.trace.passes.findIndex(({ section }) => section === 'heel-out'), isResting: false };
    const since = (): number => performance.now() - begun;
    let usable = 0, first = 0;
    for (let task = grower.next(attention); task !== null; task = grower.next(attention)) {
      if (task.quality > 0 && usable === 0) usable = since();
      runToEnd(grower.make(task));
      if (task.quality > 0 && first === 0) first = since();
    }
    const all = since();
    return [name, (usable / OPEN_GOAL_MS).toFixed(2), usable.toFixed(0), first.toFixed(0), all.toFixed(0), `${hanger.book.keyframes.length} of ${hanger.growth.lastPass + 1}`, (all / hanger.book.keyframes.length).toFixed(0)];
  });
  printTable(['keyframes of a sock, knitting included', 'usable / goal', 'usable ms', 'first at rest ms', 'all ms', 'keyframes', 'ms each'], rows);
}
