import { BED, LOOP, SECTION } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { Side } from '../plan/step.ts';
import { frameWales, legNeedleOfWale, needleOfWale, waleOf, wrapWale } from './chart-columns.ts';
import type { WaleFrame } from './chart-columns.ts';
import { CHART_MARK } from './chart-marks.ts';
import type { ChartCut, ChartModel, ChartNeedle, ChartPart, ChartPass, ChartStretch, ChartThread } from './chart-model.ts';
import { noteLoops } from './chart-notes.ts';
import type { LoopNotes, MoveReason } from './chart-notes.ts';
import { placePasses } from './chart-rows.ts';
import type { KnitRecord } from './knit-record.ts';

export type ChartRecord = Pick<KnitRecord, 'plan' | 'program' | 'trace' | 'grid'>;

const HEEL: readonly number[] = [SECTION['heel-in'], SECTION['heel-level'], SECTION['heel-out']];
const TOE: readonly number[] = [SECTION.toe, SECTION['toe-in'], SECTION['toe-out'], SECTION.closing];

const MOVE_MARK: Readonly<Record<MoveReason, number>> = {
  gather: CHART_MARK.gather, turn: CHART_MARK.turn, heel: CHART_MARK.heelShift, join: CHART_MARK.moved, other: CHART_MARK.moved,
  // The decrease is marked where both loops are knitted together, with threads from both.
  decrease: 0,
};

/** The part of the round that is laid out: `start` is the wale of column 0. */
interface Span { readonly start: number; readonly columns: number }

/** Lays the stitch grid of a planned sock, or of its heel or toe, out in a plane. */
export function layChart(record: ChartRecord, part: ChartPart, cut: ChartCut): ChartModel {
  const { plan, grid, trace } = record, frame = frameWales(plan, grid), notes = noteLoops(record.program, trace, grid);
  const chosen = choosePart(grid, part, plan.toeKind === 'short-row'), span = spanOf(frame, part, cut, plan.toeKind === 'short-row');
  const places = placeLoops(record, frame, span), loops: number[] = [];
  for (let loop = 0; loop < grid.loopCount; loop++) if (chosen[loop] > 0) loops.push(loop);
  const lowest = loops.reduce((low, loop) => Math.min(low, places.row[loop]), Infinity), rowCount = loops.reduce((high, loop) => Math.max(high, places.row[loop]), 0) - lowest + 1;
  const loop = new Int32Array(loops), marks = markLoops(grid, frame, notes);
  const cellOfLoop = new Int32Array(grid.loopCount).fill(-1), cellAt = new Int32Array(rowCount * span.columns).fill(-1);
  const column = loop.map((id) => places.column[id]), row = loop.map((id) => places.row[id] - lowest);
  loop.forEach((id, cell) => {
    cellOfLoop[id] = cell;
    cellAt[row[cell] * span.columns + column[cell]] = cell;
  });
  for (let id = 0; id < grid.loopCount; id++) if (grid.kind[id] === LOOP.wrap) cellOfLoop[id] = cellOfLoop[grid.wrapHost[id]];
  const laid = { column, row, loop, cellOfLoop };
  return {
    part, cut, columnCount: span.columns, rowCount, cellWidthMm: 1 / plan.stitchesPerMm, cellHeightMm: 1 / plan.rowsPerMm, cellCount: loop.length,
    ...laid, marks: loop.map((id) => marks[id]), isBeside: Uint8Array.from(loop, (id) => (chosen[id] === 2 ? 1 : 0)), yarn: Uint8Array.from(loop, (id) => grid.yarn[id]),
    pass: loop.map((id) => grid.pass[id]), heldBefore: loop.map((id) => notes.heldBefore[id]), cellAt, threads: drawThreads(grid, notes, laid), passes: numberPasses(record, frame, laid, { part, cut, isOneBed: span.columns < frame.wales }),
    needles: numberNeedles(frame, span, part), bedEdges: edgesOfBeds(frame, span, part), stretches: nameStretches(frame, span, part),
    hasFlatLeg: part === 'sock' && frame.legFirst !== null,
    cornerPasses: [...new Set([...notes.cornerWraps].filter((wrap) => cellOfLoop[wrap] >= 0).map((wrap) => grid.pass[wrap]))].sort((a, b) => a - b),
  };
}

/** By loop: 1 in the part, 2 beside it, 0 elsewhere and for wraps, which have no cell. */
function choosePart(grid: StitchGrid, part: ChartPart, isShortRowToe: boolean): Uint8Array {
  const chosen = new Uint8Array(grid.loopCount), sections = part === 'heel' ? HEEL : TOE;
  const take = (loop: number): void => { if (loop >= 0 && chosen[loop] === 0) chosen[loop] = 2; };
  for (let loop = 0; loop < grid.loopCount; loop++) {
    if (grid.kind[loop] !== LOOP.wrap && (part === 'sock' || sections.includes(grid.section[loop]))) chosen[loop] = 1;
  }
  if (part === 'sock') return chosen;
  for (let loop = 0; loop < grid.loopCount; loop++) {
    // A toe's closing row joins the other bed's last row too, which lies rows away from a short-row toe.
    const isJoin = grid.kind[loop] === LOOP.graft || grid.kind[loop] === LOOP.bindOff;
    if (sections.includes(grid.section[loop]) && grid.kind[loop] === LOOP.wrap) take(grid.wrapHost[loop]);
    if (chosen[loop] === 1 && !(isJoin && isShortRowToe)) for (let i = grid.parentStart[loop]; i < grid.parentStart[loop + 1]; i++) takeStitch(grid, grid.parents[i], take);
    if (chosen[loop] === 1 && part === 'heel') take(grid.child[loop]);
  }
  return chosen;
}

function takeStitch(grid: StitchGrid, loop: number, take: (loop: number) => void): void {
  if (grid.kind[loop] !== LOOP.wrap) take(loop);
}

function spanOf(frame: WaleFrame, part: ChartPart, cut: ChartCut, isShortRowToe: boolean): Span {
  const { wales, heelStart, heelStitches, heelBed, bedStitches } = frame;
  // Beside the heel stand the end needles of the other bed, which carry the corner wraps.
  if (part === 'heel') return { start: heelStart - 1, columns: heelStitches + 2 };
  if (part === 'toe' && isShortRowToe) return { start: heelBed === BED.front ? 0 : bedStitches, columns: bedStitches };
  if (cut === 'seam') return { start: (heelBed === BED.front ? 0 : bedStitches) + bedStitches / 2, columns: wales };
  // The heel stays whole, and the cut lies where rounds begin.
  const beyond = (heelStitches - bedStitches) / 2;
  return { start: part === 'toe' ? 0 : heelBed === BED.front ? -beyond : beyond, columns: wales };
}

/** Column and course of every loop; -1 as column beyond the span. */
function placeLoops({ grid, trace }: ChartRecord, frame: WaleFrame, span: Span): { readonly column: Int32Array; readonly row: Int32Array } {
  const rowOfPass = placePasses(grid, trace), column = new Int32Array(grid.loopCount), row = new Int32Array(grid.loopCount);
  for (let loop = 0; loop < grid.loopCount; loop++) {
    if (grid.kind[loop] === LOOP.graft || grid.kind[loop] === LOOP.bindOff) {
      const under = joinedUnder(grid, loop, row);
      column[loop] = column[under];
      row[loop] = row[under] + 1;
      continue;
    }
    const place = wrapWale(waleOf(frame, grid, loop) - span.start, frame.wales);
    column[loop] = place < span.columns ? place : -1;
    row[loop] = rowOfPass[grid.pass[loop]];
  }
  return { column, row };
}

/** The loop that a closing loop stands on: the higher of those that it joins, the one on its own bed if they are level. A chain's last loop is beside it. */
function joinedUnder(grid: StitchGrid, loop: number, row: Int32Array): number {
  let under = -1;
  for (let i = grid.parentStart[loop]; i < grid.parentStart[loop + 1]; i++) {
    const parent = grid.parents[i];
    if (grid.kind[parent] > LOOP.knit) continue;
    const rise = under < 0 ? 1 : row[parent] - row[under];
    if (rise > 0 || (rise === 0 && grid.bed[parent] === grid.bed[loop])) under = parent;
  }
  if (under < 0) throw new Error(`lay-chart: closing loop ${loop} joins no stitch`);
  return under;
}

/** CHART_MARK bits of every loop. */
function markLoops(grid: StitchGrid, frame: WaleFrame, { heldBefore, moves, cornerWraps }: LoopNotes): Int32Array {
  const marks = new Int32Array(grid.loopCount);
  for (let loop = 0; loop < grid.loopCount; loop++) {
    const kind = grid.kind[loop];
    if (kind === LOOP.wrap) {
      const host = grid.wrapHost[loop];
      if (!cornerWraps.has(loop)) marks[host] |= CHART_MARK.wrap;
      // At the instep's left end the heel's right end is beside it.
      else marks[host] |= wrapWale(waleOf(frame, grid, host) - frame.heelStart, frame.wales) === frame.heelStitches ? CHART_MARK.cornerLeft : CHART_MARK.cornerRight;
    }
    if (kind === LOOP.castOn) marks[loop] |= CHART_MARK.castOn;
    if (kind === LOOP.graft) marks[loop] |= CHART_MARK.graft;
    if (kind === LOOP.bindOff) marks[loop] |= CHART_MARK.bindOff;
    if (kind === LOOP.knit && grid.isRib[loop] === 1) marks[loop] |= grid.isPurl[loop] === 1 ? CHART_MARK.purl : CHART_MARK.ribKnit;
    if (heldBefore[loop] > 0) marks[loop] |= CHART_MARK.held;
    if (kind === LOOP.knit) marks[loop] |= decreaseOf(grid, frame, loop);
  }
  for (const { loop, why } of moves) marks[loop] |= MOVE_MARK[why];
  for (const loop of grid.joinPairs) marks[loop] |= CHART_MARK.joined;
  for (const loop of grid.seamPairs) {
    if ((grid.selvedge[loop] & 1) !== 0) marks[loop] |= CHART_MARK.seamLeft;
    if ((grid.selvedge[loop] & 2) !== 0) marks[loop] |= CHART_MARK.seamRight;
  }
  return marks;
}

/** Where a stitch takes in two, to which side the one that was moved leans. */
function decreaseOf(grid: StitchGrid, frame: WaleFrame, loop: number): number {
  let lean = 0, stitches = 0;
  for (let i = grid.parentStart[loop]; i < grid.parentStart[loop + 1]; i++) {
    const parent = grid.parents[i];
    if (grid.kind[parent] === LOOP.wrap) continue;
    stitches++;
    const across = wrapWale(waleOf(frame, grid, loop) - waleOf(frame, grid, parent), frame.wales);
    lean += across === 0 ? 0 : across < frame.bedStitches ? 1 : -1;
  }
  if (stitches < 2) return 0;
  return lean < 0 ? CHART_MARK.decreaseLeft : CHART_MARK.decreaseRight;
}

/** What is shown, and whether one bed is all of it. */
interface Shown { readonly part: ChartPart; readonly cut: ChartCut; readonly isOneBed: boolean }
type Laid = Pick<ChartModel, 'column' | 'row' | 'loop' | 'cellOfLoop'>;

function drawThreads(grid: StitchGrid, { heldBefore }: LoopNotes, { column, row, loop, cellOfLoop }: Laid): ChartThread[] {
  const threads: ChartThread[] = [];
  loop.forEach((id, from) => {
    const child = grid.child[id], to = child < 0 ? -1 : cellOfLoop[child];
    if (to < 0 || (column[to] === column[from] && row[to] === row[from] + 1)) return;
    const across = Math.abs(column[to] - column[from]), isClosing = grid.kind[child] !== LOOP.knit;
    // A thread to a closing row elsewhere, along its chain, or round the cut, says nothing in a plane.
    if (across > 1 || (isClosing && (across > 0 || grid.kind[id] > LOOP.knit))) return;
    threads.push({ from, to, kind: heldBefore[id] > 0 ? 'held' : across === 1 ? 'taken' : 'resting' });
  });
  return threads;
}

function numberPasses({ grid, trace }: ChartRecord, frame: WaleFrame, { column, row, cellOfLoop }: Laid, show: Shown): ChartPass[] {
  const passes: ChartPass[] = [];
  for (const { pass, from, yarn, firstLoop, knitted } of trace.passes) {
    let left = Infinity, right = -1, at = -1;
    for (let id = firstLoop; id < firstLoop + knitted; id++) {
      const cell = cellOfLoop[id];
      if (cell < 0) continue;
      at = row[cell];
      left = Math.min(left, column[cell]);
      right = Math.max(right, column[cell]);
    }
    // Beside a heel the other bed shows an end needle, and no row of its own.
    if (at < 0 || (show.part === 'heel' && grid.bed[firstLoop] !== frame.heelBed)) continue;
    passes.push({ pass, row: at, margin: marginOf(grid, frame, firstLoop, show), from, yarn, left, right });
  }
  return passes;
}

/** Of the two passes of a round, one is numbered at each margin; a row that has its course to itself on the left. */
function marginOf(grid: StitchGrid, frame: WaleFrame, loop: number, { part, cut, isOneBed }: Shown): Side {
  const isFlat = frame.legFirst !== null && grid.section[loop] <= SECTION.plain;
  if (isFlat || isOneBed || grid.pass[loop] === 0) return 'left';
  return (cut === 'seam' && part === 'sock' ? grid.bed[loop] === frame.heelBed : grid.bed[loop] === BED.front) ? 'left' : 'right';
}

function numberNeedles(frame: WaleFrame, { start, columns }: Span, part: ChartPart): ChartNeedle[] {
  const needles: ChartNeedle[] = [];
  for (let column = 0; column < columns; column++) {
    const wale = start + column, { bed, needle } = needleOfWale(frame, wale), leg = part === 'sock' ? legNeedleOfWale(frame, wale) : null;
    const heel = part === 'heel' ? heelNeedle(frame, wale) : null;
    if (part !== 'heel') needles.push({ edge: 'head', column, bed, needle }, { edge: 'foot', column, bed: leg === null ? bed : frame.gatherBed, needle: leg ?? needle });
    else if (heel !== null) needles.push({ edge: 'foot', column, bed: frame.heelBed, needle: heel }, { edge: 'head', column, bed: frame.heelBed, needle: heel });
  }
  return needles;
}

/** A wide heel reaches over needles where the tube has none. */
function heelNeedle({ heelBed, heelStart, heelStitches, tubeFirst, bedStitches }: WaleFrame, wale: number): number | null {
  if (wale < heelStart || wale >= heelStart + heelStitches) return null;
  return heelBed === BED.front ? tubeFirst + wale : tubeFirst + 2 * bedStitches - 1 - wale;
}

function edgesOfBeds(frame: WaleFrame, { start, columns }: Span, part: ChartPart): number[] {
  if (part === 'heel') return [1, columns - 1];
  const edges: number[] = [];
  for (let column = 1; column < columns; column++) if (needleOfWale(frame, start + column - 1).bed !== needleOfWale(frame, start + column).bed) edges.push(column);
  return edges;
}

/** The heel's own columns, else all columns from edge to edge of a bed. */
function nameStretches(frame: WaleFrame, span: Span, part: ChartPart): ChartStretch[] {
  const { heelBed } = frame, nameOf = (bed: number): 'front' | 'back' => (bed === BED.front ? 'front' : 'back');
  if (part === 'heel') return [{ left: 1, right: span.columns - 1, bed: nameOf(heelBed), carries: null }];
  const starts = [0, ...edgesOfBeds(frame, span, part)];
  return starts.map((left, i) => {
    const { bed } = needleOfWale(frame, span.start + left), carried = bed !== heelBed ? 'instep' : part === 'toe' ? 'sole' : 'heel';
    return { left, right: starts[i + 1] ?? span.columns, bed: nameOf(bed), carries: starts.length === 1 ? null : carried };
  });
}
