import { firstRates } from '../panel/toe-schedule.ts';
import type { Plan } from '../plan/plan-types.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { planSock } from '../plan/plan-sock.ts';
import { withField } from '../plan/with-field.ts';
import { pageWords } from '../words/page-words.ts';
import { DEFAULTS, HELD_AT_LEAST, LEAST_TIP, LEAST_TURN_DOWN } from '../plan/defaults.ts';

/** A sock that differs from the present one in one thing, to be compared with it. */
export interface SockVariant {
  /** What its button says. */
  readonly label: string;
  readonly file: SockFile;
}

/** A plateau that shows, stitches that make a heel broader, and a toe's slant that shows; chosen by eye. */
const PLATEAU_PASSES = 4, BROADER_STITCHES = 4, SLANT_STITCHES = 4;
/** Of a gauge that is drawn tighter, how many stitches more in 10 cm. */
const TIGHTER_STITCHES = 1;
/** Girths of a foot that swells in the course of a day, over those in the file; chosen by eye. */
const SWOLLEN = 1.05;
const SWELLING_GIRTHS = ['ballGirthMm', 'heelDiagonalMm', 'ankleGirthMm', 'calfGirthMm'] as const;

/** The usual questions at the machine: which toe, how deep a heel, how broad, what if I knit tighter. */
export function suggestVariants(file: SockFile, plan: Plan): readonly SockVariant[] {
  const { variants, names } = pageWords().compare;
  const widths = [plan.turnDownWidth - 2, plan.turnDownWidth + 2].filter((width) => width >= LEAST_TURN_DOWN && width <= widestTurnDown(plan));
  return [
    otherToe(file, plan),
    ...widths.map((width) => ({ label: variants.turnedDown(width, width < plan.turnDownWidth), file: turnedDownTo(file, plan, width) })),
    ...otherShapings(file, plan),
    ...onSwollenFoot(file, plan),
    { label: variants.tighterAnew, file: tighter(file, plan, names.tighterAnew) },
    { label: variants.tighterSame, file: tighter(withCounts(file, plan), plan, names.tighterSame) },
  ];
}

export function widestTurnDown(plan: Plan): number {
  return plan.heelStitches - HELD_AT_LEAST;
}

/** The toe stays: its tip would follow the heel where the file does not say it. */
export function turnedDownTo(file: SockFile, plan: Plan, width: number): SockFile {
  return named(withField(withField(file, 'heel.turnDownWidth', width), 'toe.tipStitches', plan.toeTipStitches), plan, pageWords().compare.names.turnedDown(width));
}

function otherToe(file: SockFile, plan: Plan): SockVariant {
  const kind = plan.toeKind === 'decreased' ? 'short-row' : 'decreased', { variants, names } = pageWords().compare;
  const changed = withField(file, 'toe.kind', kind), tip = file.toe?.tipStitches;
  // A tip that only the other toe can have goes back to the plan.
  const fitting = tip !== undefined && tip < LEAST_TIP[kind] ? withField(changed, 'toe.tipStitches', undefined) : changed;
  return { label: variants.toe[kind], file: named(fitting, plan, names.toe[kind]) };
}

/** The same sock where it has to give more; nothing where no girth is known that could swell. */
function onSwollenFoot(file: SockFile, plan: Plan): readonly SockVariant[] {
  const girths = SWELLING_GIRTHS.flatMap((name) => (file.foot?.[name] === undefined ? [] : [[name, file.foot[name]] as const]));
  if (girths.length === 0) return [];
  const swollen = girths.reduce((changed, [name, girthMm]) => withField(changed, `foot.${name}`, Number((SWOLLEN * girthMm).toFixed(1))), withCounts(file, plan));
  return [{ label: pageWords().compare.variants.swollen(Math.round(100 * (SWOLLEN - 1))), file: named(swollen, plan, pageWords().compare.names.swollen) }];
}

/** One more way to shape each part, where it has not been taken yet and can be knitted. */
function otherShapings(file: SockFile, plan: Plan): readonly SockVariant[] {
  const { variants, names } = pageWords().compare;
  const isPlain = plan.toeKind === 'decreased' && (file.toe?.schedule ?? []).length === 0, heel = plan.heelStitches + BROADER_STITCHES;
  // The toe stays as it is: its tip would follow a broader heel.
  const broader = withField(withField(file, 'heel.stitches', heel), 'toe.tipStitches', plan.toeTipStitches);
  const round = withField(withField(file, 'toe.tipStitches', undefined), 'toe.schedule', firstRates(plan));
  return [
    ...(plan.plateauPasses === 0 ? [{ label: variants.plateau(PLATEAU_PASSES), file: named(withField(file, 'heel.plateauPasses', PLATEAU_PASSES), plan, names.plateau) }] : []),
    ...(plan.heelStitches === plan.bedStitches ? [{ label: variants.broader(heel, plan.stitches), file: named(broader, plan, names.broader(heel)) }] : []),
    ...(isPlain && plan.passesPerDecrease > 2 ? [{ label: variants.rounder, file: named(round, plan, names.rounder) }] : []),
    ...(isPlain && plan.toeSlantStitches === 0 ? [{ label: variants.slanted(SLANT_STITCHES), file: named(withField(file, 'toe.slantStitches', SLANT_STITCHES), plan, names.slanted) }] : []),
  ].filter((variant) => planSock(variant.file).plan !== null);
}

/** More rows too, so that a stitch keeps its proportions. */
function tighter(file: SockFile, plan: Plan, how: string): SockFile {
  const { stitchesPer10cm, rowsPer10cm } = file.gauge, stitches = stitchesPer10cm + TIGHTER_STITCHES;
  const rows = Number(((rowsPer10cm * stitches) / stitchesPer10cm).toFixed(1));
  return named(withField(withField(file, 'gauge.stitchesPer10cm', stitches), 'gauge.rowsPer10cm', rows), plan, how);
}

/** All counts fixed as they are: what comes off the machine when only the hand changes. */
function withCounts(file: SockFile, plan: Plan): SockFile {
  const counts: readonly (readonly [string, number])[] = [
    ['counts.stitches', plan.stitches], ['counts.legPasses', plan.legPasses], ['counts.anklePasses', plan.anklePasses], ['counts.footPasses', plan.footPasses],
    ['heel.turnDownWidth', plan.turnDownWidth], ['toe.tipStitches', plan.toeTipStitches],
  ];
  return counts.reduce((changed, [field, count]) => withField(changed, field, count), file);
}

function named(file: SockFile, plan: Plan, what: string): SockFile {
  return { ...file, name: `${plan.name === '' ? DEFAULTS.name : plan.name}, ${what}` };
}
