import { describe, expect, it } from 'vitest';
import { openSmallSock, see, settled } from './sock-page.ts';
import { audit, findCovered, findCutOff, findOverlaps, walkPage, withSettings } from './walk-page.ts';

/** Words that stand on the English page and in no German text; names and units are alike in both. */
const ENGLISH = /\b(the|and|of|with|foot|heel|stitches|passes|needles|yarn|measure|gauge|length|girth|settings|sizes|swatches|undo|redo|open|save|worn|flat)\b/i;

describe.each([['en', 'light'], ['en', 'dark'], ['de', 'light'], ['de', 'dark']])('the page in %s, %s', (language, theme) => {
  it('gives axe-core nothing serious to say in any room, tab or sheet', async () => {
    const { page, errors } = await openSmallSock({ before: withSettings({ language, theme }) });
    const found: Record<string, string[]> = {};
    const seen = await walkPage(page, async (where) => {
      const violations = await audit(page);
      if (violations.length > 0) found[where] = violations;
    });
    expect(found).toEqual({});
    // Six rooms, the deck's three tabs, and the sheets of sizes, swatches, settings, measuring.
    expect(seen).toBeGreaterThanOrEqual(13);
    expect(errors).toEqual([]);
  }, 500_000);
});

describe('the page in German', () => {
  it.each([[1440, 900], [820, 1180]])('is German throughout, says so, and nothing is cut off at %d x %d', async (width, height) => {
    const { page } = await openSmallSock({ width, height, before: withSettings({ language: 'de' }) });
    expect(await page.locator('html').getAttribute('lang')).toBe('de');
    const found: Record<string, readonly string[]> = {};
    await walkPage(page, async (where) => {
      const cut = await findCutOff(page);
      if (cut.length > 0) found[where] = cut;
      const english = await englishTexts(page);
      if (english.length > 0) found[`${where}, words`] = english;
    });
    expect(found).toEqual({});
  }, 500_000);

  async function englishTexts(page: Parameters<typeof audit>[0]): Promise<string[]> {
    const texts = await page.evaluate(() => {
      const own = (element: Element): boolean => element.closest('[lang="en"], [dir=auto], script, style, noscript, input') !== null;
      const list: string[] = [];
      const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
      for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
        const parent = node.parentElement;
        if (parent !== null && !own(parent)) list.push(node.textContent ?? '');
      }
      for (const element of document.body.querySelectorAll('[aria-label], [title], [placeholder], [aria-valuetext]')) {
        if (own(element)) continue;
        for (const name of ['aria-label', 'title', 'placeholder', 'aria-valuetext']) list.push(element.getAttribute(name) ?? '');
      }
      return list;
    });
    // The socks that come with the page have English names, as a person's own may have.
    return [...new Set(texts.filter((text) => ENGLISH.test(text.replaceAll('Small sock', ''))).map((text) => text.slice(0, 140)))];
  }

  it('writes numbers with a comma, and takes them with a comma or a point', async () => {
    const { page } = await openSmallSock({ before: withSettings({ language: 'de' }) });
    const length = page.getByRole('spinbutton', { name: /Schaftlänge/ });
    expect(await length.inputValue()).toMatch(/^\d+(,\d)?$/);
    for (const [typed, mm] of [['9,5', 95], ['8.5', 85]] as const) {
      await length.fill(typed);
      await length.press('Enter');
      await expect.poll(async () => (await see(page)).file.leg?.lengthMm).toBe(mm);
    }
    await length.press('ArrowUp');
    await expect.poll(async () => (await see(page)).file.leg?.lengthMm).toBe(86);
    expect(await length.inputValue()).toBe('8,6');
    await page.locator('#sock').focus();
    expect(await length.inputValue()).toBe('8,6');
  });

  it('is chosen in the settings and back again, and the sock stays', async () => {
    const { page, errors } = await openSmallSock();
    await page.getByRole('slider', { name: /turn-down/i }).press('ArrowLeft');
    await settled(page);
    for (const [button, choice, language] of [['Settings', 'Deutsch', 'de'], ['Einstellungen', 'English', 'en']] as const) {
      await page.getByRole('button', { name: button }).click();
      await page.getByRole('radio', { name: choice }).check({ noWaitAfter: true }).catch(() => undefined);
      await expect.poll(() => page.locator('html').getAttribute('lang').catch(() => null)).toBe(language);
      await settled(page);
      expect((await see(page)).plan?.turnDownWidth).toBe(6);
    }
    expect(errors).toEqual([]);
  });

  it('is not chosen where the browser keeps nothing: that is said, and the sock stays', async () => {
    const { page } = await openSmallSock({ before: `Object.defineProperty(Storage.prototype, 'setItem', { value() { throw new Error('full'); } });` });
    await page.getByRole('button', { name: 'Settings' }).click();
    await page.getByRole('radio', { name: 'Deutsch' }).click();
    await page.keyboard.press('Escape');
    expect(await page.locator('[data-notice=keep]').textContent()).toContain('The language stays as it is');
    expect(await page.locator('html').getAttribute('lang')).toBe('en');
    expect(await page.locator('input[name=language][value=en]').isChecked()).toBe(true);
  });
});

describe('for eyes that need more', () => {
  it('laid out from right to left, nothing lies over another or is cut off', async () => {
    const { page } = await openSmallSock();
    await page.evaluate(() => { document.documentElement.dir = 'rtl'; });
    await page.waitForTimeout(300);
    expect(await findOverlaps(page)).toEqual([]);
    expect(await findCutOff(page)).toEqual([]);
    // Numbers and sliders keep their direction, and a press on a slider's right end is its greatest value.
    const slider = page.getByRole('slider', { name: /turn-down/i });
    await slider.scrollIntoViewIfNeeded();
    const box = (await slider.boundingBox())!;
    await page.mouse.click(box.x + box.width - 1, box.y + box.height / 2);
    expect(await slider.getAttribute('aria-valuenow')).toBe(await slider.getAttribute('aria-valuemax'));
  });

  // WCAG 2.2, 1.4.4 Resize Text: a window of 1440 x 900 at 200 % has 720 x 450 CSS pixels; 1.4.10 Reflow: 1280 at 400 % has 320.
  it.each([[720, 450, 'en'], [720, 450, 'de'], [320, 640, 'en'], [320, 640, 'de']] as const)('in %d x %d CSS pixels, in %s, nothing is cut off and every control can be reached', async (width, height, language) => {
    const { page } = await openSmallSock({ width, height, before: withSettings({ language }) });
    expect(await findCutOff(page)).toEqual([]);
    expect(await findCovered(page, 'body')).toEqual([]);
  });

  it('who asks for less motion gets a view at once; who does not sees the camera travel', async () => {
    const frames: number[] = [];
    for (const reducedMotion of ['reduce', 'no-preference'] as const) {
      const { page } = await openSmallSock({ reducedMotion });
      await page.waitForTimeout(800);
      const before = (await see(page)).view!.frames;
      await page.getByRole('button', { name: 'Turned' }).click();
      await page.waitForTimeout(1500);
      frames.push((await see(page)).view!.frames - before);
    }
    expect(frames[0]).toBeGreaterThan(0);
    expect(frames[0]).toBeLessThanOrEqual(2);
    expect(frames[1]).toBeGreaterThan(frames[0]);
  });

  it('where the system sets the colours, what is chosen is outlined', async () => {
    const { page } = await openSmallSock();
    await page.emulateMedia({ forcedColors: 'active' });
    const outlines = await page.locator('#stage .segments label, .room-tab').evaluateAll((labels) => labels.map((label) => ({
      isChosen: label.querySelector('input:checked') !== null || label.getAttribute('aria-current') === 'page', width: getComputedStyle(label).outlineStyle === 'none' ? 0 : Number.parseFloat(getComputedStyle(label).outlineWidth),
    })));
    expect(outlines.filter(({ isChosen }) => isChosen).length).toBeGreaterThanOrEqual(2);
    for (const { isChosen, width } of outlines) expect(width > 0).toBe(isChosen);
  });
});

describe('for those who hear the page', () => {
  it('a change is told once it has come to rest, with what came of it', async () => {
    const { page } = await openSmallSock();
    const voice = page.locator('.settled-voice');
    expect(await voice.textContent()).toBe('');
    await voice.evaluate((element) => {
      (window as unknown as { told: number }).told = 0;
      new MutationObserver(() => { (window as unknown as { told: number }).told += 1; }).observe(element, { childList: true, characterData: true, subtree: true });
    });
    const slider = page.getByRole('slider', { name: /turn-down/i });
    for (let i = 0; i < 3; i += 1) await slider.press('ArrowLeft');
    await settled(page);
    const { plan, measures } = await see(page);
    expect(plan?.turnDownWidth).toBe(2);
    const passes = plan!.legPasses + plan!.plainPasses + plan!.anklePasses + plan!.heelPasses + plan!.footPasses + plan!.toePasses;
    await expect.poll(() => voice.textContent()).toBe(`Turn-down width 2 stitches; heel ${(measures.rest!.heelDepthMm! / 10).toFixed(1)} cm deep, foot ${(measures.rest!.footLengthMm! / 10).toFixed(1)} cm long, ${passes} passes`);
    // Three ticks may settle one by one on a slow machine; none is told before it does.
    expect(await page.evaluate(() => (window as unknown as { told: number }).told)).toBeLessThanOrEqual(3);
    expect(await page.locator('#sock').getAttribute('aria-label')).toMatch(/^The sock laid flat: heel .* deep, foot .* long, \d+ passes\. Arrow keys/);
  });

  it('parts have headings in order, and one main part, one banner, one way from room to room', async () => {
    const { page } = await openSmallSock();
    const levels = await page.locator('h1, h2, h3, h4').evaluateAll((heads) => heads.filter((head) => head.closest('[hidden], dialog') === null && head.checkVisibility()).map(({ tagName }) => Number(tagName[1])));
    expect(levels[0]).toBe(1);
    levels.forEach((level, i) => { if (i > 0) expect(level - levels[i - 1]).toBeLessThanOrEqual(1); });
    expect(await page.evaluate(() => ['main', 'body > header', 'nav'].map((selector) => document.querySelectorAll(selector).length))).toEqual([1, 1, 1]);
  });

  it('folders of the controls tell whether they are open, by keyboard too', async () => {
    const { page } = await openSmallSock();
    const folder = page.locator('#panel .lil-title', { hasText: 'Machine' });
    expect([await folder.evaluate(({ tagName }) => tagName), await folder.getAttribute('aria-expanded')]).toEqual(['BUTTON', 'false']);
    await folder.focus();
    await page.keyboard.press('Enter');
    expect(await folder.getAttribute('aria-expanded')).toBe('true');
    await expect.poll(() => page.getByRole('slider', { name: /Needles a bed/ }).isVisible()).toBe(true);
  });

  it('the first stop leads past the bars: to the controls, or into another room, and leaves the address alone', async () => {
    const { page } = await openSmallSock();
    const address = page.url();
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('panel');
    await page.locator('.room-tab[data-room=sheet]').click();
    await page.locator('#skip-link').focus();
    await page.keyboard.press('Enter');
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('room-sheet');
    expect(page.url()).toBe(address);
  });

  it('a sheet has a name, holds the focus, and gives it back', async () => {
    const { page } = await openSmallSock();
    const opener = page.getByRole('button', { name: 'Settings' });
    await opener.focus();
    await page.keyboard.press('Enter');
    await expect.poll(() => page.getByRole('dialog', { name: 'Settings' }).isVisible()).toBe(true);
    for (let i = 0; i < 12; i += 1) {
      await page.keyboard.press('Tab');
      // Out of the sheet the focus can go to the browser's own bars only, where the page has none.
      expect(await page.evaluate(() => document.activeElement === document.body || document.activeElement?.closest('dialog[open]') !== null)).toBe(true);
    }
    await page.keyboard.press('Escape');
    expect(await opener.evaluate((element) => element === document.activeElement)).toBe(true);
  });

  it('Tab goes through the whole page and out of it: nothing holds it', async () => {
    const { page } = await openSmallSock();
    const seen = new Set<string>();
    let isOut = false;
    for (let i = 0; i < 300 && !isOut; i += 1) {
      await page.keyboard.press('Tab');
      const here = await page.evaluate(() => {
        const { activeElement } = document;
        return activeElement === null || activeElement === document.body ? null : [...document.querySelectorAll('*')].indexOf(activeElement).toString();
      });
      isOut = here === null || (seen.has(here) && seen.size > 20);
      if (here !== null) seen.add(here);
    }
    expect(isOut).toBe(true);
    expect(seen.size).toBeGreaterThan(60);
  });
});
