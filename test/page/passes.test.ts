import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { countersAtRest, openSmallSock, settled } from './sock-page.ts';

/** The small sock (sock-page.ts): 90 mm of leg at 17 rows in 10 cm is 15 rows; 2 plain, 4 ankle; a heel of 16 down to 8 and out; 36 of foot; a toe by 4 to 8. */
const SMALL = { turn: 18, heelIn: 22, heelOut: 30, foot: 38, toe: 74 } as const;

async function enter(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Passes', exact: true }).click();
  await page.locator('.finished-card[data-status=here]').waitFor();
}

const titleOf = (page: Page): Promise<string> => page.locator('.work-title').innerText();
const counterOf = async (page: Page): Promise<number> => Number(await page.locator('.work-counters .is-pass dd').innerText());
const slider = (page: Page) => page.getByRole('slider', { name: 'Pass', exact: true });
const goTo = async (page: Page, pass: number): Promise<void> => {
  await page.getByRole('textbox', { name: 'Go to pass' }).fill(String(pass));
  await page.keyboard.press('Enter');
  await page.locator('.way-card').click({ position: { x: 3, y: 3 } });
};

/** Pixels of a canvas in the yellow that lights stitches (measured on the screen). */
function countLit(page: Page, selector: string): Promise<number> {
  return page.locator(selector).evaluate((canvas: HTMLCanvasElement) => {
    const { data } = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height);
    let lit = 0;
    for (let i = 0; i < data.length; i += 4) if (data[i] > 240 && data[i + 1] > 190 && data[i + 1] < 230 && data[i + 2] < 40) lit++;
    return lit;
  });
}

describe('the room of passes', () => {
  it('steps by button and key, by pass, round and part, and says where it is', async () => {
    const { page, errors } = await openSmallSock();
    await enter(page);
    await goTo(page, 0);
    expect(await titleOf(page)).toBe('Cast on');
    await page.getByRole('button', { name: 'One pass on' }).click();
    expect(await counterOf(page)).toBe(1);
    await page.locator('.work-title').click();
    await page.keyboard.press('ArrowRight');
    expect(await counterOf(page)).toBe(2);
    await page.keyboard.press('Shift+ArrowRight');
    expect(await counterOf(page)).toBe(4);
    await page.keyboard.press('ArrowLeft');
    expect(await counterOf(page)).toBe(3);
    for (const stop of [16, SMALL.turn, SMALL.heelIn, SMALL.heelOut, SMALL.foot, SMALL.toe]) {
      await page.keyboard.press('PageDown');
      expect(await counterOf(page)).toBe(stop);
    }
    await page.keyboard.press('PageUp');
    expect(await counterOf(page)).toBe(SMALL.foot);
    await page.keyboard.press('End');
    expect(await titleOf(page)).toBe('Close the toe');
    expect(await slider(page).inputValue()).toBe(await slider(page).getAttribute('max'));
    await page.keyboard.press('ArrowLeft');
    expect(await titleOf(page)).toMatch(/^Toe: pass (\d+) of \1$/);
    await page.keyboard.press('Home');
    expect(await counterOf(page)).toBe(0);
    expect(errors).toEqual([]);
  });

  it('scrubs by keyboard and jumps by part and number; a number that is none is told and changes nothing', async () => {
    const { page, errors } = await openSmallSock();
    await enter(page);
    await page.getByRole('button', { name: /^Heel down/ }).click();
    expect(await titleOf(page)).toMatch(/^Heel, turning down: pass 22 of/);
    await slider(page).focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    expect(await counterOf(page)).toBe(SMALL.heelIn + 2);
    expect(await slider(page).getAttribute('aria-valuetext')).toBe(await titleOf(page));
    const field = page.getByRole('textbox', { name: 'Go to pass' });
    for (const [typed, told] of [['9999', '“9999”'], ['heel', '“heel”'], ['-3', '“-3”'], ['4.5', '“4.5”']] as const) {
      await field.fill(typed);
      await page.keyboard.press('Enter');
      expect(await page.locator('.way-told').innerText()).toContain(told);
      expect(await field.getAttribute('aria-invalid')).toBe('true');
      expect(await field.inputValue()).toBe(typed);
      expect(await counterOf(page)).toBe(SMALL.heelIn + 2);
    }
    await field.fill('40');
    await page.getByRole('button', { name: 'Go', exact: true }).click();
    expect(await counterOf(page)).toBe(40);
    expect(await page.locator('.way-told').innerText()).toBe('');
    expect(errors).toEqual([]);
  });

  it('plays both ways, stops by Escape and at the ends', async () => {
    const { page, errors } = await openSmallSock();
    await enter(page);
    await goTo(page, 20);
    await page.getByRole('combobox', { name: 'Speed' }).selectOption('25');
    await page.locator('.work-title').click();
    await page.keyboard.press('Space');
    await page.waitForFunction(() => Number(document.querySelector('.work-counters .is-pass dd')?.textContent) > 26);
    expect(await page.getByRole('button', { name: 'Pause' }).count()).toBe(1);
    await page.keyboard.press('Escape');
    const here = await counterOf(page);
    await page.waitForTimeout(300);
    expect(await counterOf(page)).toBe(here);
    await page.getByRole('button', { name: 'Play backwards' }).click();
    await page.waitForFunction(() => document.querySelector('.work-title')?.textContent === 'Cast on');
    await page.getByRole('button', { name: 'Play backwards' }).waitFor();
    expect(await page.getByRole('button', { name: 'Pause' }).count()).toBe(0);
    expect(errors).toEqual([]);
  });

  it('lights the pass on the finished sock, whose stitches lead to their passes by click and by keys', async () => {
    const { page, errors } = await openSmallSock();
    await enter(page);
    await goTo(page, SMALL.foot + 6);
    const canvas = page.locator('.finished-canvas');
    expect(await countLit(page, '.finished-canvas')).toBeGreaterThan(60);
    const before = await counterOf(page);
    await canvas.focus();
    for (let i = 0; i < 4; i++) await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Enter');
    // Along the foot: a round is two passes.
    expect(await counterOf(page)).toBeGreaterThan(before + 2);
    const box = (await canvas.boundingBox())!;
    await page.mouse.click(box.x + box.width * 0.3, box.y + box.height * 0.25);
    expect(await titleOf(page)).toMatch(/^Leg: pass/);
    await page.mouse.move(box.x + box.width * 0.28, box.y + box.height * 0.2);
    expect(await page.locator('.beds-readout').innerText()).toMatch(/Leg/);
    expect(errors).toEqual([]);
  });

  it('tells a needle that is pointed at or chosen by arrow keys', async () => {
    const { page } = await openSmallSock();
    await enter(page);
    await goTo(page, SMALL.heelIn);
    const beds = page.getByRole('slider', { name: 'Needle' });
    await beds.focus();
    await page.keyboard.press('ArrowDown');
    for (let i = 0; i < 40; i++) await page.keyboard.press('ArrowRight');
    // Two empty needles are shown beyond the tube's eight on each side.
    expect(await beds.getAttribute('aria-valuetext')).toBe('Needle R10, front bed: empty');
    for (let i = 0; i < 20; i++) await page.keyboard.press('ArrowLeft');
    const told = await page.locator('.beds-readout').innerText();
    expect(told).toBe(await beds.getAttribute('aria-valuetext'));
    expect(await counterOf(page)).toBe(SMALL.heelIn);
    const texts = new Set<string | null>();
    for (let i = 0; i < 20; i++) {
      texts.add(await beds.getAttribute('aria-valuetext'));
      await page.keyboard.press('ArrowRight');
    }
    expect([...texts].filter((text) => text?.includes('held, goes into hold here, wrapped here, one wrap')).length).toBe(1);
  });

  it('gives the person\'s pose back, and is there again after a reload', async () => {
    const { page, errors } = await openSmallSock();
    await page.getByRole('radio', { name: 'Tube' }).check();
    await settled(page);
    await countersAtRest(page);
    await enter(page);
    await goTo(page, 30);
    await page.reload({ timeout: 100_000 });
    await page.locator('.work-title').waitFor();
    await page.getByRole('button', { name: 'Shape', exact: true }).click();
    await settled(page);
    expect(await page.evaluate(() => window.heelwright!.pose)).toBe('tube');
    expect(await page.getByRole('radio', { name: 'Tube' }).isChecked()).toBe(true);
    expect(errors).toEqual([]);
  });

  it('fits tablets and phones: no part runs out of the page', async () => {
    const { page } = await openSmallSock({ width: 820, height: 1180 });
    await enter(page);
    for (const [width, height] of [[820, 1180], [390, 844], [1440, 900]] as const) {
      await page.setViewportSize({ width, height });
      await page.waitForTimeout(200);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      for (const card of ['.beds-card', '.way-card', '.work-card', '.finished-card', '#stage']) {
        const box = (await page.locator(card).boundingBox())!;
        expect([box.x >= 0, box.x + box.width <= width, box.height > 60], `${card} at ${width}`).toEqual([true, true, true]);
      }
    }
  });

  it('with reduced motion the carriage is there at once', async () => {
    const { page } = await openSmallSock({ reducedMotion: 'reduce' });
    await enter(page);
    await goTo(page, 24);
    const picture = (): Promise<string> => page.locator('.beds-canvas').evaluate((canvas: HTMLCanvasElement) => canvas.toDataURL());
    await page.getByRole('button', { name: 'One pass on' }).click();
    const at = await picture();
    await page.waitForTimeout(250);
    expect(await picture()).toBe(at);
  });
});
