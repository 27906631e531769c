import { LOOP } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import { EDGE } from './fabric.ts';

/**
 * Directions at a loop, in degrees counter-clockwise as seen from outside, its course running to
 * the right and its wale upwards. Only their order matters.
 */
const ANGLE = {
  right: 0, mitreFromRight: 20, mitreToRight: 45, up: 90,
  mitreToLeft: 135, mitreFromLeft: 160, left: 180, ringLeft: 200,
  down: 270, ringRight: 340,
} as const;

/** Degrees between the wales of loops knitted together. */
const PARENT_FAN = 5;

/** Edges of the cloth and, round each vertex, the darts (half edges) in turning order. */
export interface DartMap {
  readonly vertexCount: number;
  readonly vertexLoop: Int32Array;
  readonly loopVertex: Int32Array;
  /** Two vertices an edge; dart 2 e leaves edges[2 e], dart 2 e + 1 leaves edges[2 e + 1]. */
  readonly edges: Int32Array;
  readonly edgeKind: Uint8Array;
  readonly dartAngle: Float64Array;
  /** Darts of vertex v by rising angle: darts[dartStart[v] .. dartStart[v + 1]). */
  readonly dartStart: Int32Array;
  readonly darts: Int32Array;
  /** Place of each dart in `darts`. */
  readonly dartPlace: Int32Array;
  /** Bits: 1 open downwards (cast-on), 2 open upwards (live), 4 open left, 8 open right. */
  readonly openSides: Uint8Array;
}

export const OPEN_ANGLES: readonly (readonly [bit: number, angle: number])[] = [
  [1, ANGLE.down], [2, ANGLE.up], [4, ANGLE.left], [8, ANGLE.right],
];

interface EdgeList {
  readonly ends: number[];
  readonly kinds: number[];
  readonly angles: number[];
  readonly known: Set<number>;
}

const isStitch = (grid: StitchGrid, loop: number): boolean => (grid.kind[loop]) <= LOOP.knit;

/** Adds an edge unless the pair has one already. */
function addEdge(list: EdgeList, vertexCount: number, u: number, v: number, kind: number, angleU: number, angleV: number): void {
  const key = u < v ? u * vertexCount + v : v * vertexCount + u;
  if (u < 0 || v < 0 || u === v || list.known.has(key)) return;
  list.known.add(key);
  list.ends.push(u, v);
  list.kinds.push(kind);
  list.angles.push(angleU, angleV);
}

function addWales(list: EdgeList, grid: StitchGrid, loopVertex: Int32Array, vertexCount: number): void {
  for (let loop = 0; loop < grid.loopCount; loop++) {
    if (!isStitch(grid, loop)) continue;
    const [start, end] = [grid.parentStart[loop], grid.parentStart[loop + 1]];
    for (let k = start; k < end; k++) {
      // Several parents fan out below, left to right; a wrap among them is no vertex.
      const angle = ANGLE.down + PARENT_FAN * (k - (start + end - 1) / 2);
      addEdge(list, vertexCount, loopVertex[grid.parents[k]], loopVertex[loop], EDGE.wale, ANGLE.up, angle);
    }
  }
}

function addCourses(list: EdgeList, grid: StitchGrid, loopVertex: Int32Array, vertexCount: number): void {
  for (let loop = 0; loop < grid.loopCount; loop++) {
    if (!isStitch(grid, loop)) continue;
    const right = grid.rightOf[loop];
    const left = grid.leftOf[loop];
    // The other end usually knows this loop as its neighbour on the opposite side; where the carriage turned, on the same.
    if (right >= 0) {
      const back = grid.leftOf[right] === loop ? ANGLE.left : ANGLE.right;
      addEdge(list, vertexCount, loopVertex[loop], loopVertex[right], EDGE.course, ANGLE.right, back);
    }
    if (left >= 0 && grid.rightOf[left] !== loop) {
      addEdge(list, vertexCount, loopVertex[loop], loopVertex[left], EDGE.course, ANGLE.left, ANGLE.left);
    }
  }
}

function addPairs(list: EdgeList, grid: StitchGrid, loopVertex: Int32Array, vertexCount: number): void {
  const forEachPair = (pairs: Int32Array, add: (a: number, b: number) => void): void => {
    for (let i = 0; i < pairs.length; i += 2) add(pairs[i], pairs[i + 1]);
  };
  const vertex = (loop: number): number => loopVertex[loop];
  forEachPair(grid.ringPair, (last, first) => {
    // The ring closes below the yarn's way up into the first pass.
    const runsLeft = grid.rightOf[first] === -1;
    addEdge(list, vertexCount, vertex(last), vertex(first), EDGE.course,
      runsLeft ? ANGLE.ringLeft : ANGLE.ringRight, runsLeft ? ANGLE.right : ANGLE.left);
  });
  forEachPair(grid.seamPairs, (a, b) => {
    const aIsLeft = ((grid.selvedge[a]) & 1) !== 0;
    addEdge(list, vertexCount, vertex(a), vertex(b), EDGE.seam, aIsLeft ? ANGLE.left : ANGLE.right, aIsLeft ? ANGLE.right : ANGLE.left);
  });
  forEachPair(grid.joinPairs, (a, b) => {
    addEdge(list, vertexCount, vertex(a), vertex(b), EDGE.join, ANGLE.up, ANGLE.up);
  });
  forEachPair(grid.mitrePairs, (outer, inner) => {
    const isToHigh = (grid.needle[inner]) > (grid.needle[outer]);
    // A short row's loops show their knit side outside: high needles lie right on the front bed.
    const isToRight = isToHigh === (grid.bed[outer] === 0);
    addEdge(list, vertexCount, vertex(outer), vertex(inner), EDGE.mitre,
      isToRight ? ANGLE.mitreToRight : ANGLE.mitreToLeft, isToRight ? ANGLE.mitreFromLeft : ANGLE.mitreFromRight);
  });
}

function findOpenSides(grid: StitchGrid, vertexLoop: Int32Array): Uint8Array {
  const live = new Set(grid.live);
  const open = new Uint8Array(vertexLoop.length);
  for (let v = 0; v < open.length; v++) {
    const loop = vertexLoop[v];
    open[v] = (grid.kind[loop] === LOOP.castOn ? 1 : 0) | (live.has(loop) ? 2 : 0) | ((grid.selvedge[loop]) << 2);
  }
  return open;
}

/** Reads the edges off the grid, each pair of loops once, and sorts them round every vertex. */
export function mapDarts(grid: StitchGrid): DartMap {
  const loopVertex = new Int32Array(grid.loopCount).fill(-1);
  const stitches: number[] = [];
  for (let loop = 0; loop < grid.loopCount; loop++) {
    if (!isStitch(grid, loop)) continue;
    loopVertex[loop] = stitches.length;
    stitches.push(loop);
  }
  const vertexCount = stitches.length;
  const list: EdgeList = { ends: [], kinds: [], angles: [], known: new Set() };
  // Where yarn edge and parent edge coincide (the yarn turns), the wale is kept.
  addWales(list, grid, loopVertex, vertexCount);
  addCourses(list, grid, loopVertex, vertexCount);
  addPairs(list, grid, loopVertex, vertexCount);

  const vertexLoop = new Int32Array(stitches);
  return {
    vertexCount, vertexLoop, loopVertex,
    edges: new Int32Array(list.ends),
    edgeKind: new Uint8Array(list.kinds),
    dartAngle: new Float64Array(list.angles),
    openSides: findOpenSides(grid, vertexLoop),
    ...sortDarts(list, vertexCount),
  };
}

function sortDarts(list: EdgeList, vertexCount: number): Pick<DartMap, 'dartStart' | 'darts' | 'dartPlace'> {
  const dartCount = list.ends.length;
  const dartStart = new Int32Array(vertexCount + 1);
  for (const v of list.ends) dartStart[v + 1] = (dartStart[v + 1]) + 1;
  for (let v = 0; v < vertexCount; v++) dartStart[v + 1] = (dartStart[v + 1]) + (dartStart[v]);
  const darts = new Int32Array(dartCount);
  const filled = new Int32Array(vertexCount);
  const angle = (dart: number): number => list.angles[dart];
  for (let dart = 0; dart < dartCount; dart++) {
    const v = list.ends[dart];
    const start = dartStart[v];
    // Insertion by angle: a vertex has a handful of darts.
    let place = start + (filled[v]);
    for (; place > start && angle(darts[place - 1]) > angle(dart); place--) darts[place] = darts[place - 1];
    darts[place] = dart;
    filled[v] = (filled[v]) + 1;
  }
  const dartPlace = new Int32Array(dartCount);
  darts.forEach((dart, place) => { dartPlace[dart] = place; });
  return { dartStart, darts, dartPlace };
}
