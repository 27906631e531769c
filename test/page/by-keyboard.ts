import type { Locator, Page } from 'playwright-core';
import { expect } from 'vitest';

/** Hands that know no mouse: every way is gone by keys, and the place where they are is seen at each stop. */
export interface ByKeyboard {
  /** Goes to a control by Tab, among the choices of a group by arrow keys. */
  to(target: Locator): Promise<void>;
  /** Goes there and presses a key. */
  press(target: Locator, key?: string): Promise<void>;
  /** Goes to a field, writes over what it says, and sends it off. */
  write(target: Locator, text: string): Promise<void>;
  /** Past the bars, by the page's own first stop. */
  skip(): Promise<void>;
}

/** No way is longer; the longest of today's page leads through all controls of the panel. */
const MOST_STOPS = 150;

export function byKeyboard(page: Page): ByKeyboard {
  const tab = async (way: 'Tab' | 'Shift+Tab'): Promise<void> => {
    await page.keyboard.press(way);
    const lost = await page.evaluate(findLostFocus);
    expect(lost, `after ${way}`).toBeNull();
  };
  const toStop = async (target: Locator): Promise<void> => {
    for (let stops = 0; stops < MOST_STOPS; stops += 1) {
      const way = await target.evaluate(wayTo);
      if (way === null) return;
      await tab(way);
    }
    throw new Error(`${MOST_STOPS} stops of Tab do not lead to ${String(target)}`);
  };
  const to = async (target: Locator): Promise<void> => {
    const choices = await target.evaluate(stopOfGroup);
    if (choices > 0) await toStop(page.locator('[data-stop-of-group]'));
    for (let i = 0; i < choices && await target.evaluate(wayTo) !== null; i += 1) await page.keyboard.press('ArrowRight');
    await toStop(target);
  };
  return {
    to,
    press: async (target, key = 'Enter') => {
      await to(target);
      await page.keyboard.press(key);
      // What a key does may take the control away with it, but never the place where the hands are.
      await page.waitForFunction(() => document.activeElement !== document.body, null, { timeout: 10_000 });
    },
    write: async (target, text) => {
      await to(target);
      await page.keyboard.press('Control+a');
      await page.keyboard.type(text);
      await page.keyboard.press('Enter');
    },
    skip: async () => {
      await toStop(page.locator('#skip-link'));
      await page.keyboard.press('Enter');
      await page.waitForFunction(() => document.activeElement !== document.body);
    },
  };
}

/** Which way of Tab leads to an element; null where the focus is on it. */
function wayTo(element: Element): 'Tab' | 'Shift+Tab' | null {
  const active = document.activeElement ?? document.body;
  if (active === element) return null;
  return (active.compareDocumentPosition(element) & Node.DOCUMENT_POSITION_PRECEDING) !== 0 && active !== document.body ? 'Shift+Tab' : 'Tab';
}

/** Of radio buttons and tabs Tab stops at the chosen one only: it is marked, and the number of its group given; 0 for any other control. */
function stopOfGroup(element: Element): number {
  document.querySelector('[data-stop-of-group]')?.removeAttribute('data-stop-of-group');
  const group = element instanceof HTMLInputElement && element.type === 'radio' ? [...document.getElementsByName(element.name)]
    : [...element.closest('[role=tablist]')?.querySelectorAll('[role=tab]') ?? []];
  const chosen = group.find((one) => (one instanceof HTMLInputElement ? one.checked : one.getAttribute('aria-selected') === 'true'));
  chosen?.setAttribute('data-stop-of-group', '');
  return chosen === undefined ? 0 : group.length;
}

/** What is wrong with the place of the focus, as eyes see it: nowhere, out of the window, without a ring; null where all is well. */
function findLostFocus(): string | null {
  const active = document.activeElement;
  if (active === null || active === document.body) return 'the focus is nowhere';
  const name = active.outerHTML.slice(0, 120);
  // A choice that is drawn otherwise than the browser does wears its ring on its label or on what is drawn beside it.
  const ringed = [active, active.closest('label'), active.nextElementSibling].find((element) => {
    if (element === null) return false;
    const { outlineStyle, outlineWidth } = getComputedStyle(element);
    return outlineStyle !== 'none' && parseFloat(outlineWidth) > 0;
  });
  if (ringed === undefined || ringed === null) return `no ring about ${name}`;
  const { left, top, right, bottom } = ringed.getBoundingClientRect();
  const isInWindow = right > left && bottom > top && right > 0 && bottom > 0 && left < innerWidth && top < innerHeight;
  return isInWindow ? null : `out of sight: ${name}`;
}
