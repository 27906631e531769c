import type { Page } from 'playwright-core';
import { readFile } from 'node:fs/promises';
import { describe, expect, it } from 'vitest';
import { openSmallSock, see, settled, SMALL_SOCK } from './sock-page.ts';

const OWN_LESSON = `# My lesson

## First

It has **{W}** of {H} stitches. [More](https://example.org) and <b>no markup</b>.

Question: How deep?

Answer: {heel-rows} rows.

\`\`\`sock
heel.turnDownWidth: 12
pose: flat
sliders: heel.turnDownWidth, counts.footPasses
\`\`\`

## Second

Here is another.

\`\`\`sock
pose: tube
heel.wraps: no
\`\`\`
`;
const BAD_LESSON = '# Bad\n\n## Only step\n\n```sock\npose: upright\npass: hel-in start\nheel.turnDownWidth: 6\n```\n';

async function enterLesson(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Lesson', exact: true }).click();
  await page.locator('.lesson-step').first().waitFor();
  await settled(page);
}

const titleOf = (page: Page): Promise<string | null> => page.locator('.lesson-title').textContent();
/** Everything that the browser keeps of the person's own socks. */
const keptSocks = (page: Page): Promise<string> => page.evaluate(() =>
  Object.entries(localStorage).filter(([key]) => key.startsWith('heelwright.sock')).map((entry) => entry.join(' ')).sort().join('\n'));
const keptSettings = (page: Page): Promise<unknown> => page.evaluate(() => JSON.parse(localStorage.getItem('heelwright.settings') ?? '{}') as unknown);

function drop(page: Page, text: string, name: string): Promise<void> {
  return page.evaluate(([content, called]) => {
    const data = new DataTransfer();
    data.items.add(new File([content], called));
    for (const type of ['dragover', 'drop']) document.body.dispatchEvent(new DragEvent(type, { dataTransfer: data, bubbles: true, cancelable: true }));
  }, [text, name] as const);
}

describe('the lesson', () => {
  it('goes through all steps by keyboard, each on its own sock, and gives the person’s own back', async () => {
    const { page, errors } = await openSmallSock();
    const before = await keptSocks(page), { file: own } = await see(page);
    expect(before).toContain(SMALL_SOCK.name);
    await enterLesson(page);
    const count = await page.locator('.lesson-step').count(), titles = new Set<string | null>(), files = new Set<string>();
    expect(count).toBeGreaterThanOrEqual(9);
    for (let step = 0; step < count; step++) {
      if (step > 0) await page.keyboard.press(step % 2 === 0 ? 'ArrowRight' : 'PageDown');
      await expect.poll(() => page.locator('.lesson-step[aria-current=step]').textContent()).toBe(String(step + 1));
      await settled(page);
      const { problems, file } = await see(page);
      expect(problems).toEqual([]);
      titles.add(await titleOf(page));
      files.add(JSON.stringify(file.heel));
      expect(await page.locator('.lesson-figure').allTextContents()).not.toContain('–');
    }
    expect(titles.size).toBe(count);
    expect(files.size).toBeGreaterThanOrEqual(4);
    await page.keyboard.press('PageUp');
    await expect.poll(() => page.locator('.lesson-step[aria-current=step]').textContent()).toBe(String(count - 1));
    expect(await keptSocks(page)).toBe(before);
    await page.getByRole('button', { name: 'Shape', exact: true }).click();
    await settled(page);
    const { file, pose } = await see(page);
    expect(file).toEqual(own);
    expect(pose).toBe('flat');
    expect(await keptSocks(page)).toBe(before);
    expect(await keptSettings(page)).toMatchObject({ pose: 'flat', layer: 'yarn' });
    expect(errors).toEqual([]);
  });

  it('lets the learner move the sock, and comes back to the step; undo is within the lesson', async () => {
    const { page } = await openSmallSock();
    await enterLesson(page);
    await page.locator('.lesson-step').nth(6).click();
    await settled(page);
    const slider = page.locator('.lesson-slider input[data-path="heel.turnDownWidth"]'), back = page.getByRole('button', { name: 'Back to the step' });
    expect(await slider.inputValue()).toBe('6');
    expect(await back.isDisabled()).toBe(true);
    await slider.focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    await expect.poll(async () => (await see(page)).plan?.turnDownWidth).toBe(10);
    // The text's numbers are the sock's: H - W = 24 - 10, and 16 of the lesson's own sock.
    expect(await page.locator('.lesson-figure').allTextContents()).toEqual(['10', '8', '-2', '-2', '14', '16', '-2']);
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    await expect.poll(async () => (await see(page)).plan?.turnDownWidth).toBe(6);
    await slider.fill('10');
    await back.click();
    await expect.poll(async () => (await see(page)).plan?.turnDownWidth).toBe(6);
    expect(await back.isDisabled()).toBe(true);
    // A clicker turns pages even where a slider has the focus.
    await slider.focus();
    await page.keyboard.press('PageDown');
    await expect.poll(() => page.locator('.lesson-step[aria-current=step]').textContent()).toBe('8');
  });

  it('plays passes on the beds, and stops where it has come to', async () => {
    const { page, errors } = await openSmallSock();
    await enterLesson(page);
    await page.locator('.lesson-step').nth(8).click();
    await settled(page);
    const { pass } = await page.evaluate(() => ({ pass: window.heelwright?.pass ?? null }));
    await page.getByRole('button', { name: 'Play', exact: true }).click();
    await page.getByRole('button', { name: 'Stop', exact: true }).waitFor();
    await page.getByRole('button', { name: 'Play', exact: true }).waitFor({ timeout: 60_000 });
    await settled(page);
    expect(await page.evaluate(() => window.heelwright?.pass ?? null)).toBe(pass);
    expect(await page.locator('.lesson-pass').textContent()).toContain(String(pass));
    // Stopped on the way, the sock hangs as it does after the pass that it has come to.
    await page.getByRole('button', { name: 'Play', exact: true }).click();
    await page.getByRole('button', { name: 'Stop', exact: true }).click();
    const shown = Number(/\d+/.exec(await page.locator('.lesson-pass').textContent() ?? '')?.[0]);
    expect(shown).toBeLessThan(pass!);
    await expect.poll(() => page.evaluate(() => window.heelwright?.pass ?? null), { timeout: 60_000 }).toBe(shown);
    expect(errors).toEqual([]);
  });

  it('is projected over the whole page in letters for the back row', async () => {
    const { page } = await openSmallSock();
    await page.setViewportSize({ width: 1280, height: 720 });
    await enterLesson(page);
    await page.getByRole('button', { name: 'For the projector' }).click();
    expect(await page.locator('#top-bar').isVisible()).toBe(false);
    for (const [place, least] of [['.lesson-body p', 32], ['.lesson-title', 38], ['.lesson-slider', 22]] as const) {
      expect(await page.locator(place).first().evaluate((element) => parseFloat(getComputedStyle(element).fontSize)), place).toBeGreaterThanOrEqual(least);
    }
    const stage = await page.locator('#stage').boundingBox();
    expect((stage?.width ?? 0) * (stage?.height ?? 0)).toBeGreaterThan(0.33 * 1280 * 720);
    const first = await titleOf(page);
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => titleOf(page)).not.toBe(first);
    await page.keyboard.press('Escape');
    expect(await page.locator('#top-bar').isVisible()).toBe(true);
    expect(await page.locator('body.is-projected').count()).toBe(0);
  });
});

describe('a teacher’s lesson', () => {
  it('is dropped on the page, runs, is there after a reload, and markup in it is text', async () => {
    const { page, errors } = await openSmallSock();
    const before = await keptSocks(page);
    await drop(page, OWN_LESSON, 'mine.md');
    await expect.poll(() => titleOf(page)).toBe('First');
    await settled(page);
    expect((await see(page)).plan?.turnDownWidth).toBe(12);
    expect(await page.locator('.lesson-body').textContent()).toContain('It has 12 of 24 stitches. More and <b>no markup</b>.');
    expect(await page.locator('.lesson-body b').count()).toBe(0);
    expect(await page.locator('.lesson-body a').getAttribute('rel')).toContain('noopener');
    expect(await page.locator('.lesson-slider').count()).toBe(2);
    expect(await page.getByText('12 rows.').isVisible()).toBe(false);
    await page.getByText('Show the answer').click();
    expect(await page.getByText('12 rows.').isVisible()).toBe(true);
    await page.getByRole('button', { name: 'Next' }).click();
    await settled(page);
    await page.reload();
    await settled(page);
    await expect.poll(() => titleOf(page)).toBe('Second');
    expect(await page.locator('.lesson-name').textContent()).toBe('My lesson');
    expect(await keptSocks(page)).toBe(before);
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save this lesson' }).click()]);
    expect(download.suggestedFilename()).toBe('mine.md');
    expect(await readFile(await download.path(), 'utf8')).toBe(OWN_LESSON);
    await page.getByRole('button', { name: 'The built-in lesson' }).click();
    await expect.poll(() => page.locator('.lesson-step').count()).toBeGreaterThan(8);
    expect(errors).toEqual([]);
  });

  // One page for all: none of those that are refused leaves a trace for the next.
  it('with slips in it is told of them by line, and the rest runs; one that is none is refused, and the one before it stays', async () => {
    const { page } = await openSmallSock();
    await enterLesson(page);
    const told = page.locator('.lesson-problems');
    await page.locator('input[data-opens=lesson]').setInputFiles({ name: 'bad.md', mimeType: 'text/markdown', buffer: Buffer.from(BAD_LESSON) });
    await expect.poll(() => titleOf(page)).toBe('Only step');
    for (const part of ['bad.md', 'Line 6', 'upright', 'flat, tube, beds, worn', 'Line 7', 'hel-in', 'heel-in']) expect(await told.textContent()).toContain(part);
    expect((await see(page)).plan?.turnDownWidth).toBe(6);
    await told.getByRole('button', { name: 'Dismiss' }).click();
    expect(await told.count()).toBe(0);
    for (const [name, text, part] of [['none.md', '# Nothing', 'No step was found'], ['picture.md', 'PNG\u0000\u0000', 'no text'], ['large.md', `## A\n${'x'.repeat(300_000)}`, '200 kB']] as const) {
      await drop(page, text, name);
      await told.getByText(part).waitFor();
      expect(await told.textContent()).toContain(name);
      expect(await titleOf(page)).toBe('Only step');
    }
  });
});

it('a sock that is opened during the lesson is the person’s own, and the lesson steps aside', async () => {
  const { page } = await openSmallSock();
  await enterLesson(page);
  await drop(page, JSON.stringify({ ...SMALL_SOCK, name: 'Another' }), 'another.json');
  await expect.poll(async () => (await see(page)).file.name).toBe('Another');
  expect(await page.locator('#page').getAttribute('data-room')).toBe('shape');
  expect(await keptSocks(page)).toContain('Another');
  await page.keyboard.press('Control+z');
  await expect.poll(async () => (await see(page)).file.name).toBe(SMALL_SOCK.name);
});
