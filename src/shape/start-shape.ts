import { cos, sin } from '../base/portable-math.ts';
import type { Fabric } from '../fabric/fabric.ts';
import { SECTION } from '../machine/codes.ts';
import { isFanToeSection, isHeelSection, profileSock } from './sock-profile.ts';
import type { SockProfile } from './sock-profile.ts';

/** Cross-section of the start: rounds as ellipses, or lying double. */
export type StartSection = 'round' | 'folded';

/**
 * Turn of the knitting over the heel at the start, radian; the solver finds the real one. A free sock
 * has two shapes at rest, bent at the instep or nearly in line with its heel creased; a start as bent
 * as this ends in the first. `chosen by eye`.
 */
const HEEL_TURN = { round: 130 * Math.PI / 180, folded: 55 * Math.PI / 180 } as const;
/** Turn over a short-row toe. */
const TOE_TURN = Math.PI;
/** Rows of instep over which the heel's turn is spread on each side, as a share of the half girth: above 1/3 the rounds do not cut each other. */
const SPREAD = 1.3;
/** How far a decreased toe closes at its last round (1: to a line). */
const TOE_CLOSE = 0.97;

/**
 * A first shape that follows the passes: rounds strung on a centre line that runs down the leg
 * (-z), turns at the heel and runs on along the foot. The heel's rows open like a fan about the
 * line through the heel corners, each wale filling the whole fan; a short-row toe is a second fan,
 * of half a turn. Positions flat, mm.
 */
export function makeStartShape(fabric: Fabric, section: StartSection): Float64Array {
  const profile = profileSock(fabric);
  const positions = new Float64Array(3 * fabric.vertexCount);
  for (let v = 0; v < fabric.vertexCount; v++) placeVertex(fabric, profile, section, v, positions);
  return positions;
}

function placeVertex(fabric: Fabric, profile: SockProfile, section: StartSection, v: number, out: Float64Array): void {
  const row = fabric.vertexRow[v], around = fabric.vertexAround[v], code = fabric.vertexSection[v];
  const heelRow = profile.heel?.row ?? Infinity;
  const along = (row - Math.min(heelRow, profile.lastRow)) * fabric.waleMm;
  const girth = girthAt(profile, row);
  const heelTurn = HEEL_TURN[section];
  const isFoot = code >= SECTION.foot && row > heelRow || isFanToeSection(code);
  const baseTurn = isFoot ? heelTurn : 0;
  const place = placeOnRound(profile, girth, row, around);
  const { forward, side } = section === 'round' ? ellipsePoint(profile, girth, row, place) : foldedPoint(profile, girth, row, place);
  const corner = cornerForward(profile, section);
  let turn = baseTurn, reach = forward - corner;
  if (isHeelSection(code)) {
    turn = heelTurn * fabric.vertexFan[v];
    reach *= 1 + ((profile.heel?.swell ?? 1) - 1) * sin(Math.PI * fabric.vertexFan[v]);
  } else if (isFanToeSection(code)) {
    turn = heelTurn + TOE_TURN * fabric.vertexFan[v];
    reach *= 1 + ((profile.toe?.swell ?? 1) - 1) * sin(Math.PI * fabric.vertexFan[v]);
  } else if (forward > corner && profile.heel !== null) {
    turn = heelTurn * smoothStep(0.5 + along / (2 * SPREAD * 0.5 * girth));
  }
  const down = Math.min(along, 0), on = Math.max(along, 0);
  out[3 * v] = on * sin(heelTurn) + corner + reach * cos(turn);
  out[3 * v + 1] = side;
  out[3 * v + 2] = -down - on * cos(heelTurn) + reach * sin(turn);
}

/** How far forward of the centre line the line through the heel corners lies, about which everything turns. */
function cornerForward(profile: SockProfile, section: StartSection): number {
  if (profile.heel === null || profile.heel.beyond === 0) return 0;
  const { row, beyond } = profile.heel, girth = girthAt(profile, row);
  return (section === 'round' ? ellipsePoint(profile, girth, row, 0.25 + beyond) : foldedPoint(profile, girth, row, 0.25 + beyond)).forward;
}

function girthAt(profile: SockProfile, row: number): number {
  return profile.girths[Math.min(profile.girths.length - 1, Math.max(0, Math.round(row)))];
}

/**
 * Turn (0 to 1) of a stitch on its own round. `vertexAround` follows the needles, so that over a
 * decreased toe a round fills less and less of each bed's half turn.
 */
function placeOnRound(profile: SockProfile, girth: number, row: number, around: number): number {
  const turn = around - Math.floor(around);
  if (row <= profile.toeFirstRow) return turn;
  const share = girth / girthAt(profile, profile.toeFirstRow - 1);
  const middle = turn < 0.25 ? 0 : turn < 0.75 ? 0.5 : 1;
  return middle + Math.min(0.25, Math.max(-0.25, (turn - middle) / share));
}

/** 1 before a decreased toe, down to nearly nothing at its last round. */
function toeThickness(profile: SockProfile, row: number): number {
  const rows = profile.lastRow - profile.toeFirstRow;
  const share = rows > 0 ? Math.max(0, (row - profile.toeFirstRow) / rows) * TOE_CLOSE : 0;
  return Math.sqrt(1 - share * share);
}

/** Point of a round on an ellipse of the round's girth, flattening over a decreased toe. */
function ellipsePoint(profile: SockProfile, girth: number, row: number, around: number): { forward: number; side: number } {
  const half = girth / (2 * Math.PI) * toeThickness(profile, row);
  const breadth = ellipseBreadth(girth, half);
  const angle = 2 * Math.PI * around;
  return { forward: -half * cos(angle), side: breadth * sin(angle) };
}

/** Other semi-axis of an ellipse of given girth (Ramanujan's first formula), by bisection. */
function ellipseBreadth(girth: number, half: number): number {
  let low = 0, high = girth / 2;
  for (let k = 0; k < 40; k++) {
    const b = 0.5 * (low + high);
    const length = Math.PI * (3 * (half + b) - Math.sqrt((3 * half + b) * (half + 3 * b)));
    if (length < girth) low = b;
    else high = b;
  }
  return 0.5 * (low + high);
}

/** Point of a round laid double between centre back and centre front, both halves in the mid-plane. */
function foldedPoint(profile: SockProfile, girth: number, row: number, around: number): { forward: number; side: number } {
  const turn = around - Math.floor(around), half = Math.min(turn, 1 - turn);
  return { forward: (half - 0.25) * girth * toeThickness(profile, row), side: 0 };
}

function smoothStep(t: number): number {
  const u = Math.min(1, Math.max(0, t));
  return u * u * (3 - 2 * u);
}
