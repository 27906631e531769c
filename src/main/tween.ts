/** Runs from 0 to 1 in so many milliseconds, frame by frame; none at all where the person asks for reduced motion. */
export interface Tween {
  begin(milliseconds: number): void;
  stop(): void;
}

export function createTween(show: (way: number) => void): Tween {
  const calm = matchMedia('(prefers-reduced-motion: reduce)');
  let frame = 0, way = 1;
  const set = (next: number): void => {
    if (next === way) return;
    way = next;
    show(way);
  };
  const stop = (): void => {
    cancelAnimationFrame(frame);
    set(1);
  };
  return {
    begin: (milliseconds) => {
      cancelAnimationFrame(frame);
      if (milliseconds <= 0 || calm.matches) { set(1); return; }
      const begun = performance.now();
      const tick = (now: number): void => {
        // The clock of a frame may lie a little before the step's.
        set(Math.min(1, Math.max(0, (now - begun) / milliseconds)));
        if (way < 1) frame = requestAnimationFrame(tick);
      };
      set(0);
      frame = requestAnimationFrame(tick);
    },
    stop,
  };
}
