import type { Page } from 'playwright-core';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import type { KnittedSock } from '../../src/pipeline/result.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { axesOf } from '../../src/view/frame-camera.ts';
import { vertexNormals } from '../../src/yarn/vertex-normals.ts';

/** A sock in the picture, and where its vertices lie: three entries each, mm. */
export interface ShownSock { readonly sock: KnittedSock; readonly positions: Float64Array }

/** Relaxes a sock in the page and shows it alone. */
export async function showSock(page: Page, file: SockFile, pose: 'flat' | 'tube' = 'flat'): Promise<ShownSock> {
  const { sock } = knitSock(file);
  if (sock === null) throw new Error('the sock cannot be knitted');
  const positions = await page.evaluate(([file, pose]) => {
    const { view, make, companionOf } = window.picture!, cloth = companionOf(make(file, pose), '');
    view.keepFree(10, 10);
    view.setFabric(cloth.fabric, cloth.grid, cloth.yarnColours);
    view.setPositions(cloth.positions, true, pose, cloth.around ?? null);
    return Array.from(cloth.positions);
  }, [file, pose] as const);
  return { sock, positions: Float64Array.from(positions) };
}

/** Three bytes a pixel. */
export interface Picture { readonly width: number; readonly height: number; readonly bytes: Uint8Array }

/** Stands square before a loop, and reads the picture; `isTaken`: as it is taken away, fine from half as many pixels on as on a screen without a graphics card. */
export async function lookAt(page: Page, loop: number, pixelsPerStitch: number, isTaken = false): Promise<Picture> {
  const { width, height, text } = await page.evaluate(([loop, pixels, isTaken]) => {
    const { view } = window.picture!, canvas = document.getElementById('sock') as HTMLCanvasElement;
    view.approach(loop, pixels);
    const draw = (): ImageData => {
      // Draws at once: what is drawn on a canvas can be read only before the page goes on.
      view.resize();
      const context = new OffscreenCanvas(canvas.width, canvas.height).getContext('2d')!;
      context.drawImage(canvas, 0, 0);
      return context.getImageData(0, 0, canvas.width, canvas.height);
    };
    const { width, height, data } = isTaken ? view.takePicture(1, 'themed')! : draw();
    const parts: string[] = [];
    for (let i = 0; i < data.length; i += 4) parts.push(String.fromCharCode(data[i], data[i + 1], data[i + 2]));
    return { width, height, text: btoa(parts.join('')) };
  }, [loop, pixelsPerStitch, isTaken] as const);
  return { width, height, bytes: Buffer.from(text, 'base64') };
}

export type Rgb = readonly [number, number, number];

/** Mean of a square of pixels about a place. */
export function meanAt({ width, bytes }: Picture, x: number, y: number, half: number): Rgb {
  const sum = [0, 0, 0];
  for (let py = Math.round(y) - half; py <= Math.round(y) + half; py++) {
    for (let px = Math.round(x) - half; px <= Math.round(x) + half; px++) for (let d = 0; d < 3; d++) sum[d] += bytes[3 * (py * width + px) + d];
  }
  return sum.map((value) => value / (2 * half + 1) ** 2) as unknown as Rgb;
}

/** How millimetres in the fabric at a vertex lie on the screen of someone who stands square before it from outside. */
export function screenAxes({ sock: { fabric }, positions }: ShownSock, vertex: number): (mm: readonly [number, number, number]) => readonly [right: number, down: number] {
  const [x, y, z] = vertexNormals(fabric, positions).subarray(3 * vertex, 3 * vertex + 3);
  const { right, up } = axesOf({ azimuth: Math.atan2(x, -y), elevation: Math.asin(Math.min(1, Math.max(-1, z))) });
  return (mm) => [mm[0] * right[0] + mm[1] * right[1] + mm[2] * right[2], -(mm[0] * up[0] + mm[1] * up[1] + mm[2] * up[2])];
}

export function between(positions: Float64Array, from: number, to: number): readonly [number, number, number] {
  return [positions[3 * to] - positions[3 * from], positions[3 * to + 1] - positions[3 * from + 1], positions[3 * to + 2] - positions[3 * from + 2]];
}
