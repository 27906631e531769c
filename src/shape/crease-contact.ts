import type { Fabric } from '../fabric/fabric.ts';
import { SECTION } from '../machine/codes.ts';
import { createPairContact } from '../solve/index.ts';
import type { EnergyTerm } from '../solve/index.ts';
import { PLATE_STIFFNESS, SOCK_CLOTH } from './cloth-table.ts';
import { isHeelSection, profileSock } from './sock-profile.ts';

/** A stitch on its wale: how many rows from the crease. */
interface Stitch { readonly vertex: number; readonly rows: number }

/**
 * Cloth that meets itself where a free sock bends: leg against foot in the crook of the instep, and
 * leg against heel behind the ankle. Stitches of one wale that lie equally far from the crease face
 * each other. None for cloth without a heel.
 */
export function makeCreaseContacts(fabric: Fabric): EnergyTerm[] {
  const heel = profileSock(fabric).heel;
  if (heel === null) return [];
  const leg = new Map<number, Stitch[]>(), foot = new Map<number, Stitch[]>(), pouch = new Map<number, Stitch[]>();
  for (let v = 0; v < fabric.vertexCount; v++) {
    const section = fabric.vertexSection[v], rows = fabric.vertexRow[v] - heel.row;
    if (isHeelSection(section)) addStitch(pouch, fabric, v, fabric.vertexPass[v]);
    else if (section < SECTION['heel-in']) addStitch(leg, fabric, v, -rows);
    else if (section === SECTION.foot) addStitch(foot, fabric, v, rows);
  }
  return [face(fabric, leg, foot, (turn) => Math.abs(turn - 0.5) < 0.25 - heel.beyond), face(fabric, leg, pouch, () => true)];
}

function addStitch(wales: Map<number, Stitch[]>, fabric: Fabric, vertex: number, rows: number): void {
  const wale = waleOf(fabric, vertex), stitches = wales.get(wale);
  if (stitches === undefined) wales.set(wale, [{ vertex, rows }]);
  else stitches.push({ vertex, rows });
}

/** Wales have places of their own, a stitch apart. */
function waleOf(fabric: Fabric, vertex: number): number {
  const turn = fabric.vertexAround[vertex] - Math.floor(fabric.vertexAround[vertex]);
  return Math.round(turn * 8 * fabric.boundaryVertices.length);
}

function face(fabric: Fabric, above: ReadonlyMap<number, Stitch[]>, below: ReadonlyMap<number, Stitch[]>, isFacing: (turn: number) => boolean): EnergyTerm {
  const upper: number[] = [], lower: number[] = [], clearances: number[] = [];
  for (const [wale, stitches] of above) {
    const facing = below.get(wale);
    if (facing === undefined || !isFacing(wale / (8 * fabric.boundaryVertices.length))) continue;
    const ups = [...stitches].sort((a, b) => a.rows - b.rows), downs = [...facing].sort((a, b) => a.rows - b.rows);
    for (let k = 1; k < Math.min(ups.length, downs.length); k++) {
      upper.push(ups[k].vertex);
      lower.push(downs[k].vertex);
      clearances.push(Math.min(SOCK_CLOTH.thicknessMm, 0.5 * k * fabric.waleMm));
    }
  }
  return createPairContact({
    upper: Int32Array.from(upper), lower: Int32Array.from(lower), upperBody: allOf(above), lowerBody: allOf(below),
    clearances: Float64Array.from(clearances), stiffness: PLATE_STIFFNESS,
  });
}

function allOf(wales: ReadonlyMap<number, Stitch[]>): Int32Array {
  return Int32Array.from([...wales.values()].flat(), (stitch) => stitch.vertex);
}
