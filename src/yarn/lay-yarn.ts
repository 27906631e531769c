import { findClosings, frameClosings } from './close-frames.ts';
import { layEnds } from './lay-ends.ts';
import { frameLoops } from './loop-frames.ts';
import { shapeLoop } from './loop-shape.ts';
import { type LaidFabric, type LayDesk } from './lay-desk.ts';
import { layLoop, layWrap, layerLoops } from './lay-loops.ts';
import { tieEnds } from './lay-tails.ts';
import { makeRoom } from './make-room.ts';
import { measureAlong } from './measure-along.ts';
import { partLayers } from './part-layers.ts';
import { relaxCrowds } from './relax-crowds.ts';
import { PART, PIECE_POINTS, POINT_STRIDE, type YarnLay } from './yarn-lay.ts';

export interface LayOptions {
  /** The shape is that of a sock between two plates (pose `flat`). */
  readonly isFlat?: boolean;
}

/** Lays every piece of yarn into a fabric of the given shape: `shape` has three entries a vertex, mm. */
export function layYarn(laid: LaidFabric, shape: Float64Array, { isFlat = false }: LayOptions = {}): YarnLay {
  const { fabric, grid, thread, diameterMm } = laid, count = thread.pieceCount * PIECE_POINTS, closings = findClosings(fabric, grid);
  const positions = makeRoom(fabric, grid, isFlat ? partLayers(fabric, grid, shape, Math.max(...diameterMm)) : shape, closings);
  const desk: LayDesk = {
    ...laid, isFlat, frames: frameClosings(fabric, grid, frameLoops(fabric, grid, positions), closings), shapes: shapesOf(laid), layers: layerLoops(grid),
    points: new Float32Array(POINT_STRIDE * count), ups: new Int8Array(4 * count),
  };
  for (let piece = 0; piece < thread.pieceCount; piece++) layPiece(desk, piece);
  layEnds(desk, closings);
  relaxCrowds(desk);
  tieEnds(desk);
  const lay: YarnLay = { thread, points: desk.points, ups: desk.ups, diameterMm };
  measureAlong(lay);
  return lay;
}

function layPiece(desk: LayDesk, piece: number): void {
  switch (desk.thread.part[piece]) {
    case PART.loop: layLoop(desk, piece); break;
    case PART.wrap: layWrap(desk, piece); break;
  }
}

/** Yarns of one thickness share one shape. */
function shapesOf({ fabric: { courseMm, waleMm }, diameterMm }: LaidFabric): LayDesk['shapes'] {
  const known = new Map<number, LayDesk['shapes'][number]>();
  return Array.from(diameterMm, (thickness) => {
    const shape = known.get(thickness) ?? shapeLoop({ courseMm, waleMm, diameterMm: thickness });
    known.set(thickness, shape);
    return shape;
  });
}
