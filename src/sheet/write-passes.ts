import { NEEDLE } from '../machine/codes.ts';
import type { NeedleRef, Step } from '../plan/step.ts';
import type { KnitRecord } from './knit-record.ts';
import type { WorkItem } from './list-work.ts';
import { listWork } from './list-work.ts';

/**
 * The machine forms of a sock: every stop of the work as a row of a table, or as JSON with the needles after it.
 * Needles are counted from 1 at a bed's left end. What hands do is written as short phrases:
 *
 *     cast on ring|row B12 F13 ...   loops in this order, closed to a round or as a row
 *     yarn 2                         number 2 of the list joined at the carriage, the yarn before it broken
 *     hold F31 / work F31            a needle out of work with its loop, and back
 *     move F12>B12 F13>B13 ...       all loops of a needle, one move after the other
 *     wrap F31                       the yarn round a needle, after the pass
 *     join B40+F40 ...               grafted, loop to loop
 *     bind off B40 B41 ...           chained off in this order
 *     take off B40 ...               onto a thread, still live
 *     sew 0-52                       the edges of passes 0 to 52
 *
 * F is the front bed, B the back bed.
 */
export const PASS_COLUMNS = ['stop', 'kind', 'section', 'from', 'to', 'beds', 'knitted', 'yarn', 'yarn name', 'before', 'after'] as const;

/** One line a stop, the heads above them; phrases of one cell are parted by `; `. RFC 4180, lines end in CR LF. */
export function writePassesCsv(record: Pick<KnitRecord, 'plan' | 'program' | 'trace'>): string {
  const rows = listWork(record.program, record.trace).map((item) => {
    const { before, after } = phrasesOf(record, item);
    return [item.index, item.kind, item.section, item.from, item.to, item.beds.join('+'), item.knitted, item.yarn + 1, record.plan.yarns[item.yarn]?.name ?? '', before.join('; '), after.join('; ')];
  });
  return [PASS_COLUMNS, ...rows].map((row) => `${row.map((cell) => quote(String(cell))).join(',')}\r\n`).join('');
}

const quote = (cell: string): string => (/[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);

/** What a file of this kind says of itself. */
export const PASSES_FORMAT = 'heelwright-passes';

/** The same stops as JSON, each with the state of every needle after its pass: `.` empty, `|` working, `o` held, left to right. */
export function writePassesJson(record: Pick<KnitRecord, 'plan' | 'program' | 'trace'>): string {
  const { plan, program, trace } = record;
  const stops = listWork(program, trace).map((item) => ({
    stop: item.index, kind: item.kind, section: item.section, from: item.from, to: item.to, beds: item.beds, knitted: item.knitted, yarn: item.yarn + 1,
    ...phrasesOf(record, item), ...(item.kind === 'closing' ? {} : { needles: drawNeedles(record, item.index) }),
  }));
  const head = {
    format: PASSES_FORMAT, version: 1, name: plan.name, needlesPerBed: program.needlesPerBed, passes: trace.passes.length - 1,
    yarns: plan.yarns.map(({ name, colour }, i) => ({ yarn: i + 1, name, colour })),
  };
  // One line a stop: a file that can be read and compared.
  const body = stops.map((stop) => `    ${JSON.stringify(stop)}`).join(',\n');
  return `${JSON.stringify(head, null, 2).slice(0, -2)},\n  "stops": [\n${body}\n  ]\n}\n`;
}

function phrasesOf({ program, trace }: Pick<KnitRecord, 'program' | 'trace'>, item: WorkItem): { before: string[]; after: string[] } {
  const castOn = item.kind === 'cast-on' ? [`yarn ${item.yarn + 1}`, phraseOf(program.steps[trace.passes[0].step])] : [];
  return { before: [...item.before.map(phraseOf), ...castOn], after: item.after.map(phraseOf) };
}

function phraseOf(step: Step): string {
  const all = (needles: readonly NeedleRef[]): string => needles.map(nameOf).join(' ');
  switch (step.do) {
    case 'cast-on': return `cast on ${step.isClosed ? 'ring' : 'row'} ${all(step.needles)}`;
    case 'knit': return '';
    case 'hold': return `hold ${nameOf(step.at)}`;
    case 'return': return `work ${nameOf(step.at)}`;
    case 'wrap': return `wrap ${nameOf(step.at)}`;
    case 'yarn': return `yarn ${step.yarn + 1}`;
    case 'transfer': return `move ${step.moves.map(({ from, to }) => `${nameOf(from)}>${nameOf(to)}`).join(' ')}`;
    case 'graft': return `join ${step.pairs.map(([a, b]) => `${nameOf(a)}+${nameOf(b)}`).join(' ')}`;
    case 'bind-off': return `bind off ${all(step.needles)}`;
    case 'take-off': return `take off ${all(step.needles)}`;
    case 'seam': return `sew ${step.fromPass}-${step.toPass}`;
  }
}

const nameOf = ({ bed, needle }: NeedleRef): string => `${bed === 'front' ? 'F' : 'B'}${needle}`;

function drawNeedles({ trace }: Pick<KnitRecord, 'trace'>, pass: number): { readonly front: string; readonly back: string } {
  const count = trace.needlesPerBed, start = pass * 2 * count;
  const draw = (from: number): string => Array.from(trace.needleStates.subarray(from, from + count), (state) => (
    state === NEEDLE.working ? '|' : state === NEEDLE.held ? 'o' : '.'
  )).join('');
  return { front: draw(start), back: draw(start + count) };
}
