import type { StitchGrid } from '../machine/grid.ts';
import type { KnittedSock, PosedSock } from '../pipeline/result.ts';
import { moveToFrame } from '../shape/canonical-frame.ts';
import type { PoseName } from '../shape/pose.ts';
import type { SockView } from '../view/sock-view-types.ts';

/** Milliseconds before an old shape is paled, and before a half-relaxed one is shown: faster answers should not flicker. */
const DIM_AFTER_MS = 120;
const PROGRESS_AFTER_MS = 250;

/** Keeps the picture in step with the worker: old shape paled, new one as it relaxes, new one at rest. */
export interface SockPicture {
  /** A new shape is under way, from `begun` (milliseconds of the clock). */
  expect(begun: number): void;
  knitted(sock: KnittedSock): void;
  /** The positions are moved into the picture's frame. */
  progress(positions: Float64Array, pose: PoseName, now: number): void;
  settled(posed: PosedSock): void;
  /** The sock on the panel cannot be knitted: the old one stays, paled. */
  keepOld(): void;
  /** Nothing is under way any more, and what is shown is right. */
  standDown(): void;
  /** The next shape is framed: another sock, or another pose. */
  frameNext(): void;
  shownGrid(): StitchGrid | null;
}

export function createSockPicture(view: SockView): SockPicture {
  let next: KnittedSock | null = null;
  let shown: KnittedSock | null = null;
  let isFramed = true;
  let begun = 0;
  let dimTimer: ReturnType<typeof setTimeout> | undefined;

  let hasFramed = false;

  const bring = (sock: KnittedSock, positions: Float64Array, pose: PoseName, isLast: boolean): void => {
    if (shown !== sock) view.setFabric(sock.fabric, sock.grid, sock.plan.yarns.map((yarn) => yarn.colour));
    shown = sock;
    // Framed as soon as it is seen, and once more when its size is known.
    view.setPositions(positions, isFramed && (isLast || !hasFramed), pose);
    hasFramed = isFramed;
    if (isLast) isFramed = false;
  };
  const dim = (isDimmed: boolean): void => {
    clearTimeout(dimTimer);
    view.setDimmed(isDimmed);
  };
  return {
    expect: (now) => {
      begun = now;
      clearTimeout(dimTimer);
      dimTimer = setTimeout(() => { view.setDimmed(true); }, DIM_AFTER_MS);
    },
    knitted: (sock) => { next = sock; },
    progress: (positions, pose, now) => {
      if (next === null || (shown !== null && now - begun < PROGRESS_AFTER_MS)) return;
      // A shape on its way drifts and turns; the picture stands still.
      moveToFrame(next.fabric, positions, pose === 'flat');
      bring(next, positions, pose, false);
    },
    settled: (posed) => {
      if (next !== null) bring(next, posed.pose.positions, posed.pose.name, true);
      view.keepInView();
      dim(false);
    },
    keepOld: () => { dim(true); },
    standDown: () => { dim(false); },
    frameNext: () => {
      isFramed = true;
      hasFramed = false;
    },
    shownGrid: () => shown?.grid ?? null,
  };
}
