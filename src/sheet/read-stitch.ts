import { BED, LOOP, SECTION } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { Bed } from '../plan/sock-file.ts';
import type { SectionName } from '../plan/step.ts';

/** What a loop of the grid is. Knit and purl as the fabric's outside shows them. */
export type StitchKind = 'castOn' | 'knit' | 'purl' | 'wrap' | 'cornerWrap' | 'graft' | 'bindOff';

/** All that the grid knows of one loop, in plain data. Loops by id, -1 for none. */
export interface StitchFacts {
  readonly loop: number;
  readonly kind: StitchKind;
  readonly section: SectionName;
  readonly pass: number;
  readonly bed: Bed;
  readonly needle: number;
  /** Stitches that it was drawn through, left to right as seen from outside: several at a decrease. */
  readonly parents: readonly number[];
  /** Wraps that it was drawn through with them. */
  readonly wrapsKnitted: readonly number[];
  /** To which side, as seen from outside, a decrease leans: the stitch that was moved lies on top. */
  readonly leans: 'left' | 'right' | null;
  /** The loop drawn through it; of a wrap, with the stitch that it lies round. */
  readonly child: number;
  /** Of a wrap, the held stitch that it lies round. */
  readonly host: number;
  /** Wraps that lie round it. */
  readonly wraps: readonly number[];
  readonly yarn: number;
  readonly yarnBefore: number;
  readonly yarnAfter: number;
}

const SECTION_NAMES = Object.keys(SECTION) as readonly SectionName[];

export function readStitch(grid: StitchGrid, loop: number): StitchFacts {
  const below = [...grid.parents.subarray(grid.parentStart[loop], grid.parentStart[loop + 1])], isWrap = (id: number): boolean => grid.kind[id] === LOOP.wrap;
  const parents = below.filter((id) => !isWrap(id)), host = isWrap(loop) ? grid.wrapHost[loop] : -1;
  return {
    loop, kind: kindOf(grid, loop), section: SECTION_NAMES.find((name) => SECTION[name] === grid.section[loop]) ?? 'closing',
    pass: grid.pass[loop], bed: bedOf(grid, loop), needle: grid.needle[loop],
    parents, wrapsKnitted: below.filter(isWrap), leans: parents.length > 1 ? leanOf(grid, parents) : null,
    child: host >= 0 ? grid.child[host] : grid.child[loop], host, wraps: wrapsRound(grid, loop),
    yarn: grid.yarn[loop], yarnBefore: grid.yarnBefore[loop], yarnAfter: grid.yarnAfter[loop],
  };
}

function bedOf(grid: StitchGrid, loop: number): Bed { return grid.bed[loop] === BED.front ? 'front' : 'back'; }

function kindOf(grid: StitchGrid, loop: number): StitchKind {
  switch (grid.kind[loop]) {
    case LOOP.castOn: return 'castOn';
    case LOOP.wrap: return isAtCorner(grid, loop) ? 'cornerWrap' : 'wrap';
    case LOOP.graft: return 'graft';
    case LOOP.bindOff: return 'bindOff';
    default: return grid.isPurl[loop] === 1 ? 'purl' : 'knit';
  }
}

/** A corner wrap lies round a stitch of the bed that the yarn does not come from. */
function isAtCorner(grid: StitchGrid, wrap: number): boolean {
  let before = grid.yarnBefore[wrap];
  while (before >= 0 && grid.kind[before] === LOOP.wrap) before = grid.yarnBefore[before];
  return before >= 0 && grid.bed[before] !== grid.bed[grid.wrapHost[wrap]];
}

function leanOf(grid: StitchGrid, parents: readonly number[]): 'left' | 'right' | null {
  const moved = parents.find((id) => grid.lean[id] !== 0);
  if (moved === undefined) return null;
  return grid.lean[moved] > 0 ? 'right' : 'left';
}

function wrapsRound(grid: StitchGrid, loop: number): number[] {
  const wraps: number[] = [];
  // Wraps are laid before the stitch is knitted again.
  const end = grid.child[loop] < 0 ? grid.loopCount : grid.child[loop];
  for (let id = loop + 1; id < end; id++) if (grid.kind[id] === LOOP.wrap && grid.wrapHost[id] === loop) wraps.push(id);
  return wraps;
}

/** A way from a stitch to another: along its yarn, or up and down its wale. */
export type StitchStep = 'yarn-back' | 'yarn-on' | 'up' | 'down';

/** The loop that a step leads to, -1 for none. Down goes to the stitch that was on the needle, and of those moved together to the one that was not moved. */
export function stepFrom(grid: StitchGrid, { yarnBefore, yarnAfter, child, host, parents }: StitchFacts, step: StitchStep): number {
  switch (step) {
    case 'yarn-back': return yarnBefore;
    case 'yarn-on': return yarnAfter;
    case 'up': return child;
    case 'down': return host >= 0 ? host : parents.find((id) => grid.lean[id] === 0) ?? parents[0] ?? -1;
    default: return step satisfies never;
  }
}

/** Loops that belong to one: what it was drawn through, the wraps about it, and what is drawn through it. */
export function relativesOf({ parents, wrapsKnitted, wraps, host, child }: StitchFacts): number[] {
  return [...parents, ...wrapsKnitted, ...wraps, host, child].filter((id) => id >= 0);
}
