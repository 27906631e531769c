import type { Page } from 'playwright-core';

/** Controls in sight under a selector that a screen reader would have no name for. */
export function namelessControls(page: Page, selector: string): Promise<string[]> {
  return page.evaluate((within) => [...document.querySelectorAll(`${within} :is(input, select, button, textarea, [role=slider])`)]
    .filter((control) => {
      if (!control.checkVisibility()) return false;
      const labels = control instanceof HTMLInputElement || control instanceof HTMLSelectElement ? [...control.labels ?? []].map((label) => label.textContent).join('') : '';
      return `${control.getAttribute('aria-label') ?? ''}${labels}${control.textContent}`.trim() === '';
    }).map((control) => control.outerHTML), selector);
}
