import { Boxes } from './boxes.ts';
import { blendInto, weightsInto } from './spline.ts';
import { PIECE_POINTS, POINT_STRIDE, type YarnLay } from './yarn-lay.ts';

/** How yarns lie against each other, depths in thicknesses of yarn: 0 where they just touch, 1 where one runs through the other's middle. */
export interface YarnContacts {
  /** Over all of the yarn, what does not touch counted as 0. */
  readonly meanDepth: number;
  readonly depth99: number;
  readonly deepest: number;
  /** Share of the yarn that lies in another. */
  readonly touchingShare: number;
  /** Of each piece the deepest. */
  readonly pieceDepth: Float64Array;
}

/** Points of the line looked at, a span: a third of a millimetre apart in a usual sock, by which a distance of a thickness comes out up to 2 % too great. */
const STEPS = 3;

/** Yarn nearer than this along its own line, in thicknesses, is no neighbour. */
const OWN_REACH = 2.2;

interface Samples { readonly count: number; readonly at: Float64Array; readonly piece: Int32Array; readonly length: Int32Array }

/** Places on all lines: x, y, z and mm along the yarn; four entries each. */
function sampleLines(lay: YarnLay): Samples {
  const { thread } = lay, { lengthStart } = thread, count = thread.pieceCount * PIECE_POINTS * STEPS;
  const at = new Float64Array(POINT_STRIDE * count), piece = new Int32Array(count), length = new Int32Array(count), point = new Float64Array(POINT_STRIDE);
  const weights = Array.from({ length: STEPS }, (_, i) => {
    const of = new Float64Array(4);
    weightsInto(of, i / STEPS);
    return of;
  });
  for (let n = 0, k = 0; k + 1 < lengthStart.length; k++) {
    const last = PIECE_POINTS * lengthStart[k + 1] - 1;
    for (let first = PIECE_POINTS * lengthStart[k]; first <= last; first++) {
      for (let i = 0; i < STEPS; i++, n++) {
        blendInto(point, lay, first, last, weights[i]);
        at.set(point, POINT_STRIDE * n);
        piece[n] = Math.floor(first / PIECE_POINTS);
        length[n] = k;
      }
    }
  }
  return { count, at, piece, length };
}

/** Looks at every yarn's distance to all other yarn, and to its own farther on. */
export function findContacts(lay: YarnLay): YarnContacts {
  const samples = sampleLines(lay), { count, at, piece, length } = samples, { diameterMm, thread } = lay;
  const thickest = diameterMm.reduce((most, d) => Math.max(most, d), 0.01), boxes = new Boxes(at, POINT_STRIDE, count, thickest), runs = new Int32Array(54);
  const depth = new Float64Array(count), pieceDepth = new Float64Array(thread.pieceCount);
  const depthIn = (i: number, j: number): number => {
    const a = POINT_STRIDE * i, b = POINT_STRIDE * j, thickness = 0.5 * (diameterMm[thread.yarn[piece[i]]] + diameterMm[thread.yarn[piece[j]]]);
    const square = (at[a] - at[b]) ** 2 + (at[a + 1] - at[b + 1]) ** 2 + (at[a + 2] - at[b + 2]) ** 2;
    if (square >= thickness * thickness || (length[i] === length[j] && Math.abs(at[a + 3] - at[b + 3]) < OWN_REACH * thickness)) return 0;
    return 1 - Math.sqrt(square) / thickness;
  };
  for (let i = 0; i < count; i++) {
    const n = boxes.runsInto(runs, at[POINT_STRIDE * i], at[POINT_STRIDE * i + 1], at[POINT_STRIDE * i + 2]);
    let deepest = 0;
    for (let r = 0; r < n; r += 2) for (let m = runs[r]; m < runs[r + 1]; m++) deepest = Math.max(deepest, depthIn(i, boxes.members[m]));
    depth[i] = deepest;
    pieceDepth[piece[i]] = Math.max(pieceDepth[piece[i]], deepest);
  }
  const sorted = depth.slice().sort();
  return {
    meanDepth: depth.reduce((sum, value) => sum + value, 0) / Math.max(1, count),
    depth99: sorted[Math.floor(0.99 * (count - 1))] ?? 0,
    deepest: sorted[count - 1] ?? 0,
    touchingShare: depth.reduce((sum, value) => sum + (value > 0 ? 1 : 0), 0) / Math.max(1, count),
    pieceDepth,
  };
}
