import { readFile } from 'node:fs/promises';
import { describe, expect, it } from 'vitest';
import { readSock } from '../../src/plan/read-sock.ts';
import { chooseUnit, openSmallSock, see, settled, SMALL_SOCK } from './sock-page.ts';

const { yarns, ...plain } = SMALL_SOCK;
const asFile = (text: string, name = 'given.json'): { name: string; mimeType: string; buffer: Buffer } => ({ name, mimeType: 'application/json', buffer: Buffer.from(text) });

describe('a file that is no sock', () => {
  const files = [
    ['is empty', '', 'empty'],
    ['is not JSON', '{ "gauge": ', 'not JSON'],
    ['has an unknown field', JSON.stringify({ ...plain, hell: {} }), 'hell'],
    ['has a number as a text', JSON.stringify({ ...plain, gauge: { stitchesPer10cm: '30', rowsPer10cm: 42 } }), 'quotation marks'],
    ['has a gauge of 3 stitches', JSON.stringify({ ...plain, gauge: { stitchesPer10cm: 3, rowsPer10cm: 42 } }), '3'],
    ['has a __proto__ key', '{ "__proto__": { "gauge": 1 } }', '__proto__'],
    ['nests deeply', '['.repeat(5000) + ']'.repeat(5000), 'deep'],
    ['is larger than 5 MB', `"${'x'.repeat(6_000_000)}"`, '5 MB'],
  ] as const;

  // One page for all: none of them leaves a trace for the next.
  it('is told with what is wrong with it, and the sock stays', async () => {
    const { page, errors } = await openSmallSock();
    const notice = page.locator('[data-notice=file]');
    for (const [what, text, told] of files) {
      await page.locator('input[type=file]').setInputFiles(asFile(text));
      await notice.waitFor();
      expect(await notice.textContent(), what).toContain(told);
      const { plan, problems } = await see(page);
      expect(plan?.name, what).toBe(SMALL_SOCK.name);
      expect(problems, what).toEqual([]);
      await notice.getByRole('button', { name: 'Dismiss' }).click();
      expect(await notice.count(), what).toBe(0);
    }
    expect(errors).toEqual([]);
  });
});

describe('a sock file', () => {
  it('is opened by the button, and undone like any change', async () => {
    const { page } = await openSmallSock();
    await page.locator('input[type=file]').setInputFiles(asFile(JSON.stringify({ ...SMALL_SOCK, name: 'Another' })));
    await expect.poll(async () => (await see(page)).plan?.name).toBe('Another');
    await page.keyboard.press('Control+z');
    expect((await see(page)).plan?.name).toBe(SMALL_SOCK.name);
  });

  it('is opened when it is dragged in', async () => {
    const { page } = await openSmallSock();
    await page.evaluate((text) => {
      const data = new DataTransfer();
      data.items.add(new File([text], 'dragged.json', { type: 'application/json' }));
      for (const type of ['dragover', 'drop']) document.body.dispatchEvent(new DragEvent(type, { dataTransfer: data, bubbles: true, cancelable: true }));
    }, JSON.stringify({ ...SMALL_SOCK, name: 'Dragged in' }));
    await expect.poll(async () => (await see(page)).plan?.name).toBe('Dragged in');
  });

  it('is saved as a file that reads back as the same sock', async () => {
    const { page } = await openSmallSock();
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save' }).click()]);
    expect(download.suggestedFilename()).toBe('small-sock.json');
    const { file, problems } = readSock(await readFile(await download.path(), 'utf8'));
    expect(problems).toEqual([]);
    expect(file).toEqual({ ...SMALL_SOCK, yarns: [...yarns] });
  });

  it('survives a reload, and so do the units', async () => {
    const { page } = await openSmallSock();
    await page.getByRole('slider', { name: /turn-down/i }).focus();
    await page.keyboard.press('ArrowLeft');
    await chooseUnit(page, 'Inches');
    await page.reload();
    await settled(page);
    expect((await see(page)).plan?.turnDownWidth).toBe(6);
    expect(await page.locator('input[name=length-unit][value=in]').isChecked()).toBe(true);
    expect(await page.getByRole('slider', { name: /leg length in/i }).getAttribute('aria-valuetext')).toBe('3.54 in');
  });

  it('that cannot be kept for the next visit is told of, with what to do', async () => {
    const { page } = await openSmallSock({ before: "Storage.prototype.setItem = () => { throw new Error('full'); };" });
    const notice = page.locator('[data-notice=keep]');
    expect(await notice.textContent()).toContain('Save the sock to a file');
    expect((await see(page)).poseStatus).toBe('converged');
  });
});

describe('what cannot be knitted', () => {
  it('is said beside its control and in a list; the sock stays in the picture, and undo brings the number back', async () => {
    const { page } = await openSmallSock();
    const box = page.getByRole('spinbutton', { name: /^Stitches/ }).first();
    await box.fill('300');
    await expect.poll(async () => (await see(page)).problems.map(({ field }) => field)).toEqual(['gauge.stitchesPer10cm']);
    expect(await box.getAttribute('aria-invalid')).toBe('true');
    const line = page.locator(`#${await box.getAttribute('aria-describedby') ?? ''}`);
    expect(await line.isVisible()).toBe(true);
    expect(await line.textContent()).toContain('120');
    const list = page.getByRole('region', { name: 'Messages' });
    expect(await list.textContent()).toContain('cannot be knitted');
    expect((await see(page)).plan?.stitches).toBe(32);
    await list.getByRole('button', { name: 'Undo' }).click();
    expect((await see(page)).problems).toEqual([]);
    expect(await line.isVisible()).toBe(false);
    await expect.poll(() => box.inputValue()).toBe('12');
  });

  it('words where a number should be are refused in place, and change nothing', async () => {
    const { page } = await openSmallSock();
    const box = page.getByRole('spinbutton', { name: /leg length/i });
    await box.fill('long');
    const line = page.locator('.control-line[data-kind=problem]:visible');
    await line.waitFor();
    expect(await line.textContent()).toContain('number');
    expect((await see(page)).file.leg?.lengthMm).toBe(90);
    await box.fill('8,5');
    await expect.poll(async () => (await see(page)).file.leg?.lengthMm).toBe(85);
    expect(await line.count()).toBe(0);
  });

  it('a sock that needs more needles than the bed has names the machine', async () => {
    const { page } = await openSmallSock();
    await page.locator('input[type=file]').setInputFiles(asFile(JSON.stringify({ ...SMALL_SOCK, machine: { needlesPerBed: 20 } })));
    await page.waitForFunction(() => (window.heelwright?.problems.length ?? 0) > 0);
    expect((await see(page)).plan?.needlesPerBed).not.toBe(20);
    expect(await page.getByRole('region', { name: 'Messages' }).textContent()).toMatch(/needle/i);
  });
});
