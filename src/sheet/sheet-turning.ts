import type { SectionName } from '../plan/step.ts';
import type { WorkItem } from './list-work.ts';
import type { SheetContext } from './sheet-context.ts';
import { NONE, passesOf, readingsOf } from './sheet-context.ts';
import { otherBed } from './sheet-work.ts';
import { text } from './sheet.ts';
import type { SheetBlock, SheetPart, SheetTable } from './sheet.ts';

/** Heel: what is held and returned, pass by pass. */
export function writeHeel(context: SheetContext): SheetPart {
  const { told, record: { plan: { heelBed } } } = context;
  const down = passesOf(context, 'heel-in'), level = passesOf(context, 'heel-level'), out = passesOf(context, 'heel-out');
  return {
    id: 'heel', title: told.titles.heel, at: readingsOf(context, [...down, ...level, ...out]), blocks: [
      text(`${told.heelRests(heelBed, otherBed(heelBed))} ${told.heelWeight}`),
      ...writeTurning(context, 'heel', down, out, level),
    ],
  };
}

/** A short-row toe, which is turned like a heel. */
export function writeTurnedToe(context: SheetContext): SheetPart {
  const { told, record: { plan: { heelBed } } } = context, down = passesOf(context, 'toe-in'), out = passesOf(context, 'toe-out');
  return {
    id: 'toe', title: told.titles.toe, at: readingsOf(context, [...down, ...out]), blocks: [
      text(`${told.toeRests(heelBed, otherBed(heelBed))} ${told.heelWeight}`),
      ...writeTurning(context, 'toe', down, out, []),
    ],
  };
}

function writeTurning(context: SheetContext, what: 'heel' | 'toe', down: readonly WorkItem[], out: readonly WorkItem[], level: readonly WorkItem[]): SheetBlock[] {
  const { told, record: { plan: { heelBed } } } = context, first = down[0], narrowest = down[down.length - 1], widest = out[out.length - 1];
  const hasWraps = down.some(({ after }) => after.length > 0), hasCorners = out.some(({ after }) => after.length > 0);
  return [
    text(told.turningDown(down.length, first.knitted, narrowest.knitted, hasWraps)),
    turningTable(context, `${what}-in`, down),
    ...(level.length === 0 ? [] : [text(told.level(level.length, narrowest.knitted, level[0].index - 1, level[level.length - 1].index))]),
    text(told.turningOut(out.length, out[0].knitted, widest.knitted, hasWraps)),
    turningTable(context, `${what}-out`, out),
    ...(hasCorners ? [text(told.cornerNote(otherBed(heelBed)))] : []),
  ];
}

/** A row a pass: the pass, where the carriage goes, the needle that is moved before it, stitches knitted, the needle wrapped after it (with its bed, where that is the one that rests). */
function turningTable({ told, label, record: { plan } }: SheetContext, id: Extract<SectionName, `${string}-in` | `${string}-out`>, items: readonly WorkItem[]): SheetTable {
  const { turningHead } = told, isDown = id.endsWith('-in');
  const moved = ({ before }: WorkItem): string => before.flatMap((step) => (step.do === 'hold' || step.do === 'return' ? [label(step.at.needle)] : [])).join(' ') || NONE;
  const wrapped = ({ after }: WorkItem): string => after.flatMap((step) => (step.do === 'wrap' ? [step.at.bed === plan.heelBed ? label(step.at.needle) : `${told.bedShort[step.at.bed]} ${label(step.at.needle)}`] : [])).join(' ') || NONE;
  return {
    kind: 'table', id, caption: isDown ? told.downCaption : told.outCaption, isList: true,
    head: [told.pass, told.carriageShort, isDown ? turningHead.down : turningHead.out, turningHead.stitches, turningHead.wrap],
    rows: items.map((item) => [String(item.index), told.side[item.to], moved(item), String(item.knitted), wrapped(item)]),
  };
}
