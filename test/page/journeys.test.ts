import { readFile } from 'node:fs/promises';
import type { Locator, Page } from 'playwright-core';
import { describe, expect, inject, it } from 'vitest';
import { STANDARD_SIZES } from '../../src/foot/standard-sizes.ts';
import type { Plan } from '../../src/plan/plan-types.ts';
import { readSock } from '../../src/plan/read-sock.ts';
import { openPage } from './browser.ts';
import { byKeyboard } from './by-keyboard.ts';
import { openSmallSock, see, settled, SMALL_SOCK } from './sock-page.ts';

const button = (page: Page, name: string | RegExp): Locator => page.getByRole('button', { name, exact: true });
const room = (page: Page, name: string): Locator => page.locator(`.room-tab[data-room=${name}]`);
const textOf = async (page: Page, selector: string): Promise<string> => await page.locator(selector).textContent() ?? '';
const passesOf = ({ legPasses, plainPasses, anklePasses, heelPasses, footPasses, toePasses }: Plan): number => legPasses + plainPasses + anklePasses + heelPasses + footPasses + toePasses;

const girthOf = (name: string): number => STANDARD_SIZES.find((size) => size.name === name)!.ballGirthMm;

/** The file that a key press makes. */
async function fileOf(page: Page, act: () => Promise<void>): Promise<{ readonly name: string; readonly text: string }> {
  const [download] = await Promise.all([page.waitForEvent('download', { timeout: 60_000 }), act()]);
  return { name: download.suggestedFilename(), text: await readFile(await download.path(), 'utf8') };
}

describe('by keyboard alone, from opening the page to the end', () => {
  it('a knitter with a high instep gives her measures, takes advice, saves the sheet, and knits a sock with a break at pass 57', async () => {
    const { page, errors } = await openPage({ before: 'window.print = () => { document.documentElement.dataset.printed = "yes"; };' });
    const keys = byKeyboard(page), number = (name: RegExp): Locator => page.getByRole('spinbutton', { name }).first();
    await settled(page);
    // Her thick yarn, and her foot: 325 mm over heel and instep are 1.46 of the ball girth; the survey's 95th of a hundred has 1.45.
    await keys.skip();
    for (const [name, text] of [[/^Foot length/, '23.5'], [/^Ball girth/, '22.2'], [/^Heel to instep/, '32.5'], [/^Stitches/, '12'], [/^Rows/, '17'], [/^Leg length/, '9']] as const) await keys.write(number(name), text);
    await expect.poll(async () => (await see(page)).file.leg?.lengthMm).toBe(90);
    expect((await see(page)).file).toMatchObject({ gauge: { stitchesPer10cm: 12, rowsPer10cm: 17 }, foot: { lengthMm: 235, ballGirthMm: 222, heelDiagonalMm: 325 } });

    await keys.to(page.getByRole('tab', { name: 'Fit' }));
    await keys.press(button(page, 'Put it on the foot'));
    await settled(page);
    const before = await see(page), heel = (): Promise<string> => textOf(page, '#fit [data-question=heel]');
    expect(before.pose).toBe('worn');
    expect(await textOf(page, '#fit [data-question=over-heel]')).toMatch(/32\.5\scm/);
    expect(await heel()).toMatch(/^To change: The heel is too shallow/);
    await keys.press(button(page, 'Make it fit…'));
    const best = button(page, 'Use the best one');
    await best.waitFor({ timeout: 100_000 });
    await keys.press(best);
    await settled(page);
    const fitting = await see(page), { plan } = fitting, passes = passesOf(plan!);
    expect(fitting).toMatchObject({ problems: [], poseStatus: 'converged' });
    await expect.poll(heel).toMatch(/^Good: The heel is seated/);
    expect(fitting.measures.rest!.heelDiagonalMm!).toBeGreaterThan(before.measures.rest!.heelDiagonalMm! * 1.02);

    await keys.press(room(page, 'sheet'));
    await page.locator('.sheet-pages .paper').first().waitFor();
    await keys.press(button(page, 'Print'));
    expect(await page.locator('html').getAttribute('data-printed')).toBe('yes');
    const sheet = await fileOf(page, () => keys.press(button(page, 'Save text')));
    expect(sheet.name).toMatch(/-sheet\.txt$/);
    expect(sheet.text).toContain(`${plan!.stitches} stitches round, ${passes} passes`);

    await keys.press(room(page, 'stand'));
    await page.locator('.stand-acts li').first().waitFor();
    const press = async (times: number): Promise<void> => { for (let i = 0; i < times; i += 1) await page.keyboard.press('Space', { delay: 55 }); };
    expect(passes).toBeGreaterThan(57);
    await press(57);
    expect([await textOf(page, '.stand-count'), await textOf(page, '.stand-of')]).toEqual(['57', `of ${passes}`]);
    await page.reload();
    await page.locator('.stand-acts li').first().waitFor();
    expect([await textOf(page, '.stand-count'), await textOf(page, '.stand-of')]).toEqual(['57', `of ${passes}`]);
    await keys.press(button(page, 'Note'));
    await page.keyboard.type('New ball joined');
    await keys.press(button(page, 'Keep the note'));
    expect(await textOf(page, '.stand-note')).toBe('Your note: New ball joined');
    await keys.to(page.locator('.stand-zone'));
    await press(passes - 57 + 1);
    expect(await textOf(page, '.stand-part')).toBe('Closing');
    await press(1);
    expect(await textOf(page, '.stand-part')).toBe('The first sock is done.');
    expect(errors).toEqual([]);
  }, 300_000);

  it('a teacher takes a class through the lesson, plays with W, goes through a heel pass by pass and on its chart, and shares the sock', async () => {
    const { page, context, errors } = await openSmallSock();
    await context.grantPermissions(['clipboard-read', 'clipboard-write']);
    const keys = byKeyboard(page), title = (): Promise<string> => textOf(page, '.lesson-title');
    await keys.press(room(page, 'lesson'));
    await page.locator('.lesson-step').first().waitFor();
    await keys.press(button(page, 'For the projector'));
    expect(await page.locator('#top-bar').isVisible()).toBe(false);
    const titles = [await title()], steps = await page.locator('.lesson-step').count();
    while (titles.length < steps) {
      await page.keyboard.press('PageDown');
      await expect.poll(title).not.toBe(titles.at(-1));
      titles.push(await title());
    }
    expect(new Set(titles).size).toBe(steps);
    while (await title() !== 'One more pair waits') await page.keyboard.press('PageUp');
    await settled(page);
    await keys.press(page.locator('.lesson-slider input[data-path="heel.turnDownWidth"]'), 'ArrowLeft');
    await expect.poll(async () => (await see(page)).plan?.turnDownWidth).toBe(4);
    // Rows of the heel are H - W, as its text says of the sock that has been made so.
    expect(await textOf(page, '.lesson-body')).toMatch(/narrowest row has 4 stitches.*The heel is 20 rows deep, where it was 16/s);
    await keys.press(button(page, 'Back to the step'));
    await expect.poll(async () => (await see(page)).plan?.turnDownWidth).toBe(6);
    await page.keyboard.press('Escape');
    expect(await page.locator('#top-bar').isVisible()).toBe(true);

    await keys.press(room(page, 'passes'));
    await page.locator('.finished-card[data-status=here]').waitFor();
    const counter = async (name: string): Promise<string> => textOf(page, `.work-counters .is-${name} dd`);
    await keys.press(button(page, /^Heel down/));
    // 16 down to 8 and out again: one needle more waits at each pass, then one less.
    const held: number[] = [];
    for (let pass = 0; pass < 16; pass += 1) {
      held.push(Number(await counter('held')));
      await page.keyboard.press('ArrowRight');
    }
    expect(held).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 7, 6, 5, 4, 3, 2, 1, 0]);
    await page.keyboard.press('PageUp');
    await page.keyboard.press('PageUp');
    await keys.press(button(page, 'Play'));
    await expect.poll(async () => Number(await counter('pass')), { timeout: 30_000 }).toBeGreaterThan(24);
    await page.keyboard.press('Escape');
    const stopped = await counter('pass');

    await keys.press(room(page, 'chart'));
    const chart = page.getByRole('application', { name: /^Chart, heel: small sock/i }), words = (): Promise<string> => textOf(page, '.chart-stitch');
    await keys.press(chart, 'ArrowUp');
    // The pass that was played last, on the chart too.
    expect(await words()).toContain(`pass ${stopped},`);
    await page.keyboard.press('End');
    await page.keyboard.press('PageUp');
    expect(await words()).toContain(`pass ${Number(stopped) + 1},`);
    await page.keyboard.press('Enter');
    await keys.press(room(page, 'passes'));
    expect(await counter('pass')).toBe(String(Number(stopped) + 1));

    await keys.press(button(page, 'Copy link'));
    await button(page, 'Link copied').waitFor();
    const link = await page.evaluate(() => navigator.clipboard.readText()), home = inject('pageUrl');
    expect(link.startsWith(`${home}#`)).toBe(true);
    const pupil = await openPage({ suffix: link.slice(home.length) });
    await settled(pupil.page);
    expect((await see(pupil.page)).file).toEqual(SMALL_SOCK);
    expect([...errors, ...pupil.errors]).toEqual([]);
  }, 300_000);

  it('a designer weighs two toes, grades the sock, takes three sizes as columns and files for the studio, and finds the sock again', async () => {
    const { page, errors } = await openSmallSock();
    const keys = byKeyboard(page);
    await keys.to(page.getByRole('tab', { name: 'Compare' }));
    await keys.press(button(page, 'The same with a short-row toe'));
    await page.waitForFunction(() => window.heelwright?.companion?.pose === window.heelwright?.pose, null, { timeout: 100_000 });
    // Of 16 stitches to 8, README's formulas: 4 decreases every 4 passes are 4 x 3 + 2 passes, short rows 2 x 8.
    expect(await page.locator('[data-row=toePasses] td').allTextContents()).toEqual(['14', '16', '+2']);
    await keys.press(button(page, 'Swap'));
    await expect.poll(async () => (await see(page)).plan?.toeKind).toBe('short-row');
    await settled(page);

    // README's formula: girth x (1 - 10 %) x stitches/mm, the nearest multiple of 4.
    const wanted = Object.fromEntries(['Adult, small', 'Adult, medium', 'Adult, large'].map((name) => [name, 4 * Math.round((girthOf(name) * 0.9 * 0.12) / 4)]));
    await keys.press(button(page, 'Sizes…'));
    const sizes = page.getByRole('dialog', { name: 'Sizes' });
    for (const [name, stitches] of Object.entries(wanted)) {
      const row = sizes.locator('.size-row', { has: page.getByRole('button', { name: `Open ${name}`, exact: true }) });
      await expect.poll(() => row.locator('td').nth(3).textContent(), { timeout: 60_000 }).toBe(String(stitches));
    }
    const table = await fileOf(page, () => keys.press(button(page, 'Download as CSV')));
    expect(table.text).toContain('"Adult, medium"');
    await page.keyboard.press('Escape');
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Sizes…');

    await keys.press(room(page, 'sheet'));
    await page.locator('.sheet-pages .paper').first().waitFor();
    for (const name of Object.keys(wanted)) await keys.press(page.getByRole('checkbox', { name, exact: true }), 'Space');
    await expect.poll(() => textOf(page, '.sheet-pages [data-table="sizes"] thead'), { timeout: 60_000 }).toMatch(/This sock.*Adult, small.*Adult, medium.*Adult, large/s);
    const sheet = await fileOf(page, () => keys.press(button(page, 'Save text')));
    expect(sheet.text).toMatch(/This sock +Adult, small +Adult, medium +Adult, large/);
    expect(sheet.text).toMatch(new RegExp(`Stitches round +32 +${Object.values(wanted).join(' +')}`));

    await keys.press(button(page, 'Export…'));
    const outline = await fileOf(page, () => keys.press(button(page, 'Outline, 1:1: SVG'))), work = await fileOf(page, () => keys.press(button(page, 'Passes: CSV')));
    expect([outline.name, work.name]).toEqual(['small-sock-short-row-toe-outline.svg', 'small-sock-short-row-toe-passes.csv']);
    expect(outline.text).toMatch(/<svg[^>]*width="[\d.]+mm"/);
    expect(work.text.split('\r\n').filter((line) => line.includes(',pass,')).length).toBe(passesOf((await see(page)).plan!));
    await page.keyboard.press('Escape');
    const saved = await fileOf(page, () => page.keyboard.press('Control+s')), designed = { ...SMALL_SOCK, name: 'Small sock, short-row toe', toe: { kind: 'short-row' } };
    expect(saved.name).toBe('small-sock-short-row-toe.json');
    expect(readSock(saved.text).file).toMatchObject(designed);

    // Another sock comes onto the page, and the designed one back from the list.
    await keys.press(page.getByRole('combobox', { name: /example/i }).first(), 'ArrowDown');
    await expect.poll(async () => (await see(page)).file.name).not.toBe(designed.name);
    await keys.press(button(page, /^My socks/));
    await keys.press(button(page, `Open ${designed.name}`));
    await expect.poll(async () => (await see(page)).file).toEqual(readSock(saved.text).file);
    await settled(page);
    expect((await see(page)).plan?.toeKind).toBe('short-row');
    expect(errors).toEqual([]);
  }, 300_000);
});
