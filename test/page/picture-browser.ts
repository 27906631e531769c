import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, inject } from 'vitest';
import { servePicture } from './serve-picture.ts';
import { startBrowser } from './start-browser.ts';

/** For all tests of a file one browser, and the address of the page with the picture alone; there from the first test to the last. */
export function usePictureBrowser(): { readonly browser: Browser; readonly url: string } {
  let served: Awaited<ReturnType<typeof servePicture>> | null = null, browser: Browser | null = null;
  beforeAll(async () => {
    served = await servePicture(inject('scratch'));
    browser = await startBrowser(inject('browser'), inject('scratch'));
  });
  afterAll(async () => {
    await browser?.close();
    await served?.close();
  });
  const there = <T>(value: T | null): T => {
    if (value === null) throw new Error('no test runs yet');
    return value;
  };
  return { get browser() { return there(browser); }, get url() { return there(served).url; } };
}
