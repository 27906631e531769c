import type { Fabric, FabricMarks, MarkPath } from '../../src/fabric/fabric.ts';
import { SECTION } from '../../src/machine/codes.ts';

export interface Tube { readonly fabric: Fabric; readonly positions: Float64Array }

export const markPath = (a: readonly number[], b: readonly number[] = a, t = 0, isClosed = false): MarkPath => ({
  a: Int32Array.from(a), b: Int32Array.from(b), t: new Float64Array(a.length).fill(t), isClosed,
});

const NONE = markPath([]);

/**
 * A plain tube of `rows` rounds of `stitches` loops, knitted as a helix, all of it foot: a cylinder,
 * cone or whatever `place` makes of a loop's turns (0 at the centre back) and its height in rows.
 * The middle of its heel is the point of the centre back at half its height.
 */
export function makeTube(stitches: number, rows: number, place: (turn: number, row: number) => readonly [number, number, number]): Tube {
  const vertexCount = stitches * rows;
  const loops = Int32Array.from({ length: vertexCount }, (_, i) => i);
  const positions = new Float64Array(3 * vertexCount);
  const cells: number[] = [];
  const edges: number[] = [];
  for (let i = 0; i < vertexCount; i++) {
    positions.set(place((i + 0.5) / stitches, i / stitches), 3 * i);
    if (i + 1 < vertexCount) edges.push(i, i + 1);
    if (i + stitches < vertexCount) edges.push(i, i + stitches);
    if (i + stitches + 1 < vertexCount) cells.push(i, i + 1, i + stitches + 1, i + stitches);
  }
  const cellCount = cells.length / 4;
  const middle = stitches * Math.floor(rows / 2);
  const rounds = Array.from({ length: rows }, (_, r) => markPath(
    Array.from({ length: stitches }, (_, c) => r * stitches + c), undefined, 0, true,
  ));
  const marks: FabricMarks = {
    cuff: NONE, centreFront: NONE, centreBack: NONE, sideLeft: NONE, sideRight: NONE, mitreLeft: NONE, mitreRight: NONE,
    heelFirstRow: NONE, shortBase: NONE, heelDiagonal: NONE, toeTip: NONE, toeLength: NONE,
    baseMiddle: markPath([middle - 1], [middle], 0.5),
    instepAtHeel: markPath([middle + stitches / 2 - 1], [middle + stitches / 2], 0.5),
    footRounds: rounds, legRounds: [],
  };
  return {
    positions,
    fabric: {
      vertexCount, vertexLoop: loops, loopVertex: loops,
      vertexSection: new Uint8Array(vertexCount).fill(SECTION.foot),
      vertexPass: loops.map((i) => Math.floor((2 * i) / stitches)),
      vertexAround: Float64Array.from(loops, (i) => ((i + 0.5) / stitches) % 1),
      vertexRow: Float64Array.from(loops, (i) => Math.floor(i / stitches)),
      vertexFan: new Float64Array(vertexCount),
      edges: Int32Array.from(edges), edgeKind: new Uint8Array(edges.length / 2), edgeRestMm: new Float64Array(edges.length / 2),
      cellStart: Int32Array.from({ length: cellCount + 1 }, (_, c) => 4 * c), cellVertices: Int32Array.from(cells),
      cellRestMm: new Float64Array(2 * cells.length), cellIsRib: new Uint8Array(cellCount),
      boundaryStart: Int32Array.of(0), boundaryVertices: new Int32Array(0),
      marks, courseMm: 3, waleMm: 2.4, ribCourseMm: 2.1,
    },
  };
}
