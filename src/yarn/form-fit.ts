import { DRAWN, type NeedleSizes, pulledDown, reachOf, waitingAt } from './form-cycle.ts';
import { type FormSizes, fromEnd, inFabric, madePoint, type NeedleStand, oldPoint, sideOf, type Spot } from './form-shapes.ts';
import { pieceLengths } from './measure-along.ts';
import { PART, PIECE_POINTS, POINT_STRIDE, type YarnThread } from './yarn-lay.ts';

/** From edge to edge of two beds that knit together, in pitches. Chosen by eye. */
const GAP = 1.3;

/** Middle of the gap between the beds, from a bed's edge; 0 where one bed is shown alone. */
export function halfGapMm(pitchMm: number, hasBothBeds: boolean): number { return hasBothBeds ? 0.5 * GAP * pitchMm : 0; }

const THREE: YarnThread = {
  pieceCount: 3, part: new Uint8Array(3).fill(PART.loop), loop: new Int32Array(3), mate: new Int32Array(3), yarn: new Uint8Array(3),
  lengthStart: Int32Array.from([0, 3]), loopPiece: new Int32Array(0),
};

/** Yarn (mm) in a stitch between two like it; of a rib between two on the other bed. */
function lengthBetween(pointAt: (out: Spot, k: number, x: number) => Spot, pitchMm: number, halfGap: number): number {
  const points = new Float32Array(3 * PIECE_POINTS * POINT_STRIDE), spot: Spot = { x: 0, y: 0, z: 0 };
  for (let piece = 0; piece < 3; piece++) {
    const side = halfGap > 0 && piece !== 1 ? -1 : 1;
    for (let k = 0; k < PIECE_POINTS; k++) {
      pointAt(spot, k, (piece - 1) * pitchMm);
      points.set([spot.x, spot.y, side * (spot.z - halfGap)], POINT_STRIDE * (PIECE_POINTS * piece + k));
    }
  }
  return pieceLengths({ thread: THREE, points })[1];
}

/** To a millionth of the range. */
const HALVINGS = 20;

/** The value between 0 and `most` at which a growing length is as wanted; the nearer end where none is. */
function findSize(lengthAt: (size: number) => number, wanted: number, most: number): number {
  let low = 0, high = most;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (lengthAt(middle) < wanted) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

export function standAt(own: number, needle: NeedleSizes, depthMm: number): NeedleStand {
  return { own, isKnitting: true, reach: reachOf(own, needle, depthMm), wait: waitingAt(own, needle), pulled: pulledDown(own), bow: 0 };
}

export interface FitSource { readonly needle: NeedleSizes; readonly pitchMm: number; readonly diameterMm: number; readonly loopMm: number; readonly halfGap: number }

/** Rows, the depth to which a needle draws and the place of the fabric, such that a stitch in the fabric, one in its hook and one just drawn all take the same yarn. */
export function fitSizes({ needle, pitchMm, diameterMm, loopMm, halfGap }: FitSource): FormSizes {
  const rest = standAt(0, needle, 0), like = { order: 0, face: 1 } as const, first = { needle, pitchMm, diameterMm, rowMm: 0, rootMm: 0, depthMm: 0 };
  const rowMm = findSize((size) => lengthBetween((out, k, x) => inFabric(out, k, { ...like, row: 1, rootX: x, topX: x }, { ...first, rowMm: size }, rest), pitchMm, halfGap), loopMm, loopMm);
  const rootMm = findSize((size) => lengthBetween((out, k, x) => oldPoint(out, k, { ...like, row: 0, rootX: x, topX: x }, { ...first, rowMm, rootMm: size }, rest), pitchMm, halfGap), loopMm, loopMm);
  const depthMm = findSize((size) => {
    const drawn = standAt(DRAWN, needle, size);
    return lengthBetween((out, k, x) => madePoint(out, k, x, { ...first, rowMm, rootMm, depthMm: size }, drawn), pitchMm, halfGap);
  }, loopMm, loopMm);
  return { ...first, rowMm, rootMm, depthMm };
}

/** How far the legs of a drawn loop bow while it is pulled down, so that it keeps its yarn. */
export function bowOf(stand: NeedleStand, size: FormSizes, loopMm: number, halfGap: number): number {
  if (stand.pulled <= 0 || stand.pulled >= 1) return 0;
  return findSize((bow) => lengthBetween((out, k, x) => madePoint(out, k, x, size, { ...stand, bow }), size.pitchMm, halfGap), loopMm, loopMm);
}

/** Draws the ends of a stitch together with those of its neighbours: how much, by the point's number from the end. */
export function shareOfNeighbour(k: number): number { return [0.4, 0.14][fromEnd(k)] ?? 0; }
export const neighbourOf = (k: number): number => (sideOf(k) < 0 ? PIECE_POINTS - 1 : 0);
