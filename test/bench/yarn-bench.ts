import { readdirSync, readFileSync } from 'node:fs';
import { loadavg } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import type {} from '../page/picture/picture.ts';
import { SECTION } from '../../src/machine/codes.ts';
import { laySockYarn } from '../../src/pipeline/lay-sock-yarn.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { findContacts } from '../../src/yarn/find-contacts.ts';
import { findBrowser } from '../page/find-browser.ts';
import { createScratchFolder } from '../page/scratch-folder.ts';
import { servePicture } from '../page/serve-picture.ts';
import { startBrowser } from '../page/start-browser.ts';
import { benchSock, knitOrThrow, TEN_THOUSAND } from './bench-socks.ts';
import { arrayBytes, createReferenceKernel, exponent, median, medianMs } from './timing.ts';
import { printTable } from './table.ts';

/** What yarn is to keep to: a frame of it over one of the mesh, and for ten thousand loops time to lay it and bytes of it. */
const GOAL = { frameRatio: 25, layMs: 100, bytes: 4e6 };
/** Pixels a stitch at which frames are timed: on a software renderer yarn begins to show from 23 on. */
const ZOOMS = [20, 28, 34, 60, 100, 200, 400, 800] as const;
const FRAMES = 5;

/** Laying the yarn of socks in Node, how deep it then lies in itself, and drawing that of ten thousand loops in a real browser with a software renderer. */
export async function benchYarn(root: string, wantsAll: boolean): Promise<void> {
  benchLaying(wantsAll);
  listContacts(root);
  const scratch = createScratchFolder();
  try {
    const served = await servePicture(scratch.path);
    try {
      const browser = await startBrowser(await findBrowser(root, join(scratch.path, 'browser')), scratch.path);
      try {
        await benchFrames(browser, served.url);
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

/** How deep the yarns of the example socks lie in each other, in thicknesses of yarn. */
function listContacts(root: string): void {
  const folder = join(root, 'public', 'socks');
  const rows = readdirSync(folder).sort().flatMap((name) => {
    const sock = knitOrThrow(JSON.parse(readFileSync(join(folder, name), 'utf8')) as SockFile);
    return (['tube', 'flat'] as const).map((pose) => {
      const { meanDepth, depth99, deepest } = findContacts(laySockYarn(sock, poseSock(sock, pose).pose.positions, pose));
      return [name, pose, ...[meanDepth, depth99, deepest].map((depth) => depth.toFixed(3))];
    });
  });
  printTable(['sock', 'pose', 'depth on the mean', '99th percentile', 'deepest'], rows);
}

/** The sock of ten thousand loops first, cold; shapes of the largest take minutes to relax. */
function benchLaying(wantsAll: boolean): void {
  const referenceMs = medianMs(createReferenceKernel(), 9), points: [number, number][] = [];
  const rows = [TEN_THOUSAND, benchSock(0.5), benchSock(1.5), ...(wantsAll ? [benchSock(2), benchSock(3.3)] : [])].map((file) => {
    // A finer gauge has finer yarn, of as many metres more as its stitches are smaller, squared.
    const fineness = file.gauge.stitchesPer10cm / TEN_THOUSAND.gauge.stitchesPer10cm, metresPer100g = Math.min(2000, 420 * fineness ** 2);
    const sock = knitOrThrow({ ...file, yarns: [{ metresPer100g }] }), { positions } = poseSock(sock, 'flat').pose, begun = performance.now(), lay = laySockYarn(sock, positions, 'flat');
    const coldMs = performance.now() - begun, warmMs = medianMs(() => { laySockYarn(sock, positions, 'flat'); }, 5), { loops } = sock.trace, bytes = arrayBytes(lay);
    points.push([loops, warmMs]);
    return [
      String(loops), (warmMs / referenceMs).toFixed(2), warmMs.toFixed(0), coldMs.toFixed(0), (warmMs / (loops / 1e4) / GOAL.layMs).toFixed(2),
      (bytes / loops).toFixed(0), (bytes / (loops / 1e4) / GOAL.bytes).toFixed(2),
    ];
  });
  printTable([`loops, load average ${loadavg()[0].toFixed(1)}`, 'lay / kernel', 'ms warm', 'ms first', 'of the goal a loop', 'bytes a loop', 'of the goal a loop'], rows);
  console.log(`laying grows with loops to the power ${exponent(points).toFixed(2)}`);
}

async function benchFrames(browser: Browser, url: string): Promise<void> {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, reducedMotion: 'reduce' });
  await page.addInitScript({ content: 'globalThis.__name = (made) => made;' });
  await page.goto(url);
  await page.waitForFunction(() => window.picture !== undefined);
  await page.evaluate((file) => {
    const { view, make, companionOf } = window.picture!, { fabric, grid, yarnColours, positions } = companionOf(make(file, 'flat'), '');
    view.setFabric(fabric, grid, yarnColours);
    view.setPositions(positions, true, 'flat');
  }, TEN_THOUSAND);
  const loop = loopInTheMiddle();
  const meshMs = await frameMs(page), rows = [['whole sock, mesh', '1.00', meshMs.toFixed(0), '', '', '']];
  for (const pixels of ZOOMS) {
    await page.evaluate(([loop, pixels]) => { window.picture!.view.approach(loop, pixels); }, [loop, pixels] as const);
    const ms = await frameMs(page), { level, triangles, calls, pieces } = await page.evaluate(() => window.picture!.view.detail());
    rows.push([`${pixels} pixels a stitch, ${level}`, (ms / meshMs).toFixed(2), ms.toFixed(0), String(triangles), String(calls), String(pieces)]);
  }
  printTable([`frame at 1440 x 900, software renderer, load average ${loadavg()[0].toFixed(1)} (goal: ${GOAL.frameRatio})`, 'over the mesh', 'ms', 'triangles', 'calls', 'pieces'], rows);
}

function loopInTheMiddle(): number {
  const { fabric, grid } = knitOrThrow(TEN_THOUSAND), { vertexLoop, vertexAround, vertexSection } = fabric;
  const side = Array.from(vertexLoop.keys()).filter((v) => vertexSection[v] === SECTION.foot && Math.abs(vertexAround[v] - 0.75) < 0.02 && grid.child[vertexLoop[v]] >= 0);
  return vertexLoop[side[side.length >> 1]];
}

/** A frame of the picture at rest, to the last of its pixels: reading one back waits for all. */
async function frameMs(page: Page): Promise<number> {
  const times: number[] = [];
  for (let frame = -2; frame < FRAMES; frame++) {
    await page.waitForTimeout(400);
    const ms = await page.evaluate(() => new Promise<number>((resolve) => {
      const gl = (document.getElementById('sock') as HTMLCanvasElement).getContext('webgl2')!, pixel = new Uint8Array(4);
      const finish = (): void => { gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, pixel); };
      let begun = 0;
      requestAnimationFrame(() => { finish(); begun = performance.now(); });
      window.picture!.view.setTheme('light');
      requestAnimationFrame(() => { finish(); resolve(performance.now() - begun); });
    }));
    // The first ones lay the yarn and compile what draws it.
    if (frame >= 0) times.push(ms);
  }
  return median(times);
}
