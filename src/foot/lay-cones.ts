import type { CompleteMeasures } from './complete-measures.ts';
import type { ArchKind, FootSide, ToeOutline } from './foot-kinds.ts';
import type { RoundCone } from './round-cones.ts';
import type { Point } from './trace-section.ts';

/** What is chosen of a foot's looks. */
export interface FootLooks { readonly arch: ArchKind; readonly toes: ToeOutline; readonly side: FootSide }

/** What is adjusted until the tapes read the given measures: factors, and shifts in mm. */
export interface FormSizes {
  readonly ball: number; readonly ankle: number; readonly calf: number;
  readonly instep: number; readonly rear: number; readonly front: number;
  /** Half of the way between the heel's two balls; heights of ball and toes. */
  readonly heelHalf: number; readonly ballRise: number; readonly toeRise: number;
}

/**
 * Proportions, shares of the foot's length but where said otherwise. The inner ball at 0.739 and the
 * ball's breadth 0.405 of its girth: means of the survey that `estimate-measures.ts` cites. All others
 * `chosen by eye`.
 */
export const FORM = {
  innerBall: 0.739, outerBall: 0.705, middleBall: 0.06, breadthOfGirth: 0.405,
  heelRadius: 0.115, heelOfGirth: 0.125, heelOfBreadth: 0.36,
  ankleX: 0.205, ankleHeight: 0.42, calfX: 0.215, calfHeight: 1.25, above: 5,
  instepX: 0.25, instepHeight: 0.225, instepRadius: 0.1, instepAside: 0.25,
  flankX: 0.27, flankHeight: 0.165, flankRadius: 0.1, innerFlankRadius: 0.08, flankAside: 0.1, flankEnd: 0.66, flankEndAside: 0.6,
  archX: 0.44, archRadius: 0.072, archAside: 0.78,
  toeRadius: 0.039,
  turnX: 0.23, turnHeight: 0.26,
  smoothing: 0.02,
} as const;

/** Radii of the inner, middle and outer ball, shares of the mean one, and of the bar across the ball, shares of its ends'. `chosen by eye`: where many cones meet their union swells, and larger ones made a knob on the back of the foot. */
const BALL_RADII = { inner: 0.95, middle: 0.9, outer: 0.85, bar: 0.85 } as const;

/** Height of the hollow under the inner side, a share of the length. `chosen by eye`. */
const HOLLOW: Readonly<Record<ArchKind, number>> = { low: 0.015, usual: 0.045, high: 0.075 };

/** How far the ends of the great toe, the middle ones and the little toe lie behind the tip, shares of the length, and their places aside, shares of the ball's half breadth. `chosen by eye`. */
const TOES: Readonly<Record<ToeOutline, { readonly back: readonly [number, number, number]; readonly aside: readonly [number, number, number] }>> = {
  sloping: { back: [0, 0.025, 0.12], aside: [0.97, 0.05, -0.97] },
  square: { back: [0.004, 0, 0.012], aside: [0.97, 0, -1] },
  pointed: { back: [0.045, 0, 0.11], aside: [0.88, 0.12, -0.9] },
};

/** Places of the form that its tapes and its tracing start from. y is positive on a right foot's inner side. */
export interface LaidFoot {
  readonly cones: readonly RoundCone[];
  readonly heel: Point;
  readonly innerBall: Point;
  readonly outerBall: Point;
  readonly ankle: Point;
  readonly calf: Point;
  /** Ends of the toes, from the great toe's on. */
  readonly toes: readonly Point[];
  readonly heelRadius: number;
}

/** The middle of the heel's height, above the floor, mm. */
export function heelRadiusOf(measures: CompleteMeasures): number {
  return Math.min(FORM.heelRadius * measures.lengthMm, FORM.heelOfGirth * measures.ballGirthMm, FORM.heelOfBreadth * measures.heelBreadthMm);
}

export function layCones(measures: CompleteMeasures, looks: FootLooks, sizes: FormSizes): LaidFoot {
  const length = measures.lengthMm, girth = measures.ballGirthMm * sizes.ball, heelRadius = heelRadiusOf(measures);
  const up = (share: number): number => share * length - heelRadius, on = (share: number): number => share * length;
  // A section of breadth B and girth G between two balls of radius r, their centres 2 w apart: G = 2 pi r + 4 w, B = 2 r + 2 w.
  const ball = girth * (1 - 2 * FORM.breadthOfGirth) / (2 * Math.PI - 4), half = girth * FORM.breadthOfGirth / 2 - ball;
  const inner = BALL_RADII.inner * ball, outer = BALL_RADII.outer * ball, middle = BALL_RADII.middle * ball;
  // Right feet have their inner side on the left, at positive y; a left foot is the mirror image, to the bit.
  const s = looks.side === 'right' ? 1 : -1;
  const at = (x: number, y: number, z: number): Point => [x, s * y, z];
  const sole = (radius: number): number => radius - heelRadius + sizes.ballRise;
  const heelAt = heelRadius + sizes.rear, heel = at(heelAt, 0, 0), heelHalf = sizes.heelHalf;
  const innerHeel = at(heelAt, heelHalf, 0), outerHeel = at(heelAt, -heelHalf, 0);
  const innerBall = at(on(FORM.innerBall), half, sole(inner)), outerBall = at(on(FORM.outerBall), -half, sole(outer));
  const middleBall = at(on(0.5 * (FORM.innerBall + FORM.outerBall) + FORM.middleBall), 0.1 * half, sole(middle));
  const ankle = at(on(FORM.ankleX), 0, up(FORM.ankleHeight)), calf = at(on(FORM.calfX), 0, up(FORM.calfHeight));
  const ankleRadius = measures.ankleGirthMm * sizes.ankle / (2 * Math.PI), calfRadius = measures.calfGirthMm * sizes.calf / (2 * Math.PI);
  const archRadius = on(FORM.archRadius), arch = at(on(FORM.archX), FORM.archAside * half, archRadius + HOLLOW[looks.arch] * length - heelRadius);
  const toe = Math.min(FORM.toeRadius * length, 0.7 * ball), { back, aside } = TOES[looks.toes];
  const toes = back.map((share, i) => at(length - toe - share * length + sizes.front, aside[i] * half, toe - heelRadius + sizes.toeRise));
  const instep = at(on(FORM.instepX), 0, up(FORM.instepHeight) + sizes.instep);
  const cones: RoundCone[] = [
    { from: ankle, to: calf, r1: ankleRadius, r2: calfRadius },
    { from: calf, to: [calf[0], 0, up(FORM.calfHeight + FORM.above)], r1: calfRadius, r2: calfRadius },
    { from: innerHeel, to: ankle, r1: heelRadius, r2: ankleRadius },
    { from: outerHeel, to: ankle, r1: heelRadius, r2: ankleRadius },
    { from: instep, to: at(middleBall[0], FORM.instepAside * half, middleBall[2]), r1: FORM.instepRadius * length, r2: middle },
    ...[1, -1].map((to): RoundCone => ({
      from: at(on(FORM.flankX), to * FORM.flankAside * half, up(FORM.flankHeight)), r1: (to > 0 ? FORM.innerFlankRadius : FORM.flankRadius) * length,
      to: at(on(FORM.flankEnd), to * FORM.flankEndAside * half, sole(middle)), r2: middle,
    })),
    { from: middleBall, to: toes[1], r1: middle, r2: toe },
    { from: innerHeel, to: arch, r1: heelRadius, r2: archRadius },
    { from: arch, to: innerBall, r1: archRadius, r2: inner },
    { from: outerHeel, to: outerBall, r1: heelRadius, r2: outer },
    { from: halfWay(innerBall, middleBall), to: halfWay(toes[0], toes[1]), r1: (inner + middle) / 2, r2: toe },
    { from: halfWay(outerBall, middleBall), to: halfWay(toes[1], toes[2]), r1: (outer + middle) / 2, r2: toe },
    { from: innerBall, to: toes[0], r1: inner, r2: toe },
    { from: outerBall, to: toes[2], r1: outer, r2: toe },
    { from: innerBall, to: outerBall, r1: BALL_RADII.bar * inner, r2: BALL_RADII.bar * outer },
    { from: toes[0], to: toes[1], r1: toe, r2: toe },
    { from: toes[1], to: toes[2], r1: toe, r2: toe },
  ];
  return { cones, heel, innerBall, outerBall, ankle, calf, toes, heelRadius };
}

function halfWay(a: Point, b: Point): Point { return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2]; }
