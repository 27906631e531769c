import { describe, expect, it } from 'vitest';
import { gradeSock } from '../../src/choose/grade-sock.ts';
import { findCautions } from '../../src/measure/find-cautions.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import type { KnittedSock } from '../../src/pipeline/result.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { buildSheet } from '../../src/sheet/build-sheet.ts';
import { describeWork } from '../../src/sheet/describe-work.ts';
import { listWork } from '../../src/sheet/list-work.ts';
import type { SheetOptions, SheetSize } from '../../src/sheet/sheet-context.ts';
import type { SheetTable, TableId } from '../../src/sheet/sheet.ts';
import { writeSheetText } from '../../src/sheet/write-sheet-text.ts';
import { WORDS } from '../../src/words/words.ts';

const OPTIONS: SheetOptions = { words: WORDS.en, numbers: 'middle', unit: 'cm', hasTransfers: false, sizes: [] };

/** Invented. */
const SMALL: SockFile = {
  name: 'Small and striped', gauge: { stitchesPer10cm: 20, rowsPer10cm: 28, swatches: [{ stitches: 20, widthMm: 102, rows: 28.5, heightMm: 100, washed: true }] },
  foot: { lengthMm: 150, ballGirthMm: 142, side: 'left' }, leg: { lengthMm: 30 }, heel: { plateauPasses: 2 }, toe: { kind: 'short-row', closing: 'bind-off' },
  yarns: [{ name: 'Ink', from: 'leg', stripePasses: 4 }, { name: 'Oat', from: 'leg', stripePasses: 2, colour: '#eed' }, { name: 'Oat', from: 'heel', colour: '#eed' }],
  machine: { needlesPerBed: 61 },
};

function knit(file: SockFile): KnittedSock {
  const { sock, problems } = knitSock(file);
  if (sock === null) throw new Error(JSON.stringify(problems));
  return sock;
}

function tableOf(sock: KnittedSock, id: TableId, options: Partial<SheetOptions> = {}): SheetTable {
  const table = buildSheet(sock, { ...OPTIONS, ...options }).parts.flatMap(({ blocks }) => blocks).find((block): block is SheetTable => block.kind === 'table' && block.id === id);
  if (table === undefined) throw new Error(`no table ${id}`);
  return table;
}

describe('a knitting sheet', () => {
  it('of a small sock reads', async () => {
    await expect(writeSheetText(buildSheet(knit(SMALL), OPTIONS))).toMatchFileSnapshot('./small-sheet.txt');
  });

  it('has the same bytes each time', () => {
    const text = (): string => writeSheetText(buildSheet(knit(SMALL), { ...OPTIONS, hasTransfers: true }));
    expect(text()).toBe(text());
  });

  it('says in German with the same needles and numbers what it says in English', () => {
    const sock = knit(SMALL), figures = (language: 'en' | 'de'): string[] => buildSheet(sock, { ...OPTIONS, words: WORDS[language], hasTransfers: true }).parts
      .map(({ blocks }) => [...JSON.stringify(blocks).replace(/(\d),(\d)/g, '$1.$2').replaceAll('"links"', '"left"').replaceAll('"rechts"', '"right"').matchAll(/[LR]\d+|\d+(?:\.\d+)?|"(?:left|right)"/g)].map(([figure]) => figure).sort().join(' '));
    expect(figures('de')).toEqual(figures('en'));
    expect(figures('en').join(' ').length).toBeGreaterThan(500);
  });

  it('names each stretch of yarn with its passes, as the trace has them', () => {
    const sock = knit(SMALL), { rows } = tableOf(sock, 'changes');
    const knitted = rows.flatMap(([passes, yarn]) => {
      const [first, last = first] = passes.split('–').map(Number);
      return Array.from({ length: last - first + 1 }, () => yarn);
    });
    expect(knitted).toEqual(sock.trace.passes.map(({ yarn }) => sock.plan.yarns[yarn].name));
    // Two ends for each length: the grid's loops with nothing before them on their yarn.
    const lengths = [...sock.grid.yarnBefore].filter((before) => before === -1).length;
    expect(writeSheetText(buildSheet(sock, OPTIONS)).replace(/\s+/g, ' ')).toContain(`darn in ${2 * lengths},`);
  });

  it('adds yarns of one name up, and a pair is twice a sock to the rounding of its parts', () => {
    const sock = knit(SMALL), { rows } = tableOf(sock, 'yarns'), sum = (of: 'metres' | 'grams') => sock.yarn.reduce((total, yarn) => total + yarn[of], 0);
    expect(rows.map(([name]) => name)).toEqual(['Ink', 'Oat', 'Together']);
    expect(rows[2].slice(2).map(Number)).toEqual([sum('metres'), sum('grams'), 2 * sum('metres'), 2 * sum('grams')].map(Math.round));
  });

  it('sets chosen sizes beside the sock, counts as graded', () => {
    const sock = knit(SMALL), graded = gradeSock(SMALL, [
      { name: 'Shorter', lengthMm: 130, ballGirthMm: 125, legLengthMm: null, isEstimate: true }, { name: 'Longer', lengthMm: 200, ballGirthMm: 185, legLengthMm: 60, isEstimate: false },
    ]);
    const sizes = graded.map(({ size, sock: made }): SheetSize => ({ ...size, plan: made!.plan, metres: made!.metres, grams: made!.grams }));
    const { head, rows } = tableOf(sock, 'sizes', { sizes });
    expect(head).toEqual(['', 'This sock', 'Shorter *', 'Longer']);
    const row = (name: string): (number | string)[] => rows.find(([label]) => label === name)!.slice(1).map((cell) => Number(cell));
    const counts = (of: (plan: KnittedSock['plan']) => number): number[] => [sock.plan, ...sizes.map(({ plan }) => plan)].map(of);
    expect(row('Stitches round')).toEqual(counts((plan) => plan.stitches));
    expect(row('Foot, passes')).toEqual(counts((plan) => plan.footPasses));
    expect(row('Heel, turned down to')).toEqual(counts((plan) => plan.turnDownWidth));
    expect(row('Passes in all')).toEqual([sock.trace.passes.length - 1, ...graded.map(({ sock: made }) => made!.passes)]);
    // A short-row toe is not decreased.
    expect(rows.some(([label]) => label === 'Toe, decreases')).toBe(false);
  });

  it('tells where each size is cast on, so that its tube begins as this sock’s does', () => {
    const counts = (legPasses: number, kind: 'flat-rib' | 'tube'): SockFile => ({ ...SMALL, leg: { kind }, counts: { legPasses } });
    const socks = [knit(counts(8, 'flat-rib')), knit(counts(9, 'flat-rib')), knit(counts(8, 'tube'))];
    const sizes = socks.map((sock): SheetSize => ({ name: 'Size', lengthMm: null, ballGirthMm: null, isEstimate: false, plan: sock.plan, metres: 0, grams: 0 }));
    const { rows } = tableOf(socks[0], 'sizes', { sizes, numbers: 'left' }), row = (name: string): string[] => rows.find(([label]) => label === name)!.slice(2);
    const ends = row('Cast-on, needles').map((cell) => cell.split(' to ').map(Number));
    // A row leaves the carriage on the other side, and each tube begins on the left; a rib ends at the carriage, and a round's first half goes away from it.
    expect(row('Cast-on, carriage')).toEqual(['left', 'right', 'left']);
    expect(ends.map(([from, to]) => Math.sign(to - from))).toEqual([-1, 1, 1]);
    socks.forEach(({ plan, trace }, i) => {
      expect(Math.abs(ends[i][1] - ends[i][0]) + 1).toBe(i === 2 ? plan.bedStitches : plan.stitches);
      const carrying = Array.from({ length: 2 * plan.needlesPerBed }, (_, at) => at).filter((at) => trace.needleStates[at] !== 0).map((at) => at % plan.needlesPerBed + 1);
      expect([...ends[i]].sort((a, b) => a - b)).toEqual([Math.min(...carrying), Math.max(...carrying)]);
    });
  });

  it('says of seam and graft what the words of each pass say', () => {
    const sock = knit({ ...SMALL, toe: { kind: 'decreased', closing: 'graft' } }), { plan, program, trace } = sock, sheet = writeSheetText(buildSheet(sock, OPTIONS)).replace(/\s+/g, ' ');
    const acts = describeWork(sock, listWork(program, trace).at(-1)!, { words: WORDS.en, numbers: 'middle' }).acts.join(' ');
    // Common practice, no source: four times the width, and a tail of 15 cm. A seam joins as many rows as are knitted.
    const tail = Math.ceil((4 * plan.toeTipStitches / plan.stitchesPerMm + 150) / 10), rows = trace.passes.filter(({ section }) => section === 'leg' || section === 'plain').length;
    expect(acts).toContain(`leaving ${tail} cm`);
    expect(sheet).toContain(`Graft: break the yarn, leave ${tail} cm,`);
    expect(acts).toContain(`down to the turn: ${rows} rows`);
    expect(sheet).toContain(`row to row over ${rows} rows`);
    const [, from, to] = /Graft needles (\S+) to (\S+) of/.exec(acts) ?? [];
    expect(sheet).toContain(`pairs, from ${from} to ${to}.`);
  });

  it('has its own short words for every caution, in both languages', () => {
    const feet: readonly NonNullable<SockFile['foot']>[] = [
      { lengthMm: 255, ballGirthMm: 238, calfGirthMm: 700, ankleGirthMm: 500, heelDiagonalMm: 640 }, { shoeSize: { system: 'continental', value: 39 }, ballGirthMm: 430 },
    ];
    const fields = new Set(feet.flatMap((foot) => {
      const { plan, foot: planned } = knit({ gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, foot, counts: { stitches: 72, footPasses: 40 }, heel: { stitches: 44 }, toe: { closing: 'bind-off' } });
      return findCautions(plan, planned, foot).map(({ field }) => field!);
    }));
    expect([...fields].sort()).toEqual(Object.keys(WORDS.en.sheet.cautions).sort());
    expect(Object.keys(WORDS.de.sheet.cautions).sort()).toEqual(Object.keys(WORDS.en.sheet.cautions).sort());
  });

  it('takes a name of many lines as one, so that nothing of it is read as a table', () => {
    const name = 'One\n---\n  two   three', text = writeSheetText(buildSheet(knit({ ...SMALL, name }), OPTIONS));
    expect(text.split('\n')[0]).toBe('One --- two three');
  });
});
