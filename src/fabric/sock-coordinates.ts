import { SECTION } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { DartMap } from './dart-map.ts';

/** Where each vertex belongs on the sock: see `Fabric`. */
export interface SockCoordinates {
  readonly vertexAround: Float64Array;
  readonly vertexRow: Float64Array;
  readonly vertexFan: Float64Array;
}

/** The beds of a tube: which knits the heel, and the needles in work; how many stitches beyond them the heel has at each end. */
export interface TubeBeds { readonly heelBed: number; readonly first: number; readonly last: number; readonly beyond: number }

const isFan = (section: number): boolean =>
  (section >= SECTION['heel-in'] && section <= SECTION['heel-out'])
  || section === SECTION['toe-in'] || section === SECTION['toe-out'];
const isFlat = (grid: StitchGrid, loop: number): boolean =>
  grid.isRib[loop] === 1 || grid.section[loop] === SECTION.plain;

/** Finds the tube from the short rows of the heel; null for a fabric without one. */
export function findTubeBeds(grid: StitchGrid, map: DartMap): TubeBeds | null {
  let [heelBed, first, last, heelLast] = [-1, Infinity, -Infinity, -Infinity];
  for (const loop of map.vertexLoop) {
    if (grid.section[loop] === SECTION['heel-out']) {
      heelBed = grid.bed[loop];
      heelLast = Math.max(heelLast, grid.needle[loop]);
    }
    if (grid.section[loop] === SECTION.foot) {
      first = Math.min(first, grid.needle[loop]);
      last = Math.max(last, grid.needle[loop]);
    }
  }
  return heelBed < 0 || first > last ? null : { heelBed, first, last, beyond: Math.max(0, heelLast - last) };
}

/** Turn (0..1) of a needle of the tube, or beyond its bed's end where a heel is wider; towards the right as seen from outside it grows. */
export function turnOf(tube: TubeBeds, bed: number, needle: number): number {
  const half = tube.last - tube.first + 1;
  const fromLeft = bed === 0 ? needle - tube.first : tube.last - needle;
  const stitch = bed === tube.heelBed ? fromLeft + 0.5 - half / 2 : half / 2 + fromLeft + 0.5;
  return (((stitch / (2 * half)) % 1) + 1) % 1;
}

/** By pass of a decreased toe, how many needles its middle stands to the right of the tube's: a slanted toe ends off the middle. */
function toeMiddles(grid: StitchGrid, map: DartMap, tube: TubeBeds): Map<number, number> {
  const ends = new Map<number, { low: number; high: number }>();
  for (const loop of map.vertexLoop) {
    if (grid.section[loop] !== SECTION.toe) continue;
    const pass = grid.pass[loop], needle = grid.needle[loop], { low, high } = ends.get(pass) ?? { low: needle, high: needle };
    ends.set(pass, { low: Math.min(low, needle), high: Math.max(high, needle) });
  }
  return new Map([...ends].map(([pass, { low, high }]) => [pass, (low + high - tube.first - tube.last) / 2]));
}

function placeAround(grid: StitchGrid, map: DartMap, tube: TubeBeds): Float64Array {
  const around = new Float64Array(map.vertexCount), middles = toeMiddles(grid, map, tube);
  // From the newest back: flat rows lie where the tube's stitches that grew from them lie.
  for (let v = map.vertexCount - 1; v >= 0; v--) {
    const loop = map.vertexLoop[v];
    const child = map.loopVertex[grid.child[loop]] ?? -1;
    around[v] = isFlat(grid, loop) && child >= 0
      ? (around[child])
      : turnOf(tube, grid.bed[loop], grid.needle[loop] - (middles.get(grid.pass[loop]) ?? 0));
  }
  return around;
}

function countRows(grid: StitchGrid, map: DartMap): Float64Array {
  const row = new Float64Array(map.vertexCount);
  for (let v = 0; v < map.vertexCount; v++) {
    const loop = map.vertexLoop[v];
    const parent = firstStitchParent(grid, map, loop);
    if (parent >= 0) row[v] = (row[parent]) + (isFan(grid.section[loop]) ? 0 : 1);
  }
  return row;
}

function firstStitchParent(grid: StitchGrid, map: DartMap, loop: number): number {
  for (let k = grid.parentStart[loop]; k < (grid.parentStart[loop + 1]); k++) {
    const vertex = map.loopVertex[grid.parents[k]];
    if (vertex >= 0) return vertex;
  }
  return -1;
}

/**
 * Along each wale through a heel (or short-row toe) from 0 to 1; the mitre, where the wale waits,
 * stands at one half, and the short base's middle row with it.
 */
function fanOut(grid: StitchGrid, map: DartMap): Float64Array {
  const fan = new Float64Array(map.vertexCount);
  for (let v = 0; v < map.vertexCount; v++) {
    const section = grid.section[map.vertexLoop[v]];
    if (section === SECTION.foot || section === SECTION.toe) fan[v] = 1;
    if (!isFan(section)) continue;
    const parent = firstStitchParent(grid, map, map.vertexLoop[v]);
    if (parent >= 0 && isSameFan(grid, map, parent, v)) continue;
    spreadWale(grid, map, fan, v);
  }
  return fan;
}

const isToe = (section: number): boolean => section === SECTION['toe-in'] || section === SECTION['toe-out'];

function isSameFan(grid: StitchGrid, map: DartMap, a: number, b: number): boolean {
  const sectionA = grid.section[map.vertexLoop[a]];
  const sectionB = grid.section[map.vertexLoop[b]];
  return isFan(sectionA) && isFan(sectionB) && isToe(sectionA) === isToe(sectionB);
}

/** Sets `fan` along the wale that enters the short rows at vertex `first`. */
function spreadWale(grid: StitchGrid, map: DartMap, fan: Float64Array, first: number): void {
  const wale: number[] = [];
  for (let v = first; v >= 0 && isSameFan(grid, map, first, v);) {
    wale.push(v);
    v = map.loopVertex[grid.child[map.vertexLoop[v]]] ?? -1;
  }
  const isOut = (v: number): boolean => {
    const section = grid.section[map.vertexLoop[v]];
    return section === SECTION['heel-out'] || section === SECTION['toe-out'];
  };
  const level = wale.filter((v) => grid.section[map.vertexLoop[v]] === SECTION['heel-level']).length;
  const down = wale.filter((v) => !isOut(v)).length - level / 2;
  const out = wale.length - down;
  wale.forEach((v, i) => {
    const row = i + 1;
    fan[v] = row <= down ? (0.5 * row) / (down + 0.5) : 1 - (0.5 * (wale.length - row + 0.5)) / (out + 0.5);
  });
}

/** Coordinates along the tube, for a fabric with a heel; for any other, rows only. */
export function placeVertices(grid: StitchGrid, map: DartMap, tube: TubeBeds | null): SockCoordinates {
  return {
    vertexAround: tube ? placeAround(grid, map, tube) : new Float64Array(map.vertexCount),
    vertexRow: countRows(grid, map),
    vertexFan: tube ? fanOut(grid, map) : new Float64Array(map.vertexCount),
  };
}
