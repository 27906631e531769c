import { shoeSizeLimits } from './check-sizing.ts';
import { DEFAULTS, HELD_AT_LEAST, LEAST_TIP } from './defaults.ts';
import { planSock } from './plan-sock.ts';
import type { Plan } from './plan-types.ts';
import type { SockFile } from './sock-file.ts';
import { numberRuleAt } from './sock-schema.ts';
import { withField } from './with-field.ts';

export interface ControlRange {
  readonly min: number;
  readonly max: number;
  readonly step: number;
}

/** Steps of the number controls; counts step by what keeps them lawful. */
const STEPS = {
  'gauge.stitchesPer10cm': 0.5,
  'gauge.rowsPer10cm': 0.5,
  'gauge.ribWidthFactor': 0.01,
  'foot.lengthMm': 1,
  'foot.shoeSize.value': 0.5,
  'foot.ballGirthMm': 1,
  'foot.heelDiagonalMm': 1,
  'foot.ankleGirthMm': 1,
  'foot.calfGirthMm': 1,
  'foot.heelBreadthMm': 1,
  'ease.girthPercent': 1,
  'ease.lengthPercent': 1,
  'leg.lengthMm': 1,
  'heel.stitches': 2,
  'heel.turnDownWidth': 2,
  'heel.plateauPasses': 2,
  'toe.passesPerDecrease': 2,
  'toe.slantStitches': 2,
  'toe.tipStitches': 2,
  'counts.stitches': 4,
  'counts.legPasses': 1,
  'counts.anklePasses': 2,
  'counts.footPasses': 2,
  'machine.needlesPerBed': 1,
  'machine.needlePitchMm': 0.1,
} as const;

/** Dotted path of a number field that a control may change. */
export type ControlPath = keyof typeof STEPS;
export const CONTROL_PATHS = Object.keys(STEPS) as readonly ControlPath[];

/** Controls whose value decides whether the sock is possible at all; the others keep the file's own limits. */
const BOUND_BY_PLAN: ReadonlySet<ControlPath> = new Set([
  'gauge.stitchesPer10cm', 'gauge.rowsPer10cm', 'foot.lengthMm', 'foot.shoeSize.value', 'foot.ballGirthMm',
  'ease.girthPercent', 'ease.lengthPercent', 'heel.stitches', 'heel.turnDownWidth', 'heel.plateauPasses',
  'toe.passesPerDecrease', 'toe.slantStitches', 'toe.tipStitches', 'counts.stitches', 'counts.legPasses', 'counts.anklePasses', 'leg.lengthMm',
  'machine.needlesPerBed',
]);

type Fields = Readonly<Record<string, unknown>>;

function fieldAt(file: Readonly<SockFile>, path: string): unknown {
  let value: unknown = file;
  for (const key of path.split('.')) value = (value as Fields | undefined)?.[key];
  return value;
}

/** What a control shows: the file's own number, else the plan's, else none. */
function presentValue(file: Readonly<SockFile>, plan: Plan, path: ControlPath): number | null {
  const given = fieldAt(file, path);
  if (typeof given === 'number') return given;
  switch (path) {
    case 'heel.stitches': return plan.heelStitches;
    case 'heel.turnDownWidth': return plan.turnDownWidth;
    case 'heel.plateauPasses': return plan.plateauPasses;
    case 'toe.passesPerDecrease': return plan.passesPerDecrease;
    case 'toe.slantStitches': return plan.toeSlantStitches;
    case 'toe.tipStitches': return plan.toeTipStitches;
    case 'counts.stitches': return plan.stitches;
    case 'counts.legPasses': return plan.legPasses;
    case 'counts.anklePasses': return plan.anklePasses;
    case 'leg.lengthMm': return DEFAULTS.legLengthMm;
    case 'ease.girthPercent': return DEFAULTS.girthEasePercent;
    case 'ease.lengthPercent': return DEFAULTS.lengthEasePercent;
    case 'machine.needlesPerBed': return plan.needlesPerBed;
    default: return null;
  }
}

/** The file's limits, and those that follow from the plan alone. */
function formRange(file: Readonly<SockFile>, plan: Plan | null, path: ControlPath): ControlRange {
  const { min, max } = numberRuleAt(path);
  const step = STEPS[path];
  const shoe = file.foot?.shoeSize;
  if (path === 'foot.shoeSize.value' && shoe !== undefined) return { ...shoeSizeLimits(shoe.system), step: shoe.system === 'mondopoint' ? 5 : step };
  if (path === 'counts.legPasses' && file.leg?.kind === 'tube') return { min, max, step: 2 };
  if (plan === null) return { min, max, step };
  if (path === 'heel.turnDownWidth') return { min, max: plan.heelStitches - HELD_AT_LEAST, step };
  if (path === 'toe.tipStitches') return { min: LEAST_TIP[plan.toeKind], max: plan.bedStitches - HELD_AT_LEAST, step };
  return { min, max, step };
}

/**
 * The possible value farthest from `inside` towards `outside`, on the grid that `outside` is on.
 * What is possible is taken to be one stretch, so bisection finds its end.
 */
function farthestPossible(inside: number, outside: number, step: number, isPossible: (value: number) => boolean): number {
  if (inside === outside || isPossible(outside)) return outside;
  const towards = Math.sign(inside - outside) * step;
  const at = (i: number): number => Number((outside + i * towards).toFixed(6));
  let impossible = 0;
  let possible = Math.ceil(Math.abs(inside - outside) / step - 1e-9);
  while (possible - impossible > 1) {
    const middle = (possible + impossible) >> 1;
    if (isPossible(at(middle))) possible = middle;
    else impossible = middle;
  }
  const last = at(possible);
  // The nearest place on the grid may lie beyond `inside`.
  return Math.abs(last - outside) > Math.abs(inside - outside) ? inside : last;
}

/**
 * What each control may take while all others stay as they are: `planSock` finds a sock at both
 * ends and, where the possible values are one stretch, between them. For a file that has no plan,
 * the file's own limits.
 */
export function rangesFor(file: Readonly<SockFile>): Readonly<Record<ControlPath, ControlRange>> {
  const { plan } = planSock(file);
  const entries = CONTROL_PATHS.map((path): [ControlPath, ControlRange] => {
    const form = formRange(file, plan, path);
    if (plan === null || !BOUND_BY_PLAN.has(path)) return [path, form];
    const value = presentValue(file, plan, path);
    if (value === null) return [path, form];
    const { step } = form;
    const isPossible = (tried: number): boolean => planSock(withField(file, path, tried)).plan !== null;
    // The upper end lies on the lower one's grid, so that every step from one reaches the other.
    const top = form.min + Math.floor((form.max - form.min) / step + 1e-9) * step;
    return [path, {
      min: farthestPossible(value, form.min, step, isPossible),
      max: farthestPossible(value, Math.max(top, value), step, isPossible),
      step,
    }];
  });
  return Object.fromEntries(entries) as Record<ControlPath, ControlRange>;
}
