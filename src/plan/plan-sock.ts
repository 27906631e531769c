import type { Problem } from '../base/problem.ts';
import { per10cmToPerMm } from '../base/unit.ts';
import { checkCounts } from './check-counts.ts';
import { checkFootMeasures } from './check-foot.ts';
import { checkSock } from './check-sock.ts';
import { DEFAULTS } from './defaults.ts';
import type { Counts } from './plan-counts.ts';
import { workCounts } from './plan-counts.ts';
import { planFoot, UNKNOWN_FOOT } from './plan-foot.ts';
import { planToeSteps, scheduleOf } from './plan-toe.ts';
import type { Derivation, Plan, PlannedFoot } from './plan-types.ts';
import { planYarns } from './plan-yarns.ts';
import type { Bed, FootSide, SockFile } from './sock-file.ts';
import type { Side } from './step.ts';

export interface PlannedSock {
  /** Null when it cannot be knitted: then `problems` says why. Measures that cannot be of one foot are told there too, beside a plan. */
  readonly plan: Plan | null;
  /** One for each count; empty when the file itself is wrong. */
  readonly derivations: readonly Derivation[];
  readonly foot: PlannedFoot;
  readonly problems: readonly Problem[];
}

const otherBed = (bed: Bed): Bed => (bed === 'front' ? 'back' : 'front');

/**
 * The end of the beds on which a foot's little toe lies. Heel and sole are on the heel bed and the toes
 * come last: seen from outside, a front bed from before and a back bed from behind, it shows the sole with
 * the toes up, and there a right foot has its little toe on the left.
 */
function findOuterSide(foot: FootSide, heelBed: Bed): Side {
  return (foot === 'right') === (heelBed === 'front') ? 'left' : 'right';
}

function planMachine({ machine }: SockFile): Pick<Plan, 'needlesPerBed' | 'needlePitchMm'> {
  return { needlesPerBed: machine?.needlesPerBed ?? DEFAULTS.needlesPerBed, needlePitchMm: machine?.needlePitchMm ?? DEFAULTS.needlePitchMm };
}

function completePlan(file: SockFile, counts: Counts): Plan {
  const { gauge, leg, heel, toe } = file;
  const legKind = leg?.kind ?? DEFAULTS.legKind;
  const gatherBed = leg?.gatherBed ?? DEFAULTS.gatherBed;
  const toeKind = toe?.kind ?? DEFAULTS.toeKind;
  // The turned bed; a tube leg turns no work and its heel lies on the front.
  const heelBed = legKind === 'tube' ? 'front' : otherBed(gatherBed);
  return {
    name: file.name ?? DEFAULTS.name,
    stitchesPerMm: per10cmToPerMm(gauge.stitchesPer10cm),
    rowsPerMm: per10cmToPerMm(gauge.rowsPer10cm),
    ribWidthFactor: gauge.ribWidthFactor ?? DEFAULTS.ribWidthFactor,
    ...counts,
    legKind,
    gatherBed,
    heelBed,
    heelWraps: heel?.wraps ?? DEFAULTS.heelWraps,
    toeKind,
    toeSteps: planToeSteps({ ...counts, toeKind }, scheduleOf(file)),
    outerSide: findOuterSide(file.foot?.side ?? DEFAULTS.footSide, heelBed),
    closing: toe?.closing ?? DEFAULTS.closing,
    firmness: file.cloth?.firmness ?? DEFAULTS.firmness,
    yarns: planYarns(file),
    ...planMachine(file),
  };
}

/**
 * Sock file to counts. Whatever the file is, a plan or every reason why there is none; counts that
 * are fixed by hand are refused rather than changed.
 */
export function planSock(given: Readonly<SockFile>): PlannedSock {
  const { file, problems: formProblems } = checkSock(given);
  if (file === null) return { plan: null, derivations: [], foot: UNKNOWN_FOOT, problems: formProblems };
  const foot = planFoot(file);
  const { counts, derivations } = workCounts(file, foot);
  const problems = checkCounts(file, foot, counts);
  if (problems.length > 0) return { plan: null, derivations, foot, problems };
  return { plan: completePlan(file, counts), derivations, foot, problems: checkFootMeasures(foot) };
}
