import { measureVertexStretch } from '../measure/measure-stretch.ts';
import type { KnittedSock, PosedSock } from '../pipeline/result.ts';
import { moveToFrame } from '../shape/canonical-frame.ts';
import type { PoseName } from '../shape/pose.ts';
import type { ReadLoop } from '../panel/loop-readout.ts';
import type { Around, Arrangement, ClothLayer, HoveredLoop, SockView } from '../view/sock-view-types.ts';
import { type ClothNumbers, mapOf } from './layer-map.ts';
import { aroundOf, clothOf, coloursOf, diametersOf, readingOf, type Shown, wholeOf } from './picture-cloth.ts';
import { createSecondPicture, type SecondSock } from './second-picture.ts';

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
  /** What the colours tell, of both socks; cloth whose numbers are not known shows its yarn. */
  setLayer(layer: ClothLayer): void;
  /** A second sock, or none. */
  setSecond(second: SecondSock | null, arrangement: Arrangement): void;
  /** What is known of a loop under the pointer. */
  readAt(hovered: HoveredLoop): ReadLoop | null;
}

export function createSockPicture(view: SockView): SockPicture {
  let next: KnittedSock | null = null;
  let shown: Shown | null = null;
  let around: Around | null = null;
  let numbers: ClothNumbers = { stretch: null, worn: null, difference: null };
  let isFramed = true, hasFramed = false;
  let layer: ClothLayer = 'yarn', begun = 0, dimTimer: ReturnType<typeof setTimeout> | undefined;
  const second = createSecondPicture(view);

  const bring = (next: Shown, positions: Float64Array, pose: PoseName, measured: ClothNumbers | null): void => {
    const isLast = measured !== null, { sock, fabric, grid } = next;
    if (shown?.sock !== sock || shown.fabric !== fabric) view.setFabric(fabric, grid, coloursOf(sock), diametersOf(sock));
    shown = next;
    // Framed as soon as it is seen, and once more when its size is known.
    view.setPositions(positions, isFramed && (isLast || !hasFramed), pose, around);
    // A shape on its way is coloured by its own stretch, not by the last one's; how it presses is known of a shape at rest only.
    numbers = measured ?? { stretch: measureVertexStretch(fabric, positions), worn: null, difference: null };
    view.setMap(mapOf(layer, shown, numbers));
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
      around = aroundOf(next, posed);
      if (next !== null) bring(clothOf(next, posed), posed.pose.positions, posed.pose.name, { stretch: posed.stretch, worn: posed.worn, difference: null });
      view.keepInView();
      dim(false);
    },
    keepOld: () => { dim(true); },
    standDown: () => { dim(false); },
    frameNext: () => {
      isFramed = true;
      hasFramed = false;
    },
    setLayer: (chosen) => {
      if (chosen === layer) return;
      layer = chosen;
      view.setMap(mapOf(layer, shown, numbers));
      second.setLayer(layer);
    },
    setSecond: second.set,
    readAt: ({ sock, loop }) => {
      if (sock === 'second') return second.readAt(loop);
      return shown && { grid: shown.grid, reading: readingOf(shown.fabric.loopVertex[loop] ?? -1, numbers), name: second.firstName() };
    },
  };
}
