import { makeProblem } from '../base/make-problem.ts';
import type { Problem } from '../base/problem.ts';
import { DEFAULTS, LEAST_TIP } from './defaults.ts';
import type { Counts } from './plan-counts.ts';
import { countTimes, scheduleOf, tipAfter } from './plan-toe.ts';
import type { SockFile } from './sock-file.ts';

const evenBelow = (value: number): number => 2 * Math.floor(value / 2);

/** What the instep keeps: a share of the stitches, `chosen by eye`, and never less than this. */
const INSTEP_SHARE = 1 / 4;
const LEAST_INSTEP = 4;

/** Most stitches that a heel may be turned on, whatever the machine. */
function mostHeelStitches(stitches: number): number {
  return Math.max(stitches / 2, Math.min(evenBelow((1 - INSTEP_SHARE) * stitches), stitches - LEAST_INSTEP));
}

/** A heel on more than half of the stitches. A bed on which not even the tube fits has a problem of its own. */
export function checkHeel(file: SockFile, { stitches, bedStitches, heelStitches }: Counts): Problem | null {
  const needles = file.machine?.needlesPerBed ?? DEFAULTS.needlesPerBed;
  // A flat leg's span has room for every heel beside its tube.
  const isTube = (file.leg?.kind ?? DEFAULTS.legKind) === 'tube', roomy = isTube ? evenBelow(needles) : stitches;
  const lawful = mostHeelStitches(stitches), most = Math.min(lawful, roomy);
  if ((heelStitches >= bedStitches && heelStitches <= most) || most < bedStitches) return null;
  const allowed = most === bedStitches ? `${bedStitches}, a bed's stitches` : `an even number from ${bedStitches} to ${most}`;
  const why = heelStitches < bedStitches ? `a heel on ${stitches} stitches round is turned on half of them, ${bedStitches}, or more`
    : heelStitches > lawful ? `of ${stitches} stitches round ${lawful} at most go onto the heel's bed`
    : `it needs as many needles a bed, and the machine has ${needles}`;
  return makeProblem('heel.stitches', heelStitches, allowed, `Stitches of the heel: ${heelStitches}, but ${why}.`);
}

/** Schedule and slant of a decreased toe; nothing where its tip is impossible already. */
export function checkToe(file: SockFile, counts: Counts): Problem | null {
  if ((file.toe?.kind ?? DEFAULTS.toeKind) !== 'decreased') return null;
  return checkSlant(file, counts) ?? checkSchedule(file, counts);
}

/** At least one decrease stays on both sides, which takes two stitches a bed. */
function checkSlant(file: SockFile, { bedStitches, toeTipStitches, toeSlantStitches: slant }: Counts): Problem | null {
  const schedule = scheduleOf(file);
  const most = schedule === null ? bedStitches - toeTipStitches - 2 : evenBelow(countTimes(schedule) - 1);
  if (slant <= Math.max(0, most)) return null;
  const from = schedule === null ? `from ${bedStitches} stitches a bed to a tip of ${toeTipStitches}` : `of ${countTimes(schedule)} decreases`;
  return makeProblem('toe.slantStitches', slant, most > 0 ? `an even number from 0 to ${most}` : '0',
    `Slant of the toe: ${slant}, but ${from} it can be ${Math.max(0, most)} at most, as one decrease at least is on both sides.`);
}

function checkSchedule(file: SockFile, { bedStitches, toeSlantStitches: slant }: Counts): Problem | null {
  const schedule = scheduleOf(file);
  if (schedule === null) return null;
  const times = countTimes(schedule), left = tipAfter(schedule, { bedStitches, slant }), tip = file.toe?.tipStitches;
  const after = `${times} decreases leave ${left} of ${bedStitches} stitches a bed`;
  if (tip !== undefined && left !== tip) {
    const wanted = (bedStitches - tip + slant) / 2;
    return makeProblem('toe.schedule', schedule, `${wanted} decreases in all, or a toe.tipStitches of ${left}`, `Toe schedule: ${after}, but the tip is to have ${tip}.`);
  }
  if (left >= LEAST_TIP.decreased) return null;
  const most = (bedStitches + slant - LEAST_TIP.decreased) / 2;
  return makeProblem('toe.schedule', schedule, `${most} decreases in all at most`, `Toe schedule: ${after}, but a decreased toe ends on ${LEAST_TIP.decreased} at least.`);
}
