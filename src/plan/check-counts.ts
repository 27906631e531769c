import { makeProblem } from '../base/make-problem.ts';
import type { Problem } from '../base/problem.ts';
import { formatNumber, per10cmToPerMm } from '../base/unit.ts';
import { shoeSizeFromLength } from '../foot/shoe-size.ts';
import { checkHeel, checkToe } from './check-shaping.ts';
import { DEFAULTS, HELD_AT_LEAST, LEAST_TIP } from './defaults.ts';
import type { Counts } from './plan-counts.ts';
import { girthFactor, lengthFactor } from './plan-foot.ts';
import { scheduleOf } from './plan-toe.ts';
import type { PlannedFoot } from './plan-types.ts';
import type { SockFile } from './sock-file.ts';

/** Fewest stitches that leave each bed its tip and something to hold or decrease. */
function checkStitches(file: SockFile, counts: Counts): Problem | null {
  const toeKind = file.toe?.kind ?? DEFAULTS.toeKind;
  const fewest = 2 * (LEAST_TIP[toeKind] + HELD_AT_LEAST);
  const { stitches } = counts;
  if (stitches >= fewest) return null;
  const why = `a ${toeKind} toe needs at least ${fewest} stitches round`;
  if (file.counts?.stitches !== undefined) {
    return makeProblem('counts.stitches', stitches, `a multiple of 4, at least ${fewest}`, `Stitches round: ${stitches}, but ${why}.`);
  }
  // Nearest multiple of 4, ties down: the girth must be more than two stitches short of `fewest`.
  const leastMm = Math.floor((fewest - 2) / (girthFactor(file) * per10cmToPerMm(file.gauge.stitchesPer10cm))) + 1;
  return makeProblem('foot.ballGirthMm', file.foot?.ballGirthMm, `at least ${leastMm} mm at this gauge and ease`,
    `This girth comes to ${stitches} stitches at this gauge and ease, but ${why}.`);
}

function checkBed(file: SockFile, counts: Counts): Problem | null {
  const { stitches, bedStitches } = counts;
  const needles = file.machine?.needlesPerBed ?? DEFAULTS.needlesPerBed;
  const isTube = (file.leg?.kind ?? DEFAULTS.legKind) === 'tube';
  const wanted = isTube ? bedStitches : stitches;
  if (wanted <= needles) return null;
  const rest = isTube ? '' : bedStitches <= needles ? '; a tube leg would fit' : '';
  const message = `A ${isTube ? 'tube' : 'flat rib'} leg of ${stitches} stitches needs ${wanted} needles a bed, but the machine has ${needles}${rest}.`;
  const most = Math.floor((isTube ? 2 * needles : needles) / 4) * 4;
  return file.counts?.stitches !== undefined
    ? makeProblem('counts.stitches', stitches, `a multiple of 4, at most ${most} on this machine`, message)
    : makeProblem('machine.needlesPerBed', needles, `at least ${wanted} for this girth at this gauge`, message);
}

function checkWidths(file: SockFile, counts: Counts): Problem[] {
  const problems: Problem[] = [];
  const { bedStitches, heelStitches, turnDownWidth, toeTipStitches } = counts;
  const widest = heelStitches - HELD_AT_LEAST;
  const isTurnDownWide = turnDownWidth > widest;
  if (isTurnDownWide) {
    problems.push(makeProblem('heel.turnDownWidth', turnDownWidth, `an even number from 2 to ${widest}`,
      `Turn-down width: ${turnDownWidth}, but a heel of ${heelStitches} stitches turns down to ${widest} at most.`));
  }
  const toeKind = file.toe?.kind ?? DEFAULTS.toeKind;
  const least = LEAST_TIP[toeKind], widestTip = bedStitches - HELD_AT_LEAST;
  // A tip that only follows too wide a turn-down, or a schedule, has no fault of its own.
  const isOwn = file.toe?.tipStitches !== undefined || (!isTurnDownWide && scheduleOf(file) === null);
  if (isOwn && (toeTipStitches > widestTip || toeTipStitches < least)) {
    problems.push(makeProblem('toe.tipStitches', toeTipStitches, `an even number from ${least} to ${widestTip}`,
      `Stitches at the tip: ${toeTipStitches}, but a ${toeKind} toe on ${bedStitches} stitches a bed ends on ${least} to ${widestTip}.`));
  }
  return problems;
}

function checkFootLength(file: SockFile, foot: PlannedFoot, counts: Counts): Problem | null {
  if (file.counts?.footPasses !== undefined || counts.footPasses >= 2 || foot.lengthMm === null) return null;
  const rowsPerMm = per10cmToPerMm(file.gauge.rowsPer10cm);
  const heelMm = counts.heelPasses / 2 / rowsPerMm;
  const toeMm = counts.toePasses / 2 / rowsPerMm;
  // One round at least: more than half a row beyond heel and toe.
  const leastMm = Math.floor((heelMm + toeMm + 0.5 / rowsPerMm) / lengthFactor(file)) + 1;
  const shoe = file.foot?.lengthMm === undefined ? file.foot?.shoeSize : undefined;
  const message = `A foot of ${formatNumber(foot.lengthMm, 0)} mm is shorter than heel (${formatNumber(heelMm, 0)} mm) and toe (${formatNumber(toeMm, 0)} mm) with a round between them.`;
  if (shoe === undefined) return makeProblem('foot.lengthMm', foot.lengthMm, `at least ${leastMm} mm with this heel and toe`, message);
  const leastSize = Math.ceil(2 * shoeSizeFromLength(shoe.system, leastMm)) / 2;
  return makeProblem('foot.shoeSize.value', shoe.value, `at least ${formatNumber(leastSize, 1)} with this heel and toe`, message);
}

/** The heel grows out of a round of tube: of the ankle, or of a tube leg. */
function checkRoundBeforeHeel(file: SockFile, counts: Counts): Problem | null {
  const isTube = file.leg?.kind === 'tube';
  if (counts.anklePasses >= 2 || (isTube && counts.legPasses >= 2)) return null;
  return makeProblem('counts.anklePasses', counts.anklePasses, 'an even number, at least 2',
    `Ankle passes: ${counts.anklePasses}, but the heel needs a round of tube to start from${isTube ? '' : ' after a flat leg'}.`);
}

/** Heel and toe. What only follows from another problem is not told too: a turn-down on a wrong heel, the slant to a wrong tip. */
function checkShaping(file: SockFile, counts: Counts): Problem[] {
  const heel = checkHeel(file, counts);
  const widths = checkWidths(file, heel === null ? counts : { ...counts, heelStitches: Infinity });
  const toe = widths.length === 0 ? checkToe(file, counts) : null;
  return [heel, ...widths, toe].filter((problem) => problem !== null);
}

/** What keeps worked-out counts from being a sock: rules that join several fields. */
export function checkCounts(file: SockFile, foot: PlannedFoot, counts: Counts): readonly Problem[] {
  const problems: Problem[] = [];
  if (file.leg?.kind === 'tube' && counts.legPasses % 2 !== 0) {
    problems.push(makeProblem('counts.legPasses', counts.legPasses, 'an even number for a tube leg',
      `Leg passes: ${counts.legPasses}, but a tube leg has two passes a round.`));
  }
  const noRound = checkRoundBeforeHeel(file, counts);
  if (noRound !== null) problems.push(noRound);
  const tooFew = checkStitches(file, counts);
  if (tooFew !== null) return [...problems, tooFew];
  const tooMany = checkBed(file, counts);
  if (tooMany !== null) problems.push(tooMany);
  const shaping = checkShaping(file, counts);
  problems.push(...shaping);
  const tooShort = shaping.length === 0 ? checkFootLength(file, foot, counts) : null;
  if (tooShort !== null) problems.push(tooShort);
  return problems;
}
