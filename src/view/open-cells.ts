import type { Fabric } from '../fabric/fabric.ts';
import { LOOP } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';

/**
 * Cells of the cloth that no yarn closes: beside each held stitch of a turning without wraps, where the short row
 * turns back and nothing ties the turn to the held loop. With a wrap its yarn is the cell's slanted edge. The
 * mesh keeps that edge at its length in any case, so that the drawn hole is the least it can be, not how far it gapes.
 * A turning of a single held stitch at each side has no pair to know it by, and is drawn closed.
 */
export function findOpenCells(fabric: Fabric, grid: StitchGrid): Set<number> {
  const { loopVertex } = fabric, open = new Set<number>();
  const wrapped = new Set<number>();
  for (let loop = 0; loop < grid.loopCount; loop++) if (grid.kind[loop] === LOOP.wrap) wrapped.add(grid.wrapHost[loop]);
  const outer = new Set<number>(), bare: (readonly [number, number])[] = [];
  for (let i = 0; i + 1 < grid.mitrePairs.length; i += 2) {
    outer.add(grid.mitrePairs[i]);
    if (!wrapped.has(grid.mitrePairs[i])) bare.push([loopVertex[grid.mitrePairs[i]], loopVertex[grid.mitrePairs[i + 1]]]);
  }
  if (bare.length === 0) return open;
  // The innermost held stitch has none within it: there the turn lies beside its own wale.
  const innermost = new Set<string>();
  for (let i = 1; i < grid.mitrePairs.length; i += 2) {
    const loop = grid.mitrePairs[i], child = grid.child[loop];
    if (outer.has(loop) || wrapped.has(loop) || child < 0) continue;
    innermost.add(keyOf(loopVertex[loop], loopVertex[child]));
  }
  const mitres = new Set(bare.map(([a, b]) => keyOf(a, b)));
  const candidates = new Map<string, { cell: number; newest: number }>();
  for (let cell = 0; cell + 1 < fabric.cellStart.length; cell++) {
    const keys = edgesOf(fabric, cell), mitre = keys.find((key) => mitres.has(key)), wale = keys.find((key) => innermost.has(key));
    if (mitre !== undefined) keepOlder(candidates, mitre, fabric, cell);
    // The cell on the far side of that wale has the mitre for an edge.
    else if (wale !== undefined) open.add(cell);
  }
  for (const { cell } of candidates.values()) open.add(cell);
  return open;
}

const keyOf = (a: number, b: number): string => (a < b ? `${a},${b}` : `${b},${a}`);

function edgesOf({ cellStart, cellVertices }: Fabric, cell: number): string[] {
  const from = cellStart[cell], to = cellStart[cell + 1];
  return Array.from({ length: to - from }, (_, i) => keyOf(cellVertices[from + i], cellVertices[i + 1 < to - from ? from + i + 1 : from]));
}

/** Of the two cells along a mitre edge that of the turning down: its loops are the older ones. */
function keepOlder(candidates: Map<string, { cell: number; newest: number }>, key: string, fabric: Fabric, cell: number): void {
  let newest = 0;
  for (let k = fabric.cellStart[cell]; k < fabric.cellStart[cell + 1]; k++) newest = Math.max(newest, fabric.vertexPass[fabric.cellVertices[k]]);
  const before = candidates.get(key);
  if (before === undefined || newest < before.newest) candidates.set(key, { cell, newest });
}
