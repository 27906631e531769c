import { BED, LOOP, SECTION } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { SectionName } from '../plan/step.ts';
import type { WordOptions } from './describe-work.ts';
import { CHART_MARK, marksIn } from './chart-marks.ts';
import type { ChartModel } from './chart-model.ts';
import { labelNeedle } from './needle-label.ts';

const SECTION_NAMES = Object.keys(SECTION) as readonly SectionName[];

/** Marks that other parts of the sentence tell of already, or that are said once for both sides. */
const UNTOLD = CHART_MARK.castOn | CHART_MARK.held | CHART_MARK.wrap;

/**
 * A stitch of a chart in words: where it is, what is done with it, what it was drawn through and what is drawn through it.
 * `Heel, turning down: pass 63, needle L14, front bed; held from pass 64 on; one wrap lies round it, laid after pass 64; drawn through pass 62 at L14; knitted next by pass 104, after waiting 40 passes in hold`.
 */
export function describeStitch(grid: StitchGrid, chart: ChartModel, needlesPerBed: number, loop: number, { words, numbers }: WordOptions): string {
  const told = words.chart, cell = chart.cellOfLoop[loop], bits = cell < 0 ? 0 : chart.marks[cell];
  const needleOf = (id: number): string => labelNeedle(grid.needle[id], needlesPerBed, numbers);
  const section = words.passes.sections[SECTION_NAMES.find((name) => SECTION[name] === grid.section[loop]) ?? 'cast-on'];
  const pass = grid.kind[loop] === LOOP.castOn ? '' : told.pass(grid.pass[loop]);
  const parts = [told.stitch(section, pass, needleOf(loop), told.bed[grid.bed[loop] === BED.front ? 'front' : 'back'])];
  parts.push(...new Set(marksIn(bits & ~UNTOLD).map((mark) => told.told[mark])));
  const heldBefore = cell < 0 ? 0 : chart.heldBefore[cell], wraps = wrapsRound(grid, loop);
  if (heldBefore > 0) parts.push(told.heldFrom(heldBefore));
  if (wraps.length > 0) parts.push(told.wrapsLaid(wraps));
  const sources = [...grid.parents.subarray(grid.parentStart[loop], grid.parentStart[loop + 1])].filter((parent) => grid.kind[parent] <= LOOP.knit)
    .map((parent) => (grid.kind[parent] === LOOP.castOn ? told.fromCastOn(needleOf(parent)) : told.fromPass(grid.pass[parent], needleOf(parent))));
  if (sources.length > 0) parts.push(told.from(sources.join(told.and)));
  const child = grid.child[loop];
  if (child >= 0 && grid.kind[child] !== LOOP.knit) parts.push(told.closed);
  else if (child >= 0 && (bits & CHART_MARK.held) !== 0) parts.push(told.nextHeld(grid.pass[child], grid.pass[child] - grid.pass[loop] - 1));
  else if (child >= 0) parts.push(told.next(grid.pass[child]));
  return parts.join('; ');
}

/** The passes after which a wrap is laid round a loop. */
function wrapsRound(grid: StitchGrid, loop: number): number[] {
  const passes: number[] = [];
  // Wraps are laid before the loop is knitted again.
  const end = grid.child[loop] < 0 ? grid.loopCount : grid.child[loop];
  for (let id = loop + 1; id < end; id++) if (grid.kind[id] === LOOP.wrap && grid.wrapHost[id] === loop) passes.push(grid.pass[id]);
  return passes;
}
