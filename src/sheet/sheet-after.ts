import { sewnTailMm } from '../measure/estimate-yarn.ts';
import { measureRest } from '../measure/measure-rest.ts';
import { placeCastOn } from '../plan/build-program.ts';
import type { Plan } from '../plan/plan-types.ts';
import type { SheetContext, SheetSize } from './sheet-context.ts';
import { NONE } from './sheet-context.ts';
import { labelNeedle } from './needle-label.ts';
import { text } from './sheet.ts';
import type { SheetPart, SheetTable } from './sheet.ts';

/** For a person to write her own measure in. */
const BLANK = '......';

/** Seam, ends, washing (common practice, no source), and the measures to find afterwards. */
export function writeFinish({ told, work, length, tail, record: { program, plan, rest } }: SheetContext): SheetPart {
  const seam = program.steps.find((step) => step.do === 'seam'), joins = work.filter(({ kind, before }) => kind === 'pass' && before.some((step) => step.do === 'yarn')).length;
  const rows = seam?.do === 'seam' ? seam.toPass - seam.fromPass : 0;
  const measures = (['footLengthMm', 'footGirthMm', 'heelDepthMm', 'toeLengthMm', 'legLengthMm'] as const).flatMap((name) => {
    const mm = rest[name];
    if (mm === null) return [];
    const row = [told.measures[name], length(mm), BLANK];
    return name === 'footGirthMm' ? [row, [told.measures.halfGirthMm, length(mm / 2), BLANK]] : [row];
  });
  return {
    id: 'finish', title: told.titles.finish, at: [], blocks: [
      // Two ends for each length of yarn.
      text(`${rows === 0 ? told.noSeam : told.seam(rows, tail(sewnTailMm(rows / plan.rowsPerMm)))} ${told.ends(2 * (joins + 1))}`),
      text(told.wash),
      { kind: 'table', id: 'measures', caption: told.measuresCaption, head: told.measuresHead, rows: measures, isList: true },
    ],
  };
}

type Cell = (size: SheetSize) => string;

/** Counts of this sock and of those to compare with, side by side; null where none is chosen. */
export function writeSizes(context: SheetContext): SheetPart | null {
  const { told, record, options: { sizes } } = context;
  if (sizes.length === 0) return null;
  const sum = (of: 'metres' | 'grams'): number => record.yarn.reduce((total, yarn) => total + yarn[of], 0);
  const own: SheetSize = { name: told.thisSock, lengthMm: record.foot.lengthMm, ballGirthMm: record.foot.ballGirthMm, isEstimate: false, plan: record.plan, metres: sum('metres'), grams: sum('grams') };
  const places = Array.from({ length: Math.ceil(sizes.length / COLUMNS_ABREAST) }, (_, i) => i * COLUMNS_ABREAST);
  return {
    id: 'sizes', title: told.titles.sizes, at: [],
    blocks: [...places.map((from) => sizeTable(context, [own, ...sizes.slice(from, from + COLUMNS_ABREAST)])), text(told.sizesNote)],
  };
}

/** Columns of one table beside the sock's own, as many as a page is wide enough for; the others follow below. Chosen by eye. */
const COLUMNS_ABREAST = 5;

function sizeTable(context: SheetContext, columns: readonly SheetSize[]): SheetTable {
  const { told } = context, rows = rowsOf(context, told.sizeRows).map(([name, cell]) => [name, ...columns.map(cell)]);
  return {
    kind: 'table', id: 'sizes', caption: told.sizesCaption, head: ['', ...columns.map(({ name, isEstimate }) => `${name}${isEstimate ? ' *' : ''}`)],
    rows: rows.filter(([, ...cells]) => cells.some((cell) => cell !== NONE)), isList: false,
  };
}

function rowsOf({ length, told: { side, fromTo }, options: { numbers } }: SheetContext, told: SheetContext['told']['sizeRows']): readonly (readonly [string, Cell])[] {
  const count = (of: (plan: Plan) => number): Cell => ({ plan }) => String(of(plan));
  /** A count that a sock of another kind does not have. */
  const some = (of: (plan: Plan) => number): Cell => ({ plan }) => (of(plan) === 0 ? NONE : String(of(plan)));
  const mm = (of: (size: SheetSize) => number | null): Cell => (size) => {
    const value = of(size);
    return value === null ? NONE : length(value);
  };
  /** In the order in which loops are formed: a flat row to the carriage, a round away from it and back. */
  const castOn: Cell = ({ plan }) => {
    const { carriage, span: { first, last } } = placeCastOn(plan), ends = [first, last].map((needle) => labelNeedle(needle, plan.needlesPerBed, numbers));
    const [from, to] = (carriage === 'left') === (plan.legKind === 'tube') ? ends : ends.reverse();
    return fromTo(from, to);
  };
  const turned = ({ heelStitches, turnDownWidth }: Plan): number => heelStitches - turnDownWidth;
  return [
    [told.foot, mm((size) => size.lengthMm)], [told.girth, mm((size) => size.ballGirthMm)],
    [told.stitches, count((plan) => plan.stitches)], [told.bed, count((plan) => plan.bedStitches)],
    [told.castOnSide, ({ plan }) => side[placeCastOn(plan).carriage]], [told.castOn, castOn],
    [told.leg, some((plan) => plan.legPasses)], [told.plain, some((plan) => plan.plainPasses)], [told.ankle, some((plan) => plan.anklePasses)],
    [told.heel, count((plan) => plan.heelStitches)], [told.turnDown, count((plan) => plan.turnDownWidth)],
    [told.down, count(turned)], [told.level, some((plan) => plan.plateauPasses)], [told.out, count(turned)],
    [told.footPasses, count((plan) => plan.footPasses)], [told.rounds, count((plan) => plan.footPasses / 2)],
    [told.decreases, some((plan) => plan.toeDecreases)], [told.tip, count((plan) => plan.toeTipStitches)], [told.toe, count((plan) => plan.toePasses)],
    [told.all, count((plan) => plan.legPasses + plan.plainPasses + plan.anklePasses + plan.heelPasses + plan.footPasses + plan.toePasses)],
    [told.sockLength, mm(({ plan }) => measureRest(plan).footLengthMm)],
    [told.metres, ({ metres }) => (2 * metres).toFixed(0)], [told.grams, ({ grams }) => (2 * grams).toFixed(0)],
  ];
}
