import type { Fabric } from '../fabric/fabric.ts';
import { createQuadMembrane, createTriangleMembrane } from '../solve/index.ts';
import type { EnergyTerm, MembraneLaw } from '../solve/index.ts';
import { makeClothElements } from './cloth-elements.ts';
import { firmLaw, SOCK_CLOTH } from './cloth-table.ts';
import type { Firmness } from './cloth-table.ts';

/**
 * 1x1 rib in the same yarn. Drawn wide it first unfolds to the width of plain knitting, which takes
 * little, and only then its loops are stretched: softer across than plain knitting, and far less stiff at
 * 50 %. `chosen by eye`: a sock's top at 60 % carries 15 N/m, some 3 mmHg on an ankle; coupling
 * half of plain cloth's, as unfolding shortens nothing.
 */
export const RIB_LAW: MembraneLaw = { ...SOCK_CLOTH.law, courseModulus: 0.01, coupling: 0.15, stiffening: 4 };

/**
 * Cloth drawn over a foot lies close to it: where the tight heel line crowds it, it has no room to gather
 * without end. `chosen by eye`: no cell shrinks to less than a third, and what crowds at a heel's end or in
 * the crook of the ankle shortens before it folds over. Bluntness lets the triangles at a heel's corner,
 * where all pulls come together, be pressed flat without a cusp.
 */
const WORN: Partial<MembraneLaw> = { compression: 0.05, crushing: 1, bluntness: 0.2 };
/**
 * Bending stiffness of worn cloth over that of cloth that lies free. Cloth is nearly as thick as a row is
 * high and cannot fold over within one; bending measured in small, wide curves does not know that.
 * `measured` on a sock of 10,000 loops: at 1 the crook of the ankle folds three rows over each other, at 3
 * no two neighbours meet at more than 20 degrees, and from 1 to 20 no key length moves by more than 0.5 %.
 */
export const WORN_BENDING = 5;

/**
 * Cloth fresh from the needles, at the needles' pitch: half as wide again as it will lie, rib twice as
 * wide. Its loops are as the needles drew them and have not relaxed yet, so that this width takes little
 * more than the cloth's first stretch (25 to 30 N/m). Under its weights it narrows by some fifth and no
 * more. `chosen by eye`: published figures for plain knits end at 17 %.
 */
const FRESH: Partial<MembraneLaw> = { coupling: 0.2, compression: 0.1, crushing: 20 };

/** Laws of plain cloth and of rib. */
const LAWS = {
  worn: [{ ...SOCK_CLOTH.law, ...WORN }, { ...RIB_LAW, ...WORN }],
  fresh: [{ ...SOCK_CLOTH.law, ...FRESH, stiffening: 5 }, { ...RIB_LAW, ...FRESH, stiffening: 1 }],
} as const satisfies Record<string, readonly [MembraneLaw, MembraneLaw]>;

/** The membrane of a cloth that is drawn far wider than it lies, on a foot or fresh on the needles: plain cells and rib cells by their own laws. */
export function makeStretchedCloth(fabric: Fabric, state: keyof typeof LAWS, firmness: Firmness): EnergyTerm[] {
  const [plain, rib] = LAWS[state].map((law) => firmLaw(law, firmness));
  return [...membraneOf(selectCells(fabric, 0), plain), ...membraneOf(selectCells(fabric, 1), rib)];
}

function membraneOf(fabric: Fabric, law: MembraneLaw): EnergyTerm[] {
  if (fabric.cellStart.length < 2) return [];
  const { rectangles, triangles } = makeClothElements(fabric);
  return [
    ...(rectangles.widths.length > 0 ? [createQuadMembrane(rectangles, law)] : []),
    ...(triangles.shares.length > 0 ? [createTriangleMembrane(triangles, law)] : []),
  ];
}

/** The same vertices with only those cells that are rib (1) or not (0). */
function selectCells(fabric: Fabric, isRib: 0 | 1): Fabric {
  const start = [0], vertices: number[] = [], rest: number[] = [];
  for (let cell = 0; cell + 1 < fabric.cellStart.length; cell++) {
    if (fabric.cellIsRib[cell] !== isRib) continue;
    for (let k = fabric.cellStart[cell]; k < fabric.cellStart[cell + 1]; k++) {
      vertices.push(fabric.cellVertices[k]);
      rest.push(fabric.cellRestMm[2 * k], fabric.cellRestMm[2 * k + 1]);
    }
    start.push(vertices.length);
  }
  return { ...fabric, cellStart: Int32Array.from(start), cellVertices: Int32Array.from(vertices), cellRestMm: Float64Array.from(rest) };
}
