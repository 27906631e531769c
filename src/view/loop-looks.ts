import type { Fabric } from '../fabric/fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';
import { linearColour, type Rgb } from './colour.ts';
import type { Lit } from './sock-view-types.ts';

/** Bits of a loop's look; the same numbers stand in shaders/_look.glsl; `lit` is the loop under the pointer, `marked` are those that the page lights. */
export const LOOK = {
  purl: 1, stackedOver: 2, stackedUnder: 4, lit: 8, marked: 16,
} as const;

/** A whole number hashed to 0..255, so that no two neighbouring loops look alike. */
export function hashByte(n: number): number {
  let h = Math.imul(n ^ 0x9e3779b9, 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) & 255;
}

/** Of the loops stacked on one needle by a decrease the one that was moved there lies on top; a wrap on the needle stacks nothing. */
function markDecreases(looks: Uint8Array, fabric: Fabric, grid: StitchGrid): void {
  for (let loop = 0; loop < grid.loopCount; loop++) {
    if (fabric.loopVertex[loop] < 0) continue;
    const parents = grid.parents.subarray(grid.parentStart[loop], grid.parentStart[loop + 1]).filter((p) => fabric.loopVertex[p] >= 0);
    if (parents.length < 2) continue;
    for (const parent of parents) looks[fabric.loopVertex[parent]] |= grid.lean[parent] !== 0 ? LOOK.stackedOver : LOOK.stackedUnder;
  }
}

/** LOOK bits of each fabric vertex's loop. */
export function loopLooks(fabric: Fabric, grid: StitchGrid): Uint8Array {
  const looks = new Uint8Array(fabric.vertexCount);
  for (let v = 0; v < fabric.vertexCount; v++) {
    const loop = fabric.vertexLoop[v];
    looks[v] = grid.isPurl[loop] ? LOOK.purl : 0;
  }
  markDecreases(looks, fabric, grid);
  return looks;
}

/**
 * A loop's look as the shader unpacks it (shaders/_look.glsl): three bytes of its yarn's linear colour, as square roots and a little
 * its own, and the LOOK bits. `mark` is a LIT code.
 */
export function packLook(bits: number, yarn: Rgb, loop: number, mark: number): number {
  const isMarked = mark !== LIT.none, rgb = litColour(yarn, mark), own = isMarked ? 1 : 0.975 + (0.05 * hashByte(loop)) / 255;
  let word = (bits | (isMarked ? LOOK.marked : 0)) << 24;
  for (let d = 0; d < 3; d++) word |= Math.round(255 * Math.sqrt(Math.min(1, rgb[d] * own))) << (8 * d);
  return word >>> 0;
}

/** Each fabric vertex's look into `out`; `palette` holds linear colours by yarn (colour.ts). */
export function packLooksInto(out: Uint32Array, looks: Uint8Array, fabric: Fabric, grid: StitchGrid, palette: readonly Rgb[], isLit?: Uint8Array): void {
  for (let v = 0; v < fabric.vertexCount; v++) {
    const loop = fabric.vertexLoop[v];
    out[v] = packLook(looks[v], palette[Math.min(grid.yarn[loop], palette.length - 1)], loop, isLit?.[loop] ?? LIT.none);
  }
}

/** Colours that light loops, linear: whichever is farther from the yarn's own. Chosen by eye: both glow on either theme's backdrop. */
const MARKS: readonly Rgb[] = [linearColour('#ffd400'), linearColour('#ff2a9d')];

/** How far two linear colours look apart, roughly: by their square roots. */
function apart(a: Rgb, b: Rgb): number {
  return a.reduce((sum, value, d) => sum + (Math.sqrt(value) - Math.sqrt(b[d])) ** 2, 0);
}

/** The colour that lights loops of a yarn. */
export function markColour(yarn: Rgb): Rgb {
  return apart(MARKS[0], yarn) >= apart(MARKS[1], yarn) ? MARKS[0] : MARKS[1];
}

/** How a loop is lit: not, fully, or paler beside one that is lit fully. */
export const LIT = { none: 0, full: 1, pale: 2 } as const;

/** Share of the lighting colour in a pale one; chosen by eye. */
const PALE = 0.45;

/** A yarn's colour as it is lit. */
export function litColour(yarn: Rgb, mark: number): Rgb {
  if (mark === LIT.none) return yarn;
  const full = markColour(yarn), share = mark === LIT.pale ? PALE : 1, mix = (d: 0 | 1 | 2): number => yarn[d] + share * (full[d] - yarn[d]);
  return [mix(0), mix(1), mix(2)];
}

/** LIT codes of a grid's loops. */
export function litLoops(loopCount: number, lit: Lit | null): Uint8Array {
  const is = new Uint8Array(loopCount);
  if (lit === null) return is;
  const strongest = lit.strongest ?? -1, usual = strongest < 0 ? LIT.full : LIT.pale;
  is.fill(usual, Math.max(0, lit.first), Math.max(0, lit.end));
  for (const loop of lit.loops) if (loop >= 0 && loop < loopCount) is[loop] = usual;
  if (strongest >= 0 && strongest < loopCount) is[strongest] = LIT.full;
  return is;
}
