import { describe, expect, it } from 'vitest';
import { BED, LOOP } from '../../src/machine/codes.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { CHART_MARK } from '../../src/sheet/chart-marks.ts';
import { layChart } from '../../src/sheet/lay-chart.ts';
import { readStitch, relativesOf, type StitchStep, stepFrom } from '../../src/sheet/read-stitch.ts';

const { sock } = knitSock({
  gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, counts: { stitches: 24, legPasses: 4, footPasses: 6 }, heel: { turnDownWidth: 6 }, toe: { tipStitches: 6 },
});
const { grid, trace } = sock!, ids = Array.from({ length: grid.loopCount }, (_, loop) => loop), all = ids.map((loop) => readStitch(grid, loop));
const step = (loop: number, way: StitchStep): number => stepFrom(grid, all[loop], way);

/**
 * By hand, as in describe-stitch.test.ts: 12 needles a bed, L6 to R6 or 85 to 96; ankle passes 7 to 10, heel from 11. R6 of the front bed
 * goes into hold with its loop of pass 10 and is wrapped after pass 11; pass 21 knits it again, wrap and all.
 */
describe('a held stitch', () => {
  const held = all.find(({ pass, needle, bed, kind }) => pass === 10 && needle === 96 && bed === 'front' && kind === 'knit')!;

  it('has its wrap, and the stitch that takes both', () => {
    expect(held.section).toBe('ankle');
    expect(held.wraps.map((wrap) => [all[wrap].kind, all[wrap].pass, all[wrap].host])).toEqual([['wrap', 11, held.loop]]);
    const next = all[held.child];
    expect([next.pass, next.needle, next.section]).toEqual([21, 96, 'heel-out']);
    expect([next.parents, next.wrapsKnitted, next.leans]).toEqual([[held.loop], held.wraps, null]);
    expect(relativesOf(held)).toEqual([...held.parents, ...held.wraps, held.child]);
  });

  it('is come to from its wrap, down, and both lead up to the same stitch', () => {
    const [wrap] = held.wraps;
    expect([step(wrap, 'down'), step(wrap, 'up'), step(held.child, 'down')]).toEqual([held.loop, held.child, held.loop]);
  });
});

it('four corner wraps, two after each of the heel\'s last two passes on either side, lie round needles of the other bed (DESIGN: two a heel)', () => {
  const corners = all.filter(({ kind }) => kind === 'cornerWrap');
  expect(corners.map(({ pass }) => pass)).toEqual([21, 22]);
  for (const { host, pass } of corners) expect(grid.bed[host]).not.toBe(grid.bed[trace.passes[pass].firstLoop]);
});

it('a rib shows purl on half of its stitches, those of one bed', () => {
  const rib = all.filter(({ section, kind }) => section === 'leg' && kind !== 'castOn');
  const purls = rib.filter(({ kind }) => kind === 'purl');
  expect(purls.length).toBe(rib.length / 2);
  expect(new Set(purls.map(({ bed }) => bed)).size).toBe(1);
});

it('a decrease leans as the chart draws it, which finds it by the wales of the fabric', () => {
  const chart = layChart(sock!, 'sock', 'beds'), leaning = all.filter(({ leans }) => leans !== null);
  expect(leaning.length).toBe(sock!.plan.toeDecreases * 4);
  for (const { loop, leans } of leaning) expect(chart.marks[chart.cellOfLoop[loop]] & (leans === 'left' ? CHART_MARK.decreaseLeft : CHART_MARK.decreaseRight), String(loop)).not.toBe(0);
  expect(leaning.filter(({ leans }) => leans === 'left').length).toBe(leaning.length / 2);
});

it('steps along the yarn and back, and down to where the step up began', () => {
  for (const { loop, yarnAfter, child, kind } of all) {
    if (yarnAfter >= 0) expect(step(yarnAfter, 'yarn-back')).toBe(loop);
    if (child >= 0 && kind !== 'wrap' && kind !== 'cornerWrap' && all[child].parents.length === 1) expect(step(child, 'down')).toBe(loop);
  }
  expect(all.filter(({ kind }) => kind === 'graft').length).toBe(ids.filter((loop) => grid.kind[loop] === LOOP.graft).length);
  expect(all.filter(({ bed }) => bed === 'back').length).toBe(ids.filter((loop) => grid.bed[loop] === BED.back).length);
});
