import { formatNumber, per10cmToPerInch } from '../base/unit.ts';
import { sumOf, wholeParts } from '../base/whole-parts.ts';
import { TAIL_MM } from '../measure/estimate-yarn.ts';
import type { YarnStart } from '../plan/sock-file.ts';
import type { SheetContext } from './sheet-context.ts';
import { NONE } from './sheet-context.ts';
import type { WorkItem } from './list-work.ts';
import { spansOf } from './sheet-spans.ts';
import { text } from './sheet.ts';
import type { SheetPart } from './sheet.ts';

/** Foot, gauge, counts and machine. */
export function writeSock(context: SheetContext): SheetPart {
  const { told, record: { plan, foot }, options: { numbers }, length, label } = context, spans = spansOf(context);
  const span = ({ first, last }: { first: number; last: number }): string => told.needlesOf(label(first), label(last));
  return {
    id: 'sock', title: told.titles.sock, at: [], blocks: [{ kind: 'facts', rows: [
      [told.footFacts, told.footOf(foot.side, foot.lengthMm === null ? null : length(foot.lengthMm), foot.ballGirthMm === null ? null : length(foot.ballGirthMm))],
      [told.gaugeFacts, gaugeOf(context)],
      [told.stitchFacts, told.stitchesOf(plan.stitches, plan.bedStitches, plan.heelStitches, plan.turnDownWidth, plan.toeTipStitches)],
      [told.machineFacts, told.machineOf(plan.needlesPerBed, formatNumber(plan.needlePitchMm, 2).replace('.', told.decimalMark), numbers)],
      [told.needleFacts, [
        ...(plan.legKind === 'tube' ? [] : [`${told.legSpan} ${told.bothBeds(span(spans.leg))}`]),
        `${told.tubeSpan} ${told.bothBeds(span(spans.tube))}`,
        ...(plan.heelStitches === plan.bedStitches ? [] : [`${told.heelSpan} ${told.onBed(span(spans.heel), plan.heelBed)}`]),
      ].join('; ')],
    ] }],
  };
}

function gaugeOf({ told, record: { file: { gauge } }, options: { unit } }: SheetContext): string {
  const shown = (in10cm: number): string => formatNumber(unit === 'cm' ? in10cm : per10cmToPerInch(in10cm), 2).replace('.', told.decimalMark);
  return told.gaugeOf(shown(gauge.stitchesPer10cm), shown(gauge.rowsPer10cm), unit);
}

interface Need { readonly name: string; readonly colour: string; readonly starts: YarnStart[]; metres: number; grams: number }

/** Yarn for a sock and for two, a yarn that comes in at several places once; and what else is wanted. */
export function writeMaterials({ told, record: { plan, yarn }, tail }: SheetContext): SheetPart {
  const needs: Need[] = [];
  yarn.forEach(({ metres, grams }, index) => {
    const { name, colour, from } = plan.yarns[index], same = needs.find((need) => need.name === name && need.colour === colour);
    if (metres === 0) return;
    if (same === undefined) needs.push({ name, colour, starts: [from], metres, grams });
    else {
      same.metres += metres;
      same.grams += grams;
      if (!same.starts.includes(from)) same.starts.push(from);
    }
  });
  const columns = [1, 2].flatMap((socks) => [wholeParts(needs.map(({ metres }) => socks * metres)), wholeParts(needs.map(({ grams }) => socks * grams))]);
  const rows = needs.map(({ name, starts }, i) => [name, starts.map((start) => told.start[start]).join(', '), ...columns.map((parts) => String(parts[i]))]);
  const total = rows.length < 2 ? [] : [[told.together, NONE, ...columns.map((parts) => String(sumOf(parts)))]];
  return {
    id: 'materials', title: told.titles.materials, at: [], blocks: [
      { kind: 'table', id: 'yarns', caption: told.yarnsCaption, head: told.yarnHead, rows: [...rows, ...total], isList: false },
      // A tenth more, and the tools: common practice, no source.
      text(`${told.yarnNote(tail(TAIL_MM))} ${told.tools}`),
    ],
  };
}

/** How to swatch (common practice, no source), and the swatches of the file. */
export function writeSwatch(context: SheetContext): SheetPart {
  const { told, number, length, options: { unit }, record: { file } } = context, swatches = file.gauge.swatches ?? [];
  const per = (count: number, mm: number): string => number(count / mm * (unit === 'cm' ? 100 : 25.4), unit === 'cm' ? 1 : 2);
  return {
    id: 'swatch', title: told.titles.swatch, at: [], blocks: [
      text(`${told.swatchHow(gaugeOf(context))} ${told.swatchElse}`),
      ...(swatches.length === 0 ? [] : [{
        kind: 'table' as const, id: 'swatches' as const, caption: told.swatchCaption, isList: false,
        head: told.swatchHead.map((head, i) => (i < 5 ? head : `${head} ${told.per[unit]}`)),
        rows: swatches.map(({ stitches, widthMm, rows, heightMm, washed }) => [
          formatNumber(stitches, 1).replace('.', told.decimalMark), length(widthMm), formatNumber(rows, 1).replace('.', told.decimalMark), length(heightMm),
          washed === true ? told.washed : told.unwashed, per(stitches, widthMm), per(rows, heightMm),
        ]),
      }]),
    ],
  };
}

/** This sock's cautions first, then what holds of all. */
export function writeCare({ told, record: { cautions } }: SheetContext): SheetPart {
  const own = cautions.map(({ field, value, message }) => told.cautions[field ?? '']?.(String(value)) ?? message);
  return { id: 'care', title: told.titles.care, at: [], blocks: [{ kind: 'list', items: [...own, ...told.care] }] };
}

/** Sections in order, and where the yarn changes. */
export function writeGlance(context: SheetContext): SheetPart {
  const { told, work, tail } = context, changes = writeChanges(context);
  const stretches = work.filter(({ kind }) => kind === 'pass').reduce<WorkItem[][]>((found, item) => {
    const open = found.at(-1);
    if (open?.[0]?.section === item.section) open.push(item);
    else found.push([item]);
    return found;
  }, []);
  return {
    id: 'glance', title: told.titles.glance, at: [], blocks: [
      { kind: 'table', id: 'glance', caption: told.glanceCaption, head: told.glanceHead, rows: stretches.map((items) => glanceRow(context, items)), isList: false },
      text(told.glanceNote),
      ...(changes.length < 2 ? [] : [
        { kind: 'table' as const, id: 'changes' as const, caption: told.changesCaption, head: told.changesHead, rows: changes, isList: true },
        text(told.changesNote(tail(TAIL_MM))),
      ]),
    ],
  };
}

function glanceRow({ told, passes, record: { plan } }: SheetContext, items: readonly WorkItem[]): string[] {
  const first = items[0], last = items[items.length - 1], { section } = first;
  const isRound = section === 'ankle' || section === 'foot' || section === 'toe' || (section === 'leg' && plan.legKind === 'tube');
  const knitted = items.map((item) => item.knitted), least = Math.min(...knitted), most = Math.max(...knitted);
  const isShaped = section === 'toe' || section.startsWith('heel') || section.startsWith('toe');
  return [
    passes.sections[section], String(items.length), isRound ? told.rounds(items.length / 2) : told.rows(items.length),
    told.fromTo(first.index - 1, last.index), told.sides(first.from, last.to),
    least === most ? String(least) : isShaped ? told.fromTo(first.knitted, last.knitted) : `${least}–${most}`,
  ];
}

/** Stretches knitted in one length of yarn each, from the cast-on; at the turn of the work the same yarn is joined anew. */
function writeChanges({ told, work, record: { plan } }: SheetContext): string[][] {
  const runs: { first: number; last: number; yarn: number; at: WorkItem['from'] }[] = [];
  for (const { kind, index, yarn, from, before } of work) {
    const open = runs.at(-1), isJoined = before.some((step) => step.do === 'yarn');
    if (kind === 'closing') continue;
    if (open === undefined || isJoined) runs.push({ first: index, last: index, yarn, at: from });
    else open.last = index;
  }
  return runs.map(({ first, last, yarn, at }) => [first === last ? String(first) : `${first}–${last}`, plan.yarns[yarn].name, told.side[at]]);
}
