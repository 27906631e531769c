import type { Problem } from '../base/problem.ts';
import { clamp, nearestMultiple } from '../base/round.ts';
import { measureRest } from '../measure/measure-rest.ts';
import { DEFAULTS, HELD_AT_LEAST, LEAST_TIP, LEAST_TURN_DOWN } from '../plan/defaults.ts';
import { lengthFactor, planFoot } from '../plan/plan-foot.ts';
import type { Plan } from '../plan/plan-types.ts';
import { planSock } from '../plan/plan-sock.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { numberRuleAt } from '../plan/sock-schema.ts';
import { withField } from '../plan/with-field.ts';
import { doubtSize, refuseSize } from './check-sizes.ts';
import { knitCost } from './knit-cost.ts';
import type { GradedRow, SizeRow } from './size-table.ts';

/** Choices of a kind of foot and its ease go with every size; measures of the one foot do not. */
const KEPT_OF_FOOT = ['arch', 'toes', 'side'] as const;
/** Counts that follow from a foot and its gauge. The ankle's passes do not, and stay as chosen. */
const DROPPED_COUNTS = ['counts.stitches', 'counts.legPasses', 'counts.footPasses'] as const;

/**
 * One sock in every size: gauge, yarns, ease, kinds of leg, heel and toe as they are. Counts fixed by
 * hand are dropped; turn-down, plateau, heel stitches, tip and slant, where the file says them, keep
 * their share of the heel's stitches (the heel's own, of all stitches), to the nearest even number, ties to the smaller;
 * a toe's rates keep their passes, and their times their share of all decreases. The leg is scaled
 * with the foot's length unless the size has its own. A row that cannot be knitted says why.
 */
export function gradeSock(file: SockFile, sizes: readonly SizeRow[]): GradedRow[] {
  const { plan } = planSock(file);
  return sizes.map((size, place) => {
    const refused = refuseSize(size, place);
    return refused.length > 0 ? { size, sock: null, problems: refused } : gradeRow(file, plan, size, place);
  });
}

function gradeRow(file: SockFile, base: Plan | null, size: SizeRow, place: number): GradedRow {
  const bare = dressFoot(file, base, size), plain = planSock(dropShares(bare)).plan;
  const graded = plain === null ? bare : keepShares(bare, file, base, plain), { plan, problems } = planSock(graded);
  // Beside a plan there are doubts about the foot only.
  const said = [...doubtSize(size, place), ...(plan === null ? problems.map((problem) => atRow(problem, place)) : [])];
  return { size, sock: plan === null ? null : { file: graded, plan, ...knitCost(plan) }, problems: said };
}

/** The file for another foot, without counts by hand. */
function dressFoot(file: SockFile, base: Plan | null, size: SizeRow): SockFile {
  const kept = Object.fromEntries(KEPT_OF_FOOT.flatMap((name) => (file.foot?.[name] === undefined ? [] : [[name, file.foot[name]]])));
  const free = DROPPED_COUNTS.reduce((dropped, field) => (file.counts === undefined ? dropped : withField(dropped, field, undefined)), file);
  const dressed: SockFile = { ...free, name: `${file.name ?? DEFAULTS.name}, ${size.name}`, foot: { ...kept, lengthMm: size.lengthMm, ballGirthMm: size.ballGirthMm } };
  return withField(dressed, 'leg.lengthMm', size.legLengthMm ?? legFor(file, base, size.lengthMm));
}

/** The sock's own leg, longer or shorter as the foot is, to a millimetre. */
function legFor(file: SockFile, base: Plan | null, lengthMm: number): number {
  const own = file.counts?.legPasses !== undefined && base !== null ? measureRest(base).legLengthMm ?? 0 : file.leg?.lengthMm ?? DEFAULTS.legLengthMm;
  const ownFoot = planFoot(file).lengthMm ?? (base === null ? lengthMm : (measureRest(base).footLengthMm ?? lengthMm) / lengthFactor(file));
  const { min, max } = numberRuleAt('leg.lengthMm');
  return clamp(Math.round(own * lengthMm / ownFoot), min, max);
}

const SHARED_FIELDS = ['heel.stitches', 'heel.turnDownWidth', 'heel.plateauPasses', 'toe.tipStitches', 'toe.slantStitches', 'toe.schedule'] as const;

function dropShares(file: SockFile): SockFile {
  return SHARED_FIELDS.reduce((dropped, field) => {
    const [group] = field.split('.') as ['heel' | 'toe'];
    return file[group] === undefined ? dropped : withField(dropped, field, undefined);
  }, file);
}

/** Choices that the file says, at their shares of the new heel. Without a sock to take the shares from they stay as they are. */
function keepShares(bare: SockFile, { heel, toe }: SockFile, base: Plan | null, plain: Plan): SockFile {
  if (base === null) return bare;
  const even = (count: number, whole: number, newWhole: number, least: number, most: number): number => (
    clamp(nearestMultiple(count * newWhole / whole, 2), least, most)
  );
  const bed = plain.stitches / 2, heelStitches = heel?.stitches === undefined ? bed : even(heel.stitches, base.stitches, plain.stitches, bed, plain.stitches);
  let graded = dropShares(bare);
  const set = (field: (typeof SHARED_FIELDS)[number], value: number | undefined): void => {
    if (value !== undefined) graded = withField(graded, field, value);
  };
  if (heel?.stitches !== undefined) set('heel.stitches', heelStitches);
  if (heel?.turnDownWidth !== undefined) set('heel.turnDownWidth', even(heel.turnDownWidth, base.heelStitches, heelStitches, LEAST_TURN_DOWN, heelStitches - HELD_AT_LEAST));
  if (heel?.plateauPasses !== undefined) set('heel.plateauPasses', even(heel.plateauPasses, base.heelStitches, heelStitches, 0, heelStitches));
  const tip = even(base.toeTipStitches, base.bedStitches, bed, LEAST_TIP[base.toeKind], bed - HELD_AT_LEAST);
  if (toe?.tipStitches !== undefined) set('toe.tipStitches', tip);
  if (toe?.slantStitches !== undefined) set('toe.slantStitches', even(toe.slantStitches, base.bedStitches, bed, 0, Math.max(0, bed - tip - 2)));
  return toe?.schedule === undefined ? graded : withField(graded, 'toe.schedule', keepRates(toe.schedule, base, planSock(withField(graded, 'toe.tipStitches', tip)).plan));
}

/** Rates with their passes, and their times scaled to another number of decreases; the last rate makes up what rounding leaves. */
function keepRates(schedule: NonNullable<NonNullable<SockFile['toe']>['schedule']>, base: Plan, plain: Plan | null): typeof schedule {
  if (plain === null || base.toeDecreases === 0) return schedule;
  let left = plain.toeDecreases;
  return schedule.flatMap(({ passes, times }, i) => {
    const share = i === schedule.length - 1 ? left : Math.min(left, Math.round(times * plain.toeDecreases / base.toeDecreases));
    left -= share;
    return share > 0 ? [{ passes, times: share }] : [];
  });
}

/** A problem of a sock file, at the row's field that it comes from. */
function atRow(problem: Problem, place: number): Problem {
  const field = problem.field ?? '', row = `sizes.${place}`;
  if (field === 'foot.lengthMm' || field === 'counts.footPasses') return { ...problem, field: `${row}.lengthMm` };
  if (field === 'foot.ballGirthMm' || field === 'counts.stitches' || field.startsWith('machine.')) return { ...problem, field: `${row}.ballGirthMm` };
  if (field.startsWith('leg.') || field === 'counts.legPasses') return { ...problem, field: `${row}.legLengthMm` };
  return OF_ALL_ROWS.test(field) ? problem : { ...problem, field: row };
}

/** What no size can mend. */
const OF_ALL_ROWS = /^(?:gauge|ease|yarns|cloth|heelwright|name)\b/;
