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

/** Boxes of one size in space, and the samples in each, in one list. */
class Boxes {
  private readonly size: number;
  private readonly low = [Infinity, Infinity, Infinity];
  private readonly counts = [1, 1, 1];
  private readonly start: Int32Array;
  private readonly members: Int32Array;

  constructor({ count, at }: Samples, size: number) {
    this.size = size;
    const high = [-Infinity, -Infinity, -Infinity];
    for (let i = 0; i < count; i++) {
      for (let d = 0; d < 3; d++) {
        this.low[d] = Math.min(this.low[d], at[POINT_STRIDE * i + d]);
        high[d] = Math.max(high[d], at[POINT_STRIDE * i + d]);
      }
    }
    this.counts = high.map((top, d) => Math.max(1, Math.floor((top - this.low[d]) / size) + 1));
    this.start = new Int32Array(this.counts[0] * this.counts[1] * this.counts[2] + 1);
    const box = Int32Array.from({ length: count }, (_, i) => this.boxOf(at, i));
    for (const b of box) this.start[b + 1]++;
    for (let b = 1; b < this.start.length; b++) this.start[b] += this.start[b - 1];
    const fill = this.start.slice(0, -1);
    this.members = new Int32Array(count);
    for (let i = 0; i < count; i++) this.members[fill[box[i]]++] = i;
  }

  private boxOf(at: Float64Array, i: number): number {
    const [x, y, z] = [0, 1, 2].map((d) => Math.floor((at[POINT_STRIDE * i + d] - this.low[d]) / this.size));
    return (z * this.counts[1] + y) * this.counts[0] + x;
  }

  /** Calls for every run of samples in the boxes round sample i: members[from] up to members[to]. */
  around(at: Float64Array, i: number, visit: (members: Int32Array, from: number, to: number) => void): void {
    const [x, y, z] = [0, 1, 2].map((d) => Math.floor((at[POINT_STRIDE * i + d] - this.low[d]) / this.size)), [nx, ny, nz] = this.counts;
    for (let k = Math.max(0, z - 1); k <= Math.min(nz - 1, z + 1); k++) {
      for (let j = Math.max(0, y - 1); j <= Math.min(ny - 1, y + 1); j++) {
        const row = (k * ny + j) * nx;
        visit(this.members, this.start[row + Math.max(0, x - 1)], this.start[row + Math.min(nx - 1, x + 1) + 1]);
      }
    }
  }
}

/** Looks at every yarn's distance to all other yarn, and to its own farther on. */
export function findContacts(lay: YarnLay): YarnContacts {
  const samples = sampleLines(lay), { count, at, piece, length } = samples, { diameterMm, thread } = lay;
  const thickest = diameterMm.reduce((most, d) => Math.max(most, d), 0.01), boxes = new Boxes(samples, thickest);
  const depth = new Float64Array(count), pieceDepth = new Float64Array(thread.pieceCount);
  for (let i = 0; i < count; i++) {
    const a = POINT_STRIDE * i, own = diameterMm[thread.yarn[piece[i]]];
    let deepest = 0;
    boxes.around(at, i, (members, from, to) => {
      for (let m = from; m < to; m++) {
        const j = members[m], b = POINT_STRIDE * j, thickness = 0.5 * (own + diameterMm[thread.yarn[piece[j]]]);
        const square = (at[a] - at[b]) ** 2 + (at[a + 1] - at[b + 1]) ** 2 + (at[a + 2] - at[b + 2]) ** 2;
        if (square >= thickness * thickness || (length[i] === length[j] && Math.abs(at[a + 3] - at[b + 3]) < OWN_REACH * thickness)) continue;
        deepest = Math.max(deepest, 1 - Math.sqrt(square) / thickness);
      }
    });
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
