import type { FadeMode } from './yarn-fade.ts';
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

/** What it needs of the page. */
export type PageClock = Pick<Window, 'devicePixelRatio' | 'setTimeout' | 'clearTimeout' | 'requestAnimationFrame' | 'cancelAnimationFrame'> & {
  matchMedia(query: string): { readonly matches: boolean };
};

/** How finely the picture is drawn while it moves and once it rests. */
export class DrawingPace {
  private readonly isSoftware: boolean;
  private readonly redraw: () => void;
  private readonly clock: PageClock;
  private readonly isCalm: { readonly matches: boolean };
  private restTimer = 0;
  private restFrame = 0;
  private lastFrame = 0;
  private lateFrames = 0;
  private stepsDown = 0;
  isMoving = false;

  /** `isSoftware`: without a graphics card. */
  constructor(isSoftware: boolean, redraw: () => void, clock: PageClock = window) {
    this.isSoftware = isSoftware;
    this.redraw = redraw;
    this.clock = clock;
    this.isCalm = clock.matchMedia('(prefers-reduced-motion: reduce)');
  }

  /** How many pixels of the picture are drawn for each of the page. */
  ratio(): number {
    if (!this.isSoftware) return Math.min(this.clock.devicePixelRatio, 2);
    return this.isMoving ? COARSE_RATIO : 1;
  }

  /** Pixels for each of the page by which detail is chosen: those of a picture at rest. */
  detailRatio(): number { return this.isSoftware ? SOFTWARE_SHARE : this.ratio(); }

  /** The finest level of yarn that may be drawn now; -1 for none. */
  finest(): number {
    if (!this.isMoving) return Infinity;
    return Math.max(-1, (this.isSoftware ? FINEST_IN_MOTION : YARN_LEVELS.length - 1) - this.stepsDown);
  }

  /** How mesh and yarn may go over into each other: at once for who asks for reduced motion; and without a graphics card at rest, where the picture grows finer at once anyway. */
  fade(): FadeMode {
    if (this.isCalm.matches) return 'still';
    return this.isMoving ? 'moving' : this.isSoftware ? 'still' : 'resting';
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
    this.restTimer = this.clock.setTimeout(() => { this.rest(REST_FRAMES); }, REST_MS);
  }

  dispose(): void {
    this.clock.clearTimeout(this.restTimer);
    this.clock.cancelAnimationFrame(this.restFrame);
  }

  private rest(frames: number): void {
    if (frames > 0) {
      this.restFrame = this.clock.requestAnimationFrame(() => { this.rest(frames - 1); });
      return;
    }
    this.isMoving = false;
    this.redraw();
  }
}
