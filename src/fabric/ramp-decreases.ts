import type { StitchGrid } from '../machine/grid.ts';
import type { DartMap } from './dart-map.ts';

/** Which way the loops that a vertex was drawn through were moved: +1 right, -1 left, 0 none was. */
function leanOfParents(grid: StitchGrid, loop: number): number {
  for (let k = grid.parentStart[loop]; k < grid.parentStart[loop + 1]; k++) {
    const lean = grid.lean[grid.parents[k]];
    if (lean !== 0) return Math.sign(lean);
  }
  return 0;
}

/**
 * A decrease moves its edge stitches by a whole needle in one row and lets them stand until the
 * next. Cloth does not keep that stair: along an edge decreased again and again the stitches run
 * straight. Returns how far each vertex stands off its needle for that, in stitches, to the right
 * positive: (j - (m - 1) / 2) / m in the direction of the move for row j of the m rows from one
 * decrease to the next, so that the mean place of every step is kept.
 */
export function rampDecreases(grid: StitchGrid, map: DartMap): Float64Array {
  const offset = new Float64Array(map.vertexCount);
  for (let v = 0; v < map.vertexCount; v++) {
    const direction = leanOfParents(grid, map.vertexLoop[v]);
    if (direction === 0) continue;
    const rows: number[] = [v];
    let next = grid.child[map.vertexLoop[v]];
    while (next >= 0 && map.loopVertex[next] >= 0 && leanOfParents(grid, next) === 0) {
      rows.push(map.loopVertex[next]);
      next = grid.child[next];
    }
    const isStepped = next >= 0 && map.loopVertex[next] >= 0;
    if (!isStepped) continue;
    rows.forEach((vertex, j) => { offset[vertex] = direction * (j - (rows.length - 1) / 2) / rows.length; });
  }
  return offset;
}
