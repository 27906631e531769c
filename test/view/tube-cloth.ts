import { EDGE, type Fabric } from '../../src/fabric/fabric.ts';
import { BED, LOOP, SECTION } from '../../src/machine/codes.ts';
import type { StitchGrid } from '../../src/machine/grid.ts';

/** A cloth of closed rounds, enough of a sock to draw: rib at the top, a bend, decreases, a joined tip. Invented. */
export interface TubeChoices {
  /** Multiple of 4. */
  readonly stitches: number;
  readonly ribRounds: number;
  readonly plainRounds: number;
  /** Decrease rounds (4 loops each), every second round. */
  readonly decreases: number;
  /** Rounds to a stripe of yarn 0 and 1; 0 for none. */
  readonly stripe: number;
}

export interface TubeCloth { readonly fabric: Fabric; readonly grid: StitchGrid; readonly positions: Float64Array }

const COURSE = 3.33, WALE = 2.38, RIB = 2.6;

/** Loops of each round by their parents; a decrease stacks two at both ends of both halves. */
function roundsOf(c: TubeChoices): { first: number; size: number; parents: number[][] }[] {
  const rounds = [{ first: 0, size: c.stitches, parents: Array.from({ length: c.stitches }, () => [] as number[]) }];
  for (let row = 1; row < c.ribRounds + c.plainRounds + 2 * c.decreases; row++) {
    const below = rounds[row - 1], half = below.size / 2;
    const isDecrease = row >= c.ribRounds + c.plainRounds && (row - c.ribRounds - c.plainRounds) % 2 === 0;
    const parents: number[][] = [];
    for (let i = 0; i < below.size; i++) {
      const k = i % half;
      if (isDecrease && (k === 1 || k === half - 3)) parents.push([below.first + i, below.first + ++i]);
      else parents.push([below.first + i]);
    }
    rounds.push({ first: below.first + below.size, size: parents.length, parents });
  }
  return rounds;
}

function placeOf(angle: number, length: number, flat: number, radius: number): readonly [number, number, number] {
  const leg = 110, bend = 60, turn = Math.PI / 2;
  const around = [Math.cos(angle) * radius * flat, Math.sin(angle) * radius] as const;
  if (length < leg) return [-around[0], around[1], leg - length + bend];
  const arc = Math.min(length - leg, bend * turn) / bend;
  const over = Math.max(0, length - leg - bend * turn);
  return [
    bend * (1 - Math.cos(arc)) + over - around[0] * Math.cos(arc), around[1],
    bend * (1 - Math.sin(arc)) - around[0] * Math.sin(arc),
  ];
}

/** Builds the tube with its exact grid; positions bend it once, so that all kinds of light fall on it. */
export function makeTube(c: TubeChoices): TubeCloth {
  const rounds = roundsOf(c), last = rounds[rounds.length - 1];
  const n = last.first + last.size;
  const int = (fill: number): Int32Array => new Int32Array(n).fill(fill);
  const child = int(-1), leftOf = int(-1), rightOf = int(-1), pass = int(0), parentStart = new Int32Array(n + 1);
  const section = new Uint8Array(n), isPurl = new Uint8Array(n), yarn = new Uint8Array(n), kind = new Uint8Array(n);
  const around = new Float64Array(n), row = new Float64Array(n), positions = new Float64Array(3 * n);
  const parents: number[] = [], cells: number[][] = [], rest: number[][] = [], rib: number[] = [];
  const edges: number[] = [], edgeKind: number[] = [];
  rounds.forEach((round, r) => {
    const isRib = r < c.ribRounds, width = isRib ? RIB : COURSE;
    for (let i = 0; i < round.size; i++) {
      const loop = round.first + i;
      rightOf[loop] = round.first + ((i + 1) % round.size);
      leftOf[loop] = round.first + ((i + round.size - 1) % round.size);
      parents.push(...round.parents[i]);
      parentStart[loop + 1] = parents.length;
      for (const p of round.parents[i]) { child[p] = loop; edges.push(p, loop); edgeKind.push(EDGE.wale); }
      edges.push(loop, rightOf[loop]); edgeKind.push(EDGE.course);
      kind[loop] = r === 0 ? LOOP.castOn : LOOP.knit;
      section[loop] = r === 0 ? SECTION['cast-on'] : isRib ? SECTION.leg : SECTION.foot;
      isPurl[loop] = isRib && i % 2 === 1 ? 1 : 0;
      yarn[loop] = c.stripe > 0 ? Math.floor(r / c.stripe) % 2 : 0;
      pass[loop] = r; row[loop] = r; around[loop] = i / round.size;
      positions.set(placeOf((2 * Math.PI * i) / round.size, r * WALE, 1, (round.size * width) / (2 * Math.PI)), 3 * loop);
    }
    if (r === 0) return;
    for (let i = 0; i < round.size; i++) {
      const loop = round.first + i, right = rightOf[loop];
      const own = round.parents[i], next = round.parents[(i + 1) % round.size];
      cells.push([own[own.length - 1], next[0], right, loop]);
      rest.push([0, 0, width, 0, width, WALE, 0, WALE]);
      rib.push(isRib ? 1 : 0);
      if (own.length === 2) { cells.push([own[0], own[1], loop]); rest.push([0, 0, width, 0, width / 2, WALE]); rib.push(0); }
    }
  });
  const joins: number[] = [];
  for (let i = 1, j = last.size - 1; i < j; i++, j--) joins.push(last.first + i, last.first + j);
  for (let i = 0; i + 3 < joins.length; i += 2) {
    cells.push([joins[i], joins[i + 2], joins[i + 3], joins[i + 1]]);
    rest.push([0, 0, COURSE, 0, COURSE, WALE, 0, WALE]); rib.push(0);
  }
  const cellStart = new Int32Array(cells.length + 1);
  cells.forEach((cell, i) => { cellStart[i + 1] = cellStart[i] + cell.length; });
  const vertices = Int32Array.from({ length: n }, (_, i) => i);
  const fabric: Fabric = {
    vertexCount: n, vertexLoop: vertices, loopVertex: vertices.slice(), vertexSection: section, vertexPass: pass,
    vertexAround: around, vertexRow: row, vertexFan: new Float64Array(n),
    edges: Int32Array.from(edges), edgeKind: Uint8Array.from(edgeKind), edgeRestMm: new Float64Array(edges.length / 2).fill(WALE),
    cellStart, cellVertices: Int32Array.from(cells.flat()), cellRestMm: Float64Array.from(rest.flat()), cellIsRib: Uint8Array.from(rib),
    boundaryStart: Int32Array.of(0, c.stitches), boundaryVertices: vertices.slice(0, c.stitches),
    marks: null, courseMm: COURSE, waleMm: WALE, ribCourseMm: RIB,
  };
  const grid: StitchGrid = {
    loopCount: n, kind, pass, bed: new Uint8Array(n).fill(BED.front), needle: Int16Array.from(around, (a) => Math.round(a * c.stitches) + 1),
    yarn, section, isPurl, isRib: new Uint8Array(n), lean: new Int8Array(n), parentStart, parents: Int32Array.from(parents), child,
    yarnBefore: int(-1), yarnAfter: int(-1), leftOf, rightOf, wrapHost: int(-1), selvedge: new Uint8Array(n),
    mitrePairs: new Int32Array(0), seamPairs: new Int32Array(0), joinPairs: Int32Array.from(joins), ringPair: new Int32Array(0), live: new Int32Array(0),
  };
  return { fabric, grid, positions };
}
