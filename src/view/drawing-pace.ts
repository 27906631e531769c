import type { WebGLRenderer } from 'three';
import { isSoftware } from './software-renderer.ts';
import { YARN_LEVELS } from './yarn-levels.ts';

/**
 * Without a graphics card a moving picture is drawn coarser, and in full once it has rested: for so long, and for so
 * many frames of the page after that, which come late where each takes its time. A canvas that changes its size waits
 * until all before it is drawn, so that a picture that still moves must not.
 */
const COARSE_RATIO = 0.5, REST_MS = 160, REST_FRAMES = 3;

/** Frames of a picture in motion that come later than this, ms, are drawn with a level of detail less, after so many of them: a page may be late for other reasons. */
const LATE_MS = 220, LATE_FRAMES = 2;
/** Yarn in motion without a graphics card is drawn at its coarsest level. */
const FINEST_IN_MOTION = 0;
/** Without a graphics card all that is fine is drawn from twice as many pixels on (DESIGN.md, the picture). */
const SOFTWARE_SHARE = 0.5;

/** How many pixels of the picture are drawn for each of the page. */
export class DrawingPace {
  private readonly isSoftware: boolean;
  private readonly redraw: () => void;
  private restTimer = 0;
  private restFrame = 0;
  private lastFrame = 0;
  private lateFrames = 0;
  private stepsDown = 0;
  isMoving = false;

  constructor(renderer: WebGLRenderer, redraw: () => void) {
    this.isSoftware = isSoftware(renderer);
    this.redraw = redraw;
  }

  ratio(): number {
    if (!this.isSoftware) return Math.min(window.devicePixelRatio, 2);
    return this.isMoving ? COARSE_RATIO : 1;
  }

  /** Pixels for each of the page by which detail is chosen: those of a picture at rest. */
  detailRatio(): number { return this.isSoftware ? SOFTWARE_SHARE : this.ratio(); }

  /** The finest level of yarn that may be drawn now; -1 for none. */
  finest(): number {
    if (!this.isMoving) return Infinity;
    return Math.max(-1, (this.isSoftware ? FINEST_IN_MOTION : YARN_LEVELS.length - 1) - this.stepsDown);
  }

  /** With each frame of the page; `time` is the page's. */
  begin(time: number): void {
    const isLate = this.isMoving && this.lastFrame > 0 && time - this.lastFrame > LATE_MS;
    this.lastFrame = this.isMoving ? time : 0;
    this.lateFrames = isLate ? this.lateFrames + 1 : 0;
    if (this.lateFrames < LATE_FRAMES) return;
    this.lateFrames = 0;
    this.stepsDown++;
  }

  /** The picture is in motion: camera or cloth. */
  move(): void {
    this.dispose();
    if (!this.isMoving) this.lastFrame = this.lateFrames = this.stepsDown = 0;
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
