import type { WebGLRenderer } from 'three';
import { isSoftware } from './software-renderer.ts';

/**
 * Without a graphics card a moving picture is drawn coarser, and in full once it has rested: for so long, and for so
 * many frames of the page after that, which come late where each takes its time. A canvas that changes its size waits
 * until all before it is drawn, so that a picture that still moves must not.
 */
const COARSE_RATIO = 0.5, REST_MS = 160, REST_FRAMES = 3;

/** How many pixels of the picture are drawn for each of the page. */
export class DrawingPace {
  private readonly isSoftware: boolean;
  private readonly redraw: () => void;
  private restTimer = 0;
  private restFrame = 0;
  private isMoving = false;

  constructor(renderer: WebGLRenderer, redraw: () => void) {
    this.isSoftware = isSoftware(renderer);
    this.redraw = redraw;
  }

  ratio(): number {
    if (!this.isSoftware) return Math.min(window.devicePixelRatio, 2);
    return this.isMoving ? COARSE_RATIO : 1;
  }

  /** The picture is in motion: camera or cloth. */
  move(): void {
    if (!this.isSoftware) return;
    this.dispose();
    this.isMoving = true;
    this.restTimer = window.setTimeout(() => { this.rest(REST_FRAMES); }, REST_MS);
  }

  dispose(): void {
    clearTimeout(this.restTimer);
    cancelAnimationFrame(this.restFrame);
  }

  private rest(frames: number): void {
    if (frames > 0) {
      this.restFrame = requestAnimationFrame(() => { this.rest(frames - 1); });
      return;
    }
    this.isMoving = false;
    this.redraw();
  }
}
