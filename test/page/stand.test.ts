import { mkdtemp } from 'node:fs/promises';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import type { BrowserContext, Page } from 'playwright-core';
import { describe, expect, inject, it, onTestFinished } from 'vitest';
import { openPage } from './browser.ts';
import type { OpenedPage } from './browser.ts';
import { namelessControls } from './name-controls.ts';
import { counted, kept, LONG, openStand, press, said, SHORT, SHORT_PASSES, shown } from './stand-page.ts';

/** A finger that stays down for a while, in the middle of the words. */
async function touch(page: Page, milliseconds: number): Promise<void> {
  const session = await page.context().newCDPSession(page), box = (await page.locator('.stand-words').boundingBox())!;
  await session.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [{ x: box.x + 60, y: box.y + 40 }] });
  await page.waitForTimeout(milliseconds);
  await session.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
}

/** Two taps of a wet finger: sent at once, so that no busy machine draws them apart. */
async function touchTwice(page: Page): Promise<void> {
  const session = await page.context().newCDPSession(page), box = (await page.locator('.stand-words').boundingBox())!, touchPoints = [{ x: box.x + 60, y: box.y + 40 }];
  await Promise.all([0, 1].flatMap(() => [
    session.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints }), session.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] }),
  ]));
}

/** A later visit with what the browser kept of the first. */
async function reopened(context: BrowserContext): Promise<OpenedPage> {
  const storageState = await context.storageState(), again = await context.browser()!.newContext({ storageState, viewport: { width: 1440, height: 900 } });
  const opened = await openPage({ context: again });
  await shown(opened.page);
  return opened;
}

describe('at the machine', () => {
  it('killed at pass 57, it is at pass 57 again: page closed in the middle of a step, reloaded, window closed', async () => {
    const { page, context } = await openStand(LONG);
    await press(page, 'Space', 56);
    expect(await counted(page)).toBe('56 of 74');
    // The key goes down, and the page is gone.
    await page.keyboard.down('Space');
    await page.close();
    const second = await openPage({ context });
    await shown(second.page);
    expect(await counted(second.page)).toBe('57 of 74');
    expect(await said(second.page)).toContain('this is where you were');
    await second.page.reload();
    await shown(second.page);
    expect(await counted(second.page)).toBe('57 of 74');
    const third = await reopened(context);
    expect(await counted(third.page)).toBe('57 of 74');
    expect((await kept(third.page)).stop).toBe(57);
    expect([...second.errors, ...third.errors]).toEqual([]);
  });

  it('a dead battery at pass 57: the browser is struck down at once, and with its profile it is at pass 57 again', async () => {
    const { executablePath, env } = inject('browser'), profile = await mkdtemp(join(inject('scratch'), 'profile-'));
    // Without a picture: the room needs none.
    const start = (): Promise<BrowserContext> => chromium.launchPersistentContext(profile, { executablePath, args: ['--no-sandbox'], env: { ...process.env as Record<string, string>, ...env } });
    const first = await start(), page = await first.newPage();
    await page.addInitScript({ content: `localStorage.setItem('heelwright.sock', ${JSON.stringify(JSON.stringify(LONG))}); localStorage.setItem('heelwright.settings', '{"room":"stand"}');` });
    await page.goto(inject('pageUrl'));
    await shown(page);
    await press(page, 'Space', 57);
    expect(await counted(page)).toBe('57 of 74');
    const session = await first.browser()!.newBrowserCDPSession(), gone = new Promise((resolve) => { first.on('close', resolve); });
    session.send('Browser.crash').catch(() => undefined);
    await gone;
    const second = await start(), again = await second.newPage();
    onTestFinished(() => second.close());
    await again.addInitScript({ content: 'try { localStorage.setItem("heelwright.settings", \'{"room":"stand"}\'); } catch {}' });
    await again.goto(inject('pageUrl'));
    await expect.poll(() => counted(again), { timeout: 10_000 }).toBe('57 of 74');
    expect(await said(again)).toContain('this is where you were');
  });

  it('a whole short pair by keyboard alone: every pass once, both socks, back and forth; Escape leaves and the place is kept', async () => {
    const { page, errors } = await openStand(SHORT);
    expect(await page.locator('.stand-acts').textContent()).toContain('Cast on 24');
    const seen: string[] = [];
    for (const key of ['Space', 'Enter', 'ArrowRight', 'ArrowDown', 'PageDown']) {
      await press(page, key);
      seen.push(await counted(page));
    }
    expect(seen).toEqual([1, 2, 3, 4, 5].map((pass) => `${pass} of ${SHORT_PASSES}`));
    for (const [key, pass] of [['ArrowLeft', 4], ['ArrowUp', 3], ['PageUp', 2], ['Backspace', 1]] as const) {
      await press(page, key);
      expect(await counted(page)).toBe(`${pass} of ${SHORT_PASSES}`);
    }
    // A key that is held down is one step.
    await page.keyboard.down('Space');
    await page.waitForTimeout(80);
    await page.keyboard.down('Space');
    await page.keyboard.up('Space');
    expect(await counted(page)).toBe(`2 of ${SHORT_PASSES}`);
    const sides: string[] = [];
    for (let pass = 2; pass <= SHORT_PASSES; pass += 1) {
      expect(await counted(page)).toBe(`${pass} of ${SHORT_PASSES}`);
      sides.push((await page.locator('.stand-carriage').textContent())!);
      await press(page, 'Space');
    }
    // The carriage stands on one side and on the other, by turns.
    expect(sides.every((side, i) => i === 0 || side !== sides[i - 1])).toBe(true);
    expect(await page.locator('.stand-part').textContent()).toBe('Closing');
    await press(page, 'Space');
    expect(await page.locator('.stand-part').textContent()).toBe('The first sock is done.');
    await press(page, 'Space');
    expect(await page.locator('.stand-heading').textContent()).toContain('Sock 2 of 2');
    await press(page, 'Space', SHORT_PASSES + 2);
    expect(await page.locator('.stand-part').textContent()).toBe('The pair is done.');
    await press(page, 'Space');
    expect(await said(page)).toContain('there is no step on');
    expect(await kept(page)).toMatchObject({ sock: 2, stop: SHORT_PASSES + 2 });
    await press(page, 'Escape');
    expect(await page.locator('#room-stand').isHidden()).toBe(true);
    expect(await page.evaluate(() => document.documentElement.dataset['standLight'])).toBeUndefined();
    // Elsewhere the keys count nothing.
    await press(page, 'PageDown');
    expect(await kept(page)).toMatchObject({ sock: 2, stop: SHORT_PASSES + 2 });
    expect(errors).toEqual([]);
  });

  it('touch: a tap goes on, two taps of a wet finger are one, a long press undoes and does not go on', async () => {
    const { page } = await openStand(SHORT, { width: 390, height: 844, hasTouch: true, deviceScaleFactor: 2 });
    await touch(page, 40);
    await expect.poll(() => counted(page)).toBe(`1 of ${SHORT_PASSES}`);
    await page.waitForTimeout(300);
    await touchTwice(page);
    await expect.poll(() => counted(page)).toBe(`2 of ${SHORT_PASSES}`);
    await page.waitForTimeout(300);
    expect(await counted(page)).toBe(`2 of ${SHORT_PASSES}`);
    await touch(page, 900);
    await page.waitForTimeout(100);
    expect(await counted(page)).toBe(`1 of ${SHORT_PASSES}`);
    expect(await said(page)).toContain('Undone');
    // The button goes on as well, and back goes back.
    await page.getByRole('button', { name: /^Done: next/ }).tap();
    await expect.poll(() => counted(page)).toBe(`2 of ${SHORT_PASSES}`);
    await page.getByRole('button', { name: 'Back', exact: true }).tap();
    await expect.poll(() => counted(page)).toBe(`1 of ${SHORT_PASSES}`);
  });

  it('while a finger is held down, a ring shows it', async () => {
    const { page } = await openStand(SHORT);
    await press(page, 'Space', 3);
    const box = (await page.locator('.stand-words').boundingBox())!;
    await page.mouse.move(box.x + 200, box.y + 60);
    await page.mouse.down();
    await expect.poll(() => page.locator('.stand-ring').isVisible()).toBe(true);
    // A finger that slips away takes neither way.
    await page.mouse.move(box.x + 400, box.y + 60, { steps: 4 });
    await expect.poll(() => page.locator('.stand-ring').isVisible()).toBe(false);
    await page.mouse.up();
    expect(await counted(page)).toBe(`3 of ${SHORT_PASSES}`);
  });

  it.each([[1440, 900, 40], [820, 1180, 40], [390, 844, 28]])('at %i x %i: the act is large, nothing scrolls, targets take a wet finger, the bed is drawn', async (width, height, least) => {
    const { page } = await openStand(SHORT, { width, height, hasTouch: width < 1000 });
    await press(page, 'Space', 20);
    const look = await page.evaluate(() => {
      const size = (selector: string): number[] => [...document.querySelectorAll(selector)].filter((element) => element.getBoundingClientRect().width > 0).map((element) => Math.round(element.getBoundingClientRect().height));
      const words = document.querySelector('.stand-words')!;
      return {
        act: parseFloat(getComputedStyle(words).fontSize), count: parseFloat(getComputedStyle(document.querySelector('.stand-count')!).fontSize), heights: size('.stand-face button'), zone: getComputedStyle(document.querySelector('.stand-face')!).touchAction, select: getComputedStyle(document.querySelector('.stand-face')!).userSelect,
        overflow: words.scrollHeight - words.clientHeight, page: document.documentElement.scrollHeight - window.innerHeight, wide: document.documentElement.scrollWidth - window.innerWidth,
        held: document.querySelectorAll('.stand-beds circle.is-held').length,
      };
    });
    expect(look.act).toBeGreaterThanOrEqual(least);
    expect(Math.min(...look.heights)).toBeGreaterThanOrEqual(64);
    // The knitter's own counter is read from as far as the act, and says what it is.
    expect(look.count).toBeGreaterThanOrEqual(least);
    expect(await page.locator('.stand-counter-name').textContent()).toBe('Counter after this pass');
    expect(await counted(page)).toBe(`20 of ${SHORT_PASSES}`);
    expect(await page.locator('.stand-in-part').textContent()).toBe('4 of 6 in this part');
    expect(look).toMatchObject({ zone: 'none', select: 'none' });
    for (const part of ['overflow', 'page', 'wide'] as const) expect(look[part], part).toBeLessThanOrEqual(1);
    // Pass 20 is the heel's fourth (10 + 2 + 4 before it): four needles held.
    expect(look.held).toBe(4);
    expect(await page.locator('.stand-held').textContent()).toContain('(4)');
  });

  it('storage that throws: said once and plainly, and counting goes on', async () => {
    const { page, errors } = await openStand(SHORT, { before: 'Storage.prototype.setItem = function () { throw new DOMException("full", "QuotaExceededError"); };' });
    // Its words are written once and stay: a live region speaks only of a change.
    await press(page, 'Space');
    await page.evaluate(() => {
      const told = window as unknown as { changes: number };
      told.changes = 0;
      new MutationObserver((all) => { told.changes += all.length; }).observe(document.querySelector('.stand-said')!, { childList: true, characterData: true, subtree: true });
    });
    expect(await said(page)).toContain('does not keep your place');
    await press(page, 'Space', 3);
    expect(await page.locator('.stand-count').textContent()).toBe('4');
    expect(await page.evaluate(() => (window as unknown as { changes: number }).changes)).toBe(0);
    expect(errors).toEqual([]);
  });

  it('a note comes up when its pass comes, on the second sock too, and is kept with the place', async () => {
    const { page } = await openStand(SHORT);
    await press(page, 'Space', 5);
    await page.getByRole('button', { name: 'Note', exact: true }).click();
    await page.getByRole('textbox').fill('Ease the edge stitch');
    await page.getByRole('button', { name: 'Keep the note' }).click();
    // Escape for the sheet that has just closed itself does not leave the room.
    await page.keyboard.press('Escape');
    expect(await page.locator('.page').getAttribute('data-room')).toBe('stand');
    expect(await page.locator('.stand-note').textContent()).toBe('Your note: Ease the edge stitch');
    await page.locator('.stand-zone').focus();
    await press(page, 'Space');
    expect(await page.locator('.stand-note').textContent()).toBe('');
    await press(page, 'Space', SHORT_PASSES + 2);
    expect(await page.locator('.stand-heading').textContent()).toContain('Sock 2');
    expect(await counted(page)).toBe(`5 of ${SHORT_PASSES}`);
    expect(await page.locator('.stand-note').textContent()).toBe('Your note: Ease the edge stitch');
    expect((await kept(page)).notes).toEqual([{ stop: 5, text: 'Ease the edge stitch' }]);
    await page.getByRole('button', { name: 'Note', exact: true }).click();
    expect(await page.locator('.stand-notes').textContent()).toMatch(/Started .*; 4 passes done on this sock/);
    await page.getByRole('button', { name: /^Remove the note/ }).click();
    expect((await kept(page)).notes).toEqual([]);
  });
});

describe('changes at the machine', () => {
  /** Another sock comes onto the panel, from a file. */
  async function withPanel(page: Page, sock: { readonly heel: object; readonly counts: { readonly footPasses: number } }): Promise<void> {
    await page.locator('input[type=file]:not(.stand-options *)').setInputFiles({ name: 'sock.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(sock)) });
    await page.waitForFunction((wanted) => JSON.stringify(window.heelwright?.file.heel) === wanted.heel && window.heelwright?.file.counts?.footPasses === wanted.foot, { heel: JSON.stringify(sock.heel), foot: sock.counts.footPasses });
  }

  it('the sock that is knitted is a copy; a longer foot is taken when asked, a deeper heel after the heel is refused, undo takes it back', async () => {
    const { page } = await openStand(SHORT);
    // In the foot: 10 + 2 + 4 + 12 passes are before it.
    await press(page, 'Space', 31);
    await withPanel(page, { ...SHORT, counts: { ...SHORT.counts, footPasses: 14 } });
    expect(await counted(page)).toBe(`31 of ${SHORT_PASSES}`);
    await expect.poll(() => said(page)).toContain('The sock on the page has changed');
    await page.getByRole('button', { name: 'Plan', exact: true }).click();
    expect(await page.locator('.stand-change').textContent()).toMatch(/Foot passes: 8, now 14.*The 30 passes that are knitted stay.*48 passes then, 42 now/s);
    await page.getByRole('button', { name: 'Take the changed plan' }).click();
    expect(await counted(page)).toBe('31 of 48');
    expect((await kept(page)).file.counts.footPasses).toBe(14);
    await page.locator('.stand-part').hover();
    await page.mouse.down();
    await page.waitForTimeout(900);
    await page.mouse.up();
    expect(await counted(page)).toBe(`31 of ${SHORT_PASSES}`);
    await withPanel(page, { ...SHORT, heel: { turnDownWidth: 4 } });
    await page.getByRole('button', { name: 'Plan', exact: true }).click();
    const refusal = page.locator('.stand-change');
    // Turned down to 6 of 12 takes 6 passes; the old heel turns out where the new one holds one needle more: pass 16 + 7.
    expect(await refusal.textContent()).toMatch(/does not go with what is knitted.*Turn-down width changes the sock from pass 23, and 30 passes are knitted/s);
    expect(await refusal.getByRole('button', { name: 'Take the changed plan' }).count()).toBe(0);
  });

  it('yarn in hand gives the longest leg, before the cast-on', async () => {
    const { page } = await openStand({ ...SHORT, counts: { stitches: 24, footPasses: 8 }, leg: { lengthMm: 40 } });
    await page.getByRole('button', { name: 'Yarn', exact: true }).click();
    await page.getByRole('textbox', { name: /in hand/ }).fill('25');
    await page.keyboard.press('Enter');
    const answer = page.locator('.stand-answer');
    await expect.poll(() => answer.evaluate((element) => element === document.activeElement)).toBe(true);
    await expect.poll(() => answer.textContent()).toMatch(/The leg can be .* cm long: \d+ passes.*weigh the first sock/s);
    await page.getByRole('button', { name: 'Plan this leg' }).click();
    const long = await page.evaluate(() => window.heelwright?.file.leg?.lengthMm ?? 0);
    expect(long).toBeGreaterThan(60);
    await page.getByRole('button', { name: 'Yarn', exact: true }).click();
    await page.getByRole('textbox', { name: /in hand/ }).fill('1');
    await page.keyboard.press('Enter');
    await expect.poll(() => answer.textContent()).toContain('does not last even for the shortest leg');
  });

  it('a leg that is knitted is not planned: the yarn left is judged for the rest, what was not weighed is named', async () => {
    const yarns = [{ name: 'Blue', colour: '#0000ff', from: 'leg' }, { name: 'Red', colour: '#ff0000', from: 'heel' }, { name: 'Blue', colour: '#0000ff', from: 'foot' }];
    const { page } = await openStand({ ...SHORT, yarns });
    await press(page, 'Space', 20);
    await page.getByRole('button', { name: 'Yarn', exact: true }).click();
    const fields = page.getByRole('textbox', { name: /in hand/ }), answer = page.locator('.stand-answer');
    expect(await fields.count()).toBe(2);
    await fields.first().fill('300');
    await page.keyboard.press('Enter');
    await expect.poll(() => answer.textContent()).toMatch(/The leg is knitted.*Blue lasts for the rest.*Not weighed: Red/s);
    expect(await answer.getByRole('button').count()).toBe(0);
    await fields.first().fill('1');
    await page.keyboard.press('Enter');
    await expect.poll(() => answer.textContent()).toContain('Blue does not last');
    await fields.last().fill('much');
    await page.keyboard.press('Enter');
    await expect.poll(() => answer.textContent()).toBe('Red: give a number from 0, or leave it empty if it is not weighed.');
  });

  it('a mistake: the needles that are seen find their pass, and the place is set there', async () => {
    const { page, errors } = await openStand(SHORT);
    await press(page, 'Space', 20);
    await page.getByRole('button', { name: 'A mistake?' }).click();
    const sheet = page.locator('.stand-mistake'), answers = page.locator('.stand-answers');
    // Three passes of the heel are done (17, 18, 19): the heel's bed has twelve needles, L6 to R6, three of them held.
    expect(await answers.textContent()).toContain('Agrees exactly with: pass 19 knitted');
    expect(await namelessControls(page, '.stand-mistake')).toEqual([]);
    await sheet.getByRole('textbox', { name: 'What you see' }).fill('back: all; front: L4-R3 working, 2 held left, 3 held right');
    await page.keyboard.press('Enter');
    await expect.poll(() => answers.textContent()).toMatch(/pass 21 knitted.*2 passes beyond your place/s);
    await page.getByRole('button', { name: 'Set my place after pass 21' }).click();
    expect(await counted(page)).toBe(`22 of ${SHORT_PASSES}`);
    expect((await kept(page)).stop).toBe(22);
    // By tapping: one needle that should be held works. What is not understood leaves no verdict, until the drawing is used.
    await page.getByRole('button', { name: 'A mistake?' }).click();
    await sheet.getByRole('textbox', { name: 'What you see' }).fill('front: L4 dancing');
    await page.keyboard.press('Enter');
    await expect.poll(() => sheet.locator('.stand-wrong').textContent()).toContain('not understood');
    expect(await answers.textContent()).toBe('');
    await page.getByRole('button', { name: 'As my place says' }).click();
    expect(await sheet.locator('.stand-wrong').textContent()).toBe('');
    await page.getByRole('button', { name: /^Front bed L6: held/ }).click();
    expect(await page.getByRole('button', { name: /^Front bed L6: empty/ }).count()).toBe(1);
    await expect.poll(() => answers.textContent()).toMatch(/Front bed L6: empty, should be held/);
    // Along the bed by arrow keys, and a needle by Space.
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Space');
    expect(await page.getByRole('button', { name: /^Front bed L5: empty/ }).count()).toBe(1);
    expect(errors).toEqual([]);
  });

  it('a toe that slants: the second sock is the other foot, left and right exchanged', async () => {
    const { page } = await openStand({ ...SHORT, counts: { ...SHORT.counts, stitches: 32 }, toe: { tipStitches: 6, slantStitches: 2 } });
    const first = await page.locator('.stand-carriage').textContent();
    expect(await page.locator('.stand-heading').textContent()).toContain('right foot');
    while (await page.locator('.stand-part').textContent() !== 'The first sock is done.') await press(page, 'Space');
    await press(page, 'Space');
    expect(await page.locator('.stand-heading').textContent()).toContain('left foot');
    expect(await page.locator('.stand-carriage').textContent()).not.toBe(first);
  });
});

describe('what a browser may lack', () => {
  it.each([
    ['refused', 'Object.defineProperty(navigator, "wakeLock", { value: { request: () => Promise.reject(new Error("no")) }, configurable: true });', 'the browser refused'],
    ['absent', 'Object.defineProperty(navigator, "wakeLock", { value: undefined, configurable: true });', 'this browser cannot'],
  ])('a screen kept awake, %s: said plainly', async (_, before, words) => {
    const { page, errors } = await openStand(SHORT, { before });
    await expect.poll(() => said(page)).toContain(words);
    await press(page, 'Space');
    expect(await page.locator('.stand-count').textContent()).toBe('1');
    expect(errors).toEqual([]);
  });

  it('a screen that is kept awake is kept again after the page was hidden', async () => {
    const { page } = await openStand(SHORT, { before: `window.asked = 0;
      Object.defineProperty(navigator, 'wakeLock', { configurable: true, value: { request: () => { window.asked += 1; const held = new EventTarget(); held.release = () => Promise.resolve(); window.lock = held; return Promise.resolve(held); } } });` });
    const asked = (): Promise<number> => page.evaluate(() => (window as unknown as { asked: number }).asked);
    await expect.poll(asked).toBe(1);
    await page.evaluate(() => {
      (window as unknown as { lock: EventTarget }).lock.dispatchEvent(new Event('release'));
      document.dispatchEvent(new Event('visibilitychange'));
    });
    await expect.poll(asked).toBe(2);
    expect(await said(page)).toBe('');
  });

  it('no voice: its tick says so; a voice: off at first, then it says each act in few words', async () => {
    const without = await openStand(SHORT, { before: 'delete window.SpeechSynthesisUtterance;' });
    await without.page.getByRole('button', { name: 'Settings', exact: true }).click();
    expect(await without.page.getByRole('checkbox', { name: 'Say what to do' }).isDisabled()).toBe(true);
    expect(await without.page.locator('.stand-options').textContent()).toContain('This browser has no voice');
    await without.close();
    const { page } = await openStand(SHORT, { before: `window.told = []; Object.defineProperty(window, 'speechSynthesis', { value: { speak: (u) => window.told.push(u.lang + ': ' + u.text), cancel: () => undefined } });` });
    const told = (): Promise<string[]> => page.evaluate(() => (window as unknown as { told: string[] }).told);
    await press(page, 'Space');
    expect(await told()).toEqual([]);
    await page.getByRole('button', { name: 'Settings', exact: true }).click();
    await page.getByRole('checkbox', { name: 'Say what to do' }).check();
    await page.keyboard.press('Escape');
    await page.locator('.stand-zone').focus();
    await press(page, 'Space');
    expect((await told()).at(-1)).toMatch(/^en: Pass 2, to the (left|right)$/);
    expect(await namelessControls(page, '#room-stand')).toEqual([]);
    expect(await namelessControls(page, '.stand-options')).toEqual([]);
  });

  it('a pedal is learned by pressing it, and kept', async () => {
    const { page } = await openStand(SHORT);
    await page.getByRole('button', { name: 'Settings', exact: true }).click();
    await page.getByRole('button', { name: /pedal for “next”/ }).click();
    await page.keyboard.press('F9');
    await page.getByRole('button', { name: /pedal for “back”/ }).click();
    await page.keyboard.press('KeyB');
    expect(await page.locator('.stand-options').textContent()).toContain('Learned: next F9, back KeyB');
    await page.keyboard.press('Escape');
    await press(page, 'F9', 3);
    await press(page, 'KeyB');
    expect(await counted(page)).toBe(`2 of ${SHORT_PASSES}`);
    await page.reload();
    await shown(page);
    await press(page, 'F9');
    expect(await counted(page)).toBe(`3 of ${SHORT_PASSES}`);
  });
});
