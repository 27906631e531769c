import { cos, exp, sin } from '../base/portable-math.ts';
import type { Fabric } from '../fabric/fabric.ts';
import { BED } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { PieceOnNeedles } from '../machine/grid-at-pass.ts';
import { childOf, isPouchSection } from './pouch-contact.ts';
import type { Pouches } from './pouch-contact.ts';

export type LiveNeedles = PieceOnNeedles['liveNeedles'];

/** Where the machine's needles stand: x along the beds from their middle to the right, y from the front bed to the back, z up from the needles, mm. */
export interface Beds {
  readonly needlesPerBed: number;
  readonly needlePitchMm: number;
  readonly gapMm: number;
}

/** How each loop hangs, by vertex of the fabric. */
export interface Hanging {
  /** The live loop's vertex that the loop's wale ends in; -1 if that was taken off. */
  readonly top: Int32Array;
  /** Place of that loop's needle: three entries a vertex. */
  readonly needles: Float64Array;
  /** -1 for cloth of the front bed, 1 of the back, 0 for a single layer between. */
  readonly side: Int8Array;
  /** Vertices that hang on needles themselves. */
  readonly live: Int32Array;
}

/** Share of a stitch's width at the needles that is left far below them is reached over this length, mm. `chosen by eye`. */
const WAIST_MM = 60;
/** Rows of a pouch start as a half ellipse outward: its height over the length of the rows, and its depth so that they fit. */
const POUCH_DROP = 0.6;
const POUCH_DEPTH = Math.sqrt(2 / Math.PI ** 2 - POUCH_DROP ** 2 / 4);
/** Distance of each layer from the middle plane at the start, mm. */
const LAYER_MM = 1;

/** Where a needle's loop hangs. */
export function needlePlace(beds: Beds, { bed, needle }: NonNullable<LiveNeedles[number]>): [number, number, number] {
  const x = (needle - (beds.needlesPerBed + 1) / 2) * beds.needlePitchMm;
  return [x, bed === 'front' ? -beds.gapMm / 2 : beds.gapMm / 2, 0];
}

/** Follows every wale up to its needle. */
export function hangWales(fabric: Fabric, grid: StitchGrid, liveNeedles: LiveNeedles, beds: Beds): Hanging {
  const n = fabric.vertexCount;
  const needles = new Float64Array(3 * n), top = new Int32Array(n).fill(-1), side = new Int8Array(n), live: number[] = [];
  grid.live.forEach((loop, k) => {
    const v = fabric.loopVertex[loop], at = liveNeedles[k];
    if (v < 0 || at === null) return;
    live.push(v);
    top[v] = v;
    needles.set(needlePlace(beds, at), 3 * v);
  });
  const isTube = hasFacingNeedles(liveNeedles);
  for (let v = n - 1; v >= 0; v--) {
    const above = childOf(fabric, grid, v);
    if (top[v] < 0 && above >= 0 && top[above] >= 0) {
      top[v] = top[above];
      needles.copyWithin(3 * v, 3 * above, 3 * above + 3);
    }
    // A pouch stays with the bed that knitted it, also where its wale has gone back to the other.
    if (isTube && top[v] >= 0) side[v] = isPouchSection(fabric.vertexSection[v]) ? sideOfBed(grid.bed[fabric.vertexLoop[v]]) : Math.sign(needles[3 * v + 1]);
  }
  return { top, needles, side, live: Int32Array.from(live) };
}

function sideOfBed(bed: number): number { return bed === BED.front ? -1 : 1; }

/** Loops on both beds at the same needles: the piece hangs as a tube, in two layers. */
function hasFacingNeedles(liveNeedles: LiveNeedles): boolean {
  const front = new Set(liveNeedles.flatMap((at) => (at?.bed === 'front' ? [at.needle] : [])));
  return liveNeedles.some((at) => at?.bed === 'back' && front.has(at.needle));
}

/**
 * Each wale straight down from its needle, a row's height a row; rows narrow from the needles' pitch to
 * the cloth's own width. Rows of a heel (or short-row toe) bulge outward, and the rows below them, which
 * other wales do not have to hang so low, take that up little by little.
 */
export function startOnBeds(fabric: Fabric, pouch: Pouches, hanging: Hanging, beds: Beds): Float64Array {
  const { top, needles, side } = hanging;
  const positions = new Float64Array(3 * fabric.vertexCount);
  const isRib = fabric.cellIsRib.includes(1) && side.every((s) => s === 0);
  const least = Math.min(1, (isRib ? fabric.ribCourseMm : fabric.courseMm) / beds.needlePitchMm);
  const middle = meanX(hanging);
  for (let v = 0; v < fabric.vertexCount; v++) {
    const above = top[v] < 0 ? v : top[v];
    const depth = (fabric.vertexRow[above] - fabric.vertexRow[v]) * fabric.waleMm;
    const share = least + (1 - least) * exp(-depth / WAIST_MM);
    const length = pouch.rows[v] * fabric.waleMm, drop = POUCH_DROP * length;
    const angle = Math.PI * pouch.place[v];
    // Below a pouch the drop fades with the way down, never faster than half of it.
    const fading = pouch.distance[v] < 0 ? 0 : drop * exp(-pouch.distance[v] * fabric.waleMm / (2 * drop + 10 * fabric.waleMm));
    const isOnNeedle = above === v && top[v] >= 0;
    positions[3 * v] = middle + (needles[3 * v] - middle) * share;
    positions[3 * v + 1] = isOnNeedle ? needles[3 * v + 1] : side[v] * (LAYER_MM + POUCH_DEPTH * length * sin(angle));
    positions[3 * v + 2] = -depth - (pouch.place[v] > 0 ? drop * (1 + cos(angle)) / 2 : fading);
  }
  return positions;
}

function meanX({ needles, live }: Hanging): number {
  let sum = 0;
  for (const v of live) sum += needles[3 * v];
  return live.length > 0 ? sum / live.length : 0;
}
