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
/** Farthest that the last row reaches to each side, as a share of the ball's girth. `chosen by eye`: it stays on the toes. */
const TIP_BREADTH = 0.1;
/** Farthest that the turn moves up and forward from the foot's own, as a share of the length. */
const MOST_SHIFT = 0.1;
/** Places on the round as near as this, in turns, are of one wale. */
const SAME_WALE = 1e-6;
const WAY_STEPS = 24;
/** Steps along the normal that bring a point near the skin to its clearance. */
const PULL_STEPS = 3;
/** Least height of a row drawn wide, over its height at rest. */
const LEAST_HEIGHT = 0.5;

export interface WornStart {
  /** All loops on the foot, three entries each, mm; placed when first asked for. */
  readonly positions: () => Float64Array;
  /** The same for one loop of the heel, three entries, without placing the others where that can be. */
  readonly heelPlace: (vertex: number) => Float64Array;
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
  /** Stitches of a round. */
  readonly stitches: number;
}

/**
 * The sock put round the foot: every loop on a ray from the foot's centre line, `clearance` off the
 * skin. Rows of the leg point level from the line up the leg, rows of the foot upright from the line
 * to the toes; the heel's fan out from the ankle's turn.
 */
export function startWorn(fabric: Fabric, foot: FootForm, clearance: number): WornStart {
  const profile = profileSock(fabric), turn = seatHeel(fabric, foot, clearance);
  const plan: Plan = { fabric, foot, profile, turn, heights: legHeights(fabric, foot, profile, turn), clearance, stitches: fabric.marks?.cuff.a.length ?? 0 };
  let positions: Float64Array | null = null;
  const placeAll = (): Float64Array => (positions ??= placeSock(plan));
  const heelPlace = (v: number): Float64Array => {
    if (positions !== null || isSpread(plan, v)) return placeAll().subarray(3 * v, 3 * v + 3);
    const place = new Float64Array(3);
    placeVertex(plan, v, place, 0);
    return place;
  };
  return { positions: placeAll, heelPlace, heights: plan.heights, turn };
}

function placeSock(plan: Plan): Float64Array {
  const positions = new Float64Array(3 * plan.fabric.vertexCount);
  for (let v = 0; v < plan.fabric.vertexCount; v++) placeVertex(plan, v, positions, 3 * v);
  spreadWales(plan, positions);
  return positions;
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

function placeVertex(plan: Plan, v: number, out: Float64Array, at: number): void {
  const { fabric, foot, profile, turn, heights, clearance } = plan;
  const row = fabric.vertexRow[v], code = fabric.vertexSection[v];
  if (code === SECTION.toe && row === profile.lastRow) return placeTip(plan, v, out, at);
  const place = placeOnRound(profile, row, fabric.vertexAround[v]);
  const forward = -cos(2 * Math.PI * place), side = sin(2 * Math.PI * place);
  const heelRow = heelRowOf(profile), along = (row - heelRow) * fabric.waleMm;
  const isFoot = isFanToeSection(code) || code >= SECTION.foot && row > heelRow;
  let angle = isFoot ? HEEL_TURN : 0;
  if (isHeelSection(code)) angle = HEEL_TURN * fabric.vertexFan[v];
  else if (isFanToeSection(code)) angle = HEEL_TURN + TOE_TURN * fabric.vertexFan[v];
  else if (forward > 0 && profile.heel !== null) angle = HEEL_TURN * smoothStep(0.5 + along / (SPREAD * girthAt(profile, heelRow)));
  const [x, z] = isHeelSection(code) ? turn
    : isFoot ? footLine(foot, profile, turn, row)
    : [turn[0], heights[Math.max(0, Math.min(heights.length - 1, Math.round(row)))]];
  out.set(onSkin(foot, clearance, x, z, [forward * cos(angle), side, forward * sin(angle)]), at);
}

/**
 * In the crook of the ankle and over the toes' tip rays crowd the rows, or leave them far apart: the
 * wales of instep and sole are laid out anew along their own way over the skin, from where the leg
 * grips, or the heel ends, to the last row, every row its share of the way.
 */
function spreadWales(plan: Plan, positions: Float64Array): void {
  const { fabric, foot, clearance } = plan;
  const wales = new Map<number, number[]>(), normal = new Float64Array(3);
  for (let v = 0; v < fabric.vertexCount; v++) {
    if (!isSpread(plan, v)) continue;
    const turn = turnOf(fabric, v);
    const key = Math.round(turn / SAME_WALE), wale = wales.get(key);
    if (wale === undefined) wales.set(key, [v]);
    else wale.push(v);
  }
  for (const wale of wales.values()) {
    wale.sort((a, b) => fabric.vertexRow[a] - fabric.vertexRow[b]);
    spreadEvenly(wale, fabric.vertexRow, positions);
    for (const v of wale.slice(1, -1)) for (let k = 0; k < PULL_STEPS; k++) pullToSkin(foot, clearance, v, positions, normal);
  }
}

function isSpread({ fabric, foot, heights }: Plan, v: number): boolean {
  const turn = turnOf(fabric, v), code = fabric.vertexSection[v], isInstep = turn > 0.25 && turn < 0.75;
  const isAbove = code < SECTION.foot && (!isInstep || heights[Math.round(fabric.vertexRow[v])] > foot.ankleMm);
  return !isAbove && !isFanToeSection(code);
}

function pullToSkin(foot: FootForm, clearance: number, v: number, positions: Float64Array, normal: Float64Array): void {
  const off = foot.distanceAt(positions[3 * v], positions[3 * v + 1], positions[3 * v + 2], normal) - clearance;
  for (let axis = 0; axis < 3; axis++) positions[3 * v + axis] -= off * normal[axis];
}

/** Moves the points of a line along it, so that the way between two is as their rows are apart. */
function spreadEvenly(line: readonly number[], rows: Float64Array, positions: Float64Array): void {
  const at = line.map((v) => positions.slice(3 * v, 3 * v + 3)), way = [0];
  for (let k = 1; k < line.length; k++) {
    way.push(way[k - 1] + Math.sqrt((at[k][0] - at[k - 1][0]) ** 2 + (at[k][1] - at[k - 1][1]) ** 2 + (at[k][2] - at[k - 1][2]) ** 2));
  }
  const last = line.length - 1, first = rows[line[0]], span = rows[line[last]] - first;
  for (let k = 1, i = 0; k < last; k++) {
    const wanted = way[last] * (rows[line[k]] - first) / span;
    while (i < last - 1 && way[i + 1] < wanted) i++;
    const share = (wanted - way[i]) / Math.max(way[i + 1] - way[i], 1e-9);
    for (let axis = 0; axis < 3; axis++) positions[3 * line[k] + axis] = (1 - share) * at[i][axis] + share * at[i + 1][axis];
  }
}

/** The last row of a decreased toe runs across the toes' tip, its front over its back. */
function placeTip({ fabric, foot, clearance, stitches }: Plan, v: number, out: Float64Array, at: number): void {
  const turn = turnOf(fabric, v), isFront = turn > 0.25 && turn < 0.75;
  const offset = isFront ? 0.5 - turn : turn < 0.5 ? turn : turn - 1;
  const most = TIP_BREADTH * foot.measures.ballGirthMm, y = Math.min(most, Math.max(-most, offset * stitches * fabric.courseMm));
  const z = foot.toeMm + (isFront ? 0.5 : -0.5) * fabric.waleMm, reach = 2 * foot.measures.lengthMm;
  out.set([reach - traceRay(foot, [reach, y, z], [-1, 0, 0], reach, clearance), y, z], at);
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

function turnOf(fabric: Fabric, v: number): number { return fabric.vertexAround[v] - Math.floor(fabric.vertexAround[v]); }

function smoothStep(t: number): number {
  const u = Math.min(1, Math.max(0, t));
  return u * u * (3 - 2 * u);
}
