import { expect, it } from 'vitest';
import { toeWords } from '../../src/panel/plan-strip.ts';
import { planSock } from '../../src/plan/plan-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';

const words = (toe: NonNullable<SockFile['toe']>): string => toeWords(planSock({ gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, counts: { stitches: 72, footPasses: 110 }, toe }).plan!);

it.each<[NonNullable<SockFile['toe']>, string]>([
  [{}, '4 stitches every 4 passes'],
  [{ passesPerDecrease: 6, tipStitches: 34 }, '4 stitches every 6 passes'],
  [{ schedule: [{ passes: 4, times: 6 }, { passes: 2, times: 5 }] }, 'every 4 passes 6 times, every 2 passes 5 times'],
  [{ schedule: [{ passes: 4, times: 6 }, { passes: 4, times: 1 }] }, '4 stitches every 4 passes'],
  [{ slantStitches: 4 }, '4 stitches every 4 passes; the first 4 on the little toe\'s side only, 2 stitches'],
])('the toe %j is told', (toe, text) => {
  expect(words(toe)).toBe(text);
});
