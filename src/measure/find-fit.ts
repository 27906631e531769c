import { SECTION } from '../machine/codes.ts';
import type { FitAnswer, FitVerdict, WornSummary } from './fit-answer.ts';
import { judgePressure } from './judge-pressure.ts';
import { findOpening } from './knit-opening.ts';
import { measureRest } from './measure-rest.ts';
import { ballGirthOf, isAtAnkle, meanOf } from './worn-sock.ts';
import type { WornSock } from './worn-sock.ts';

export interface WornMaps {
  readonly vertexPressureMmHg: Float64Array;
  readonly vertexGapMm: Float64Array;
  /** Of each vertex's cloth as it lies, mm^2. */
  readonly areas: Float64Array;
  readonly summary: WornSummary;
}

/** Share of what loops can open to that goes on easily; beyond it is a struggle, beyond all of it loops jam. `chosen by eye`. */
const EASY_OPENING = 0.85;

/**
 * The heel's marked line over the foot's girth in stretch. At 30 x 42 stitches in 10 cm, turned down to a
 * third, it is 1.09 on a mean foot (geometry, and the survey's 1.363), and such socks are worn: up to 1.1
 * counts as seated; where the line stretches less than the foot there is more pouch than heel. Where it
 * gets poor is `chosen by eye`, so that a high instep's 1.447 over the same heel, 1.16, is told so.
 */
const HEEL_STRETCH = { least: 0.95, seated: 1.1, most: 1.15 } as const;

/** Stretch of the foot round the ball, %: the trade goes from 0 to 25 (common practice: 10 % smaller, ribs to 25); beyond is `chosen by eye`. */
const GIRTH = { folds: -5, loose: 0, snug: 25, tight: 35 } as const;

/** Foot of the sock over the foot's length, %: as the foot or a little less (common practice); figures `chosen by eye`. */
const LENGTH = { shortPoor: -8, short: -4, long: 2, longPoor: 6 } as const;

/** Cloth beyond the toes, mm, and pressure on them, mmHg, from where on it is worth knowing, or a reason to change the sock; `chosen by eye`. */
const TOE = { room: 6, folds: 14, firm: 6, presses: 12 } as const;
/** The toes: cloth as far back from the tip as this counts. A share of the foot's length. */
const TOE_TIP = 0.04;

/** Mean gap round the ankle, mm; `chosen by eye`: a fold of cloth is about 4 mm high. */
const ANKLE_GAP = { mind: 2, poor: 5 } as const;

const MODEL = 'A smooth foot at rest and cloth of middling stiffness: a guide, not a fitting.';

/** Answers to the questions of a person who is to wear the sock, in the order of FIT_QUESTIONS. Lengths in mm. */
export function findFit(sock: WornSock, maps: WornMaps): FitAnswer[] {
  const top = answerTop(maps);
  return [answerOverHeel(sock), answerHeel(sock, maps), answerFootGirth(sock), answerFootLength(sock), answerToe(sock, maps), answerAnkle(sock, maps), top]
    .filter((answer) => answer !== null);
}

/** The sock's narrowest girth on the way is its tube, rib or plain: both open to as many loops side by side. */
function answerOverHeel({ plan, foot }: WornSock): FitAnswer {
  const tubeMm = plan.stitches / plan.stitchesPerMm, diagonalMm = foot.girths.heelDiagonalMm, opening = findOpening(plan);
  const needed = diagonalMm / tubeMm, value = 100 * (needed - 1);
  const verdict: FitVerdict = needed <= 1 + EASY_OPENING * (opening - 1) ? 'good' : needed <= opening ? 'mind' : 'poor';
  const answer = { good: 'It goes over the heel', mind: 'It goes over the heel with a struggle', poor: 'It does not go over the heel' }[verdict];
  return {
    question: 'over-heel', verdict, answer, value, unit: '%',
    because: `It must open by ${percent(value)}, from ${mm(tubeMm)} to the ${mm(diagonalMm)} round heel and instep, and can by ${percent(100 * (opening - 1))}.`,
    basis: `How far knitting opens follows from the geometry of its loops (Peirce), until they jam; ${percent(100 * EASY_OPENING)} of that counts as easy (chosen by eye). A tight cast-on opens less.`,
  };
}

function answerHeel(sock: WornSock, { summary }: WornMaps): FitAnswer | null {
  const { plan } = sock, ratio = summary.heelToFootStretch, rest = measureRest(plan);
  if (ratio === null || rest.heelDiagonalMm === null || rest.heelDepthMm === null) return null;
  // One row more of depth, a stitch less of short base: both mitres grow.
  const a = 1 / plan.stitchesPerMm, b = 1 / plan.rowsPerMm, lineForDepth = (2 * Math.sqrt(a * a / 4 + b * b) - a) / b;
  const lacking = (wanted: number): number => rest.heelDiagonalMm === null ? 0 : rest.heelDiagonalMm * (ratio / wanted - 1) / lineForDepth;
  const value = ratio > HEEL_STRETCH.seated ? lacking(HEEL_STRETCH.seated) : ratio < HEEL_STRETCH.least ? lacking(HEEL_STRETCH.least) : 0;
  const verdict: FitVerdict = value === 0 ? 'good' : ratio > HEEL_STRETCH.most ? 'poor' : 'mind';
  const answer = value === 0 ? 'The heel is seated' : value > 0 ? `The heel is too shallow by ${mm(value)}` : `The heel is deeper than needed by ${mm(-value)}`;
  return {
    question: 'heel', verdict, answer, value, unit: 'mm',
    because: `Over heel and instep the cloth is drawn ${ratio >= 1 ? `${percent(100 * (ratio - 1))} further` : `${percent(100 * (1 - ratio))} less far`} than round the ball. ${tellPouch(sock)}`,
    basis: `Up to ${percent(100 * (HEEL_STRETCH.seated - 1))} further is what a usual short-row heel asks of a mean foot (geometry, and a survey's feet), and counts as seated; ${mm(Math.abs(lacking(1)))} ${lacking(1) >= 0 ? 'more' : 'less'} depth would stretch both alike.`,
  };
}

/** Where the middle of the short base lies on the way from the leg's back to the sole. */
function tellPouch({ fabric, foot, positions }: WornSock): string {
  const base = fabric.marks?.baseMiddle;
  if (base === undefined || base.a.length === 0) return '';
  const [a, b, t] = [3 * base.a[0], 3 * base.b[0], base.t[0]], at = (d: number): number => (1 - t) * positions[a + d] + t * positions[b + d];
  const s = Math.SQRT1_2, [x, z] = foot.turn;
  // Down and back by 45 degrees from where heels turn is the heel's tip: how far beside that line?
  const towardsSole = (at(0) - x) * s - (at(2) - z) * s;
  if (Math.abs(towardsSole) < 3) return 'Its pouch sits on the heel\'s tip.';
  return `The middle of its pouch lies ${mm(Math.abs(towardsSole))} ${towardsSole > 0 ? 'under the sole' : 'up the leg'} from the heel's tip.`;
}

function answerFootGirth({ plan, foot, fabric, positions }: WornSock): FitAnswer | null {
  const wornMm = ballGirthOf(fabric, foot, positions);
  if (wornMm === null) return null;
  const restMm = plan.stitches / plan.stitchesPerMm, value = 100 * (foot.girths.ballGirthMm / restMm - 1);
  const words: readonly [FitVerdict, string] = value < GIRTH.folds ? ['poor', `The foot is ${mm(restMm - foot.girths.ballGirthMm)} too wide and lies in folds`]
    : value < GIRTH.loose ? ['mind', 'The foot is loose']
    : value <= GIRTH.snug ? ['good', 'The foot is snug']
    : [value <= GIRTH.tight ? 'mind' : 'poor', `The foot is tight: ${mm(foot.girths.ballGirthMm - restMm)} less than the ball`];
  return {
    question: 'foot-girth', verdict: words[0], answer: words[1], value, unit: '%',
    because: `${mm(restMm)} round at rest, on a ball of ${mm(foot.girths.ballGirthMm)}: ${value >= 0 ? `stretched by ${percent(value)}` : `${percent(-value)} too wide`}.`,
    basis: `Usual is ${percent(GIRTH.loose)} to ${percent(GIRTH.snug)} of stretch (common practice); worn, the cloth goes round the ball in ${mm(wornMm)}.`,
  };
}

function answerFootLength({ plan, foot }: WornSock): FitAnswer | null {
  const restMm = measureRest(plan).footLengthMm, lengthMm = foot.measures.lengthMm;
  if (restMm === null) return null;
  const value = restMm - lengthMm, share = 100 * value / lengthMm;
  const verdict: FitVerdict = share < LENGTH.shortPoor || share > LENGTH.longPoor ? 'poor' : share < LENGTH.short || share > LENGTH.long ? 'mind' : 'good';
  const answer = verdict === 'good' ? 'The foot is long enough' : `The foot is ${mm(Math.abs(value))} too ${value < 0 ? 'short' : 'long'}`;
  return {
    question: 'foot-length', verdict, answer, value, unit: 'mm',
    because: `${mm(restMm)} from heel to toe at rest, on a foot of ${mm(lengthMm)}.`,
    basis: `As long as the foot, or a little less, is usual (common practice); up to ${percent(-LENGTH.short)} less and ${percent(LENGTH.long)} more counts as that (chosen by eye).`,
  };
}

function answerToe({ fabric, foot, positions, clearanceMm }: WornSock, { vertexPressureMmHg, areas }: WornMaps): FitAnswer | null {
  const { lengthMm } = foot.measures;
  let foremost = -Infinity;
  for (let v = 0; v < fabric.vertexCount; v++) if (fabric.vertexSection[v] >= SECTION.foot) foremost = Math.max(foremost, positions[3 * v]);
  const pressure = meanOf(vertexPressureMmHg, areas, (v) => fabric.vertexSection[v] >= SECTION.toe && positions[3 * v] > (1 - TOE_TIP) * lengthMm) ?? 0;
  if (!Number.isFinite(foremost)) return null;
  const value = Math.max(0, foremost - clearanceMm - lengthMm);
  const verdict: FitVerdict = value > TOE.folds || pressure > TOE.presses ? 'poor' : value > TOE.room || pressure > TOE.firm ? 'mind' : 'good';
  const answer = pressure > TOE.firm ? 'The toes are pressed' : value > TOE.room ? `${mm(value)} of cloth hangs over the toes` : 'The toes have room';
  return {
    question: 'toe', verdict, answer, value, unit: 'mm',
    because: `The cloth reaches ${mm(value)} beyond the toes and presses their tips with ${mmHg(pressure)}.`,
    basis: `Loose folds chafe in a shoe, pressure adds to the shoe's; from ${mm(TOE.room)}, or ${mmHg(TOE.firm)} on average, it is worth knowing (chosen by eye).`,
  };
}

function answerAnkle(sock: WornSock, { vertexGapMm, areas, summary }: WornMaps): FitAnswer | null {
  const value = meanOf(vertexGapMm, areas, (v) => isAtAnkle(sock, v));
  if (value === null || summary.anklePressureMmHg === null) return null;
  const pressure = summary.anklePressureMmHg, { word, verdict: tightness, warning } = judgePressure(pressure);
  const because = `Round the ${mm(sock.foot.girths.ankleGirthMm)} above the ankle bones the cloth presses with ${mmHg(pressure)}`;
  const basis = `Means round the ankle's least girth; up to ${mm(ANKLE_GAP.mind)} off counts as close (chosen by eye).`;
  if (warning !== null) return { question: 'ankle', verdict: tightness, answer: `The ankle is ${word}: about ${mmHg(pressure)}`, value: pressure, unit: 'mmHg', because: `${because}. ${warning}`, basis };
  const verdict: FitVerdict = value > ANKLE_GAP.poor ? 'poor' : value > ANKLE_GAP.mind ? 'mind' : 'good';
  const answer = verdict === 'good' ? 'The ankle lies close' : `The ankle stands off by ${mm(value)} on average`;
  return { question: 'ankle', verdict, answer, value, unit: 'mm', because: `${because} and ${value < 0.5 ? 'lies on the skin' : `stands off by ${mm(value)}`}.`, basis };
}

function answerTop({ summary }: WornMaps): FitAnswer | null {
  const value = summary.topPressureMmHg;
  if (value === null) return null;
  const { word, verdict, warning } = judgePressure(value);
  return {
    question: 'top', verdict, answer: `Top of the leg: about ${mmHg(value)}, ${word}`, value, unit: 'mmHg',
    because: warning ?? 'Well below medical compression, which begins at 14 to 18 mmHg.',
    basis: `Worked out from the cloth's tension and curvature (Laplace), with stiffnesses from published ranges, which end at 17 % of stretch: yours may press half as hard, or twice. ${MODEL}`,
  };
}

const mm = (value: number): string => `${value.toFixed(0)} mm`;
const mmHg = (value: number): string => `${value < 10 ? value.toFixed(1) : value.toFixed(0)} mmHg`;
const percent = (value: number): string => `${value.toFixed(0)} %`;
