import { sewnTailMm, TAIL_MM } from '../measure/estimate-yarn.ts';
import { mirrorProgram } from '../plan/mirror-program.ts';
import type { FootSide } from '../plan/sock-file.ts';
import type { Program, Side, Step } from '../plan/step.ts';
import type { SheetContext } from './sheet-context.ts';
import { NONE, passesOf, readingsOf } from './sheet-context.ts';
import { text } from './sheet.ts';
import type { SheetPart, SheetTable } from './sheet.ts';

/** A toe that is decreased. */
export function writeDecreasedToe(context: SheetContext): SheetPart {
  const { told, record: { plan, program } } = context, { bedStitches, toeDecreases, toeTipStitches, toeSlantStitches } = plan;
  const slant = toeSlantStitches > 0 ? ` ${told.toeSlant(toeSlantStitches, plan.outerSide)}` : '';
  return {
    id: 'toe', title: told.titles.toe, at: readingsOf(context, passesOf(context, 'toe')), blocks: [
      text(`${told.toe(toeDecreases, bedStitches, toeTipStitches)}${slant}`),
      decreaseTable(context, program, 'toe', told.toeCaption),
    ],
  };
}

/** A row a decrease, as a program does it: before which pass, the needles emptied at each end in order, stitches then left on a bed, passes then knitted. */
function decreaseTable({ told, label, record: { plan } }: SheetContext, { steps }: Program, id: 'toe' | 'other-toe', caption: string): SheetTable {
  const found: { before: number; ends: Record<Side, string[]>; passes: number }[] = [];
  let pass = 0;
  for (const step of steps) {
    const last = found.at(-1);
    if (step.do === 'knit') {
      pass += 1;
      if (last !== undefined) last.passes += 1;
    } else if (step.do === 'transfer' && step.why === 'decrease') found.push({ before: pass + 1, ends: endsOf(step, label), passes: 0 });
  }
  let left = plan.bedStitches;
  const rows = found.map(({ before, ends, passes }) => {
    left -= (ends.left.length + ends.right.length) / 2;
    const cell = (end: Side): string => (ends[end].length === 0 ? NONE : ends[end].join(' '));
    return [String(before), cell('left'), cell('right'), String(left), String(passes)];
  });
  return { kind: 'table', id, caption, head: told.toeHead, rows, isList: true };
}

/** Needles whose loops move inward, of one bed: the other has the same. */
function endsOf({ moves }: Extract<Step, { do: 'transfer' }>, label: (needle: number) => string): Record<Side, string[]> {
  const onBed = moves.filter(({ from }) => from.bed === moves[0].from.bed);
  const at = (way: number): string[] => onBed.filter(({ from, to }) => Math.sign(to.needle - from.needle) === way).map(({ from }) => label(from.needle));
  return { left: at(1), right: at(-1) };
}

/** Closing as chosen in full, the other way in a line. */
export function writeClosing(context: SheetContext): SheetPart {
  const { told, work, label, tail, record: { plan } } = context, closing = work[work.length - 1], { before, from } = closing;
  const graft = before.find((step) => step.do === 'graft'), bindOff = before.find((step) => step.do === 'bind-off'), join = before.find((step) => step.do === 'transfer');
  const at: SheetPart['at'] = [[told.counter, String(closing.index - 1)], [told.carriage, told.side[from]]], base = { id: 'closing', title: told.titles.closing, at } as const;
  if (graft?.do === 'graft') {
    const { pairs } = graft, ends = [pairs[0][0], pairs[pairs.length - 1][0]].map(({ needle }) => label(needle));
    // From the yarn on.
    const [first, last] = from === 'left' ? ends : ends.reverse();
    return { ...base, blocks: [text(told.graft({ pairs: pairs.length, first, last, tail: tail(sewnTailMm(pairs.length / plan.stitchesPerMm)) })), text(told.orBindOff)] };
  }
  if (bindOff?.do !== 'bind-off' || join?.do !== 'transfer') throw new Error('sheet: a program that is not closed');
  const { needles } = bindOff, [move] = join.moves;
  return {
    ...base, blocks: [
      text(told.bindOff({ pairs: needles.length, from: move.from.bed, to: move.to.bed, first: label(needles[0].needle), last: label(needles[needles.length - 1].needle), tail: tail(TAIL_MM) })),
      text(told.orGraft),
    ],
  };
}

/** The other foot's sock: the mirrored program, of which only a slanted toe must differ. */
export function writeOther(context: SheetContext): SheetPart {
  const { told, options: { numbers }, record: { plan, program, foot } } = context, of: FootSide = foot.side === 'left' ? 'right' : 'left';
  const base = { id: 'other', title: told.titles.other, at: [] } as const;
  if (plan.toeKind === 'short-row' || plan.toeSlantStitches === 0) return { ...base, blocks: [text(told.otherSame(of))] };
  const mirrored = mirrorProgram(program), start = mirrored.steps[0];
  const carriage = start.do === 'cast-on' ? start.carriage : 'left', outer: Side = plan.outerSide === 'left' ? 'right' : 'left';
  return {
    ...base, blocks: [
      text(`${told.otherDiffers(of, numbers, plan.needlesPerBed + 1, carriage)} ${told.otherSlant(plan.toeSlantStitches, outer)}`),
      decreaseTable(context, mirrored, 'other-toe', told.otherCaption(of)),
    ],
  };
}
