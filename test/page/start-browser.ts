import { chromium } from 'playwright-core';
import type { Browser } from 'playwright-core';
import type { FoundBrowser } from './find-browser.ts';

/** WebGL2 by the software renderer, the same everywhere. */
const ARGS = ['--no-sandbox', '--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader', '--ignore-gpu-blocklist'];

/** Starts a browser whose profile and crash notes go into `scratch`. */
export function startBrowser({ executablePath, env }: FoundBrowser, scratch: string): Promise<Browser> {
  // The profile's folder is made by this process, in its own temporary folder.
  process.env['TMPDIR'] = scratch;
  const surrounding = Object.fromEntries(Object.entries(process.env).flatMap(([name, value]) => value === undefined ? [] : [[name, value]]));
  return chromium.launch({ executablePath, args: ARGS, env: { ...surrounding, ...env } });
}
