import { nearestMultiple, roundTiesDown } from '../base/round.ts';
import { formatNumber, per10cmToPerMm } from '../base/unit.ts';
import { DEFAULTS, LEAST_TURN_DOWN } from './defaults.ts';
import { girthFactor, lengthFactor } from './plan-foot.ts';
import { workTip, workToe } from './plan-toe.ts';
import type { Worked } from './plan-toe.ts';
import type { Derivation, PlannedFoot } from './plan-types.ts';
import type { SockFile } from './sock-file.ts';

/** The counts of a plan that are worked out, in the order of working. */
export type Counts = Readonly<Record<CountName, number>>;
type CountName =
  | 'stitches' | 'bedStitches' | 'heelStitches' | 'legPasses' | 'plainPasses' | 'anklePasses'
  | 'turnDownWidth' | 'plateauPasses' | 'heelPasses'
  | 'passesPerDecrease' | 'toeSlantStitches' | 'toeTipStitches' | 'toeDecreases' | 'toePasses' | 'footPasses';

export interface CountedSock {
  readonly counts: Counts;
  readonly derivations: readonly Derivation[];
}

const FIXED = 'fixed by hand';
const STITCH_STEP = 4;
const BED_STEP = 2;

const mm = (value: number): string => `${formatNumber(value, 1)} mm`;
/** 0.90, and 0.875 where two decimals would not do. */
const factor = (value: number): string => value.toFixed(Math.abs(value * 100 - Math.round(value * 100)) < 1e-9 ? 2 : 3);
const perMm = (perMmValue: number, unit: 'st' | 'rows'): string => `${perMmValue.toFixed(3)} ${unit}/mm`;

function workStitches(file: SockFile, foot: PlannedFoot): Worked {
  const { ballGirthMm, wantedGirthMm } = foot;
  // Checked before: without a girth the stitches are fixed by hand.
  if (ballGirthMm === null || wantedGirthMm === null) return { value: 0, formula: '' };
  const gauge = per10cmToPerMm(file.gauge.stitchesPer10cm);
  const exact = wantedGirthMm * gauge;
  return {
    value: nearestMultiple(exact, STITCH_STEP),
    formula: `${mm(ballGirthMm)} x ${factor(girthFactor(file))} x ${perMm(gauge, 'st')} = ${formatNumber(exact, 1)}, nearest multiple of ${STITCH_STEP}`,
  };
}

function workLeg(file: SockFile): Worked {
  const gauge = per10cmToPerMm(file.gauge.rowsPer10cm);
  const lengthMm = file.leg?.lengthMm ?? DEFAULTS.legLengthMm;
  const exact = lengthMm * gauge;
  const rows = roundTiesDown(exact);
  const product = `${mm(lengthMm)} x ${perMm(gauge, 'rows')} = ${formatNumber(exact, 1)}`;
  return (file.leg?.kind ?? DEFAULTS.legKind) === 'tube'
    ? { value: 2 * rows, formula: `${product}, nearest whole round: ${rows} x 2 passes` }
    : { value: rows, formula: `${product}, nearest whole row` };
}

function workTurnDown(heelStitches: number): Worked {
  const third = heelStitches / 3;
  return {
    value: Math.max(LEAST_TURN_DOWN, nearestMultiple(third, BED_STEP)),
    formula: `${heelStitches} / 3 = ${formatNumber(third, 2)}, nearest even number, at least ${LEAST_TURN_DOWN}`,
  };
}

function workFoot(file: SockFile, foot: PlannedFoot, heelRows: number, toeRows: number): Worked {
  const { lengthMm, wantedLengthMm } = foot;
  // Checked before: without a length the foot passes are fixed by hand.
  if (lengthMm === null || wantedLengthMm === null) return { value: 0, formula: '' };
  const gauge = per10cmToPerMm(file.gauge.rowsPer10cm);
  const exact = gauge * wantedLengthMm - heelRows - toeRows;
  const rounds = roundTiesDown(exact);
  return {
    value: 2 * rounds,
    formula: `${mm(lengthMm)} x ${factor(lengthFactor(file))} x ${perMm(gauge, 'rows')} - ${heelRows} heel rows - ${toeRows} toe rows = ${formatNumber(exact, 1)}, nearest whole round: ${rounds} x 2 passes`,
  };
}

/**
 * Every count of a checked file with its formula; counts fixed by hand stand as they are. The
 * counts may be impossible (see `checkCounts`). Formulas: README, table of counts.
 */
export function workCounts(file: SockFile, foot: PlannedFoot): CountedSock {
  const derivations: Derivation[] = [];
  const record = (count: CountName, fixed: number | undefined, worked: Worked): number => {
    const value = fixed ?? worked.value;
    derivations.push({ count, value, formula: fixed === undefined ? worked.formula : FIXED, isFixedByHand: fixed !== undefined });
    return value;
  };
  const { counts: fixed, heel, toe } = file;

  const stitches = record('stitches', fixed?.stitches, workStitches(file, foot));
  const bedStitches = record('bedStitches', undefined, { value: stitches / 2, formula: `${stitches} / 2` });
  const heelStitches = record('heelStitches', heel?.stitches, { value: bedStitches, formula: `${stitches} / 2` });
  const legPasses = record('legPasses', fixed?.legPasses, workLeg(file));
  const plainPasses = record('plainPasses', undefined, file.leg?.kind === 'tube'
    ? { value: 0, formula: 'none after a tube leg' }
    : { value: DEFAULTS.plainPasses, formula: `${DEFAULTS.plainPasses} before the work is turned` });
  const anklePasses = record('anklePasses', fixed?.anklePasses, { value: DEFAULTS.anklePasses, formula: 'two rounds, unless chosen' });

  const turnDownWidth = record('turnDownWidth', heel?.turnDownWidth, workTurnDown(heelStitches));
  const plateauPasses = record('plateauPasses', heel?.plateauPasses, { value: DEFAULTS.plateauPasses, formula: 'none, unless chosen' });
  const heelPasses = record('heelPasses', undefined, {
    value: 2 * (heelStitches - turnDownWidth) + plateauPasses,
    formula: `2 x (${heelStitches} - ${turnDownWidth}) + ${plateauPasses}`,
  });

  const passesPerDecrease = record('passesPerDecrease', toe?.passesPerDecrease, { value: DEFAULTS.passesPerDecrease, formula: 'every second round, unless chosen' });
  const toeSlantStitches = record('toeSlantStitches', toe?.slantStitches, { value: DEFAULTS.slantStitches, formula: 'none, unless chosen' });
  const basis = { bedStitches, heelStitches, turnDownWidth, passesPerDecrease, slant: toeSlantStitches };
  const toeTipStitches = record('toeTipStitches', toe?.tipStitches, workTip(file, basis));
  const toeWorked = workToe(file, basis, toeTipStitches);
  const toeDecreases = record('toeDecreases', undefined, toeWorked.decreases);
  const toePasses = record('toePasses', undefined, toeWorked.passes);

  const heelRows = heelPasses / 2;
  // A short-row toe is as long as one of its halves, a decreased one half its passes: the same number.
  const footPasses = record('footPasses', fixed?.footPasses, workFoot(file, foot, heelRows, toePasses / 2));
  return {
    counts: {
      stitches, bedStitches, heelStitches, legPasses, plainPasses, anklePasses, turnDownWidth, plateauPasses, heelPasses,
      passesPerDecrease, toeSlantStitches, toeTipStitches, toeDecreases, toePasses, footPasses,
    },
    derivations,
  };
}
