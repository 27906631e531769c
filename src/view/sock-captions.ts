import { type PerspectiveCamera, Vector3 } from 'three';
import type { Scheme } from './colour.ts';
import type { Vector } from './frame-camera.ts';

/** Pixels that a caption takes under a framed sock, with the room over it. */
export const CAPTION_PIXELS = 30;
const GAP_PIXELS = 7, MARGIN_PIXELS = 8;

/** A sock's outline in the picture, pixels of CSS. */
interface Box { readonly left: number; readonly right: number; readonly bottom: number }

/** What a caption stands under. */
export interface Captioned { readonly points: Float64Array; readonly place: Vector }

function boxOf({ points, place }: Captioned, camera: PerspectiveCamera, width: number, height: number): Box {
  const at = new Vector3();
  let left = Infinity, right = -Infinity, bottom = -Infinity;
  for (let i = 0; i < points.length; i += 3) {
    at.set(points[i] + place[0], points[i + 1] + place[1], points[i + 2] + place[2]).project(camera);
    left = Math.min(left, at.x);
    right = Math.max(right, at.x);
    bottom = Math.max(bottom, -at.y);
  }
  return { left: (0.5 + 0.5 * left) * width, right: (0.5 + 0.5 * right) * width, bottom: (0.5 + 0.5 * bottom) * height };
}

/** Names of two socks, each under its own, or both in one line under socks that lie over each other: never on a sock, so left out where there is no room under it. */
export class SockCaptions {
  private readonly elements = [document.createElement('div'), document.createElement('div')] as const;
  private readonly marks = [document.createElement('i'), document.createElement('i')] as const;
  private readonly words = [document.createElement('span'), document.createElement('span')] as const;
  private readonly canvas: HTMLCanvasElement;
  private isShown = false;

  constructor(canvas: HTMLCanvasElement) {
    this.canvas = canvas;
    this.elements.forEach((element, i) => {
      element.className = 'sock-caption';
      element.hidden = true;
      this.marks[i].setAttribute('aria-hidden', 'true');
      element.append(this.marks[i], this.words[i]);
      canvas.parentElement?.append(element);
    });
  }

  /** Null takes both away; `veiled` is the one of the two that is drawn as a veil, -1 for none. */
  show(labels: readonly [string, string] | null, veiled: number): void {
    this.isShown = labels !== null;
    this.elements.forEach((element, i) => {
      this.words[i].textContent = labels?.[i] ?? '';
      element.hidden = !this.isShown;
      element.dataset['look'] = veiled < 0 ? 'plain' : veiled === i ? 'veil' : 'cloth';
    });
  }

  setScheme(scheme: Scheme): void {
    for (const element of this.elements) element.style.setProperty('--veil', scheme.veilInk);
  }

  /** Puts the captions where the socks stand now. */
  place(socks: readonly [Captioned, Captioned], isOver: boolean, camera: PerspectiveCamera): void {
    if (!this.isShown) return;
    const { clientWidth, clientHeight, offsetLeft, offsetTop } = this.canvas;
    const boxes = socks.map((sock) => boxOf(sock, camera, clientWidth, clientHeight));
    const lowest = Math.max(boxes[0].bottom, boxes[1].bottom) + GAP_PIXELS;
    const widths = this.elements.map((element) => element.offsetWidth), between = GAP_PIXELS;
    const lefts = boxes.map(({ left, right }, i) => (left + right - widths[i]) / 2);
    if (isOver) {
      const middle = (Math.min(boxes[0].left, boxes[1].left) + Math.max(boxes[0].right, boxes[1].right)) / 2;
      lefts[0] = middle - (widths[0] + between + widths[1]) / 2;
      lefts[1] = lefts[0] + widths[0] + between;
    }
    this.elements.forEach((element, i) => {
      const top = isOver ? lowest : boxes[i].bottom + GAP_PIXELS;
      const hasRoom = top + element.offsetHeight <= clientHeight - MARGIN_PIXELS && lefts[i] > -widths[i] && lefts[i] < clientWidth;
      const left = Math.min(Math.max(lefts[i], MARGIN_PIXELS), clientWidth - MARGIN_PIXELS - widths[i]);
      element.style.visibility = hasRoom ? 'visible' : 'hidden';
      element.style.transform = `translate(${Math.round(offsetLeft + left)}px, ${Math.round(offsetTop + top)}px)`;
    });
  }

  dispose(): void { for (const element of this.elements) element.remove(); }
}
