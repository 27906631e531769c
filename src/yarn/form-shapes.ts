import { cos, sin } from '../base/portable-math.ts';
import { claspedAt, clearanceOf, ease, mix, type NeedleSizes } from './form-cycle.ts';
import { PIECE_POINTS } from './yarn-lay.ts';

/**
 * Shapes of yarn on one needle. Places are a bed's own, mm: x to the right along the bed, y up, z from the bed's edge into the gap.
 * A bed slopes by 45 degrees: a point so far along its needle (a) and above it (b) has y = (a + b) / sqrt 2, z = (a - b) / sqrt 2.
 */
export interface Spot { x: number; y: number; z: number }

const HALF_ROOT = Math.sqrt(0.5);

/** Sizes that all stitches of a close-up share; the last three follow from the loop length (form-fit.ts). */
export interface FormSizes {
  readonly needle: NeedleSizes;
  readonly pitchMm: number;
  readonly diameterMm: number;
  /** From row to row of the fabric below. */
  readonly rowMm: number;
  /** How far below the bed's edge the stitch on a needle was drawn through the one before. */
  readonly rootMm: number;
  /** How far behind the edge a needle draws its loop. */
  readonly depthMm: number;
}

/** How a needle stands at one moment. */
export interface NeedleStand {
  /** Its own way through the pass, 0..1. */
  readonly own: number;
  readonly isKnitting: boolean;
  /** Of the bend, along the needle. */
  readonly reach: number;
  /** Of the first old loop. */
  readonly wait: number;
  /** 0..1. */
  readonly pulled: number;
  /** How far the new loop's legs bow towards the bed while they are slack, mm. */
  readonly bow: number;
}

/** Twelve points of a stitch in the fabric, as in lay-yarn.ts: pitches to the right, rows up, thicknesses towards the bed. */
const STITCH = Array.from({ length: PIECE_POINTS }, (_, k) => {
  const turn = (2 * Math.PI * (k + 0.5)) / PIECE_POINTS;
  return [turn / (2 * Math.PI) - 0.5 + 0.16 * sin(2 * turn), 0.5 - 0.85 * cos(turn), -0.5 * cos(2 * turn)] as const;
});
/** How far the fabric hangs before the bed's edge, in pitches. Chosen by eye. */
const BEFORE_EDGE = 0.28;
/** Of a loop that a needle draws: share of the way from the edge to the hook, by the point's number from either end; chosen by eye. */
const DRAWN = [0, 0.14, 0.42, 0.72, 0.95, 1.03] as const;
const BOWED = [0, 0, 0.45, 1, 0.8, 0] as const;

/** So much an old stitch stands open, at most, as it comes to lie in the fabric, pitches; chosen by eye. */
const WIDER = 0.1;

export const sideOf = (k: number): 1 | -1 => (k < PIECE_POINTS / 2 ? -1 : 1);
/** A point's number from the nearer end of its piece. */
export const fromEnd = (k: number): number => Math.min(k, PIECE_POINTS - 1 - k);

export function onNeedle(out: Spot, x: number, along: number, above: number): Spot {
  out.x = x;
  out.y = HALF_ROOT * (along + above);
  out.z = HALF_ROOT * (along - above);
  return out;
}

export function blend(out: Spot, a: Spot, b: Spot, share: number): Spot {
  out.x = mix(a.x, b.x, share);
  out.y = mix(a.y, b.y, share);
  out.z = mix(a.z, b.z, share);
  return out;
}

/** Where the stitch `row` rows below the needle's own was drawn through its parent; row -1: where the new one is. */
export function rootInto(out: Spot, row: number, size: FormSizes, { pulled }: NeedleStand): Spot {
  const { needle, rowMm, rootMm, pitchMm } = size;
  out.x = 0;
  out.y = -rootMm - rowMm * (row + pulled);
  out.z = BEFORE_EDGE * pitchMm;
  if (row >= 0) return out;
  const before = onNeedle({ x: 0, y: 0, z: 0 }, 0, needle.wait, 0);
  out.y = mix(before.y, -rootMm, pulled);
  out.z = mix(before.z, out.z, pulled);
  return out;
}

export interface StitchPlace { readonly row: number; readonly order: number; readonly rootX: number; readonly topX: number; readonly face: 1 | -1 }

/** A point of a stitch in the fabric. Of stitches that one was drawn through, each lies behind the one before. */
export function inFabric(out: Spot, k: number, at: StitchPlace, size: FormSizes, stand: NeedleStand): Spot {
  const [u, v, h] = STITCH[k], low = rootInto({ x: 0, y: 0, z: 0 }, at.row, size, stand), top = rootInto({ x: 0, y: 0, z: 0 }, at.row - 1, size, stand), share = Math.min(1, Math.max(0, v));
  // A stitch that was moved leans at its foot; its head stands over the needle.
  out.x = mix(at.rootX, at.topX, ease(v, 0, 0.55)) + u * size.pitchMm;
  out.y = mix(low.y, top.y, share) + (v - share) * size.rowMm;
  out.z = mix(low.z, top.z, share) - at.face * h * size.diameterMm + ease(v, 0.7, 1.1) * at.order * 0.8 * size.diameterMm;
  return out;
}

/** A stitch over its needle, `along` it, its top so high above the axis, wide enough for what passes through it. */
function overNeedle(out: Spot, k: number, at: StitchPlace, size: FormSizes, stand: NeedleStand, along: number, top: number, wider: number): Spot {
  const near = fromEnd(k), side = sideOf(k), half = size.needle.stem + size.diameterMm / 2;
  if (near === 5) return onNeedle(out, at.topX + side * 0.75 * (half + 0.5 * wider), along, 1.12 * top);
  const shoulder = onNeedle({ x: 0, y: 0, z: 0 }, at.topX + side * (1.3 * half + wider), along, -0.2 * half);
  if (near === 4) return blend(out, shoulder, shoulder, 0);
  if (near < 2) return inFabric(out, k, at, size, stand);
  const foot = inFabric({ x: 0, y: 0, z: 0 }, side < 0 ? 1 : PIECE_POINTS - 2, at, size, stand);
  blend(out, foot, shoulder, near === 2 ? 0.34 : 0.68);
  // The legs pass behind the head of the stitch that they come through.
  out.z -= at.face * (near === 2 ? 0.65 : 0.3) * size.diameterMm;
  return out;
}

/** A stitch that hangs on its needle: in the hook, on the stem, over latch and hook, and at last in the fabric. */
export function oldPoint(out: Spot, k: number, at: StitchPlace, size: FormSizes, stand: NeedleStand): Spot {
  const { needle, diameterMm } = size, along = stand.wait - 1.05 * diameterMm * at.order, behind = stand.reach - along;
  const isReturning = stand.isKnitting && stand.own > 0.35, wider = isReturning ? 1.1 * diameterMm * (1 - ease(behind, 0, 0.5 * needle.pivot)) : 0;
  overNeedle(out, k, at, size, stand, along, clearanceOf(behind, stand.own, needle) + diameterMm / 2, wider);
  if (stand.pulled === 0) return out;
  blend(out, out, inFabric({ x: 0, y: 0, z: 0 }, k, at, size, stand), stand.pulled);
  // It stays wide while the slack legs of the new one lie in it.
  if (fromEnd(k) > 1 && fromEnd(k) < 5) out.x += sideOf(k) * 4 * WIDER * stand.pulled * (1 - stand.pulled) * size.pitchMm;
  return out;
}

/** A stitch that the needle forms: yarn laid across it, drawn through the old stitch, pulled down with the fabric. */
export function madePoint(out: Spot, k: number, x: number, size: FormSizes, stand: NeedleStand): Spot {
  const { needle, pitchMm, diameterMm } = size, near = fromEnd(k), side = sideOf(k), half = needle.stem + diameterMm / 2;
  const hook = Math.min(needle.feed, stand.reach), edge = Math.max(needle.edge, hook), drawn = ease(edge - hook, 0, 0.7 * pitchMm);
  const wide = [0.42 * pitchMm, Math.min(0.3 * pitchMm, 1.35 * half), 1.1 * half, half, 1.05 * half, 0.55 * half][near];
  const straight = Math.abs((k + 0.5) / PIECE_POINTS - 0.5) * pitchMm;
  onNeedle(out, x + side * mix(straight, wide, drawn), mix(edge, hook, DRAWN[near]), mix(half, near < 2 ? 0.2 * diameterMm : 0.9 * half, drawn));
  const clasped = claspedAt(stand.own);
  if (clasped === 0) return out;
  const at: StitchPlace = { row: -1, order: 0, rootX: x, topX: x, face: 1 };
  const hung = overNeedle({ x: 0, y: 0, z: 0 }, k, at, size, stand, stand.reach, half, 0);
  blend(out, out, hung, clasped);
  out.z -= BOWED[near] * stand.bow;
  return out;
}

/** A wrap round the stem, from the side that its yarn comes from (-1: the left) and back to it; `open`: it ends above, where the yarn goes up to the feeder. */
export function wrapPoint(out: Spot, k: number, { topX: x, order, row }: StitchPlace, from: 1 | -1, open: boolean, size: FormSizes, stand: NeedleStand): Spot {
  const { needle, pitchMm, diameterMm } = size, half = needle.stem + 0.55 * diameterMm, along = stand.wait + (stand.isKnitting ? -1 : 1) * 1.05 * diameterMm * order;
  const top = stand.isKnitting ? clearanceOf(stand.reach - along, stand.own, needle) + 0.55 * diameterMm : half;
  const wider = stand.isKnitting && stand.own > 0.35 ? 1.1 * diameterMm * (1 - ease(stand.reach - along, 0, 0.5 * needle.pivot)) : 0, wide = 1.15 * half + wider;
  const last = open ? 70 : 105, angle = (Math.PI / 180) * mix(-105, last, (k - 2) / (PIECE_POINTS - 5)), isLead = k < 2 || k > PIECE_POINTS - 3;
  if (!isLead) onNeedle(out, x - from * cos(angle) * mix(wide, Math.max(wide, 0.38 * pitchMm), row > 0 ? 1 : stand.pulled), along, sin(angle) * 1.15 * (angle > 0 ? top : half));
  else if (open && k > 2) onNeedle(out, x - from * mix(0.4, 0.6, k - PIECE_POINTS + 2) * half, along + 0.3 * pitchMm, (2 + k - PIECE_POINTS + 2) * half);
  else onNeedle(out, x + from * (fromEnd(k) === 0 ? 0.42 : 0.25) * pitchMm, along, (k < 2 ? -half : top) * (fromEnd(k) === 0 ? 0.7 : 1.05));
  const off = row > 0 ? 1 : stand.pulled;
  if (off === 0) return out;
  // Off the needle it lies level round the legs of the new stitch.
  const low = rootInto({ x: 0, y: 0, z: 0 }, row - 1, size, stand), centre = onNeedle({ x: 0, y: 0, z: 0 }, 0, along, 0), above = (out.y - centre.y) / HALF_ROOT;
  out.y = mix(out.y, low.y + 0.15 * size.rowMm, off);
  out.z = mix(out.z, low.z - 0.2 * diameterMm + 1.4 * above, off);
  return out;
}
