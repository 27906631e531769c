import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/base/random.ts';
import { perInchToPer10cm } from '../../src/base/unit.ts';
import { knitProgram } from '../../src/machine/knit-program.ts';
import type { Trace } from '../../src/machine/trace.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import type { KnittedSock } from '../../src/pipeline/result.ts';
import { mirrorProgram } from '../../src/plan/mirror-program.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import type { Program } from '../../src/plan/step.ts';
import { buildSheet } from '../../src/sheet/build-sheet.ts';
import type { SheetOptions } from '../../src/sheet/sheet-context.ts';
import { writeSheetText } from '../../src/sheet/write-sheet-text.ts';
import { WORDS } from '../../src/words/words.ts';
import { randomSockFile } from '../plan/random-sock-file.ts';
import { knitSheet } from './knit-sheet.ts';
import type { SeenPass } from './knit-sheet.ts';
import { readSheet } from './read-sheet.ts';

const OPTIONS: SheetOptions = { words: WORDS.en, numbers: 'middle', unit: 'cm', hasTransfers: true, sizes: [] };
const sheetOf = (sock: KnittedSock, options: Partial<SheetOptions> = {}): string => writeSheetText(buildSheet(sock, { ...OPTIONS, ...options }));

function knit(file: SockFile): KnittedSock {
  const { sock, problems } = knitSock(file);
  if (sock === null) throw new Error(JSON.stringify(problems));
  return sock;
}

/** Seeded random socks of every leg, heel, toe and closing, small enough to be many. */
function randomSocks(seed: number, count: number): KnittedSock[] {
  const random = createRandom(seed), socks: KnittedSock[] = [];
  while (socks.length < count) {
    const file = randomSockFile(random), { sock } = knitSock({ ...file, leg: { ...file.leg, lengthMm: Math.round(40 * random()) }, counts: { footPasses: 20 } });
    if (sock !== null && sock.plan.stitches <= 60) socks.push(sock);
  }
  return socks;
}

/** Source: common practice, no source; the sock of test/outside/knit-common-practice.test.ts. */
const COMMON: SockFile = {
  gauge: { stitchesPer10cm: perInchToPer10cm(8), rowsPer10cm: perInchToPer10cm(10) },
  counts: { stitches: 64, legPasses: 50, anklePasses: 4, footPasses: 98 },
  heel: { turnDownWidth: 10 }, toe: { tipStitches: 10, passesPerDecrease: 4 },
};

function traceOf(program: Program): Trace {
  const { trace, fault } = knitProgram(program);
  if (trace === null) throw new Error(fault.reason);
  return trace;
}

function compare(seen: readonly SeenPass[], { needleStates, passes, needlesPerBed }: KnittedSock['trace']): void {
  expect(seen.map(({ pass }) => pass)).toEqual(passes.slice(1).map(({ pass }) => pass));
  for (const { pass, states, knitted, to } of seen) {
    expect(states, `needles after pass ${pass}`).toBe(needleStates.subarray(2 * pass * needlesPerBed, 2 * (pass + 1) * needlesPerBed).join(''));
    expect(knitted, `stitches of pass ${pass}`).toBe(passes[pass].knitted);
    expect(to, `carriage before pass ${pass}`).not.toBe(passes[pass].from);
  }
}

describe('a knitting sheet, knitted from its text alone on needles of the test', () => {
  it('says of the common-practice sock what its knitter expects', () => {
    const text = sheetOf(knit(COMMON)), { words, tables } = readSheet(text);
    expect(words.get('Foot')).toContain('98 passes of tube, that is 49 rounds');
    expect(words.get('Heel')).toMatch(/Turning down, 22 passes, stitches from 31 to 10/);
    expect(words.get('Heel')).toMatch(/Turning out, 22 passes, stitches from 11 to 32/);
    const stitches = (caption: string): number[] => (tables.get(`Heel/${caption}`) ?? []).map((row) => Number(row['Knits']));
    expect(stitches('Into hold, pass by pass')).toEqual(Array.from({ length: 22 }, (_, i) => 31 - i));
    expect(stitches('Back to work, pass by pass')).toEqual(Array.from({ length: 22 }, (_, i) => 11 + i));
    // Eleven times four stitches: 32 to 10 a bed.
    expect((tables.get('Toe/Decreases: before which pass, stitches then on a bed, passes then knitted') ?? []).map((row) => Number(row['A bed']))).toEqual(Array.from({ length: 11 }, (_, i) => 30 - 2 * i));
  });

  it('brings the needles to where the trace has them after every pass, and leaves no loop', () => {
    const socks = randomSocks(2026, 30), kinds = new Set<string>();
    socks.forEach((sock, i) => {
      const { plan, trace } = sock, numbers = i % 2 === 0 ? 'middle' : 'left', { seen, liveAtEnd } = knitSheet(sheetOf(sock, { numbers, unit: i % 3 === 0 ? 'in' : 'cm' }));
      compare(seen, trace);
      expect(liveAtEnd).toBe(0);
      expect(seen.reduce((sum, { wraps }) => sum + wraps, 0)).toBe(trace.wraps + trace.cornerWraps);
      expect(seen.reduce((sum, { knitted }) => sum + knitted, plan.stitches)).toBe(trace.loops);
      kinds.add(plan.legKind).add(plan.toeKind).add(plan.closing).add(plan.heelStitches > plan.bedStitches ? 'wide heel' : 'half heel')
        .add(plan.plateauPasses > 0 ? 'plateau' : 'no plateau').add(plan.toeSlantStitches > 0 ? 'slant' : 'no slant').add(plan.needlesPerBed % 2 === 0 ? 'even bed' : 'odd bed');
    });
    // Every kind has been among them.
    expect(kinds.size).toBe(14);
  });

  it('is found wrong where a needle, a count or a side is', () => {
    const sock = knit(COMMON), text = sheetOf(sock), replay = (changed: string) => () => {
      expect(changed).not.toBe(text);
      const { seen, liveAtEnd } = knitSheet(changed);
      compare(seen, sock.trace);
      expect(liveAtEnd).toBe(0);
    };
    expect(replay(text.replace(/^( {2}\d+ +right +)R12( +23)/m, '$1R13$2'))).toThrow();
    expect(replay(text.replace(/^( {2}\d+ +)right( +R12 +23)/m, '$1left$2'))).toThrow();
    expect(replay(text.replace(/^ {2}L20 +L13$/m, '  L20  L14'))).toThrow();
    expect(replay(text.replace('L14 L15', 'L13 L14'))).toThrow();
    expect(replay(text.replace(/10 pairs, from L5 to R5/, '8 pairs, from L4 to R4'))).toThrow();
  });

  it('gives the other sock the toe of the mirrored program, and says so where nothing differs', () => {
    const sock = knit({ ...COMMON, toe: { ...COMMON.toe, slantStitches: 4 }, foot: { side: 'right' } }), text = sheetOf(sock), { tables, words } = readSheet(text);
    const mirrored = traceOf(mirrorProgram(sock.program)), { needlesPerBed } = mirrored;
    const carrying = (bed: number, pass: number): number[] => [...mirrored.needleStates.subarray((2 * pass + bed) * needlesPerBed, (2 * pass + bed + 1) * needlesPerBed)]
      .flatMap((state, i) => (state === 0 ? [] : [i + 1]));
    const label = (needle: number): string => (needle <= needlesPerBed / 2 ? `L${needlesPerBed / 2 + 1 - needle}` : `R${needle - needlesPerBed / 2}`);
    const rows = tables.get('The other sock/Decreases of the left sock: before which pass, stitches then on a bed, passes then knitted') ?? [];
    expect(rows.length).toBe(sock.plan.toeDecreases);
    for (const row of rows) {
      const before = carrying(0, Number(row['Before']) - 1), after = carrying(0, Number(row['Before']));
      // The outermost needles that the mirrored work empties are the ones that the table moves last.
      expect(row['Left end'] === '–' ? null : row['Left end'].split(' ').at(-1)).toBe(after[0] === before[0] ? null : label(before[0]));
      expect(row['Right end'] === '–' ? null : row['Right end'].split(' ').at(-1)).toBe(after.at(-1) === before.at(-1) ? null : label(before.at(-1)!));
      expect(Number(row['A bed'])).toBe(after.length);
    }
    expect(words.get('The other sock')).toContain('The carriage starts on the right');
    const plain = sheetOf(knit(COMMON));
    expect(readSheet(plain).words.get('The other sock')).toContain('nothing differs');
    // Nothing on one side only: the mirrored work's needles are the same, after every pass but that of the heel's odd ones.
    const own = knit(COMMON), other = traceOf(mirrorProgram(own.program));
    const last = (own.trace.passes.length - 1) * 2 * needlesPerBed;
    expect([...other.needleStates.subarray(last)]).toEqual([...own.trace.needleStates.subarray(last)]);
  });
});
