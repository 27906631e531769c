import { SECTION } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { DartMap } from './dart-map.ts';
import type { FabricMarks } from './fabric.ts';
import { between, makePath, onVertex, type MarkPoint } from './mark-path.ts';
import { turnOf } from './sock-coordinates.ts';
import type { SockCoordinates, TubeBeds } from './sock-coordinates.ts';

/** One pass's vertices, from left to right as seen from outside. */
interface Row { readonly section: number; readonly bed: number; readonly vertices: readonly number[] }

interface Sock {
  readonly sectionOf: (v: number) => number;
  /** Vertices of each wale in order of knitting, by their place around the tube: its needle's, counted from the centre back. */
  readonly wales: readonly (readonly number[])[];
  readonly placeOf: Int32Array;
  readonly rows: readonly Row[];
  readonly heelBed: number;
  readonly quarter: number;
  /** Stitches that the heel has beyond its bed, at each end. */
  readonly beyond: number;
}

/** Outermost stitches of a sock's two beds, by side of the foot; `wale` indexes `Sock.wales`. */
const SIDES = { left: { heel: -1, instep: 0 }, right: { heel: 0, instep: -1 } } as const;
type SideName = keyof typeof SIDES;

function readSock(grid: StitchGrid, map: DartMap, coordinates: SockCoordinates, tube: TubeBeds): Sock {
  const stitches = 2 * (tube.last - tube.first + 1);
  const wales: number[][] = Array.from({ length: stitches }, () => []);
  const byPass = new Map<number, number[]>(), placeOf = new Int32Array(map.vertexCount);
  for (let v = 0; v < map.vertexCount; v++) {
    const loop = map.vertexLoop[v], pass = grid.pass[loop];
    const turn = grid.section[loop] === SECTION.toe ? turnOf(tube, grid.bed[loop], grid.needle[loop]) : coordinates.vertexAround[v];
    placeOf[v] = (Math.round(turn * stitches - 0.5) + stitches) % stitches;
    wales[placeOf[v]].push(v);
    const row = byPass.get(pass);
    if (row === undefined) byPass.set(pass, [v]);
    else row.push(v);
  }
  const rows = [...byPass.values()].map((vertices): Row => {
    const loop = map.vertexLoop[vertices[0]];
    const runsRight = vertices.length < 2 || grid.rightOf[loop] === map.vertexLoop[vertices[1]];
    return { section: grid.section[loop], bed: grid.bed[loop], vertices: runsRight ? vertices : [...vertices].reverse() };
  });
  return {
    sectionOf: (v) => grid.section[map.vertexLoop[v]],
    wales, placeOf, rows, heelBed: tube.heelBed, quarter: stitches / 4, beyond: tube.beyond,
  };
}

const wale = (sock: Sock, place: number): readonly number[] =>
  sock.wales[(place + sock.wales.length) % sock.wales.length];

/** Half-way between two neighbouring wales, row by row. */
function betweenWales(sock: Sock, left: number): MarkPoint[] {
  const [a, b] = [wale(sock, left), wale(sock, left + 1)];
  return a.slice(0, Math.min(a.length, b.length)).map((v, i) => between(v, b[i]));
}

/** A flat row, and a closed cast-on, goes all the way round. */
const isWhole = (sock: Sock, row: Row): boolean => row.vertices.length === sock.wales.length;

/**
 * The stitches of a tube's round, one a wale, from the instep's left end on. Beside a wide heel its two passes
 * overlap or leave a gap at one end: there stands the heel bed's stitch, or the one that waits from the heel.
 */
function ringOf(sock: Sock, instep: readonly number[], heel: readonly number[]): number[] {
  const byPlace = new Map([...instep, ...heel].map((v) => [sock.placeOf[v], v]));
  return sock.wales.flatMap((_, i) => {
    const place = (sock.quarter + i) % sock.wales.length;
    const v = byPlace.get(place) ?? wale(sock, place).filter((waiting) => sock.sectionOf(waiting) === SECTION['heel-out']).at(-1);
    return v === undefined ? [] : [v];
  });
}

/** Closed rounds in order: flat rows as they are, tube passes in pairs (instep, heel bed). */
function roundsOf(sock: Sock, sections: readonly number[]): (readonly number[])[] {
  const rows = sock.rows.filter((row) => sections.includes(row.section));
  const rounds: (readonly number[])[] = [];
  let instep: readonly number[] | null = null;
  for (const row of rows) {
    if (isWhole(sock, row)) rounds.push(row.vertices);
    else if (row.bed !== sock.heelBed) instep = row.vertices;
    else if (instep) rounds.push(sock.beyond > 0 ? ringOf(sock, instep, row.vertices) : [...instep, ...row.vertices]);
  }
  return rounds;
}

/** The wales from the edge between the beds to a wide heel's corner, and the one beyond the corner, on the instep. */
function edgeToCorner(sock: Sock, side: SideName, ring: readonly number[]): { readonly outside: number; readonly moved: readonly number[]; readonly instep: number } {
  const at = (i: number): number => ring[side === 'left' ? (i + ring.length) % ring.length : 2 * sock.quarter - 1 - i];
  return { outside: at(-1), moved: Array.from({ length: sock.beyond }, (_, i) => at(i)), instep: at(sock.beyond) };
}

/**
 * Where instep and heel bed meet, round by round. The instep's left end, as seen from outside, is on the foot's
 * left. A wide heel's corner lies farther forward: the line goes there along the last round before it, and back
 * along the first after it.
 */
function sideOf(sock: Sock, side: SideName, sections: readonly number[]): MarkPoint[] {
  const points: MarkPoint[] = [];
  let instep: readonly number[] | null = null;
  const [before, after] = sock.beyond > 0 ? besideHeel(sock) : [];
  for (const row of sock.rows.filter((r) => sections.includes(r.section))) {
    if (isWhole(sock, row)) {
      const place = side === 'left' ? sock.quarter - 1 : 3 * sock.quarter - 1;
      const inRow = (p: number): number => row.vertices.find((v) => wale(sock, p).includes(v)) as number;
      points.push(between(inRow(place), inRow(place + 1)));
    } else if (row.bed !== sock.heelBed) instep = row.vertices;
    else if (instep && (row === before || row === after)) {
      const { outside, moved, instep: front } = edgeToCorner(sock, side, ringOf(sock, instep, row.vertices));
      const forward = [between(outside, moved[0]), ...moved.map(onVertex), between(moved[moved.length - 1], front)];
      points.push(...(row === before ? forward : forward.slice(0, -1).reverse()));
    } else if (instep) points.push(between(row.vertices.at(SIDES[side].heel) as number, instep.at(SIDES[side].instep) as number));
  }
  return points;
}

/** The heel bed's rows next to the heel. */
function besideHeel(sock: Sock): readonly [before: Row | undefined, after: Row | undefined] {
  const isTube = (row: Row): boolean => row.bed === sock.heelBed && !isWhole(sock, row);
  const first = sock.rows.findIndex((row) => row.section === SECTION['heel-in']);
  return [sock.rows.slice(0, first).filter(isTube).at(-1), sock.rows.slice(first).find((row) => row.section === SECTION.foot && isTube(row))];
}

/** The loops that wait beside short rows on `stitches` of the bed, from the corner inwards. */
function mitreOf(sock: Sock, side: SideName, turns: number, stitches: number, outSection: number): number[] {
  return Array.from({ length: turns / 2 }, (_, i) => {
    const vertices = wale(sock, side === 'left' ? stitches / 2 - 1 - i : i - stitches / 2);
    const out = vertices.findIndex((v) => sock.sectionOf(v) === outSection);
    return vertices[out - 1];
  });
}

interface Turning { readonly base: readonly number[]; readonly left: number[]; readonly right: number[] }

/** The short base and both mitres of a heel or short-row toe. */
function readTurning(sock: Sock, down: number, level: number | null, out: number): Turning {
  const downRows = sock.rows.filter((r) => r.section === down);
  const levelRows = level === null ? [] : sock.rows.filter((r) => r.section === level);
  const base = (levelRows[levelRows.length / 2 - 1] ?? downRows.at(-1)), turns = downRows.length, stitches = base.vertices.length + turns;
  return {
    base: base.vertices,
    left: mitreOf(sock, 'left', turns, stitches, out),
    right: mitreOf(sock, 'right', turns, stitches, out),
  };
}

/** From the last full-width row of a turning at `vertex` along its wale to the base row's end. */
function upWale(sock: Sock, base: number): number[] {
  const vertices = sock.wales.find((w) => w.includes(base)) as readonly number[];
  const firstLevel = vertices.findIndex((v) => sock.sectionOf(v) === SECTION['heel-level']);
  const to = vertices.indexOf(base);
  return firstLevel < 0 || firstLevel > to ? [base] : vertices.slice(firstLevel - 1, to + 1);
}

/** On the instep between the heel's corners. */
const isInstep = (sock: Sock, v: number): boolean =>
  sock.placeOf[v] >= sock.quarter + sock.beyond && sock.placeOf[v] < 3 * sock.quarter - sock.beyond;

const middleOf = (row: readonly number[]): MarkPoint =>
  between(row[row.length / 2 - 1], row[row.length / 2]);

function markHeel(sock: Sock): Pick<FabricMarks, 'mitreLeft' | 'mitreRight' | 'heelFirstRow' | 'shortBase' | 'baseMiddle' | 'instepAtHeel' | 'heelDiagonal'> {
  const turning = readTurning(sock, SECTION['heel-in'], SECTION['heel-level'], SECTION['heel-out']);
  const heelStart = sock.rows.findIndex((r) => r.section === SECTION['heel-in']);
  const before = sock.rows.slice(0, heelStart);
  const heelRow = before.filter((r) => r.bed === sock.heelBed).at(-1) as Row;
  const instep = (before.filter((r) => r.bed !== sock.heelBed).at(-1) as Row).vertices.filter((v) => isInstep(sock, v));
  const footStart = sock.rows.find((r) => r.section === SECTION.foot && r.bed !== sock.heelBed) as Row;
  // On the heel bed, seen from outside, the foot's left is on the right: around the tube it comes last.
  const right = [...turning.right, ...upWale(sock, turning.base[0])];
  const left = [...turning.left, ...upWale(sock, turning.base.at(-1) as number)];
  const inRow = (row: readonly number[], place: number): number => row.find((v) => sock.placeOf[v] === place) as number;
  const [middleA, middleB] = [inRow(instep, 2 * sock.quarter - 1), inRow(footStart.vertices, 2 * sock.quarter)];
  return {
    mitreLeft: makePath(left.map(onVertex), false),
    mitreRight: makePath(right.map(onVertex), false),
    heelFirstRow: makePath(heelRow.vertices.map(onVertex), false),
    shortBase: makePath(turning.base.map(onVertex), false),
    baseMiddle: makePath([middleOf(turning.base)], false),
    instepAtHeel: makePath([between(middleA, middleB)], false),
    heelDiagonal: makePath([...instep, ...right, ...turning.base.slice(1, -1), ...[...left].reverse()].map(onVertex), true),
  };
}

function markToe(sock: Sock): Pick<FabricMarks, 'toeTip' | 'toeLength'> {
  const toeRows = sock.rows.filter((r) => r.section === SECTION.toe);
  if (toeRows.length > 0) {
    const side = sideOf(sock, 'left', [SECTION.foot, SECTION.toe]);
    const otherSide = sideOf(sock, 'right', [SECTION.toe]);
    const tip = toeRows.filter((r) => r.bed !== sock.heelBed).at(-1) as Row;
    // A slanted toe is measured on the side of the great toe, where it was decreased less.
    const [left, right] = [sock.placeOf[tip.vertices[0]] - sock.quarter, 3 * sock.quarter - 1 - sock.placeOf[tip.vertices.at(-1) as number]];
    const straighter = right < left ? sideOf(sock, 'right', [SECTION.foot, SECTION.toe]) : side;
    return {
      toeTip: makePath([side.at(-1) as MarkPoint, ...tip.vertices.map(onVertex), otherSide.at(-1) as MarkPoint], false),
      toeLength: makePath(straighter.slice(-toeRows.length / 2 - 1), false),
    };
  }
  const turning = readTurning(sock, SECTION['toe-in'], null, SECTION['toe-out']);
  const downRows = sock.rows.filter((r) => r.section === SECTION['toe-in']).length;
  const middle = betweenWales(sock, -1).filter(([v]) => sock.sectionOf(v) === SECTION['toe-in'] || sock.sectionOf(v) === SECTION.foot);
  return {
    toeTip: makePath(turning.base.map(onVertex), false),
    toeLength: makePath(middle.slice(-downRows - 1), false),
  };
}

/** Finds a sock's lines on its cloth. `tube` tells heel bed and needles. */
export function markSock(grid: StitchGrid, map: DartMap, coordinates: SockCoordinates, tube: TubeBeds): FabricMarks {
  const sock = readSock(grid, map, coordinates, tube);
  const legSections = [SECTION['cast-on'], SECTION.leg, SECTION.plain, SECTION.ankle];
  const allSections = [...legSections, SECTION.foot, SECTION.toe];
  const closed = (sections: readonly number[]) => roundsOf(sock, sections).map((round) => makePath(round.map(onVertex), true));
  const castOn = sock.rows.filter((r) => r.section === SECTION['cast-on']).flatMap((r) => r.vertices);
  return {
    cuff: makePath(castOn.map(onVertex), true),
    centreFront: makePath(betweenWales(sock, 2 * sock.quarter - 1), false),
    centreBack: makePath(betweenWales(sock, -1), false),
    sideLeft: makePath(sideOf(sock, 'left', allSections), false),
    sideRight: makePath(sideOf(sock, 'right', allSections), false),
    ...markHeel(sock),
    footRounds: closed([SECTION.foot]),
    legRounds: closed(legSections),
    ...markToe(sock),
  };
}
