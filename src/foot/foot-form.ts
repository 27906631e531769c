import { completeMeasures } from './complete-measures.ts';
import type { CompleteMeasures, FootMeasures } from './complete-measures.ts';
import type { FootLooks, FormSizes, LaidFoot } from './lay-cones.ts';
import { FORM, heelRadiusOf, layCones } from './lay-cones.ts';
import { createRoundCones } from './round-cones.ts';
import type { ConeBody, RoundCone } from './round-cones.ts';
import type { FormReading, FormTapes } from './read-form.ts';
import { createFormReader, mirrorReading } from './read-form.ts';

/**
 * A foot and its lower leg: origin at the heel's rearmost point, x to the toes, y left, z up the leg,
 * mm. A right foot has its great toe at positive y; a left foot is its mirror image, to the bit.
 */
export interface FootForm extends ConeBody {
  /** What the form was sized to: the given measures, completed, and kept within what a foot may be. */
  readonly measures: CompleteMeasures;
  readonly looks: FootLooks;
  /** What a tape reads on the form, and a rule between heel and toes and across the heel. */
  readonly girths: FootGirths;
  readonly lengthMm: number;
  readonly heelBreadthMm: number;
  /** Where the tapes run. */
  readonly tapes: FormTapes;
  readonly cones: readonly RoundCone[];
  /** Heights of the floor, the ankle's least girth, the calf's girth and the toes' middle; x of the ball; mm. */
  readonly floorMm: number;
  readonly ankleMm: number;
  readonly calfMm: number;
  readonly toeMm: number;
  readonly ballMm: number;
  /** x of the section in which the heel's breadth is read, and y of the toes' foremost point, mm. */
  readonly heelMm: number;
  readonly toeAsideMm: number;
  /** Where a sock's heel turns on an average foot, inside it, below the ankle bones: x and z. */
  readonly turn: readonly [number, number];
}

export interface FootGirths {
  readonly ballGirthMm: number;
  readonly ankleGirthMm: number;
  readonly calfGirthMm: number;
  readonly heelDiagonalMm: number;
}

/** Rounds of adjusting at most, and the error at which they end, a share of each measure. */
const ROUNDS = 16;
const CLOSE = 1e-3;
/** Farthest that the instep is raised, a share of the length; it is lowered by half of that. */
const MOST_INSTEP = 0.3;
/** How far the sole may be off the floor, mm. */
const CLOSE_SOLE_MM = 0.3;

/** A foot of rounded cones, smoothly joined, sized so that a tape reads the given measures on it. Missing measures are the average foot's. */
export function makeFootForm(given: FootMeasures): FootForm {
  const measures = withinReason(completeMeasures(given)), heelRadius = heelRadiusOf(measures);
  const looks: FootLooks = { arch: given.arch ?? 'usual', toes: given.toes ?? 'sloping', side: given.side ?? 'right' };
  const reader = createFormReader(measures), smoothing = FORM.smoothing * measures.lengthMm;
  let sizes: FormSizes = {
    ball: 1, ankle: 1, calf: 1, instep: 0, rear: 0, front: 0, ballRise: 0, toeRise: 0,
    heelHalf: Math.max(0, 0.5 * measures.heelBreadthMm - heelRadius),
  };
  for (let round = 1; ; round++) {
    const laid = layCones(measures, { ...looks, side: 'right' }, sizes), body = createRoundCones(laid.cones, smoothing);
    const reading = reader(body, laid);
    if (round === ROUNDS || worstError(measures, reading) < CLOSE) {
      if (looks.side === 'right') return { ...describeForm(measures, looks, laid, reading), ...body };
      const left = layCones(measures, looks, sizes);
      return { ...describeForm(measures, looks, left, mirrorReading(reading)), ...createRoundCones(left.cones, smoothing) };
    }
    sizes = adjustSizes(measures, sizes, reading);
  }
}

/** Least and greatest share of the foot's length that each measure may be: what no foot has, no form follows. `chosen by eye`, wide of the survey's extremes. */
const REASON = {
  ballGirthMm: [0.65, 1.35], heelDiagonalMm: [1, 1.65], ankleGirthMm: [0.55, 1.35], calfGirthMm: [0.8, 2.4], heelBreadthMm: [0.16, 0.42],
} as const;

function withinReason(measures: CompleteMeasures): CompleteMeasures {
  const within = (name: keyof typeof REASON): number =>
    Math.min(REASON[name][1] * measures.lengthMm, Math.max(REASON[name][0] * measures.lengthMm, measures[name]));
  return {
    lengthMm: measures.lengthMm, ballGirthMm: within('ballGirthMm'), heelDiagonalMm: within('heelDiagonalMm'),
    ankleGirthMm: within('ankleGirthMm'), calfGirthMm: within('calfGirthMm'), heelBreadthMm: within('heelBreadthMm'),
  };
}

function adjustSizes(measures: CompleteMeasures, sizes: FormSizes, reading: FormReading): FormSizes {
  const { girths } = reading, most = MOST_INSTEP * measures.lengthMm;
  return {
    ball: adjust(sizes.ball, measures.ballGirthMm / girths.ballGirthMm),
    ankle: adjust(sizes.ankle, measures.ankleGirthMm / girths.ankleGirthMm),
    calf: adjust(sizes.calf, measures.calfGirthMm / girths.calfGirthMm),
    // A form higher by dz there is longer round heel and instep by about 1.5 dz.
    instep: Math.min(most, Math.max(-most / 2, sizes.instep + (measures.heelDiagonalMm - girths.heelDiagonalMm) / 1.5)),
    rear: sizes.rear - reading.rearMm,
    front: sizes.front + measures.lengthMm - reading.frontMm,
    heelHalf: Math.max(0, sizes.heelHalf + 0.5 * (measures.heelBreadthMm - reading.heelBreadthMm)),
    ballRise: sizes.ballRise + reading.floorMm - reading.ballFloorMm,
    toeRise: sizes.toeRise + reading.floorMm - reading.toeFloorMm,
  };
}

/** A size times a share, within what still looks like a foot: measures that no foot has are met as nearly as that allows. */
function adjust(size: number, share: number): number {
  return Math.min(2, Math.max(0.4, size * Math.min(1.25, Math.max(0.8, share))));
}

function worstError(measures: CompleteMeasures, { girths, frontMm, rearMm, heelBreadthMm, floorMm, ballFloorMm, toeFloorMm }: FormReading): number {
  const shares = [
    girths.ballGirthMm / measures.ballGirthMm, girths.ankleGirthMm / measures.ankleGirthMm, girths.calfGirthMm / measures.calfGirthMm,
    girths.heelDiagonalMm / measures.heelDiagonalMm, frontMm / measures.lengthMm, 1 + rearMm / measures.lengthMm, heelBreadthMm / measures.heelBreadthMm,
  ];
  const sole = Math.max(Math.abs(ballFloorMm - floorMm), Math.abs(toeFloorMm - floorMm)) / CLOSE_SOLE_MM * CLOSE;
  return Math.max(sole, ...shares.map((share) => Math.abs(share - 1)));
}

function describeForm(measures: CompleteMeasures, looks: FootLooks, laid: LaidFoot, reading: FormReading): Omit<FootForm, keyof ConeBody> {
  const { lengthMm } = measures, { girths, tapes, floorMm, frontMm, rearMm, heelBreadthMm, tip } = reading;
  return {
    measures, looks, girths, tapes, cones: laid.cones, floorMm, heelBreadthMm,
    lengthMm: frontMm - rearMm,
    ankleMm: laid.ankle[2], calfMm: laid.calf[2], toeMm: tip[2], toeAsideMm: tip[1], heelMm: laid.heel[0], ballMm: 0.5 * (laid.innerBall[0] + laid.outerBall[0]),
    turn: [FORM.turnX * lengthMm, FORM.turnHeight * lengthMm - laid.heelRadius],
  };
}
