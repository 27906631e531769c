import { cos, sin } from '../base/portable-math.ts';
import type { Fabric } from '../fabric/fabric.ts';
import type { FootForm } from '../foot/foot-form.ts';
import { tapeGirth, traceRay } from '../foot/trace-section.ts';
import type { Point } from '../foot/trace-section.ts';
import { SECTION } from '../machine/codes.ts';
import { SOCK_CLOTH } from './cloth-table.ts';
import { RIB_LAW } from './rib-cloth.ts';
import { isFanToeSection, isHeelSection, profileSock } from './sock-profile.ts';
import type { SockProfile } from './sock-profile.ts';

/** The heel turns by a quarter, a short-row toe by a half. */
export const HEEL_TURN = Math.PI / 2;
const TOE_TURN = Math.PI;
/** Rows of instep over which the turn is spread, as a share of the girth. `chosen by eye`: they do not cut each other. */
const SPREAD = 1.1;
/** Shares of the foot's length by which the last round, and the line about which a short-row toe turns, stay short of the tip. */
const TIP = 0.012;
const FAN_TOE = 0.12;
/** Farthest that the turn moves up and forward from the foot's own, as a share of the length. */
const MOST_SHIFT = 0.1;
/** Places on the round as near as this, in turns, are of one wale. */
const SAME_WALE = 1e-6;
const WAY_STEPS = 24;
/** Least height of a row drawn wide, over its height at rest. */
const LEAST_HEIGHT = 0.5;

export interface WornStart {
  readonly positions: Float64Array;
  /** Height of each row of the leg, from the cast-on, when it is put on without pulling it longer, mm. */
  readonly heights: Float64Array;
  /** Where the heel turns, inside the foot: x and z, mm. */
  readonly turn: readonly [number, number];
}

/** What the placing of one loop looks up. */
interface Plan {
  readonly fabric: Fabric;
  readonly foot: FootForm;
  readonly profile: SockProfile;
  /** Where the heel turns, inside the foot: x and z, mm. */
  readonly turn: readonly [number, number];
  /** Height of each row of the leg, mm. */
  readonly heights: Float64Array;
  readonly clearance: number;
}

/**
 * The sock put round the foot: every loop on a ray from the foot's centre line, `clearance` off the
 * skin. Rows of the leg point level from the line up the leg, rows of the foot upright from the line
 * to the toes; the heel's fan out from the ankle's turn.
 */
export function startWorn(fabric: Fabric, foot: FootForm, clearance: number): WornStart {
  const profile = profileSock(fabric), turn = seatHeel(fabric, foot, clearance);
  const plan: Plan = { fabric, foot, profile, turn, heights: legHeights(fabric, foot, profile, turn), clearance };
  const positions = new Float64Array(3 * fabric.vertexCount);
  for (let v = 0; v < fabric.vertexCount; v++) placeVertex(plan, v, positions);
  return { positions, heights: plan.heights, turn };
}

/**
 * Pulled up as far as the heel goes: the turn lies on the slope through the foot's own so that the
 * way over the heel, from the leg's back to the sole, is as long as the heel's centre line.
 */
function seatHeel(fabric: Fabric, foot: FootForm, clearance: number): readonly [number, number] {
  const wanted = heelLength(fabric), most = MOST_SHIFT * foot.measures.lengthMm;
  const at = (shift: number): readonly [number, number] => [foot.turn[0] + shift, foot.turn[1] + shift];
  if (wanted === 0) return foot.turn;
  let low = -most, high = most;
  for (let k = 0; k < 20; k++) {
    const middle = 0.5 * (low + high);
    if (wayOverHeel(foot, at(middle), clearance) < wanted) low = middle;
    else high = middle;
  }
  return at(low);
}

/** Length of the heel's own rows along the wale beside the centre back, mm; 0 without a heel. */
function heelLength(fabric: Fabric): number {
  let rows = 0, nearest = 1;
  for (let v = 0; v < fabric.vertexCount; v++) {
    if (!isHeelSection(fabric.vertexSection[v])) continue;
    const turn = fabric.vertexAround[v] - Math.floor(fabric.vertexAround[v]);
    if (turn < nearest - SAME_WALE) { nearest = turn; rows = 0; }
    if (turn < nearest + SAME_WALE) rows++;
  }
  return rows * fabric.waleMm;
}

function wayOverHeel(foot: FootForm, turn: readonly [number, number], clearance: number): number {
  let length = 0, lastX = 0, lastZ = 0;
  for (let k = 0; k <= WAY_STEPS; k++) {
    const angle = HEEL_TURN * k / WAY_STEPS;
    const [x, , z] = onSkin(foot, clearance, turn[0], turn[1], [-cos(angle), 0, -sin(angle)]);
    if (k > 0) length += Math.sqrt((x - lastX) ** 2 + (z - lastZ) ** 2);
    lastX = x; lastZ = z;
  }
  return length;
}

/** Where the ray from a point (x, 0, z) inside the foot along `way` comes out, `clearance` off the skin. */
function onSkin(foot: FootForm, clearance: number, x: number, z: number, way: Point): Point {
  const reach = 2 * foot.measures.lengthMm;
  const from: Point = [x + reach * way[0], reach * way[1], z + reach * way[2]];
  const radius = reach - traceRay(foot, from, [-way[0], -way[1], -way[2]], reach, clearance);
  return [x + radius * way[0], radius * way[1], z + radius * way[2]];
}

/** Heights of the leg's rows, the heel's row at the turn; cloth drawn wide by the leg makes lower rows. */
function legHeights(fabric: Fabric, foot: FootForm, profile: SockProfile, turn: readonly [number, number]): Float64Array {
  const last = Math.max(0, Math.round(heelRowOf(profile)));
  const heights = new Float64Array(last + 1);
  heights[last] = turn[1];
  const shortening = fabric.cellIsRib.includes(1) ? RIB_LAW.coupling : SOCK_CLOTH.law.coupling;
  for (let row = last - 1; row >= 0; row--) {
    const z = heights[row + 1];
    const skin = tapeGirth(foot, [foot.turn[0], 0, Math.max(z, foot.ankleMm)], [1, 0, 0], [0, 1, 0], 2 * foot.measures.lengthMm, 32);
    const wider = Math.max(0, skin / girthAt(profile, row) - 1);
    heights[row] = z + fabric.waleMm * Math.max(LEAST_HEIGHT, 1 - shortening * wider);
  }
  return heights;
}

function heelRowOf(profile: SockProfile): number {
  return Math.min(profile.heel?.row ?? profile.lastRow, profile.lastRow);
}

function girthAt(profile: SockProfile, row: number): number {
  return profile.girths[Math.min(profile.girths.length - 1, Math.max(0, Math.round(row)))];
}

function placeVertex({ fabric, foot, profile, turn, heights, clearance }: Plan, v: number, out: Float64Array): void {
  const row = fabric.vertexRow[v], code = fabric.vertexSection[v];
  const place = placeOnRound(profile, row, fabric.vertexAround[v]);
  const forward = -cos(2 * Math.PI * place), side = sin(2 * Math.PI * place);
  const heelRow = heelRowOf(profile), along = (row - heelRow) * fabric.waleMm;
  const isFoot = isFanToeSection(code) || code >= SECTION.foot && row > heelRow;
  let angle = isFoot ? HEEL_TURN : 0;
  if (isHeelSection(code)) angle = HEEL_TURN * fabric.vertexFan[v];
  else if (isFanToeSection(code)) angle = HEEL_TURN + TOE_TURN * fabric.vertexFan[v];
  else if (forward > 0 && profile.heel !== null) angle = HEEL_TURN * smoothStep(0.5 + along / (SPREAD * girthAt(profile, row)));
  const [x, z] = isHeelSection(code) ? turn
    : isFoot ? footLine(foot, profile, turn, row)
    : [turn[0], heights[Math.max(0, Math.min(heights.length - 1, Math.round(row)))]];
  out.set(onSkin(foot, clearance, x, z, [forward * cos(angle), side, forward * sin(angle)]), 3 * v);
}

/** Point of the line from the heel's turn to the toes' tip at a row of the foot. */
function footLine(foot: FootForm, profile: SockProfile, turn: readonly [number, number], row: number): readonly [number, number] {
  const first = heelRowOf(profile);
  // A short-row toe turns about a line some way short of the tip.
  const tipX = foot.measures.lengthMm * (1 - (profile.toe === null ? TIP : FAN_TOE));
  const share = Math.min(1, Math.max(0, (row - first) / Math.max(1, profile.lastRow - first)));
  return [turn[0] + share * (tipX - turn[0]), turn[1] + share * (foot.toeMm - turn[1])];
}

/** Turn (0 to 1) of a stitch on its own round: over a decreased toe the stitches left close up again. */
function placeOnRound(profile: SockProfile, row: number, around: number): number {
  const turn = around - Math.floor(around);
  if (row <= profile.toeFirstRow) return turn;
  const share = girthAt(profile, row) / girthAt(profile, profile.toeFirstRow - 1);
  const middle = turn < 0.25 ? 0 : turn < 0.75 ? 0.5 : 1;
  return middle + Math.min(0.25, Math.max(-0.25, (turn - middle) / share));
}

function smoothStep(t: number): number {
  const u = Math.min(1, Math.max(0, t));
  return u * u * (3 - 2 * u);
}
