import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, inject, onTestFinished } from 'vitest';
import { startBrowser } from './start-browser.ts';

export interface OpenOptions {
  /** Size of the window in CSS pixels; 1440 x 900 unless told. */
  readonly width?: number;
  readonly height?: number;
  readonly colorScheme?: 'light' | 'dark';
  readonly reducedMotion?: 'reduce' | 'no-preference';
  readonly hasTouch?: boolean;
  readonly deviceScaleFactor?: number;
  /** After the page's address: `?query` or `#hash`. */
  readonly suffix?: string;
  /** Whether the page may keep itself for the time without a network: its worker answers in the server's place from then on. */
  readonly isOffline?: boolean;
  /** Opens a second page beside an earlier one, with the same storage. */
  readonly context?: BrowserContext;
  /** Runs in the page before its own scripts. */
  readonly before?: string;
}

export interface OpenedPage {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Console errors, uncaught exceptions and failed requests so far, as text. */
  readonly errors: readonly string[];
  /** Requests that left the folder the page is served from. */
  readonly outside: readonly string[];
  close(): Promise<void>;
}

let started: Promise<Browser> | null = null;

/** One browser for each test file, started when it first wants a page. */
function browserOfFile(): Promise<Browser> {
  started ??= startBrowser(inject('browser'), inject('scratch'));
  return started;
}

afterAll(async () => {
  const browser = await started;
  started = null;
  await browser?.close();
});

/**
 * Opens the built page in a real browser and waits for its load event. To be called inside a test,
 * at whose end the page is closed: what a test leaves open would draw and relax beside the next.
 */
export async function openPage(options: OpenOptions = {}): Promise<OpenedPage> {
  const browser = await browserOfFile();
  const context = options.context ?? await browser.newContext(contextOptions(options));
  const page = await context.newPage();
  const home = inject('pageUrl');
  const errors: string[] = [];
  const outside: string[] = [];
  page.on('console', (message) => { if (message.type() === 'error') errors.push(`console: ${message.text()} (${message.location().url})`); });
  page.on('pageerror', (error) => errors.push(`uncaught: ${error.stack ?? error.message}`));
  page.on('crash', () => errors.push('the page crashed'));
  page.on('requestfailed', (request) => errors.push(`request failed: ${request.url()} ${request.failure()?.errorText ?? ''}`));
  page.on('response', (response) => { if (response.status() >= 400) errors.push(`status ${response.status()}: ${response.url()}`); });
  page.on('request', (request) => { if (isOutside(request.url(), home)) outside.push(request.url()); });
  if (options.before !== undefined) await page.addInitScript({ content: options.before });
  await page.goto(home + (options.suffix ?? ''), { waitUntil: 'load' });
  const close = (): Promise<void> => options.context === undefined ? context.close() : page.close();
  onTestFinished(close);
  return { page, context, errors, outside, close };
}

function contextOptions(options: OpenOptions): BrowserContextOptions {
  return {
    viewport: { width: options.width ?? 1440, height: options.height ?? 900 },
    colorScheme: options.colorScheme ?? 'light',
    reducedMotion: options.reducedMotion ?? 'no-preference',
    hasTouch: options.hasTouch ?? false,
    serviceWorkers: options.isOffline === true ? 'allow' : 'block',
    deviceScaleFactor: options.deviceScaleFactor ?? 1,
  };
}

function isOutside(url: string, home: string): boolean {
  return !url.startsWith(home) && !url.startsWith('data:') && !url.startsWith('blob:');
}
