import { describe, expect, it } from 'vitest';
import { DrawingPace, type PageClock } from '../../src/view/drawing-pace.ts';
import { YARN_LEVELS } from '../../src/view/yarn-levels.ts';

/** A page whose time goes on only when it is told to. */
class TestPage implements PageClock {
  devicePixelRatio = 1.5;
  isCalm = false;
  private due: { readonly id: number; readonly at: number; readonly run: () => void }[] = [];
  private frames: { readonly id: number; readonly run: (time: number) => void }[] = [];
  private lastId = 0;
  time = 1000;

  matchMedia(): { readonly matches: boolean } { return { matches: this.isCalm }; }
  cancelAnimationFrame(id: number): void { this.frames = this.frames.filter((frame) => frame.id !== id); }
  clearTimeout(id: number | undefined): void { this.due = this.due.filter((timer) => timer.id !== id); }

  setTimeout = ((run: () => void, ms: number): number => {
    this.due.push({ id: ++this.lastId, at: this.time + ms, run });
    return this.lastId;
  }) as unknown as PageClock['setTimeout'];

  requestAnimationFrame(run: (time: number) => void): number {
    this.frames.push({ id: ++this.lastId, run });
    return this.lastId;
  }

  /** A frame of the page, so many milliseconds after the last. */
  frame(pace: DrawingPace, ms: number): void {
    this.time += ms;
    for (const { id, run } of this.due.filter(({ at }) => at <= this.time)) { this.clearTimeout(id); run(); }
    const asked = this.frames;
    this.frames = [];
    for (const { run } of asked) run(this.time);
    pace.begin(this.time);
  }
}

const FINEST = YARN_LEVELS.length - 1;

function paceOf(isSoftware: boolean, isCalm = false): { readonly page: TestPage; readonly pace: DrawingPace; readonly drawn: () => number } {
  const page = new TestPage();
  page.isCalm = isCalm;
  let drawn = 0;
  const pace = new DrawingPace(isSoftware, () => { drawn++; }, page);
  return { page, pace, drawn: () => drawn };
}

/** Frames of a picture in motion, so far apart; the finest level after each. */
function move(page: TestPage, pace: DrawingPace, count: number, ms: number): number[] {
  return Array.from({ length: count }, () => {
    pace.move();
    page.frame(pace, ms);
    return pace.finest();
  });
}

describe('yarn in motion', () => {
  it('keeps its detail while frames come in time, a late one among them', () => {
    const { page, pace } = paceOf(false);
    expect(move(page, pace, 20, 16)).toEqual(Array.from({ length: 20 }, () => FINEST));
    for (let i = 0; i < 5; i++) expect([...move(page, pace, 1, 300), ...move(page, pace, 1, 16)]).toEqual([FINEST, FINEST]);
  });

  it('steps down by a level for every two frames in a row that are late, to none at last', () => {
    const { page, pace } = paceOf(false);
    move(page, pace, 1, 16);
    const finest = move(page, pace, 2 * FINEST + 4, 150 + 100);
    expect(finest).toEqual(Array.from({ length: 2 * FINEST + 4 }, (_, i) => Math.max(-1, FINEST - Math.floor((i + 1) / 2))));
    expect(finest.at(-1)).toBe(-1);
  });

  it('has its coarsest level without a graphics card, and none where even that is late', () => {
    const { page, pace } = paceOf(true);
    expect(move(page, pace, 3, 100)).toEqual([0, 0, 0]);
    expect(move(page, pace, 2, 400)).toEqual([0, -1]);
  });

  it('is drawn in full again once it rests, and begins its next motion with all its detail', () => {
    const { page, pace, drawn } = paceOf(false);
    move(page, pace, 8, 400);
    expect(pace.finest()).toBeLessThan(FINEST);
    for (let i = 0; i < 30 && pace.isMoving; i++) page.frame(pace, 16);
    expect([pace.isMoving, pace.finest(), drawn()]).toEqual([false, Infinity, 1]);
    expect(move(page, pace, 1, 16)).toEqual([FINEST]);
  });
});

describe('mesh and yarn', () => {
  it.each([
    [false, false, 'moving', 'resting'], [true, false, 'moving', 'still'], [false, true, 'still', 'still'], [true, true, 'still', 'still'],
  ] as const)('go over into each other: no graphics card %s, reduced motion %s', (isSoftware, isCalm, inMotion, atRest) => {
    const { page, pace } = paceOf(isSoftware, isCalm);
    expect(pace.fade()).toBe(atRest);
    move(page, pace, 2, 16);
    expect(pace.fade()).toBe(inMotion);
    for (let i = 0; i < 30; i++) page.frame(pace, 16);
    expect(pace.fade()).toBe(atRest);
  });
});
