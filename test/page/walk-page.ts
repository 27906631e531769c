import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';
import { settled } from './sock-page.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Begins a visit with these settings, as an earlier one would have left them. */
export function withSettings(settings: Readonly<Record<string, string>>): string {
  return `try { if (localStorage.getItem('heelwright.settings') === null) localStorage.setItem('heelwright.settings', ${JSON.stringify(JSON.stringify(settings))}); } catch {}`;
}

/** Serious and critical findings of axe-core on the page as it stands, each with the first elements it is about. */
export async function audit(page: Page): Promise<string[]> {
  await page.evaluate(AXE);
  const { violations } = await page.evaluate(() => (window as unknown as { axe: { run(): Promise<AxeResults> } }).axe.run());
  return violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, nodes }) => `${id}: ${nodes.slice(0, 3).map(({ html, any }) => `${html.slice(0, 160)} ${any[0]?.message.slice(0, 160) ?? ''}`).join(' | ')} (${nodes.length})`);
}

/** Goes through every room, every tab in it and every sheet that a button opens, and looks at each. */
export async function walkPage(page: Page, look: (where: string) => Promise<void>): Promise<number> {
  // A button that asks for a file has no sheet of the page's.
  page.on('filechooser', () => undefined);
  let seen = 0;
  const see = async (where: string): Promise<void> => {
    await settled(page);
    await look(where);
    seen += 1;
  };
  const rooms = await page.locator('.room-tab').evaluateAll((tabs) => tabs.map((tab) => tab.getAttribute('data-room') ?? ''));
  for (const room of rooms) {
    await page.locator(`.room-tab[data-room="${room}"]`).click();
    // A room is fetched as it is entered.
    if (room !== 'shape') await page.locator(`#room-${room} > *`).first().waitFor({ state: 'attached' });
    await see(room);
    for (const tab of await page.locator('[role=tab]:visible').evaluateAll((tabs) => tabs.map(({ id }) => id))) {
      await page.locator(`#${tab}`).click();
      await see(`${room}, ${tab}`);
    }
    await seeSheets(page, room, see);
  }
  await page.locator('.room-tab').first().click();
  await settled(page);
  return seen;
}

/** Sheets behind buttons that say so, by their three dots or to a screen reader; those of the bars once. */
async function seeSheets(page: Page, room: string, see: (where: string) => Promise<void>): Promise<void> {
  const scope = room === 'shape' ? '' : `#room-${room} `;
  const buttons = page.locator(`${scope}button:visible:enabled`).filter({ hasText: /…$/ }).or(page.locator(`${scope}button[aria-haspopup=dialog]:visible`));
  for (let place = 0; place < await buttons.count(); place += 1) {
    const name = await buttons.nth(place).evaluate((button) => button.getAttribute('aria-label') ?? button.textContent);
    await buttons.nth(place).click();
    await page.waitForTimeout(300);
    if (await page.locator('dialog[open]').count() === 0) continue;
    await see(`${room}, ${name}`);
    await page.keyboard.press('Escape');
    await page.locator('dialog[open]').waitFor({ state: 'detached', timeout: 1000 }).catch(() => undefined);
  }
}

/** What is cut off: words wider than the box that hides the rest, and boxes that run out of the window sideways. A person's own text may be cut, and is marked so (`dir=auto`). */
export function findCutOff(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const width = document.documentElement.clientWidth, found: string[] = [];
    for (const element of document.querySelectorAll<HTMLElement>('button, label, legend, summary, th, td, h1, h2, h3, p, li, dt, dd, select, .lil-name, .lil-display')) {
      if (!element.checkVisibility({ visibilityProperty: true }) || element.closest('.visually-hidden, [dir=auto], [aria-hidden=true], .tip') !== null) continue;
      const box = element.getBoundingClientRect(), { overflowX } = getComputedStyle(element);
      if (box.width === 0 || box.height === 0) continue;
      const isHidden = overflowX !== 'visible' && element.scrollWidth > element.clientWidth + 1;
      const isSpilt = element.matches('button') && element.scrollWidth > element.clientWidth + 1;
      // What lies in a box that scrolls sideways by design can be reached.
      const isOut = (box.right > width + 1 || box.left < -1) && element.closest('.sizes-scroll, .advice-result') === null;
      if (isHidden || isSpilt || isOut) found.push(`${element.tagName.toLowerCase()}.${element.className}: ${element.textContent.slice(0, 60)}`);
    }
    if (document.documentElement.scrollWidth > width + 1) found.push(`the page is ${document.documentElement.scrollWidth} wide in a window of ${width}`);
    return [...new Set(found)];
  });
}

/** Controls in sight that, scrolled to, lie under something else. */
export function findCovered(page: Page, selector: string): Promise<string[]> {
  return page.evaluate((within) => [...document.querySelectorAll<HTMLElement>(`${within} :is(button, select, input:not([type=color], [type=file]), a[href], summary, [role=slider])`)].filter((control) => {
    if (!control.checkVisibility({ visibilityProperty: true }) || control.matches(':disabled') || control.closest('.skip-link') !== null) return false;
    control.scrollIntoView({ block: 'center', inline: 'center', behavior: 'instant' });
    const { left, top, width, height } = control.getBoundingClientRect(), hit = document.elementFromPoint(left + width / 2, top + height / 2);
    return !(hit !== null && (control.contains(hit) || hit.contains(control) || hit.closest('label, .lil-widget') === control.closest('label, .lil-widget')));
  }).map((control) => control.outerHTML.slice(0, 120)), selector);
}

/** Pairs of the page's large parts that lie over each other. */
export function findOverlaps(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const parts = ['#top-bar', '#stage', '#strip', '#deck', '#panel'].map((selector) => ({ selector, box: document.querySelector(selector)?.getBoundingClientRect() }));
    return parts.flatMap((one, i) => parts.slice(i + 1).flatMap((other) => {
      const [a, b] = [one.box, other.box];
      if (a === undefined || b === undefined) return [`${one.selector} or ${other.selector} is missing`];
      const isApart = a.right <= b.left + 1 || b.right <= a.left + 1 || a.bottom <= b.top + 1 || b.bottom <= a.top + 1;
      return isApart ? [] : [`${one.selector} over ${other.selector}`];
    }));
  });
}
