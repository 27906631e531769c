import { expect, it } from 'vitest';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { CHART_MARK } from '../../src/sheet/chart-marks.ts';
import { describeStitch } from '../../src/sheet/describe-stitch.ts';
import { layChart } from '../../src/sheet/lay-chart.ts';
import { WORDS } from '../../src/words/words.ts';

const { sock } = knitSock({
  gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, counts: { stitches: 24, legPasses: 4, footPasses: 6 }, heel: { turnDownWidth: 6 }, toe: { tipStitches: 6 },
});
const { grid, trace } = sock!, chart = layChart(sock!, 'sock', 'beds');
const tell = (loop: number, language: 'en' | 'de' = 'en', numbers: 'middle' | 'left' = 'middle'): string => describeStitch(grid, chart, trace.needlesPerBed, loop, { words: WORDS[language], numbers });
/** The loop that a pass formed on a needle. */
const loopAt = (pass: number, needle: number): number => {
  const { firstLoop, knitted } = trace.passes[pass];
  for (let loop = firstLoop; loop < firstLoop + knitted; loop++) if (grid.needle[loop] === needle) return loop;
  throw new Error(`pass ${pass} knits nothing on needle ${needle}`);
};

/**
 * By hand: 180 needles, 12 a bed, so 85 to 96 or L6 to R6. Leg 1 to 4, plain rows 5 and 6, ankle 7 to 10, heel from 11: before it the
 * needle away from the carriage, R6, goes into hold with its loop of pass 10. Six down and six out: the first of a pair to wait is the
 * first of it to come back, in the last pair of passes, 21 and 22; 21 goes to the right. It waits in passes 11 to 20.
 */
it('says where a held loop waits, and when it is knitted again', () => {
  expect(tell(loopAt(10, 96))).toBe('Ankle: pass 10, needle R6, front bed; held from pass 11 on; one wrap lies round it, laid after pass 11; drawn through pass 8 at R6; knitted next by pass 21, after waiting 10 passes in hold');
  expect(tell(loopAt(10, 96), 'de')).toMatch(/ab Reihe 11 gehalten; ein Wickel liegt darum, gelegt nach Reihe 11; .*nachdem sie 10 Reihen gehalten wurde/);
  expect(tell(loopAt(10, 96), 'en', 'left')).toContain('needle 96, front bed');
});

it('says what a cast-on, a decrease and the last stitches are', () => {
  expect(tell(0)).toMatch(/^Cast-on: needle [LR]\d+, (front|back) bed; /);
  const decrease = [...chart.loop].find((_, cell) => (chart.marks[cell] & CHART_MARK.decreaseRight) !== 0)!;
  expect(tell(decrease)).toMatch(/two loops knitted together, leaning right; drawn through pass \d+ at [LR]\d and pass \d+ at [LR]\d/);
  expect(tell(loopAt(trace.passes.length - 1, 90))).toMatch(/joined at the closing; drawn through .*; closed at the end$/);
});

it('tells each stitch of a sock, in both languages, without a hole in the sentence', () => {
  for (const loop of chart.loop) for (const language of ['en', 'de'] as const) expect(tell(loop, language)).not.toMatch(/undefined|NaN|-1|;\s*;|^\s|\s$/);
});
