import type { Fabric } from '../fabric/fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { LoopFrames, Place } from './loop-frames.ts';
import type { LoopShape } from './loop-shape.ts';
import { POINT_STRIDE, type YarnThread } from './yarn-lay.ts';

/** What is laid: a fabric, its grid, and the order of its yarn. */
export interface LaidFabric {
  readonly fabric: Fabric;
  readonly grid: StitchGrid;
  readonly thread: YarnThread;
  /** Thickness of each yarn (by grid.yarn) as it lies in the fabric, mm. */
  readonly diameterMm: Float64Array;
}

/** All that the laying of a piece reads and writes. */
export interface LayDesk extends LaidFabric {
  /** The sock lies between two plates, its middle at y = 0. */
  readonly isFlat: boolean;
  readonly frames: LoopFrames;
  /** A plain loop of each yarn (by grid.yarn). */
  readonly shapes: readonly LoopShape[];
  /** All loops: thicknesses by which the head of a loop lies farther out than its like, where several are on one needle. */
  readonly layers: Float32Array;
  /** As in YarnLay. */
  readonly points: Float32Array;
  readonly ups: Int8Array;
}

/** Vertex of a loop; -1 for none and for one that is not there yet. */
export function vertexOf({ loopVertex, vertexCount }: Fabric, loop: number): number {
  const vertex = loop < 0 ? -1 : loopVertex[loop];
  return vertex < vertexCount ? vertex : -1;
}

/** Writes a control point at a place, `height` thicknesses out of the fabric. */
export function writePoint({ points, ups }: LayDesk, point: number, place: Place, height: number): void {
  for (let d = 0; d < 3; d++) {
    points[POINT_STRIDE * point + d] = place[d];
    ups[4 * point + d] = Math.round(127 * place[3 + d]);
  }
  ups[4 * point + 3] = Math.round(32 * Math.max(-3.9, Math.min(3.9, height)));
}
