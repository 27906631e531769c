import type { Fabric } from '../fabric/fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';
import { measureVertexStretch } from '../measure/measure-stretch.ts';
import type { KnittedSock, PosedSock } from '../pipeline/result.ts';
import { moveToFrame } from '../shape/canonical-frame.ts';
import type { PoseName } from '../shape/pose.ts';
import type { LoopStretch } from '../panel/loop-readout.ts';
import type { Around, SockView, VertexStretch } from '../view/sock-view-types.ts';

/** Milliseconds before an old shape is paled, and before a half-relaxed one is shown: faster answers should not flicker. */
const DIM_AFTER_MS = 120;
const PROGRESS_AFTER_MS = 250;

/** Keeps the picture in step with the worker: old shape paled, new one as it relaxes, new one at rest. */
export interface SockPicture {
  /** A new shape is under way, from `begun` (milliseconds of the clock). */
  expect(begun: number): void;
  knitted(sock: KnittedSock): void;
  /** Positions of the whole sock, which are moved into the picture's frame; on the beds the old picture stays until the new shape is at rest. */
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

/** The cloth in the picture: all of a sock, or as much as is knitted on the beds. */
interface Shown { readonly sock: KnittedSock; readonly fabric: Fabric; readonly grid: StitchGrid }

function wholeOf(sock: KnittedSock): Shown {
  return { sock, fabric: sock.fabric, grid: sock.grid };
}

/** The part's shape may be an older one's whose yarns were others: its loops are the sock's first ones. */
function partOf(sock: KnittedSock, { fabric, grid }: NonNullable<PosedSock['part']>): Shown {
  return { sock, fabric, grid: { ...grid, yarn: sock.grid.yarn.slice(0, grid.loopCount) } };
}

/** Of a cast-on that no pass has knitted yet. */
function castOnColour(sock: KnittedSock | null, { part }: PosedSock): string | null {
  return part?.pass === 0 ? sock?.plan.yarns[sock.grid.yarn[0]]?.colour ?? null : null;
}

export function createSockPicture(view: SockView): SockPicture {
  let next: KnittedSock | null = null;
  let shown: Shown | null = null;
  let around: Around | null = null;
  let stretch: VertexStretch | null = null;
  let isFramed = true;
  let begun = 0;
  let dimTimer: ReturnType<typeof setTimeout> | undefined;

  let hasFramed = false;

  const bring = (next: Shown, positions: Float64Array, pose: PoseName, measured: VertexStretch | null): void => {
    const isLast = measured !== null, { sock, fabric, grid } = next;
    if (shown?.sock !== sock || shown.fabric !== fabric) view.setFabric(fabric, grid, sock.plan.yarns.map((yarn) => yarn.colour));
    shown = next;
    // Framed as soon as it is seen, and once more when its size is known.
    view.setPositions(positions, isFramed && (isLast || !hasFramed), pose, around);
    // A shape on its way is coloured by its own stretch, not by the last one's.
    stretch = measured ?? measureVertexStretch(fabric, positions);
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
      if (next === null || pose === 'beds' || (shown !== null && now - begun < PROGRESS_AFTER_MS)) return;
      // A shape on its way drifts and turns; the picture stands still. A foot holds its sock, and stays as it was until the sock's is here.
      if (pose !== 'worn') moveToFrame(next.fabric, positions, pose === 'flat');
      if (pose !== 'worn' || around?.body == null) around = null;
      bring(wholeOf(next), positions, pose, null);
    },
    settled: (posed) => {
      around = { holding: posed.part?.holding ?? null, castOnColour: castOnColour(next, posed), body: posed.body };
      if (next !== null) bring(posed.part === null ? wholeOf(next) : partOf(next, posed.part), posed.pose.positions, posed.pose.name, posed.stretch);
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
