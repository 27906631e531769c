import type { DifferenceMap } from '../choose/comparison.ts';
import type { Fabric } from '../fabric/fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';
import { measureVertexStretch } from '../measure/measure-stretch.ts';
import type { KnittedSock, PosedSock } from '../pipeline/result.ts';
import { moveToFrame } from '../shape/canonical-frame.ts';
import type { PoseName } from '../shape/pose.ts';
import type { LoopReading, ReadLoop } from '../panel/loop-readout.ts';
import type { Around, Arrangement, ClothLayer, HoveredLoop, SockView } from '../view/sock-view-types.ts';
import { type ClothNumbers, mapOf } from './layer-map.ts';

/** Milliseconds before an old shape is paled, and before a half-relaxed one is shown: faster answers should not flicker. */
const DIM_AFTER_MS = 120;
const PROGRESS_AFTER_MS = 250;

/** A second sock at rest in the same pose, and what both are called in the picture. */
export interface SecondSock {
  readonly sock: KnittedSock;
  readonly posed: PosedSock;
  readonly difference: DifferenceMap | null;
  readonly label: string;
  readonly firstLabel?: string;
}

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

/** The cloth in the picture: all of a sock, or as much as is knitted on the beds. */
interface Shown { readonly sock: KnittedSock; readonly fabric: Fabric; readonly grid: StitchGrid }

function wholeOf(sock: KnittedSock): Shown {
  return { sock, fabric: sock.fabric, grid: sock.grid };
}

/** The part's shape may be an older one's whose yarns were others: its loops are the sock's first ones. */
function partOf(sock: KnittedSock, { fabric, grid }: NonNullable<PosedSock['part']>): Shown {
  return { sock, fabric, grid: { ...grid, yarn: sock.grid.yarn.slice(0, grid.loopCount) } };
}

function clothOf(sock: KnittedSock, { part }: PosedSock): Shown {
  return part === null ? wholeOf(sock) : partOf(sock, part);
}

function coloursOf(sock: KnittedSock): string[] { return sock.plan.yarns.map((yarn) => yarn.colour); }

/** What holds a posed sock. A cast-on that no pass has knitted yet is yarn round the needles. */
function aroundOf(sock: KnittedSock | null, { part, body }: PosedSock): Around {
  const castOnColour = part?.pass === 0 ? sock?.plan.yarns[sock.grid.yarn[0]]?.colour ?? null : null;
  return { holding: part?.holding ?? null, castOnColour, body };
}

function readingOf(vertex: number, { stretch, worn, difference }: ClothNumbers): LoopReading | null {
  if (stretch === null || vertex < 0) return null;
  return {
    width: stretch.vertexWidth[vertex], length: stretch.vertexLength[vertex],
    pressureMmHg: worn?.vertexPressureMmHg[vertex] ?? null, gapMm: worn?.vertexGapMm[vertex] ?? null,
    longerMm: difference?.vertexLongerMm[vertex] ?? null, widerMm: difference?.vertexWiderMm[vertex] ?? null,
  };
}

export function createSockPicture(view: SockView): SockPicture {
  let next: KnittedSock | null = null;
  let shown: Shown | null = null;
  let around: Around | null = null;
  let numbers: ClothNumbers = { stretch: null, worn: null, difference: null };
  let layer: ClothLayer = 'yarn';
  let second: SecondSock | null = null, arrangement: Arrangement = 'beside';
  let isFramed = true;
  let begun = 0;
  let dimTimer: ReturnType<typeof setTimeout> | undefined;

  let hasFramed = false;

  const bring = (next: Shown, positions: Float64Array, pose: PoseName, measured: ClothNumbers | null): void => {
    const isLast = measured !== null, { sock, fabric, grid } = next;
    if (shown?.sock !== sock || shown.fabric !== fabric) view.setFabric(fabric, grid, coloursOf(sock));
    shown = next;
    // Framed as soon as it is seen, and once more when its size is known.
    view.setPositions(positions, isFramed && (isLast || !hasFramed), pose, around);
    // A shape on its way is coloured by its own stretch, not by the last one's; how it presses is known of a shape at rest only.
    numbers = measured ?? { stretch: measureVertexStretch(fabric, positions), worn: null, difference: null };
    view.setMap(mapOf(layer, numbers));
    hasFramed = isFramed;
    if (isLast) isFramed = false;
  };
  const bringSecond = (): void => {
    if (second === null) { view.setCompanion(null, arrangement); return; }
    const { sock, posed, label, firstLabel } = second;
    view.setCompanion({
      ...clothOf(sock, posed), yarnColours: coloursOf(sock), positions: posed.pose.positions, pose: posed.pose.name, around: aroundOf(sock, posed),
      map: mapOf(layer, numbersOf(second)), label, ...(firstLabel === undefined ? {} : { firstLabel }),
    }, arrangement);
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
      view.setMap(mapOf(layer, numbers));
      if (second !== null) bringSecond();
    },
    setSecond: (given, arranged) => {
      if (given === null && second === null) return;
      second = given;
      arrangement = arranged;
      bringSecond();
    },
    readAt: ({ sock, loop }) => {
      const cloth = sock === 'first' ? shown : second && clothOf(second.sock, second.posed);
      if (cloth === null) return null;
      const reading = readingOf(cloth.fabric.loopVertex[loop] ?? -1, sock === 'second' && second !== null ? numbersOf(second) : numbers);
      return { grid: cloth.grid, reading, name: second === null ? null : sock === 'second' ? second.label : second.firstLabel ?? 'This sock' };
    },
  };
}

function numbersOf({ posed: { stretch, worn }, difference }: SecondSock): ClothNumbers {
  return { stretch, worn, difference };
}
