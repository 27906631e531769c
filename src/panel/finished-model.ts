import type { Fabric } from '../fabric/fabric.ts';
import { LOOP } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { Trace } from '../machine/trace.ts';
import type { WorkItem } from '../sheet/list-work.ts';

/** The two layers of a sock that lies flat. */
export type SockSide = 'left' | 'right';

/** A finished sock laid flat, ready to be drawn cell by cell in the order of knitting. */
export interface FinishedSock {
  readonly fabric: Fabric;
  readonly grid: StitchGrid;
  /** Across and downwards as seen from the sock's right side, mm: two entries a vertex. */
  readonly places: Float64Array;
  /** 1 where the vertex lies in the left layer. */
  readonly isLeft: Uint8Array;
  /** Cells in the order in which their last stitch is knitted: those of pass p are cellOrder[passStart[p] .. passStart[p + 1]). */
  readonly cellOrder: Int32Array;
  readonly passStart: Int32Array;
  readonly cellIsLeft: Uint8Array;
  /** Left, top, right, bottom. */
  readonly extent: readonly [number, number, number, number];
}

/** `positions`: of the whole sock laid flat, three entries a vertex, y towards its left side. */
export function layFinished(fabric: Fabric, grid: StitchGrid, trace: Trace, positions: Float64Array): FinishedSock {
  const { vertexCount, vertexPass, cellStart, cellVertices } = fabric, cellCount = cellStart.length - 1;
  const places = new Float64Array(2 * vertexCount), isLeft = new Uint8Array(vertexCount), extent: [number, number, number, number] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let v = 0; v < vertexCount; v++) {
    const x = positions[3 * v], down = -positions[3 * v + 2];
    places[2 * v] = x;
    places[2 * v + 1] = down;
    isLeft[v] = positions[3 * v + 1] > 0 ? 1 : 0;
    extent[0] = Math.min(extent[0], x);
    extent[1] = Math.min(extent[1], down);
    extent[2] = Math.max(extent[2], x);
    extent[3] = Math.max(extent[3], down);
  }
  const passStart = new Int32Array(trace.passes.length + 1), cellPass = new Int32Array(cellCount), cellIsLeft = new Uint8Array(cellCount);
  for (let cell = 0; cell < cellCount; cell++) {
    let lefts = 0;
    for (let i = cellStart[cell]; i < cellStart[cell + 1]; i++) {
      cellPass[cell] = Math.max(cellPass[cell], vertexPass[cellVertices[i]]);
      lefts += isLeft[cellVertices[i]];
    }
    cellIsLeft[cell] = 2 * lefts > cellStart[cell + 1] - cellStart[cell] ? 1 : 0;
    passStart[cellPass[cell] + 1]++;
  }
  for (let pass = 0; pass + 1 < passStart.length; pass++) passStart[pass + 1] += passStart[pass];
  const next = passStart.slice(), cellOrder = new Int32Array(cellCount);
  for (let cell = 0; cell < cellCount; cell++) cellOrder[next[cellPass[cell]]++] = cell;
  return { fabric, grid, places, isLeft, cellOrder, passStart, cellIsLeft, extent };
}

/** Loops of the fabric that a stop makes or, at the closing, joins and sews; a wrap lights the stitch that it lies round. */
export function loopsOfStop({ grid }: Pick<FinishedSock, 'grid'>, trace: Trace, item: WorkItem): number[] {
  if (item.kind === 'closing') return [...new Set([...grid.joinPairs, ...grid.seamPairs])];
  const { firstLoop } = trace.passes[item.index], end = trace.passes[item.index + 1]?.firstLoop ?? grid.loopCount, loops: number[] = [];
  for (let loop = firstLoop; loop < end; loop++) {
    const kind = grid.kind[loop];
    if (kind === LOOP.wrap) loops.push(grid.wrapHost[loop]);
    else if (kind === LOOP.castOn || kind === LOOP.knit) loops.push(loop);
  }
  return loops;
}

/** The stitch of a layer nearest to a place in the drawing, no farther than `withinMm`; -1 for none. */
export function nearestLoop({ fabric, places, isLeft }: FinishedSock, side: SockSide, x: number, down: number, withinMm: number): number {
  let nearest = -1, least = withinMm * withinMm;
  for (let v = 0; v < fabric.vertexCount; v++) {
    if ((isLeft[v] === 1) !== (side === 'left')) continue;
    const [across, along] = [places[2 * v] - x, places[2 * v + 1] - down], distance = across * across + along * along;
    if (distance > least) continue;
    least = distance;
    nearest = v;
  }
  return nearest < 0 ? -1 : fabric.vertexLoop[nearest];
}
