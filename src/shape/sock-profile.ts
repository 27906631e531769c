import { EDGE } from '../fabric/fabric.ts';
import type { Fabric } from '../fabric/fabric.ts';
import { SECTION } from '../machine/codes.ts';

/** A heel or a short-row toe, as a start shape needs it. */
export interface FanProfile {
  /** Row of the tube at which its own rows are let in. */
  readonly row: number;
  /** How far beyond the sides its corners lie, forward on the instep, in turns: above 0 for a heel on more than half of the stitches. */
  readonly beyond: number;
  /** Length of the line over both mitres and the short base, over that of its first row. */
  readonly swell: number;
}

/** Lengths of a sock read off its fabric. */
export interface SockProfile {
  /** Girth of each round, by whole row from the cast-on, mm. */
  readonly girths: Float64Array;
  readonly heel: FanProfile | null;
  readonly toe: FanProfile | null;
  /** Rows at which a decreased toe starts and ends (equal without one). */
  readonly toeFirstRow: number;
  readonly lastRow: number;
}

const HEEL_SECTIONS: readonly number[] = [SECTION['heel-in'], SECTION['heel-level'], SECTION['heel-out']];
const TOE_SECTIONS: readonly number[] = [SECTION['toe-in'], SECTION['toe-out']];

export function isHeelSection(section: number): boolean { return HEEL_SECTIONS.includes(section); }
export function isFanToeSection(section: number): boolean { return TOE_SECTIONS.includes(section); }

export function profileSock(fabric: Fabric): SockProfile {
  let lastRow = 0, toeFirstRow = Infinity;
  for (let v = 0; v < fabric.vertexCount; v++) {
    lastRow = Math.max(lastRow, fabric.vertexRow[v]);
    if (fabric.vertexSection[v] === SECTION.toe) toeFirstRow = Math.min(toeFirstRow, fabric.vertexRow[v]);
  }
  return {
    girths: measureGirths(fabric, lastRow),
    heel: profileFan(fabric, SECTION['heel-in'], isHeelSection),
    toe: profileFan(fabric, SECTION['toe-in'], isFanToeSection),
    toeFirstRow: Math.min(toeFirstRow, lastRow), lastRow,
  };
}

/** Rest lengths of the course edges of each round; rows without any (never in a sock) take their neighbour's. */
function measureGirths(fabric: Fabric, lastRow: number): Float64Array {
  const girths = new Float64Array(Math.round(lastRow) + 1);
  for (let e = 0; e < fabric.edgeKind.length; e++) {
    const a = fabric.edges[2 * e], b = fabric.edges[2 * e + 1];
    const isRound = [a, b].every((v) => !isHeelSection(fabric.vertexSection[v]) && !isFanToeSection(fabric.vertexSection[v]));
    if (fabric.edgeKind[e] !== EDGE.course || !isRound) continue;
    girths[Math.round((fabric.vertexRow[a] + fabric.vertexRow[b]) / 2)] += fabric.edgeRestMm[e];
  }
  const most = Math.max(...girths);
  for (let r = 1; r < girths.length; r++) if (girths[r] < 0.05 * most) girths[r] = girths[r - 1];
  if (girths[0] < 0.05 * most) girths[0] = girths[1] ?? most;
  return girths;
}

function profileFan(fabric: Fabric, firstSection: number, isOfFan: (section: number) => boolean): FanProfile | null {
  let count = 0, row = Infinity, widest = 0, lastPass = -1;
  const passes = new Set<number>();
  for (let v = 0; v < fabric.vertexCount; v++) {
    if (!isOfFan(fabric.vertexSection[v])) continue;
    count++;
    row = Math.min(row, fabric.vertexRow[v]);
    const turn = fabric.vertexAround[v] - Math.floor(fabric.vertexAround[v]);
    widest = Math.max(widest, Math.min(turn, 1 - turn));
    if (fabric.vertexSection[v] !== firstSection) continue;
    passes.add(fabric.vertexPass[v]);
    lastPass = Math.max(lastPass, fabric.vertexPass[v]);
  }
  if (count === 0) return null;
  let narrow = 0;
  for (let v = 0; v < fabric.vertexCount; v++) {
    if (isOfFan(fabric.vertexSection[v]) && fabric.vertexPass[v] === lastPass) narrow++;
  }
  const n = passes.size, a = fabric.courseMm, b = fabric.waleMm;
  const mitre = Math.sqrt((n / 2 * a) ** 2 + (n * b) ** 2);
  // The outermost stitch lies half a stitch within the corner; rounding is no stitch.
  const beyond = widest + 0.5 / fabric.boundaryVertices.length - 0.25;
  return { row, beyond: beyond > 1e-6 ? beyond : 0, swell: (2 * mitre + narrow * a) / ((narrow + n) * a) };
}
