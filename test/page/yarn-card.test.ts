import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { openSmallSock, see, settled, weighed } from './sock-page.ts';

/** Rows of the card's first table: name, metres by rule and by loops, grams by both. */
const rowsOf = (page: Page): Promise<string[][]> => page.locator('#yarns > table tbody tr').evaluateAll((rows) => rows.map((row) => [...row.children].map((cell) => cell.textContent.trim())));
const said = (page: Page): Promise<string> => page.locator('.yarn-said').innerText();

describe('the yarn card', () => {
  it('shows the rule beside the loops, and how far they differ, of the pose at rest', async () => {
    const { page, errors } = await openSmallSock();
    await weighed(page);
    expect(await said(page)).toContain('(laid flat)');
    const rows = await rowsOf(page), numbers = rows.map(([, ...cells]) => cells.map(Number)), together = numbers.at(-1)!;
    expect(rows.at(-1)![0]).toBe('Together');
    for (let column = 0; column < 4; column++) expect(numbers.slice(0, -1).reduce((sum, row) => sum + row[column], 0)).toBe(together[column]);
    // Munden's relation speaks of relaxed cloth, a sock at rest is nearly that: not half as much, nor twice.
    expect(together[1] / together[0]).toBeGreaterThan(0.7);
    expect(together[1] / together[0]).toBeLessThan(1.3);
    const percent = Number(/takes (\d+) % (more|less)/.exec(await said(page))?.[1] ?? 0);
    expect(Math.abs(100 * Math.abs(together[1] / together[0] - 1) - percent)).toBeLessThan(2.5);
    await page.locator('.yarn-more summary').click();
    const parts = await page.locator('.yarn-more tbody tr').evaluateAll((all) => all.map((row) => [...row.children].map((cell) => cell.textContent)));
    expect(parts[0][0]).toBe('Loops');
    expect(Math.abs(parts.reduce((sum, [, , loops]) => sum + Number(loops), 0) - together[1])).toBeLessThan(1);
    expect(errors).toEqual([]);
  });

  it('keeps what it knows of this sock where it is worn, and says which pose to choose for a sock that it has not measured', async () => {
    const { page, errors } = await openSmallSock();
    await weighed(page);
    const known = await rowsOf(page);
    await page.getByRole('radio', { name: 'Worn' }).check();
    await settled(page);
    expect(await said(page)).toContain('(laid flat)');
    expect(await rowsOf(page)).toEqual(known);
    await page.getByRole('spinbutton', { name: 'Turn-down width' }).fill('10');
    await page.keyboard.press('Enter');
    await expect.poll(() => said(page)).toContain('choose Laid flat or Tube');
    await settled(page);
    expect((await rowsOf(page)).every(([, , loops]) => loops === '–')).toBe(true);
    await page.getByRole('radio', { name: 'Tube' }).check();
    await weighed(page);
    expect(await said(page)).toContain('(as tube)');
    expect((await see(page)).isBusy).toBe(false);
    expect(errors).toEqual([]);
  });
});
