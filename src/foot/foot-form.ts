import { cos, sin } from '../base/portable-math.ts';
import { completeMeasures } from './complete-measures.ts';
import type { CompleteMeasures, FootMeasures } from './complete-measures.ts';
import { createRoundCones } from './round-cones.ts';
import type { Body, RoundCone } from './round-cones.ts';
import { tapeGirth, traceRay } from './trace-section.ts';
import type { Point } from './trace-section.ts';

/**
 * A simple foot: origin at the heel's rearmost point, x to the toes, y left, z up the leg, mm. It is
 * its own mirror image, so it stands for a left foot and a right one.
 */
export interface FootForm extends Body {
  /** What the form was sized to: the given measures, completed, and kept within what a foot may be. */
  readonly measures: CompleteMeasures;
  /** What a tape reads on the form. */
  readonly girths: FootGirths;
  readonly cones: readonly RoundCone[];
  /** Heights of the floor, the ankle's least girth, the calf's girth and the toes' middle; x of the ball; mm. */
  readonly floorMm: number;
  readonly ankleMm: number;
  readonly calfMm: number;
  readonly toeMm: number;
  readonly ballMm: number;
  /** Where a sock's heel turns on an average foot, inside it, below the ankle bones: x and z. */
  readonly turn: readonly [number, number];
}

export interface FootGirths {
  readonly ballGirthMm: number;
  readonly ankleGirthMm: number;
  readonly calfGirthMm: number;
  readonly heelDiagonalMm: number;
}

/**
 * Proportions, shares of the foot's length but for the ball's. Ball at 0.73 and heel breadth by the
 * survey that `complete-measures.ts` cites (0.739 FL and 16.1 + 0.208 FL); ball breadth 0.405 of its
 * girth (101.9 / 252.0 and 92.7 / 228.1); all others `chosen by eye`.
 */
const FORM = {
  ball: 0.73, breadthOfGirth: 0.405,
  heelBreadth: { base: 16.1, slope: 0.208 },
  ankleX: 0.205, ankleHeight: 0.42, calfX: 0.215, calfHeight: 1.25, above: 5,
  instepX: 0.25, instepHeight: 0.225, instepRadius: 0.105,
  toeRadius: 0.048, toeSideX: 0.925, toeSideShare: 0.75,
  turnX: 0.23, turnHeight: 0.26,
  smoothing: 0.024,
} as const;

/** Rounds of adjusting at most, and the error at which they end, a share of each girth. */
const ROUNDS = 20;
const CLOSE = 1e-3;
/** Farthest that the instep is raised, a share of the length; it is lowered by half of that. */
const MOST_INSTEP = 0.3;
/** Inclinations tried for the plane over heel tip and instep, degrees: a tape slides to the least girth. */
const INCLINATIONS = [30, 34, 38, 42, 46, 50, 54, 58, 62, 66, 70] as const;

/** What is adjusted until the tape reads the given girths. */
interface Sizes { ball: number; ankle: number; calf: number; instep: number; rear: number; front: number }

/** A foot of rounded cones, smoothly joined, sized so that a tape reads the given measures on it. Missing measures are the average foot's. */
export function makeFootForm(given: FootMeasures): FootForm {
  const measures = withinReason(completeMeasures(given));
  const sizes: Sizes = { ball: 1, ankle: 1, calf: 1, instep: 0, rear: 0, front: 0 };
  let foot = shapeFoot(measures, sizes);
  for (let round = 0; round < ROUNDS; round++) {
    const { girths } = foot, [rear, front] = extent(foot, measures.lengthMm);
    if (worstError(foot, rear, front) < CLOSE) break;
    sizes.ball = adjust(sizes.ball, measures.ballGirthMm / girths.ballGirthMm);
    sizes.ankle = adjust(sizes.ankle, measures.ankleGirthMm / girths.ankleGirthMm);
    sizes.calf = adjust(sizes.calf, measures.calfGirthMm / girths.calfGirthMm);
    // A form higher by dz there is longer round heel and instep by about 1.5 dz.
    const most = MOST_INSTEP * measures.lengthMm;
    sizes.instep = Math.min(most, Math.max(-most / 2, sizes.instep + (measures.heelDiagonalMm - girths.heelDiagonalMm) / 1.5));
    sizes.rear -= rear;
    sizes.front += measures.lengthMm - front;
    foot = shapeFoot(measures, sizes);
  }
  return foot;
}

/** Least and greatest share of the foot's length that each girth may be: what no foot has, no form follows. `chosen by eye`, wide of the survey's extremes. */
const REASON = { ballGirthMm: [0.6, 1.5], ankleGirthMm: [0.5, 1.5], calfGirthMm: [0.6, 2.6], heelDiagonalMm: [0.95, 1.8] } as const;

function withinReason(measures: CompleteMeasures): CompleteMeasures {
  const within = (name: keyof typeof REASON): number =>
    Math.min(REASON[name][1] * measures.lengthMm, Math.max(REASON[name][0] * measures.lengthMm, measures[name]));
  return {
    lengthMm: measures.lengthMm, ballGirthMm: within('ballGirthMm'), ankleGirthMm: within('ankleGirthMm'),
    calfGirthMm: within('calfGirthMm'), heelDiagonalMm: within('heelDiagonalMm'),
  };
}

/** A size times a share, within what still looks like a foot: measures that no foot has are met as nearly as that allows. */
function adjust(size: number, share: number): number {
  return Math.min(2, Math.max(0.4, size * Math.min(1.25, Math.max(0.8, share))));
}

function worstError({ girths, measures }: FootForm, rear: number, front: number): number {
  const { ballGirthMm, ankleGirthMm, calfGirthMm, heelDiagonalMm } = girths;
  const shares = [
    ballGirthMm / measures.ballGirthMm, ankleGirthMm / measures.ankleGirthMm, calfGirthMm / measures.calfGirthMm,
    heelDiagonalMm / measures.heelDiagonalMm, front / measures.lengthMm, 1 + rear / measures.lengthMm,
  ];
  return Math.max(...shares.map((share) => Math.abs(share - 1)));
}

function shapeFoot(measures: CompleteMeasures, sizes: Sizes): FootForm {
  const length = measures.lengthMm, heelRadius = heelRadiusOf(measures);
  const cones = layCones(measures, sizes, heelRadius);
  const body = createRoundCones(cones, FORM.smoothing * length);
  const up = (share: number): number => share * length - heelRadius;
  const form = {
    ...body, measures, cones,
    floorMm: -heelRadius, ankleMm: up(FORM.ankleHeight), calfMm: up(FORM.calfHeight), toeMm: cones[4].to[2], ballMm: FORM.ball * length,
    turn: [FORM.turnX * length, up(FORM.turnHeight)] as const,
  };
  return { ...form, girths: measureGirths(form) };
}

function heelRadiusOf(measures: CompleteMeasures): number {
  return Math.min(0.5 * (FORM.heelBreadth.base + FORM.heelBreadth.slope * measures.lengthMm), 0.16 * measures.lengthMm, 0.16 * measures.ballGirthMm);
}

function layCones(measures: CompleteMeasures, sizes: Sizes, heelRadius: number): RoundCone[] {
  const length = measures.lengthMm, girth = measures.ballGirthMm * sizes.ball;
  const up = (share: number): number => share * length - heelRadius, on = (share: number): number => share * length;
  // A section of breadth B and girth G between two balls of radius r, their centres 2 w apart: G = 2 pi r + 4 w, B = 2 r + 2 w.
  const ball = girth * (1 - 2 * FORM.breadthOfGirth) / (2 * Math.PI - 4), half = girth * FORM.breadthOfGirth / 2 - ball;
  const toe = Math.min(FORM.toeRadius * length, ball), sole = ball - heelRadius, tread = toe - heelRadius;
  const ankle = measures.ankleGirthMm * sizes.ankle / (2 * Math.PI), calf = measures.calfGirthMm * sizes.calf / (2 * Math.PI);
  const heel: Point = [heelRadius + sizes.rear, 0, 0];
  const ankleAt: Point = [on(FORM.ankleX), 0, up(FORM.ankleHeight)], calfAt: Point = [on(FORM.calfX), 0, up(FORM.calfHeight)];
  const instepAt: Point = [on(FORM.instepX), 0, up(FORM.instepHeight) + sizes.instep];
  const cones: RoundCone[] = [
    { from: ankleAt, to: calfAt, r1: ankle, r2: calf },
    { from: calfAt, to: [calfAt[0], 0, up(FORM.calfHeight + FORM.above)], r1: calf, r2: calf },
    { from: heel, to: ankleAt, r1: heelRadius, r2: ankle },
    { from: instepAt, to: [on(FORM.ball), 0, sole], r1: FORM.instepRadius * length, r2: ball },
    { from: [on(FORM.ball), 0, sole], to: [length - toe + sizes.front, 0, tread], r1: ball, r2: toe },
  ];
  for (const side of [1, -1]) {
    const ballAt: Point = [on(FORM.ball), side * half, sole];
    cones.push(
      { from: heel, to: ballAt, r1: heelRadius, r2: ball },
      { from: ballAt, to: [on(FORM.toeSideX) + sizes.front, side * FORM.toeSideShare * half, tread], r1: ball, r2: toe },
    );
  }
  return cones;
}

/** x of the rearmost point at the heel's height and of the foremost one at the toes'. */
function extent(foot: FootForm, length: number): readonly [number, number] {
  const toeCone = foot.cones[4];
  return [
    -length + traceRay(foot, [-length, 0, 0], [1, 0, 0], 3 * length, 0),
    2 * length - traceRay(foot, [2 * length, 0, toeCone.to[2]], [-1, 0, 0], 3 * length, 0),
  ];
}

function measureGirths(foot: Omit<FootForm, 'girths'>): FootGirths {
  const { lengthMm } = foot.measures, legReach = Math.max(foot.measures.calfGirthMm, lengthMm);
  const level = (x: number, z: number): number => tapeGirth(foot, [x, 0, z], [1, 0, 0], [0, 1, 0], legReach);
  return {
    ballGirthMm: tapeGirth(foot, [foot.ballMm, 0, foot.cones[4].from[2]], [0, 1, 0], [0, 0, 1], 2 * Math.max(lengthMm, foot.measures.ballGirthMm)),
    ankleGirthMm: level(foot.cones[0].from[0], foot.ankleMm),
    calfGirthMm: level(foot.cones[0].to[0], foot.calfMm),
    heelDiagonalMm: Math.min(...INCLINATIONS.map((degrees) => diagonalGirth(foot, degrees))),
  };
}

/** Girth in the plane through the heel's lower rear point that rises forward by so many degrees. */
function diagonalGirth(foot: Omit<FootForm, 'girths'>, degrees: number): number {
  const reach = 2 * foot.measures.lengthMm, s = Math.SQRT1_2;
  const [cx, , cz] = foot.cones[2].from;
  const t = reach - traceRay(foot, [cx - reach * s, 0, cz - reach * s], [s, 0, s], reach, 0);
  const tip: Point = [cx - t * s, 0, cz - t * s];
  const c = cos(degrees * Math.PI / 180), r = sin(degrees * Math.PI / 180);
  const across = reach - traceRay(foot, [tip[0] + reach * c, 0, tip[2] + reach * r], [-c, 0, -r], reach, 0);
  const middle: Point = [tip[0] + 0.5 * across * c, 0, tip[2] + 0.5 * across * r];
  return tapeGirth(foot, middle, [c, 0, r], [0, 1, 0], reach);
}
