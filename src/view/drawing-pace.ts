import type { WebGLRenderer } from 'three';
import { isSoftware } from './software-renderer.ts';

/** Without a graphics card a moving picture is drawn coarser, and in full once it has rested: for so long, or for so many frames where frames take their time. */
const COARSE_RATIO = 0.5, REST_MS = 160, REST_FRAMES = 4;
/** Two frames farther apart belong to two motions. */
const APART_MS = 1_000;

/** How many pixels of the picture are drawn for each of the page. */
export class DrawingPace {
  private readonly isSoftware: boolean;
  private readonly redraw: () => void;
  private restTimer = 0;
  private isMoving = false;
  private lastFrame = -Infinity;
  private frameMs = 0;

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
    this.isMoving = true;
    clearTimeout(this.restTimer);
    this.restTimer = window.setTimeout(this.onRest, Math.max(REST_MS, REST_FRAMES * this.frameMs));
  }

  /** A frame begins, at a time of the page's clock, ms. */
  frame(time: number): void {
    const since = time - this.lastFrame;
    this.frameMs = this.isMoving && since < APART_MS ? since : 0;
    this.lastFrame = time;
  }

  dispose(): void { clearTimeout(this.restTimer); }

  private readonly onRest = (): void => {
    this.isMoving = false;
    this.redraw();
  };
}
