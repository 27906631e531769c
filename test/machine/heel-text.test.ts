import { expect, test } from 'vitest';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { drawBeds, drawPasses } from './draw-passes.ts';

/** Common practice, no source: turning down, one more needle a pass is held away from the carriage; turning out, one returns. */
test('the heel of 12 turned down to 4, as the needles show it', () => {
  const { sock } = knitSock({
    gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 },
    counts: { stitches: 24, legPasses: 4, footPasses: 20 }, heel: { turnDownWidth: 4, plateauPasses: 2 },
  });
  expect(`\n${drawPasses(sock!.trace, 0, ['heel-in', 'heel-level', 'heel-out'])}`).toBe(`
  11 > |||||||||||o 11
  12 < o||||||||||o 10
  13 > o|||||||||oo 9
  14 < oo||||||||oo 8
  15 > oo|||||||ooo 7
  16 < ooo||||||ooo 6
  17 > ooo|||||oooo 5
  18 < oooo||||oooo 4
  19 > oooo||||oooo 4
  20 < oooo||||oooo 4
  21 > oooo|||||ooo 5
  22 < ooo||||||ooo 6
  23 > ooo|||||||oo 7
  24 < oo||||||||oo 8
  25 > oo|||||||||o 9
  26 < o||||||||||o 10
  27 > o||||||||||| 11
  28 < |||||||||||| 12`);
});

/**
 * Geometry of the beds: two stitches at each end change to the heel bed before the heel, each side while the
 * carriage is away, and go back after it. Back bed above, front bed below; the pass's stitches at the end.
 */
test('the heel on 16 of 24 stitches: the round before it, its first and last passes, and the first round of the foot', () => {
  const { sock } = knitSock({
    gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 },
    counts: { stitches: 24, legPasses: 4, footPasses: 20 }, heel: { stitches: 16, turnDownWidth: 6 },
  });
  const sections = sock!.trace.passes.map((record) => record.section);
  const [lastAnkle, firstFoot] = [sections.lastIndexOf('ankle'), sections.indexOf('foot')];
  const passes = [lastAnkle - 2, lastAnkle - 1, lastAnkle, lastAnkle + 1, lastAnkle + 2, firstFoot - 2, firstFoot - 1, firstFoot, firstFoot + 1, firstFoot + 2];
  expect(`\n${drawBeds(sock!.trace, passes)}`).toMatchInlineSnapshot(`
    "
       8 <   ||||||||||||
             ||||||||||||   12
       9 >   ||||||||||
             |||||||||||||| 10
      10 <     ||||||||
           |||||||||||||||| 16
      11 >     ||||||||
           |||||||||||||||o 15
      12 <     ||||||||
           o||||||||||||||o 14
      29 >     ||||||||
           o||||||||||||||| 15
      30 <     ||||||||
           |||||||||||||||| 16
      31 >     ||||||||||
           ||||||||||||||   10
      32 <   ||||||||||||
             ||||||||||||   12
      33 >   ||||||||||||
             ||||||||||||   12"
  `);
  expect(sock!.trace).toMatchObject({ transfers: 24 + 8 + 8 * 4, cornerWraps: 2 });
});

/** A right foot's heel on the front bed: seen from before, the sole shows, toes up, its little toe on the left. */
test('a toe slanted by 4 stitches, from 12 down to 4', () => {
  const { sock } = knitSock({
    gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 },
    counts: { stitches: 24, legPasses: 4, footPasses: 20 }, heel: { turnDownWidth: 4 }, toe: { slantStitches: 4, passesPerDecrease: 2 },
  });
  const toe = sock!.trace.passes.filter((record) => record.section === 'toe').map((record) => record.pass);
  expect(`\n${drawBeds(sock!.trace, [toe[0] - 1, ...toe.filter((_, i) => i % 2 === 1)])}`).toMatchInlineSnapshot(`
    "
      46 < ||||||||||||
           |||||||||||| 12
      48 <  |||||||||||
            ||||||||||| 11
      50 <   ||||||||||
             |||||||||| 10
      52 <    |||||||||
              ||||||||| 9
      54 <     ||||||||
               |||||||| 8
      56 <      ||||||
                ||||||  6
      58 <       ||||
                 ||||   4"
  `);
  expect(sock!.trace).toMatchObject({ decreases: 4 * 2 + 2 * 4, transfers: 24 + 4 * 4 + 2 * 8 });
});
