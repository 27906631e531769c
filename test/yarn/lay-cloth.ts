import { buildFabric } from '../../src/fabric/build-fabric.ts';
import type { Fabric } from '../../src/fabric/fabric.ts';
import type { StitchGrid } from '../../src/machine/grid.ts';
import { knitProgram } from '../../src/machine/knit-program.ts';
import type { Bed } from '../../src/plan/sock-file.ts';
import type { NeedleRef, Side, Step } from '../../src/plan/step.ts';
import { layYarn } from '../../src/yarn/lay-yarn.ts';
import { threadYarn } from '../../src/yarn/thread-yarn.ts';
import { PIECE_POINTS, type YarnLay } from '../../src/yarn/yarn-lay.ts';
import { centreLine } from '../../src/yarn/spline.ts';

/** 30 stitches and 42 rows in 10 cm. */
export const GAUGE = { courseMm: 100 / 30, waleMm: 100 / 42, ribCourseMm: 70 / 30 } as const;

/** Thickness of the yarn that the loops of these tests have, mm: 420 m in 100 g. */
export const YARN_MM = 0.91;

export interface LaidCloth { readonly grid: StitchGrid; readonly fabric: Fabric; readonly positions: Float64Array; readonly lay: YarnLay }

export const needles = (bed: Bed, first: number, last: number): NeedleRef[] => Array.from({ length: last - first + 1 }, (_, i) => ({ bed, needle: first + i }));

/** A row of loops on these needles, the yarn ending on the right. */
export const castOn = (row: readonly NeedleRef[], isClosed = false): Step => ({ do: 'cast-on', needles: row, isClosed, carriage: 'right', yarn: 0, section: 'cast-on' });

/** Passes over these beds, the first from the right. */
export const rows = (count: number, beds: readonly Bed[] = ['front'], firstFrom: Side = 'right'): Step[] =>
  Array.from({ length: count }, (_, i) => ({ do: 'knit', beds, from: (i % 2 === 0) === (firstFrom === 'right') ? 'right' : 'left', section: 'foot' }));

/** Knits steps and lays their yarn with each loop at the place that `place` gives it. */
export function layCloth(steps: readonly Step[], place: (grid: StitchGrid, loop: number) => readonly [number, number, number], size = GAUGE, diameter = YARN_MM): LaidCloth {
  const knitting = knitProgram({ needlesPerBed: 40, yarnCount: 2, steps }, { isUnfinished: true });
  if (knitting.fault !== null) throw new Error(JSON.stringify(knitting.fault));
  const { grid } = knitting, fabric = buildFabric(grid, size), positions = new Float64Array(3 * fabric.vertexCount);
  fabric.vertexLoop.forEach((loop, v) => { positions.set(place(grid, loop), 3 * v); });
  const lay = layYarn({ fabric, grid, thread: threadYarn(grid), diameterMm: Float64Array.of(diameter, diameter) }, positions);
  return { grid, fabric, positions, lay };
}

/** On a table, outside up: needles to the right, passes upwards. */
export const flat = (size: { readonly courseMm: number; readonly waleMm: number } = GAUGE) => (grid: StitchGrid, loop: number): readonly [number, number, number] => [grid.needle[loop] * size.courseMm, grid.pass[loop] * size.waleMm, 0];

/** A tube laid flat in rounds, the beds `gap` apart, outside out: two passes a round. */
export const tube = (gap: number) => (grid: StitchGrid, loop: number): readonly [number, number, number] =>
  [grid.needle[loop] * GAUGE.courseMm, Math.ceil(grid.pass[loop] / 2) * GAUGE.waleMm, grid.bed[loop] === 0 ? gap / 2 : -gap / 2];

/** Steps of the line a span, where it is sampled. */
const STEPS = 8;

/** Spans left out at either end of a loop, so that it does not meet the next. */
const SHORT = 0.25;

/**
 * The centre line of a loop from about the middle of the yarn before it to that after it; or of its first leg, from there to the middle of
 * its head, or of its second. A span of the spline lies one and a half control points after its number.
 */
export function loopLine({ lay }: Pick<LaidCloth, 'lay'>, loop: number, part: 'whole' | 'first' | 'second' = 'whole'): Float64Array {
  const piece = lay.thread.loopPiece[loop], line = centreLine(lay, piece - 1, piece + 2, STEPS), start = (PIECE_POINTS - 1.5) * STEPS, end = start + PIECE_POINTS * STEPS;
  const middle = (start + end) / 2, from = part === 'second' ? middle : start + SHORT * STEPS, to = part === 'first' ? middle : end - SHORT * STEPS;
  return line.slice(3 * from, 3 * (to + 1));
}
