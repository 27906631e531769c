import { describe, expect, it } from 'vitest';
import { openPage } from './browser.ts';
import { openSmallSock, see, SMALL_SOCK } from './sock-page.ts';

describe('the look', () => {
  it('nothing runs over the side at any size, and sock, heel depth and counts are in sight', async () => {
    const { page } = await openSmallSock();
    for (const [width, height] of [[1440, 900], [1024, 768], [768, 1024]] as const) {
      await page.setViewportSize({ width, height });
      const at = `at ${width} x ${height}`;
      expect(await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth), at).toBeLessThanOrEqual(0);
      for (const selector of ['#sock', '[data-measure=heelDepthMm]', '[data-count=turnDownWidth]', '[data-count=footPasses]']) {
        const box = await page.locator(selector).boundingBox();
        expect(box, `${selector} ${at}`).not.toBeNull();
        expect(box!.y + Math.min(box!.height, 30), `${selector} ${at}`).toBeLessThanOrEqual(height);
      }
    }
  });

  it('two long cautions on a small tablet leave sock, plan and controls where they are', async () => {
    const { page } = await openSmallSock({
      width: 1024, height: 768,
      before: `localStorage.setItem('heelwright.sock', ${JSON.stringify(JSON.stringify({ ...SMALL_SOCK, foot: { ankleGirthMm: 420, heelDiagonalMm: 480 } }))});`,
    });
    expect(await page.locator('.cautions li').count()).toBe(2);
    for (const selector of ['#sock', '[data-count=toePasses]', '.strip-total', '#panel [role=combobox], #panel select']) {
      const box = await page.locator(selector).first().boundingBox();
      expect(box!.y + box!.height, selector).toBeLessThanOrEqual(768);
    }
  });

  it.each(['light', 'dark'] as const)('follows the system in %s and can be changed and kept', async (scheme) => {
    const { page } = await openSmallSock({ colorScheme: scheme });
    const theme = (): Promise<string | undefined> => page.evaluate(() => document.documentElement.dataset['theme']);
    const other = scheme === 'light' ? 'dark' : 'light';
    expect(await theme()).toBe(scheme);
    await page.getByRole('button', { name: 'Settings' }).click();
    await page.getByRole('radio', { name: other, exact: true }).check();
    expect(await theme()).toBe(other);
    await page.reload();
    await page.waitForFunction(() => window.heelwright !== undefined);
    expect(await theme()).toBe(other);
  });

  // WCAG 2.2, 1.4.3: 4.5 to 1 for text; relative luminance as defined there.
  it.each(['light', 'dark'] as const)('text keeps its contrast in %s', async (colorScheme) => {
    const { page } = await openPage({ colorScheme });
    await page.waitForFunction(() => window.heelwright !== undefined);
    const pairs = await page.evaluate(() => {
      const style = getComputedStyle(document.documentElement);
      const luminance = (name: string): number => {
        const hex = style.getPropertyValue(name).trim();
        const [r, g, b] = [1, 3, 5].map((at) => {
          const c = parseInt(hex.slice(at, at + 2), 16) / 255;
          return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
        });
        return 0.2126 * r + 0.7152 * g + 0.0722 * b;
      };
      const contrast = (a: string, b: string): number => {
        const [x, y] = [luminance(a), luminance(b)];
        return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05);
      };
      return [
        ['--ink', '--card'], ['--good', '--card'], ['--caution', '--card'], ['--problem', '--card'], ['--ink', '--accent-wash'], ['--soft', '--accent-wash'], ['--soft', '--card'], ['--soft', '--paper'], ['--soft', '--field'], ['--ink', '--field'], ['--accent', '--card'],
        ['--on-accent', '--accent'], ['--accent', '--accent-wash'], ['--problem', '--problem-wash'], ['--problem', '--raised'], ['--caution', '--caution-wash'],
      ].map(([ink, ground]) => ({ ink, ground, contrast: contrast(ink, ground) }));
    });
    for (const pair of pairs) expect(pair.contrast, `${pair.ink} on ${pair.ground}`).toBeGreaterThanOrEqual(4.5);
  });

  it('gauge is put in to the inch and over a patch; the file says the same', async () => {
    const { page } = await openSmallSock();
    const counted = page.getByRole('combobox', { name: 'Counted' });
    await counted.selectOption('over a patch');
    await page.getByRole('spinbutton', { name: /patch width/i }).fill('5');
    await expect.poll(() => page.getByRole('spinbutton', { name: /^Stitches/ }).first().inputValue()).toBe('6');
    expect((await see(page)).file.gauge.stitchesPer10cm).toBe(12);
    await counted.selectOption('to the inch');
    await page.getByRole('spinbutton', { name: /^Stitches/ }).first().fill('4');
    // 4 to the inch are 4 x 100 / 25.4 in 10 cm.
    await expect.poll(async () => (await see(page)).file.gauge.stitchesPer10cm).toBeCloseTo(15.748, 3);
  });

  it('each count tells how it was found when it has the focus', async () => {
    const { page } = await openSmallSock();
    const count = page.locator('[data-count=heelPasses]');
    await count.focus();
    const tip = page.locator(`#${await count.getAttribute('aria-describedby') ?? ''}`);
    await expect.poll(() => tip.isVisible()).toBe(true);
    expect(await tip.textContent()).toMatch(/16/);
  });
});
