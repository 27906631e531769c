import { expect, test } from 'vitest';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { drawPasses } from './draw-passes.ts';

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
