import { TAIL_MM } from '../measure/estimate-yarn.ts';
import type { Bed } from '../plan/sock-file.ts';
import type { Step } from '../plan/step.ts';
import type { WorkItem } from './list-work.ts';
import type { SheetContext } from './sheet-context.ts';
import { passesOf, readingsOf } from './sheet-context.ts';
import { text } from './sheet.ts';
import type { SheetBlock, SheetPart, SheetTable } from './sheet.ts';

type Transfer = Extract<Step, { do: 'transfer' }>;
type Move = Transfer['moves'][number];

const BEDS: readonly Bed[] = ['front', 'back'];
export const otherBed = (bed: Bed): Bed => (bed === 'front' ? 'back' : 'front');

/** Needles and order of the cast-on, comb and weights (common practice, no source: how much depends on machine and yarn). */
export function writeCastOn(context: SheetContext): SheetPart {
  const { told, label, record: { program, plan } } = context, step = program.steps.find(({ do: what }) => what === 'cast-on');
  if (step?.do !== 'cast-on') throw new Error('sheet: a program without a cast-on');
  const { needles, carriage } = step, first = needles[0], last = needles[needles.length - 1];
  const of = { stitches: needles.length, firstBed: first.bed, first: label(first.needle), last: label(last.needle), carriage };
  const rows = BEDS.flatMap((bed) => {
    // In the order in which its loops are formed.
    const onBed = needles.filter((at) => at.bed === bed).map(({ needle }) => needle);
    const isEvery = onBed.length < 2 || Math.abs(onBed[1] - onBed[0]) === 1;
    return onBed.length === 0 ? [] : [[told.bedShort[bed], label(onBed[0]), label(onBed[onBed.length - 1]), isEvery ? told.everyNeedle : told.everySecond, String(onBed.length)]];
  });
  return {
    id: 'castOn', title: told.titles.castOn, at: [[told.counter, '0'], [told.carriage, told.side[carriage]]], blocks: [
      { kind: 'table', id: 'cast-on', caption: told.castOnCaption, head: told.castOnHead, rows, isList: false },
      text(step.isClosed ? told.castOnRing({ ...of, turn: label(needles[plan.bedStitches - 1].needle) }) : `${told.ribBeds} ${told.castOnRow({ ...of, lastBed: last.bed })}`),
      text(told.castOnWeight),
    ],
  };
}

export function writeLeg(context: SheetContext): SheetPart | null {
  const { told, record: { plan } } = context, leg = passesOf(context, 'leg'), [first] = leg;
  if (leg.length === 0) return null;
  const words = plan.legKind === 'tube' ? `${told.tubeCarriage} ${told.legTube(leg.length, first.beds[0])}` : told.legFlat(leg.length);
  return { id: 'leg', title: told.titles.leg, at: readingsOf(context, leg), blocks: [text(words), ...writeShift(context, leg, 'shift-to')] };
}

/** Gathering, plain rows and turning; null after a tube leg, which turns no work. */
export function writeTurn(context: SheetContext): SheetPart | null {
  const { told, work, tail, options: { hasTransfers }, record: { plan } } = context, plain = passesOf(context, 'plain');
  const transferOf = (why: Transfer['why']): Transfer | null => work.flatMap(({ before }) => before).find((step): step is Transfer => step.do === 'transfer' && step.why === why) ?? null;
  const gather = transferOf('gather'), turn = transferOf('turn');
  if (gather === null || turn === null) return null;
  const [from, to] = [gather.moves[0].from.bed, gather.moves[0].to.bed], after = work.find(({ before }) => before.includes(turn));
  const listed = (id: 'gather' | 'turn', caption: string, { moves }: Transfer): SheetBlock[] => (hasTransfers ? [moveTable(context, id, caption, moves)] : []);
  return {
    id: 'turn', title: told.titles.turn, at: readingsOf(context, plain), blocks: [
      text(told.gather(gather.moves.length, from, to)), ...listed('gather', told.gatherCaption(from, to), gather),
      ...(plain.length === 0 ? [] : [text(told.plainRows(plain.length, to, plain[0].knitted, plain[0].index - 1, plain[plain.length - 1].index))]),
      text([told.turn(turn.moves.length, to, from, plan.bedStitches), ...turnRules(context, turn.moves), told.turnWeight].join(' ')),
      ...listed('turn', told.turnCaption(to, from), turn),
      text(told.turnYarn(tail(TAIL_MM), after?.from ?? 'left')),
    ],
  };
}

/** The order of the moves at each end, by the first two and the last. */
function turnRules({ told, label, record: { plan } }: SheetContext, moves: readonly Move[]): string[] {
  const pair = ({ from, to }: Move): readonly [string, string] => [label(from.needle), label(to.needle)];
  const quarter = plan.stitches / 4, left = moves.slice(0, quarter), right = moves.slice(quarter).reverse();
  return ([['left', left], ['right', right]] as const).map(([end, those]) => (
    told.turnRule(end, pair(those[0]), those.length > 2 ? pair(those[1]) : null, pair(those[those.length - 1]))
  ));
}

function moveTable({ told, label }: SheetContext, id: 'gather' | 'turn', caption: string, moves: readonly Move[]): SheetTable {
  return { kind: 'table', id, caption, head: [told.fromHead, told.toHead], rows: moves.map(({ from, to }) => [label(from.needle), label(to.needle)]), isList: true };
}

/** A stretch of tube: ankle or foot. */
export function writeTube(context: SheetContext, section: 'ankle' | 'foot'): SheetPart | null {
  const { told } = context, items = passesOf(context, section), [first] = items;
  if (items.length === 0) return null;
  const shift = writeShift(context, items, section === 'ankle' ? 'shift-to' : 'shift-from');
  const tube = told.tube(items.length, first.beds[0]), isFirst = section === 'ankle' && context.record.plan.legKind !== 'tube';
  const knit = text(isFirst ? `${told.tubeCarriage} ${tube}` : tube);
  return { id: section, title: told.titles[section], at: readingsOf(context, items), blocks: section === 'ankle' ? [knit, ...shift] : [...shift, knit] };
}

/** Stitches moved to the bed of a heel on more than half, before the tube's last round, and back after the heel. */
function writeShift({ told, label, record: { plan } }: SheetContext, items: readonly WorkItem[], id: 'shift-to' | 'shift-from'): SheetBlock[] {
  const moved = items.flatMap(({ index, before }) => before.flatMap((step) => (
    step.do === 'transfer' && step.why === 'heel' ? step.moves.map(({ from, to }) => ({ index, from, to })) : []
  )));
  if (moved.length === 0) return [];
  const { from, to } = moved[0], beyond = moved.length / 2;
  return [
    text(id === 'shift-to' ? told.shiftTo(plan.heelStitches, beyond, to.bed) : told.shiftFrom(beyond, to.bed)),
    {
      kind: 'table', id, caption: told.shiftCaption(from.bed, to.bed), head: [told.beforePass, told.fromHead, told.toHead], isList: true,
      rows: moved.map((move) => [String(move.index), label(move.from.needle), label(move.to.needle)]),
    },
  ];
}

