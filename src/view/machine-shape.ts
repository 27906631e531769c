import { NEEDLE } from '../machine/codes.ts';
import type { Holding } from '../pipeline/result.ts';
import { type Place, type Solid, SolidBuilder } from './solid-builder.ts';

/** Tones of the machine, in the order of a scheme's `machine` colours; the last is that of a cast-on's yarn. */
export const TONE = { rail: 0, needle: 1, held: 2, idle: 3, weight: 4, wire: 5, yarn: 6 } as const;

/** A needle of a machine of this pitch has the size drawn; others are larger and smaller with theirs, within limits. All sizes of the machine are mm and chosen by eye. */
const DRAWN_PITCH_MM = 5;
const LEAST_SIZE = 0.4, MOST_SIZE = 1.6;
/** How far a held needle is pushed forward, so that its loop lies on its shank, and an empty one drawn back. */
const HELD_MM = 5.5, IDLE_MM = -4.5;
const NEEDLE_RADIUS = 0.62;
/** The hook of a held needle reaches up to here. */
const TOP_MM = 8;
/** A needle from its butt to its hook, (up, forward) from where its loop hangs. */
const NEEDLE_LINE: readonly (readonly [up: number, forward: number])[] = [
  [3.4, -21], [0.5, -20.8], [0.3, -20], [0.3, 0.8], [0.75, 1.9], [1.6, 2.1], [2.1, 1.2], [1.9, 0],
];
/** A rail lies across the needles: corners (up, forward), counter-clockwise as seen along the beds. */
const RAIL: readonly (readonly [up: number, forward: number])[] = [[1.1, -15.5], [1.1, -8.5], [2.6, -8], [3.4, -9], [3.4, -15], [2.6, -16]];
/** Needles' pitches by which a rail reaches beyond the last needle, and over which its ends fade. */
const RAIL_BEYOND = 1, RAIL_FADE = 3;

/** The comb through the cast-on edge: its bar lies this far under the edge. */
const COMB_DROP = 9, COMB_RADIUS = 2, MOST_TINES = 40;
const LEAST_HALF_COMB = 36;
const YARN_RADIUS = 0.8;
/** Three weights of 100 g hang on it: bodies of steel have about this size. */
const WEIGHTS = 3, WEIGHT_WIRE = 13, WEIGHT_RADIUS = 10;
const WEIGHT: readonly (readonly [radius: number, height: number])[] = [
  [0, 0], [2.6, -0.6], [3, -4], [5.5, -7], [9, -9.5], [10, -13], [10, -37], [8.6, -40], [0, -40.4],
];
/** The heel's weight hangs on a claw with two teeth; its cord leads clear of the cloth. */
const CLAW_HALF = 4.5, CLAW_CORD = 34;

export interface MachineShape {
  /** One needle: across, up, forward from where its loop hangs. */
  readonly needle: Solid;
  /** Three entries each needle: its place; its bed's side (front -1), how far it is pushed forward, its tone. */
  readonly places: Float32Array;
  readonly states: Float32Array;
  readonly size: number;
  readonly rails: Solid;
  readonly weights: Solid;
  /** Middle along the beds, half the width that is drawn solid, and the width over which the rest fades. */
  readonly span: Place;
  /** Points that a framed picture must hold: three entries each. */
  readonly corners: Float64Array;
}

/** The part of a machine that holds a piece: needles, the rails over them, comb, claw and weights; the cast-on's yarn while it is no cloth yet. Axes as in the pose on the beds. */
export function shapeMachine(holding: Holding, cloth: Float64Array, isCastOn = false): MachineShape {
  const { needles, states, needlePitchMm } = holding, count = states.length;
  const size = Math.min(MOST_SIZE, Math.max(LEAST_SIZE, needlePitchMm / DRAWN_PITCH_MM));
  const stateOf = (k: number): readonly [number, number] => {
    if (states[k] === NEEDLE.held) return [HELD_MM * size, TONE.held];
    return states[k] === NEEDLE.working ? [0, TONE.needle] : [IDLE_MM * size, TONE.idle];
  };
  const firstX = needles[0] ?? 0, lastX = needles[3 * count - 3] ?? 0, middle = (firstX + lastX) / 2;
  const half = (lastX - firstX) / 2 + RAIL_BEYOND * needlePitchMm;
  const weights = new SolidBuilder();
  const low = addComb(weights, holding.edge);
  if (isCastOn) addCastOn(weights, holding.edge);
  const lowest = holding.claw === null ? low : Math.min(low, addClaw(weights, holding.claw, cloth));
  return {
    needle: needleSolid(), places: Float32Array.from(needles),
    states: Float32Array.from({ length: 3 * count }, (_, i) => (i % 3 === 0 ? Math.sign(needles[i + 1]) : stateOf((i - i % 3) / 3)[i % 3 - 1])),
    size, rails: railSolid(needles, middle - half, middle + half, size), weights: weights.build(),
    span: [middle, half - RAIL_FADE * needlePitchMm, RAIL_FADE * needlePitchMm],
    corners: Float64Array.from([[middle - half, -18, TOP_MM], [middle + half, -18, TOP_MM], [middle - half, 18, TOP_MM], [middle + half, 18, TOP_MM], [middle, 0, lowest]].flat()),
  };
}

function needleSolid(): Solid {
  const builder = new SolidBuilder();
  builder.addBar(NEEDLE_LINE.map(([up, forward]): Place => [0, up, forward]), NEEDLE_RADIUS, 5, [1, 0, 0], TONE.needle);
  return builder.build();
}

/** One rail a bed, over its needles. */
function railSolid(needles: Float64Array, fromX: number, toX: number, size: number): Solid {
  const builder = new SolidBuilder(), s = Math.SQRT1_2;
  for (const side of [-1, 1]) {
    const y = side * Math.abs(needles[1] ?? 0);
    const corners = RAIL.map(([up, forward]) => [y - side * s * size * (forward - up), s * size * (forward + up)] as const);
    builder.addRail(fromX, toX, side < 0 ? corners : [...corners].reverse(), TONE.rail);
  }
  return builder.build();
}

/** A bar under the cast-on edge, a tine of it in every few loops, weights below. Gives back the lowest height. */
function addComb(builder: SolidBuilder, edge: Float64Array): number {
  const count = edge.length / 3;
  if (count === 0) return 0;
  let left = Infinity, right = -Infinity, y = 0, z = 0;
  for (let i = 0; i < edge.length; i += 3) {
    left = Math.min(left, edge[i]); right = Math.max(right, edge[i]);
    y += edge[i + 1] / count; z += edge[i + 2] / count;
  }
  z -= COMB_DROP;
  const middle = (left + right) / 2, half = Math.max((right - left) / 2 + 4, LEAST_HALF_COMB);
  builder.addBar([[middle - half, y, z], [middle + half, y, z]], COMB_RADIUS, 8, [0, 0, 1], TONE.weight);
  const every = Math.ceil(count / MOST_TINES);
  for (let k = 0; k < count; k += every) {
    const x = edge[3 * k];
    builder.addBar([[x, y, z], [x, edge[3 * k + 1], edge[3 * k + 2]]], 0.5, 4, [1, 0, 0], TONE.wire);
  }
  const apart = 2 * half / WEIGHTS;
  for (let k = 0; k < WEIGHTS; k++) addWeight(builder, [middle + (k - (WEIGHTS - 1) / 2) * apart, y, z], [0, 0, -WEIGHT_WIRE]);
  return z - WEIGHT_WIRE + WEIGHT[WEIGHT.length - 1][1];
}

/** Yarn from loop to loop of the edge. */
function addCastOn(builder: SolidBuilder, edge: Float64Array): void {
  const line = Array.from({ length: edge.length / 3 }, (_, k): Place => [edge[3 * k], edge[3 * k + 1], edge[3 * k + 2]]);
  if (line.length > 1) builder.addBar(line, YARN_RADIUS, 6, [0, 0, 1], TONE.yarn);
}

/** A wire from a point, and a weight at its end. */
function addWeight(builder: SolidBuilder, from: Place, wire: Place): void {
  const to: Place = [from[0] + wire[0], from[1] + wire[1], from[2] + wire[2]];
  builder.addBar([from, to], 0.6, 5, [1, 0, 0], TONE.wire);
  builder.addTurned([to[0], to[1], to[2] + 0.5], WEIGHT, 14, TONE.weight);
}

/** Two teeth in the heel's cloth, and their weight in front of it (behind it for a heel of the back bed). Gives back the lowest height. */
function addClaw(builder: SolidBuilder, [x, y, z]: Place, cloth: Float64Array): number {
  const side = y < 0 ? -1 : 1, bridge = z - 5, bottom = bridge - CLAW_CORD;
  let outmost = side * y;
  for (let i = 0; i < cloth.length; i += 3) {
    const isBeside = Math.abs(cloth[i] - x) < 1.5 * WEIGHT_RADIUS && cloth[i + 2] < z && cloth[i + 2] > bottom + WEIGHT[WEIGHT.length - 1][1];
    if (isBeside) outmost = Math.max(outmost, side * cloth[i + 1]);
  }
  const atCloth = y + side * 0.4, off = side * (outmost + 2), hang = side * (outmost + WEIGHT_RADIUS + 1.5);
  for (const hand of [-1, 1]) {
    const tooth = x + hand * CLAW_HALF;
    builder.addBar([[tooth, atCloth, z + 1.5], [tooth, off, z + 0.5], [tooth, off, bridge]], 0.6, 5, [1, 0, 0], TONE.wire);
  }
  builder.addBar([[x - CLAW_HALF - 1, off, bridge], [x + CLAW_HALF + 1, off, bridge]], 1, 6, [0, 0, 1], TONE.weight);
  addWeight(builder, [x, off, bridge], [0, hang - off, -CLAW_CORD]);
  return bottom + WEIGHT[WEIGHT.length - 1][1];
}
