import axe from 'axe-core';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { openSmallSock } from './sock-page.ts';

/** The small sock (sock-page.ts): its heel turns down from pass 22 and out from 30, its foot begins with 38, its toe with 74. */
const HEEL_IN = 23, FOOT = 40, RIB = 8;

async function enter(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Passes', exact: true }).click();
  await page.locator('.finished-card[data-status=here]').waitFor();
}
const goTo = async (page: Page, pass: number): Promise<void> => {
  await page.getByRole('textbox', { name: 'Go to pass' }).fill(String(pass));
  await page.keyboard.press('Enter');
  await page.waitForFunction((wanted) => document.querySelector('.work-counters .is-pass dd')?.textContent === String(wanted), pass);
};
const open = (page: Page): Promise<void> => page.getByRole('button', { name: 'Close-up', exact: true }).click();
const told = (page: Page): Promise<string> => page.locator('.close-told').innerText();
const picture = async (page: Page): Promise<string> => {
  await page.waitForTimeout(250);
  return (await page.locator('.close-picture').screenshot({ animations: 'disabled' })).toString('base64');
};
/** Steps on and gathers what is told, until the words come to another needle. */
async function tellNeedle(page: Page): Promise<string[]> {
  const lines = [await told(page)], name = /Needle \S+?(?=[ :,])/.exec(lines[0])?.[0] ?? '';
  for (let i = 0; i < 12; i++) {
    await page.getByRole('button', { name: 'A step on' }).click();
    const line = await told(page);
    if (!line.includes(name)) break;
    if (line !== lines.at(-1)) lines.push(line);
  }
  return lines;
}

describe('the close-up of a pass', () => {
  it('opens by keyboard, steps through a needle in words and picture, and closes back to its button', async () => {
    const { page, errors } = await openSmallSock({ reducedMotion: 'reduce' });
    await enter(page);
    await goTo(page, FOOT);
    await page.getByRole('button', { name: 'Close-up', exact: true }).focus();
    await page.keyboard.press('Enter');
    expect(await page.locator('.close-title').innerText()).toMatch(/^Needles \S+ to \S+, (front|back) bed$/);
    const before = await picture(page), lines = await tellNeedle(page);
    for (const [i, part] of [/hangs in the hook\. The carriage comes/, /goes forward: its old loop opens the latch/, /lays the new yarn over it/, /swings the latch shut/, /off the hook; the new loop goes through it/, /has drawn the new loop/, /a row more of fabric/].entries()) expect(lines[i]).toMatch(part);
    expect(await picture(page)).not.toBe(before);
    // Keys of the slider are the close-up's own: the pass stays.
    const slider = page.getByRole('slider', { name: 'Through this pass' });
    await slider.focus();
    await page.keyboard.press('Home');
    await page.keyboard.press('ArrowRight');
    expect(Number(await slider.inputValue())).toBe(1);
    expect(await page.locator('.work-counters .is-pass dd').innerText()).toBe(String(FOOT));
    await page.keyboard.press('Escape');
    expect(await page.locator('.close-card').isHidden()).toBe(true);
    expect(await page.evaluate(() => document.activeElement?.className)).toContain('close-open');
    expect(errors).toEqual([]);
  });

  it('shows held needles and wraps of a heel, two loops of a decrease, both beds of a rib; and says where nothing is drawn through', async () => {
    const { page, errors } = await openSmallSock({ reducedMotion: 'reduce' });
    await enter(page);
    await goTo(page, HEEL_IN);
    await open(page);
    const held = await tellNeedle(page);
    expect(held[0]).toMatch(/is held: it stays forward with its loop/);
    expect(held.at(-1)).toMatch(/is held and wrapped/);
    await goTo(page, RIB);
    expect(await page.locator('.close-title').innerText()).toMatch(/both beds$/);
    expect(await told(page)).toMatch(/^Needle \S+, (front|back) bed: its loop/);
    // The decrease itself stands in the words of the pass.
    await goTo(page, 75);
    while (!/Decrease/.test(await page.locator('.work-acts').innerText())) await page.getByRole('button', { name: 'One pass on' }).click();
    const stacked = await tellNeedle(page);
    expect(stacked[0]).toMatch(/its 2 loops hang in the hook/);
    expect(stacked.find((line) => /goes through all of them/.test(line))).toBeDefined();
    await goTo(page, 0);
    expect(await page.locator('.close-instead').innerText()).toMatch(/Nothing is drawn through another loop here/);
    expect(errors).toEqual([]);
  });

  it('plays, pauses, goes to other needles, and is turned by hand', async () => {
    const { page, errors } = await openSmallSock();
    await enter(page);
    await goTo(page, FOOT);
    await open(page);
    const slider = page.getByRole('slider', { name: 'Through this pass' });
    await page.getByRole('button', { name: 'Play the close-up' }).click();
    await page.waitForFunction(() => Number(document.querySelector<HTMLInputElement>('.close-slider')?.value) > 40);
    await page.getByRole('button', { name: 'Pause the close-up' }).click();
    const at = await slider.inputValue();
    await page.waitForTimeout(300);
    expect(await slider.inputValue()).toBe(at);
    const title = await page.locator('.close-title').innerText(), way = page.getByRole('button', { name: 'Needles further right' });
    await way.click();
    expect(await page.locator('.close-title').innerText()).not.toBe(title);
    const shown = await picture(page);
    await page.locator('.close-canvas').focus();
    for (let i = 0; i < 4; i++) await page.keyboard.press('ArrowRight');
    expect(await picture(page)).not.toBe(shown);
    expect(errors).toEqual([]);
  });

  it('has no faults that axe finds, at its widest and on a tablet, and keeps the sock in sight', async () => {
    const { page } = await openSmallSock({ width: 1440, height: 900 });
    await enter(page);
    await goTo(page, FOOT);
    await open(page);
    await page.evaluate(axe.source);
    for (const [width, height] of [[1440, 900], [820, 1180], [390, 844]] as const) {
      await page.setViewportSize({ width, height });
      await page.waitForTimeout(300);
      const found = await page.evaluate(() => (window as unknown as { axe: typeof axe }).axe.run('.close-card, .beds-card', { runOnly: ['wcag2a', 'wcag2aa'] }));
      expect(found.violations.map(({ id, nodes }) => [id, nodes.map(({ target }) => target.join(' '))])).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      for (const part of ['.close-picture', '#stage']) {
        const box = (await page.locator(part).boundingBox())!;
        expect([box.x >= 0, box.x + box.width <= width, box.height > 180], `${part} at ${width}`).toEqual([true, true, true]);
      }
    }
  });

  it('tells it in words where there is no picture', async () => {
    const { page } = await openSmallSock({ reducedMotion: 'reduce', before: 'const own = HTMLCanvasElement.prototype.getContext; HTMLCanvasElement.prototype.getContext = function (kind, ...rest) { return this.className === "close-canvas" ? null : own.call(this, kind, ...rest); };' });
    await enter(page);
    await goTo(page, FOOT);
    await open(page);
    expect(await page.locator('.close-instead').innerText()).toMatch(/gives no picture here/);
    expect((await tellNeedle(page)).length).toBe(7);
  });
});
