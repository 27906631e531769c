import { expect, it } from 'vitest';
import { openPage } from './browser.ts';

it('the built page loads from a folder, without an error and without a request elsewhere', async () => {
  const { page, errors, outside } = await openPage();
  expect(new URL(page.url()).pathname).not.toBe('/');
  expect(await page.locator('script[type=module]').count()).toBeGreaterThan(0);
  expect(await page.evaluate(() => document.body.innerText.trim().length)).toBeGreaterThan(0);
  expect(errors).toEqual([]);
  expect(outside).toEqual([]);
});

it('the browser draws WebGL2: a cleared canvas has the colour asked for', async () => {
  const { page } = await openPage();
  const drawn = await page.evaluate(() => {
    const gl = document.createElement('canvas').getContext('webgl2');
    if (gl === null) return null;
    gl.clearColor(0.2, 0.4, 0.6, 1);
    gl.clear(gl.COLOR_BUFFER_BIT);
    const pixel = new Uint8Array(4);
    gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, pixel);
    return [...pixel];
  });
  expect(drawn).toEqual([51, 102, 153, 255]);
});

it('errors of a page are seen', async () => {
  const { page, errors } = await openPage({ before: "console.error('seen by the test')" });
  await page.evaluate(() => new Promise((resolve) => {
    const image = new Image();
    image.onerror = resolve;
    image.src = 'no-such-picture.png';
  }));
  expect(errors.join('\n')).toContain('seen by the test');
  expect(errors.join('\n')).toContain('status 404');
});
