import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { FIT_QUESTIONS } from '../../src/measure/fit-answer.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { chooseUnit, openSmallSock, see, settled } from './sock-page.ts';
import type { OpenedPage, OpenOptions } from './browser.ts';

/** Invented: a thick sock for a foot with a high instep, 325 mm over heel and instep, 1.46 of its ball girth; the survey's 95th of a hundred has 1.45. */
const HIGH_INSTEP: SockFile = {
  heelwright: 1, name: 'Thick sock', gauge: { stitchesPer10cm: 12, rowsPer10cm: 17 },
  foot: { lengthMm: 235, ballGirthMm: 222, heelDiagonalMm: 325 }, leg: { lengthMm: 90 },
};

function open(file: SockFile, options: OpenOptions = {}): Promise<OpenedPage> {
  return openSmallSock({ ...options, before: `if (localStorage.getItem('test.opened') === null) { localStorage.setItem('heelwright.sock', ${JSON.stringify(JSON.stringify(file))}); localStorage.setItem('test.opened', ''); }` });
}

async function type(page: Page, name: RegExp, text: string): Promise<void> {
  await page.getByRole('spinbutton', { name }).first().fill(text);
  await page.keyboard.press('Enter');
}

/** The numbers of a row of the advice, by its name: as it is, best, second, third. */
function cellsOf(page: Page, name: string): Promise<(number | null)[]> {
  return page.getByRole('row', { name: new RegExp(`^${name}`) }).locator('td').evaluateAll((cells) => cells.map((cell) => {
    const text = [...cell.childNodes].filter((node) => node.nodeType === Node.TEXT_NODE).map((node) => node.textContent).join('');
    return /\d/.test(text) ? parseFloat(text) : null;
  }));
}

describe('the fit page', () => {
  it('is reached by arrow keys, puts the sock on, and answers every question in words with a sign', async () => {
    const { page, errors } = await open(HIGH_INSTEP);
    await page.getByRole('tab', { name: 'Measures' }).focus();
    await page.keyboard.press('ArrowRight');
    expect(await page.getByRole('tab', { name: 'Fit' }).getAttribute('aria-selected')).toBe('true');
    expect(await page.getByRole('tabpanel').count()).toBe(1);
    expect(await page.locator('#measures').isVisible()).toBe(false);
    const fit = page.getByRole('tabpanel', { name: 'Fit' });
    await fit.getByRole('button', { name: 'Put it on the foot' }).click();
    await settled(page);
    expect((await see(page)).pose).toBe('worn');
    const answers = fit.locator('[data-question]');
    expect(await answers.evaluateAll((all) => all.map((each) => (each as HTMLElement).dataset['question']))).toEqual(FIT_QUESTIONS);
    for (const text of await answers.allTextContents()) expect(text).toMatch(/^(Good|To mind|To change): .*\d/s);
    expect(await answers.locator('svg').count()).toBe(FIT_QUESTIONS.length);
    // What the foot measures over heel and instep, in her own unit.
    expect(await answers.first().textContent()).toMatch(/32\.5\scm/);
    await chooseUnit(page, 'Inches');
    // 325 / 25.4
    expect(await answers.first().textContent()).toMatch(/12\.80\sin/);
    await answers.first().getByRole('button').focus();
    await expect.poll(() => page.locator('.line-label').isVisible()).toBe(true);
    await fit.getByRole('button', { name: 'Show where it presses' }).click();
    expect(await page.evaluate(() => window.heelwright?.layer)).toBe('pressure');
    expect(errors).toEqual([]);
  });

  it('keeps its answers in another pose, and says when the sock has changed since', async () => {
    const { page } = await open(HIGH_INSTEP);
    await page.getByRole('tab', { name: 'Fit' }).click();
    await page.getByRole('button', { name: 'Put it on the foot' }).click();
    await settled(page);
    const card = page.getByRole('region', { name: 'Fit of the sock' }), title = card.getByRole('heading');
    const fresh = await title.textContent();
    await page.getByLabel('Laid flat').check();
    await settled(page);
    expect(await title.textContent()).toBe(fresh);
    await page.getByRole('slider', { name: /turn-down/i }).focus();
    await page.keyboard.press('ArrowLeft');
    await expect.poll(() => title.textContent()).toBe('The sock has changed since');
    await card.getByRole('button', { name: 'Put it on the foot' }).click();
    await settled(page);
    expect(await title.textContent()).not.toMatch(/changed|being put/i);
  });

  it('says so where no measure of a foot is given', async () => {
    const { page } = await openSmallSock();
    await page.getByRole('tab', { name: 'Fit' }).click();
    expect(await page.getByRole('region', { name: 'What a model can say' }).textContent()).toMatch(/average adult.*clinician/s);
  });
});

describe('make it fit', () => {
  it('a high instep gets a longer way over the heel; one step takes it, one takes it back', async () => {
    const { page, errors } = await open(HIGH_INSTEP);
    await page.getByRole('tab', { name: 'Fit' }).click();
    const before = await see(page);
    await page.getByRole('button', { name: 'Make it fit…' }).click();
    await page.getByRole('button', { name: 'Use the best one' }).click({ timeout: 60_000 });
    await settled(page);
    const after = await see(page);
    expect(await page.getByRole('dialog').count()).toBe(0);
    expect(after.measures.rest!.heelDiagonalMm!).toBeGreaterThan(before.measures.rest!.heelDiagonalMm! * 1.02);
    expect(after).toMatchObject({ problems: [], poseStatus: 'converged', file: { name: HIGH_INSTEP.name, foot: HIGH_INSTEP.foot, gauge: HIGH_INSTEP.gauge } });
    const notice = page.locator('[data-notice=advice]');
    expect(await notice.textContent()).toMatch(/to \d+/);
    await notice.getByRole('button', { name: 'Undo' }).click();
    expect((await see(page)).file).toEqual(HIGH_INSTEP);
    expect(await notice.count()).toBe(0);
    expect(errors).toEqual([]);
  });

  it('shows the sock as it is beside the advice: what changes, what it costs, and why', async () => {
    const { page } = await open(HIGH_INSTEP);
    await page.getByRole('tab', { name: 'Fit' }).click();
    await page.getByRole('button', { name: 'Make it fit…' }).click();
    const use = page.getByRole('dialog', { name: 'Make it fit' }).getByRole('button', { name: /^Use the/ });
    await use.first().waitFor({ timeout: 60_000 });
    const { plan } = await see(page), number = await use.count();
    const passes = await cellsOf(page, 'Passes');
    expect(passes.length).toBe(number + 1);
    const { legPasses, plainPasses, anklePasses, heelPasses, footPasses, toePasses } = plan!;
    expect(passes[0]).toBe(legPasses + plainPasses + anklePasses + heelPasses + footPasses + toePasses);
    for (let i = 1; i <= number; i += 1) expect(await page.locator('.advice-reason').nth(i - 1).textContent()).toMatch(/\d/);
    // What its column says of the last is what is knitted then.
    const fields = await page.locator('.advice tbody tr:has([data-field])').evaluateAll((rows) => rows.map((row) => row.querySelector('th')?.textContent ?? ''));
    const widths = fields.includes('Turn-down width') ? await cellsOf(page, 'Turn-down width') : [];
    await use.last().click();
    if (widths.length > 0) expect((await see(page)).plan?.turnDownWidth).toBe(widths.at(-1));
    expect((await see(page)).file).not.toEqual(HIGH_INSTEP);
  });

  it('by keyboard: the focus goes in, Escape calls it off, and the focus comes back', async () => {
    const { page } = await open(HIGH_INSTEP);
    await page.getByRole('tab', { name: 'Fit' }).click();
    const opener = page.getByRole('button', { name: 'Make it fit…' });
    await page.getByRole('slider', { name: /turn-down/i }).focus();
    await page.keyboard.press('ArrowLeft');
    const { file } = await see(page);
    await opener.focus();
    await page.keyboard.press('Enter');
    expect(await page.evaluate(() => document.activeElement?.closest('dialog')?.textContent)).toMatch(/Make it fit/);
    // Nothing is undone behind the sheet.
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Escape');
    await expect.poll(() => page.getByRole('dialog').count()).toBe(0);
    expect(await opener.evaluate((element) => element === document.activeElement)).toBe(true);
    expect((await see(page)).file).toEqual(file);
    // And it can be asked again.
    await page.keyboard.press('Enter');
    await page.getByRole('dialog').getByRole('columnheader', { name: 'Best' }).waitFor({ timeout: 60_000 });
    // It was a stray press that the sheet kept from taking back.
    await page.keyboard.press('Escape');
    await page.keyboard.press('Control+z');
    expect((await see(page)).file).toEqual(HIGH_INSTEP);
  });

  it('shows the sock as it was beside the one that was made to fit', async () => {
    const { page, errors } = await open(HIGH_INSTEP);
    await page.getByRole('tab', { name: 'Fit' }).click();
    await page.getByRole('button', { name: 'Make it fit…' }).click();
    await page.getByRole('button', { name: 'Use the best one' }).click({ timeout: 60_000 });
    await page.getByRole('button', { name: 'Compare with before' }).click();
    expect(await page.getByRole('tab', { name: 'Compare' }).getAttribute('aria-selected')).toBe('true');
    await settled(page);
    expect(await page.evaluate(() => window.heelwright?.companion?.file)).toEqual({ ...HIGH_INSTEP, name: `${HIGH_INSTEP.name!}, as it was` });
    expect((await see(page)).file).not.toEqual(HIGH_INSTEP);
    expect(errors).toEqual([]);
  });

  it('leaves counts fixed by hand alone, until that is ticked', async () => {
    const { page, errors } = await open({ ...HIGH_INSTEP, counts: { stitches: 16 } });
    await page.getByRole('tab', { name: 'Fit' }).click();
    await page.getByRole('button', { name: 'Make it fit…' }).click();
    const sheet = page.getByRole('dialog', { name: 'Make it fit' }), first = sheet.getByRole('button', { name: 'Use the best one' });
    await first.waitFor({ timeout: 60_000 });
    expect(await sheet.getByRole('row', { name: /^Stitches round/ }).count()).toBe(0);
    await sheet.getByRole('checkbox', { name: /fixed by hand: 16 stitches round$/ }).check();
    await first.waitFor({ timeout: 60_000 });
    await expect.poll(() => sheet.getByRole('row', { name: /^Stitches round/ }).count()).toBe(1);
    await first.click();
    expect((await see(page)).plan?.stitches).toBeGreaterThan(16);
    expect(errors).toEqual([]);
  });

  it('says what is missing where there is no foot to fit', async () => {
    const { page } = await openSmallSock();
    await page.getByRole('tab', { name: 'Fit' }).click();
    await page.getByRole('button', { name: 'Make it fit…' }).click();
    await expect.poll(() => page.getByRole('dialog').textContent(), { timeout: 30_000 }).toMatch(/no advice.*foot/s);
  });
});

describe('the foot', () => {
  it('a measure that is missing has an estimate with its scatter, and starts from there', async () => {
    const { page } = await open(HIGH_INSTEP);
    const note = page.locator('.control-line[data-kind=note]:visible').filter({ hasText: 'two feet in three' });
    expect(await note.count()).toBe(3);
    const [, about] = /about (\d+\.\d) cm, two feet in three within \d\.\d/.exec(await note.first().textContent() ?? '') ?? [];
    await page.getByRole('button', { name: /^Ankle girth: none/ }).click();
    expect((await see(page)).file.foot?.ankleGirthMm).toBeCloseTo(10 * Number(about), -1);
    expect(await note.count()).toBe(2);
  });

  it('measures that cannot be of one foot are said at the field, and the sock still knits', async () => {
    const { page, errors } = await open(HIGH_INSTEP);
    // Wider than the girth over heel and instep, through which it has to pass.
    await type(page, /ankle girth/i, '46');
    const remark = page.locator('.control-line[data-kind=remark]:visible');
    await expect.poll(() => remark.count()).toBe(1);
    expect(await remark.textContent()).toMatch(/ankle girth of 46\.0 cm does not go with/i);
    const box = page.getByRole('spinbutton', { name: /ankle girth/i });
    expect(await box.getAttribute('aria-describedby')).toBe(await remark.getAttribute('id'));
    expect(await box.getAttribute('aria-invalid')).toBeNull();
    await settled(page);
    expect(await see(page)).toMatchObject({ problems: [], poseStatus: 'converged', file: { foot: { ankleGirthMm: 460 } } });
    expect(await page.locator('.stage-words').getAttribute('data-shape')).toBe('settled');
    expect(await page.getByRole('list', { name: 'Cautions for this sock' }).first().textContent()).toMatch(/does not go with/);
    await page.keyboard.press('Control+z');
    await expect.poll(() => remark.count()).toBe(0);
    expect(errors).toEqual([]);
  });

  it('arch, toes and side are chosen and written', async () => {
    const { page } = await open(HIGH_INSTEP);
    await page.getByRole('combobox', { name: 'Arch' }).selectOption('high');
    await page.getByRole('combobox', { name: 'Toes, taken together' }).selectOption('square, all alike');
    await page.getByRole('combobox', { name: 'Side' }).selectOption('left foot');
    expect((await see(page)).file.foot).toEqual({ ...HIGH_INSTEP.foot, arch: 'high', toes: 'square', side: 'left' });
  });

  it('how to measure is told with a drawing, whose lines and words light up together; Escape closes it', async () => {
    const { page } = await open(HIGH_INSTEP);
    const opener = page.getByRole('button', { name: 'How to measure…' });
    await opener.focus();
    await page.keyboard.press('Enter');
    const guide = page.getByRole('dialog', { name: 'How to measure a foot' });
    expect(await guide.textContent()).toMatch(/evening.*swollen.*clinician/is);
    await guide.getByRole('button', { name: 'Girth at the ball' }).focus();
    expect(await guide.locator('.tape.is-lit').evaluateAll((lit) => [...new Set(lit.map((each) => each.getAttribute('data-measure')))])).toEqual(['ballGirthMm']);
    expect(await guide.locator('li.is-lit').textContent()).toContain('Girth at the ball');
    await guide.locator('.tape[data-measure=calfGirthMm] circle').hover();
    expect(await guide.locator('li.is-lit').textContent()).toContain('Calf girth');
    await page.keyboard.press('Escape');
    await expect.poll(() => page.getByRole('dialog').count()).toBe(0);
    expect(await opener.evaluate((element) => element === document.activeElement)).toBe(true);
  });
});

describe('heel, toe and gauge', () => {
  it('the heel’s stitches read as a share of all, and are moved by twos', async () => {
    const { page } = await openSmallSock();
    const heel = page.getByRole('slider', { name: /heel stitches/i });
    expect(await heel.getAttribute('aria-valuetext')).toBe('16 of 32');
    await heel.focus();
    await page.keyboard.press('ArrowRight');
    expect((await see(page)).plan?.heelStitches).toBe(18);
    await settled(page);
    expect((await see(page)).poseStatus).toBe('converged');
  });

  it('a toe at several rates is made, changed, drawn and undone', async () => {
    const { page, errors } = await openSmallSock();
    await page.getByRole('combobox', { name: 'Decreases' }).selectOption('at several rates');
    // (16 - 8) / 2 decreases every 4 passes, of which the later half goes every 2.
    expect((await see(page)).file.toe?.schedule).toEqual([{ passes: 4, times: 2 }, { passes: 2, times: 2 }]);
    const toe = page.getByRole('group', { name: 'Toe schedule' });
    await toe.getByRole('button', { name: 'Add a rate' }).click();
    expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toBe('Rate 3: passes for each decrease');
    // 2 x 4 + 2 x 2 + 1 x 2 passes; two stitches a bed gone each time.
    expect((await see(page)).plan).toMatchObject({ toeDecreases: 5, toePasses: 14, toeTipStitches: 6 });
    await toe.getByRole('spinbutton', { name: 'Rate 2: times' }).fill('9');
    await page.keyboard.press('Enter');
    const line = page.locator('#toe-schedule-line');
    await expect.poll(() => line.textContent()).toMatch(/12 decreases/);
    await toe.getByRole('button', { name: 'Take out rate 2' }).click();
    expect(await line.isVisible()).toBe(false);
    expect(await page.locator('.toe-drawing').getAttribute('aria-label')).toMatch(/16 stitches a bed to 10, over 5 rounds/);
    for (let i = 0; i < 4; i += 1) await page.keyboard.press('Control+z');
    expect((await see(page)).file.toe).toBeUndefined();
    expect(errors).toEqual([]);
  });

  it('what a gauge error does is read under the measures', async () => {
    const { page } = await openSmallSock();
    await page.getByText('If the gauge is a little off').click();
    // Geometry: 32 stitches at 11.5 in place of 12 in 10 cm.
    const off = 32 * (100 / 11.5 - 100 / 12);
    expect(await page.locator('[data-tolerance=footGirthMm] td').first().textContent()).toBe(`± ${off.toFixed(1)}`);
  });
});

describe('on a tablet', () => {
  it.each([[1024, 768], [768, 1024], [390, 844]])('at %i x %i the tabs change pages, and nothing runs over the side', async (width, height) => {
    const { page, errors } = await open(HIGH_INSTEP, { width, height, hasTouch: true });
    for (const name of ['Fit', 'Compare', 'Measures'] as const) {
      await page.getByRole('tab', { name }).tap();
      expect(await page.getByRole('tabpanel', { name }).locator(':scope > *').first().isVisible()).toBe(true);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth), name).toBeLessThanOrEqual(0);
    }
    await page.getByRole('tab', { name: 'Fit' }).tap();
    await page.getByRole('button', { name: 'Make it fit…' }).tap();
    await page.getByRole('button', { name: 'Use the best one' }).tap({ timeout: 60_000 });
    await settled(page);
    expect((await see(page)).file).not.toEqual(HIGH_INSTEP);
    expect(errors).toEqual([]);
  });
});
