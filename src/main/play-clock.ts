/** Plays the work: so many stops a second, forwards or backwards. */
export interface PlayClock {
  /** Which way it plays; 0 while it stands. */
  direction(): 1 | 0 | -1;
  start(direction: 1 | -1): void;
  stop(): void;
}

export interface PlayHooks {
  readonly stopsPerSecond: () => number;
  /** So many stops on or back; false where there are no more, which ends the play. */
  readonly stepBy: (stops: number) => boolean;
}

/** A page that is slower than the speed asked for leaves stops out, and does not fall behind. A hidden page stands still. */
export function createPlayClock({ stopsPerSecond, stepBy }: PlayHooks): PlayClock {
  let direction: 1 | 0 | -1 = 0, frame = 0, before = 0, due = 0;
  const tick = (now: number): void => {
    if (direction === 0) return;
    frame = requestAnimationFrame(tick);
    // After a pause of the whole page (another tab) it goes on where it was.
    due += Math.min(LONGEST_MS, now - before) * stopsPerSecond() / 1000;
    before = now;
    const stops = Math.floor(due);
    if (stops < 1) return;
    due -= stops;
    if (!stepBy(direction * stops)) stop();
  };
  const stop = (): void => {
    direction = 0;
    cancelAnimationFrame(frame);
  };
  return {
    direction: () => direction,
    start: (next) => {
      stop();
      direction = next;
      before = performance.now();
      // The first step is seen at once.
      due = 1;
      frame = requestAnimationFrame(tick);
    },
    stop,
  };
}

const LONGEST_MS = 400;
