import type { StitchGrid } from '../machine/grid.ts';

/** Share of the whole scale by which rows lie apart that follow one another up the wale; chosen by eye, and held to be seen in test/main/shade-passes.test.ts. */
const SHADE = 0.06;

/** 0 or 1 for each pass, another for a pass than for the one that it was knitted onto. */
function alternatePasses({ loopCount, pass, parentStart, parents }: StitchGrid, lastPass: number): Int8Array {
  const sides = new Int8Array(lastPass + 1).fill(-1);
  for (let loop = 0; loop < loopCount; loop++) {
    if (sides[pass[loop]] >= 0) continue;
    const below = parentStart[loop] < parentStart[loop + 1] ? sides[pass[parents[parentStart[loop]]]] : 1;
    sides[pass[loop]] = 1 - below;
  }
  return sides;
}

/** Of each of these loops its pass, every second row a little further on the scale, so that single passes are told from their neighbours. */
export function shadePasses(loops: Int32Array, grid: StitchGrid, lastPass: number): Float64Array {
  const sides = alternatePasses(grid, lastPass);
  return Float64Array.from(loops, (loop) => grid.pass[loop] + SHADE * lastPass * (sides[grid.pass[loop]] - 0.5));
}
