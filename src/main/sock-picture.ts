import type { StitchGrid } from '../machine/grid.ts';
import { measureVertexStretch } from '../measure/measure-stretch.ts';
import type { KnittedSock, PosedSock } from '../pipeline/result.ts';
import { moveToFrame } from '../shape/canonical-frame.ts';
import type { PoseName } from '../shape/pose.ts';
import type { LoopStretch } from '../panel/loop-readout.ts';
import type { SockView, VertexStretch } from '../view/sock-view-types.ts';

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
  /** How far the shown shape is stretched at a loop of the shown grid; null where no cloth is. */
  stretchAt(loop: number): LoopStretch | null;
}

export function createSockPicture(view: SockView): SockPicture {
  let next: KnittedSock | null = null;
  let shown: KnittedSock | null = null;
  let stretch: VertexStretch | null = null;
  let isFramed = true;
  let begun = 0;
  let dimTimer: ReturnType<typeof setTimeout> | undefined;

  let hasFramed = false;

  const bring = (sock: KnittedSock, positions: Float64Array, pose: PoseName, measured: VertexStretch | null): void => {
    const isLast = measured !== null;
    if (shown !== sock) view.setFabric(sock.fabric, sock.grid, sock.plan.yarns.map((yarn) => yarn.colour));
    shown = sock;
    // Framed as soon as it is seen, and once more when its size is known.
    view.setPositions(positions, isFramed && (isLast || !hasFramed), pose);
    // A shape on its way is coloured by its own stretch, not by the last one's.
    stretch = measured ?? measureVertexStretch(sock.fabric, positions);
    view.setStretch(stretch);
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
      bring(next, positions, pose, null);
    },
    settled: (posed) => {
      if (next !== null) bring(next, posed.pose.positions, posed.pose.name, posed.stretch);
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
    stretchAt: (loop) => {
      const vertex = shown?.fabric.loopVertex[loop] ?? -1;
      return stretch === null || vertex < 0 ? null : { width: stretch.vertexWidth[vertex], length: stretch.vertexLength[vertex] };
    },
  };
}
