import { readFile } from 'node:fs/promises';
import type { Locator, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { byKeyboard } from './by-keyboard.ts';
import { chooseUnit, countersAtRest, countPixels, openSmallSock, see, settled, SMALL_SOCK } from './sock-page.ts';

/** The file that a key press makes. */
async function bytesOf(page: Page, act: () => Promise<void>): Promise<Buffer> {
  const [download] = await Promise.all([page.waitForEvent('download', { timeout: 60_000 }), act()]);
  return readFile(await download.path());
}

async function type(page: Page, name: RegExp, text: string): Promise<void> {
  await page.getByRole('spinbutton', { name }).first().fill(text);
  await page.keyboard.press('Enter');
}

describe('a knitter', () => {
  it('starts from a shoe size, sees how far it can be trusted, then gives the measured foot', async () => {
    const { page } = await openSmallSock();
    const source = page.getByRole('combobox', { name: 'Length from' });
    await source.selectOption('shoe size, continental');
    await type(page, /shoe size/i, '39');
    await expect.poll(async () => (await see(page)).file.foot?.shoeSize).toEqual({ system: 'continental', value: 39 });
    // Common practice, no source: a continental size is 1.5 a centimetre of foot, and 2. (39 - 2) / 1.5 = 24.67 cm.
    expect(await page.getByRole('spinbutton', { name: /shoe size/i }).getAttribute('aria-valuetext')).toMatch(/^39 24\.7 ± \d\.\d cm$/);
    await source.selectOption('the foot, measured');
    await type(page, /foot length/i, '24.9');
    await expect.poll(async () => (await see(page)).file.foot).toEqual({ lengthMm: 249 });
    await expect.poll(() => page.locator('[data-measure=footLengthMm] td').last().textContent()).toBe('24.9');
  });

  it('is told of a leg that is too tight, in her own unit, and can knit it all the same', async () => {
    const { page } = await openSmallSock();
    const cautions = page.getByRole('list', { name: 'Cautions for this sock' });
    expect(await cautions.isVisible()).toBe(false);
    await type(page, /ankle girth/i, '45');
    await expect.poll(() => cautions.textContent()).toMatch(/ankle of 45\.0 cm.*clinician/);
    await chooseUnit(page, 'Inches');
    expect(await cautions.textContent()).toMatch(/ankle of 17\.72 in/);
    await settled(page);
    expect((await see(page)).problems).toEqual([]);
    expect((await see(page)).poseStatus).toBe('converged');
  });

  it('sees that the shape is under way, how far, and that it has come to rest', async () => {
    const { page } = await openSmallSock();
    await page.evaluate(() => {
      const words = document.querySelector('.stage-words')!, bar = document.querySelector<HTMLProgressElement>('.stage-progress')!;
      const seen: string[] = [];
      const note = (): void => { seen.push(`${words.getAttribute('data-shape') ?? ''} ${bar.hidden ? 'without' : 'with'} a bar`); };
      new MutationObserver(note).observe(words, { attributes: true });
      Object.assign(window, { seenShapes: seen });
    });
    await page.getByRole('slider', { name: /turn-down/i }).focus();
    await page.keyboard.press('ArrowLeft');
    // Another sock's shape is no measure of this one.
    expect(await page.locator('#measures').getAttribute('class')).toContain('is-waiting');
    await settled(page);
    const seen = await page.evaluate(() => (window as unknown as { seenShapes: string[] }).seenShapes);
    expect([seen[0], seen.at(-1)]).toEqual(['relaxing with a bar', 'settled without a bar']);
    expect(await page.locator('#measures').getAttribute('class')).not.toContain('is-waiting');
  });
});

describe('a designer', () => {
  it('sets decrease rate, tip, toe, closing and leg, and undoes all of it step by step', async () => {
    const { page, errors } = await openSmallSock();
    const rate = page.getByRole('slider', { name: /decrease rate/i });
    await rate.focus();
    await page.keyboard.press('Home');
    // Geometry: k (D - 1) + 2 passes, with D = (16 - 8) / 2 decreases.
    for (const k of [2, 4, 6, 8]) {
      expect((await see(page)).plan).toMatchObject({ passesPerDecrease: k, toeDecreases: 4, toePasses: 3 * k + 2 });
      await page.keyboard.press('ArrowRight');
    }
    await type(page, /tip width/i, '12');
    await expect.poll(async () => (await see(page)).plan?.toeDecreases).toBe(2);
    await page.getByRole('combobox', { name: 'Shaped by' }).selectOption('short rows');
    expect(await rate.isVisible()).toBe(false);
    // Turned from 16 down to 12 and out again.
    expect((await see(page)).plan).toMatchObject({ toeKind: 'short-row', toePasses: 8, toeDecreases: 0 });
    await page.getByRole('combobox', { name: 'Closed by' }).selectOption('binding off, a small ridge');
    await page.getByRole('combobox', { name: 'Knitted as' }).selectOption('plain tube');
    await settled(page);
    // 90 mm at 17 rows in 10 cm are 15.3 rounds of two passes.
    expect(await see(page)).toMatchObject({ plan: { closing: 'bind-off', legKind: 'tube', legPasses: 30 }, problems: [], poseStatus: 'converged' });
    // Five key presses on the rate, and four choices.
    for (let i = 0; i < 9; i += 1) await page.keyboard.press('Control+z');
    expect((await see(page)).file).toEqual(SMALL_SOCK);
    expect(errors).toEqual([]);
  });

  it('changes a yarn’s colour and sees it on the sock', async () => {
    const { page } = await openSmallSock();
    const before = await countPixels(page);
    await page.getByRole('button', { name: 'Yarns and stripes' }).click();
    const colour = page.getByRole('textbox', { name: 'Yarn 3 colour', exact: true });
    await colour.fill('#e01818');
    await colour.press('Enter');
    await expect.poll(async () => (await see(page)).file.yarns?.[2]?.colour).toBe('#e01818');
    await settled(page);
    const after = await countPixels(page);
    // The foot is the greater part of the sock.
    expect(after.red).toBeGreaterThan(before.red * 2);
    expect(after.blue).toBeLessThan(before.blue / 2);
  });
});

describe('a teacher', () => {
  it('turns the sock: each view shows it, and a flat one seen edge on is explained', async () => {
    const { page } = await openSmallSock();
    const side = await countPixels(page);
    await page.getByRole('button', { name: 'Front', exact: true }).click();
    await expect.poll(() => page.locator('.stage-words').textContent()).toContain('edge on');
    await expect.poll(async () => (await countPixels(page)).red).toBeLessThan(side.red / 2);
    await page.getByLabel('Tube').check();
    await settled(page);
    expect(await page.locator('.stage-words').textContent()).not.toContain('edge on');
    for (const view of ['Back', 'Sole', 'Turned', 'Side']) {
      await page.getByRole('button', { name: view, exact: true }).click();
      await expect.poll(async () => { const { red, all } = await countPixels(page); return red / all; }, { message: view }).toBeGreaterThan(0.01);
    }
  });
});

describe('with the yarn in sight, by keyboard alone', () => {
  it('a knitter with a high instep follows a held stitch to its wrap, sees what the wrap adds, and lets both go', async () => {
    const { page, errors } = await openSmallSock({ before: `localStorage.setItem('heelwright.sock', ${JSON.stringify(JSON.stringify({ ...SMALL_SOCK, foot: { heelDiagonalMm: 360 } }))});` });
    const keys = byKeyboard(page), card = page.locator('.stitch-card'), row = (name: string): Locator => card.locator('dt', { hasText: name }).locator('xpath=following-sibling::dd[1]');
    await keys.press(page.locator('#sock'));
    await card.waitFor();
    const { plan } = await see(page), first = 1 + plan!.legPasses + plan!.plainPasses + plan!.anklePasses, last = first + plan!.heelPasses - 1;
    const passIn = async (text: Locator): Promise<number> => Number(/pass (\d+)/.exec(await text.innerText())?.[1]);
    const pass = await passIn(card.locator('.stitch-place'));
    expect(pass).toBeGreaterThanOrEqual(first);
    // Geometry: turning out is turning down seen in a mirror, so that a needle comes back as many passes before the heel's end as it left after its beginning.
    expect(await passIn(row('Through it'))).toBe(first + last - pass);
    expect(await row('Through it').innerText()).toContain(`after ${first + last - 2 * pass - 1} passes in hold`);
    // Common practice, no source: the yarn is laid round a needle that is held, once the carriage has passed.
    expect(await passIn(row('Wrapped by'))).toBeGreaterThanOrEqual(pass);
    await keys.press(row('Wrapped by').getByRole('button'));
    expect(await card.locator('h2').innerText()).toMatch(/wrap/i);
    expect(await passIn(row('Lies round'))).toBe(pass);
    expect(await passIn(row('Knitted off by'))).toBe(first + last - pass);
    await keys.press(row('Lies round').getByRole('button'));
    // Close to it, the wrap makes a difference to be seen.
    await page.keyboard.press('Enter');
    await keys.press(page.getByRole('button', { name: 'Look', exact: true }));
    await expect.poll(() => page.locator('.look-drawn').innerText()).toMatch(/^Yarn, loop by loop/);
    await countersAtRest(page);
    const withWraps = await page.locator('#sock').screenshot();
    await keys.press(page.getByRole('checkbox', { name: /wrap/i }).first(), 'Space');
    await settled(page);
    expect((await see(page)).file.heel?.wraps).toBe(false);
    await countersAtRest(page);
    expect(await card.locator('dt', { hasText: 'Wrapped by' }).count()).toBe(0);
    expect((await page.locator('#sock').screenshot()).equals(withWraps)).toBe(false);
    await keys.to(card.locator('.stitch-head'));
    await page.keyboard.press('Escape');
    await card.waitFor({ state: 'hidden' });
    expect(errors).toEqual([]);
  });

  it('a teacher steps through a wrap and a decrease with a clicker, on a picture that fills the page', async () => {
    const { page, errors } = await openSmallSock({ reducedMotion: 'reduce' });
    const keys = byKeyboard(page), told = page.locator('.close-told'), card = page.locator('.close-card');
    await keys.press(page.locator('.room-tab[data-room=passes]'));
    await page.locator('.finished-card[data-status=here]').waitFor();
    const { plan } = await see(page), heel = 1 + plan!.legPasses + plan!.plainPasses + plan!.anklePasses, toe = heel + plan!.heelPasses + plan!.footPasses;
    await keys.write(page.getByRole('textbox', { name: 'Go to pass' }), String(heel + 1));
    await keys.press(page.getByRole('button', { name: 'Close-up', exact: true }));
    await keys.press(page.getByRole('button', { name: 'Large close-up', exact: true }));
    const { width } = page.viewportSize()!;
    await expect.poll(async () => (await card.boundingBox())!.width / width).toBeGreaterThan(0.95);
    expect(await page.locator('#stage').isVisible()).toBe(false);
    const clickUntil = async (wanted: RegExp): Promise<void> => {
      for (let i = 0; i < 300 && !wanted.test(await told.innerText()); i++) await page.keyboard.press('PageDown');
      expect(await told.innerText()).toMatch(wanted);
    };
    await clickUntil(/is held and wrapped/);
    const wrapped = await told.innerText();
    await page.keyboard.press('PageUp');
    expect(await told.innerText()).not.toBe(wrapped);
    await page.keyboard.press('Escape');
    expect([await page.locator('#stage').isVisible(), await card.isVisible()]).toEqual([true, true]);
    await keys.write(page.getByRole('textbox', { name: 'Go to pass' }), String(toe));
    while (!/Decrease/.test(await page.locator('.work-acts').innerText())) await keys.press(page.getByRole('button', { name: 'One pass on' }));
    await keys.press(page.getByRole('button', { name: 'Large close-up', exact: true }));
    await clickUntil(/goes through all of them/);
    await page.keyboard.press('Escape');
    await page.keyboard.press('Escape');
    await card.waitFor({ state: 'hidden' });
    expect(errors).toEqual([]);
  });

  it('a designer compares toes, colours by pass and bed, opens the sock, turns it inside out, prints it 20 cm wide and takes the yarn along', async () => {
    const { page, errors } = await openSmallSock();
    const keys = byKeyboard(page), picture = page.locator('#sock'), title = page.locator('.map-legend .map-title, .map-title').first(), look = page.locator('.look-bar');
    await keys.to(page.getByRole('tab', { name: 'Compare' }));
    await keys.press(page.getByRole('button', { name: 'The same with a short-row toe' }));
    await settled(page);
    await keys.press(page.getByRole('button', { name: 'Look', exact: true }));
    // Beside each other both are shown whole.
    expect(await look.getByRole('button', { name: 'Toe' }).isDisabled()).toBe(true);
    await keys.to(picture);
    const seen = new Set<string>();
    for (let i = 0; i < 9; i++) {
      await page.keyboard.press('c');
      seen.add(await title.innerText());
    }
    expect([...seen]).toEqual(expect.arrayContaining(['In which pass', 'On which bed']));
    await keys.press(picture, 'x');
    // What lies flat has two sides: one can be taken off, or none.
    const slider = look.getByRole('slider', { name: /Cut away/ });
    await expect.poll(() => slider.getAttribute('aria-valuetext')).toBe('one side off');
    await page.keyboard.press('x');
    await expect.poll(() => slider.getAttribute('aria-valuetext')).toBe('nothing');
    await page.keyboard.press('x');
    await page.keyboard.press('i');
    expect(await look.getByRole('checkbox', { name: 'Inside out' }).isChecked()).toBe(true);
    await keys.press(page.getByRole('button', { name: 'Export…' }));
    await keys.write(page.getByRole('spinbutton', { name: /^Picture to print/ }), '20');
    const png = await bytesOf(page, () => keys.press(page.getByRole('button', { name: 'Picture to print: PNG' })));
    // PNG, third edition (W3C, 2025), 11.2.1 and 11.3.4.3: width and pixels a metre. 20 cm at 300 to the inch of 2.54 cm are 2362 pixels.
    expect(png.readUInt32BE(16)).toBe(2362);
    expect(png.readUInt32BE(png.indexOf('pHYs') + 4)).toBe(11_811);
    const glb = await bytesOf(page, () => keys.press(page.getByRole('button', { name: 'Yarn, loop by loop, as a model: GLB' })));
    // glTF 2.0 (Khronos, ISO/IEC 12113:2022), 4.4.2: magic, version, length of all.
    expect([glb.toString('latin1', 0, 4), glb.readUInt32LE(4), glb.readUInt32LE(8)]).toEqual(['glTF', 2, glb.length]);
    expect(errors).toEqual([]);
  });
});
