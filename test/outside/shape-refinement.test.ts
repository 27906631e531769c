import { describe, expect, it } from 'vitest';
import { measurePose } from '../../src/measure/measure-pose.ts';
import type { Measures } from '../../src/measure/measures.ts';
import { relaxSock } from '../../src/shape/index.ts';
import { knitSmallSock } from '../shape/small-sock.ts';

/** One child's sock, girth 160 mm, of loops 1, 1/2 and 1/4 as large both ways; the cloth stays the same. */
const measures: readonly Measures[] = [1, 2, 4].map((fineness) => {
  const fabric = knitSmallSock({
    gauge: { stitchesPer10cm: 10 * fineness, rowsPer10cm: 14 * fineness },
    leg: { kind: 'tube' },
    counts: { stitches: 16 * fineness, legPasses: 8 * fineness, anklePasses: 2 * fineness, footPasses: 20 * fineness },
    heel: { turnDownWidth: 2 * fineness },
    toe: { tipStitches: 4 * fineness },
  });
  const pose = relaxSock(fabric, 'flat');
  if (pose.status !== 'converged') throw new Error(`fineness ${fineness}: ${pose.status}`);
  return measurePose(fabric, pose.positions).measures;
});

/** How much the second halving moves a dimension, over the first halving's move and over the dimension. */
function secondMove(name: keyof Measures): { ofFirst: number; ofSize: number } {
  const [coarse, middle, fine] = measures.map((m) => m[name] ?? NaN);
  return { ofFirst: Math.abs((fine - middle) / (middle - coarse)), ofSize: Math.abs((fine - middle) / fine) };
}

// Numerical analysis (any text: Richardson): where a discrete shape has a limit, halving the mesh moves it less
// and less. `measured`: order 1.9 for the leg's length, 1.0 to 1.1 for throat, heel-tip girth and marked diagonal,
// 0.8 for the foot's length. Left out: the heel's depth, which moved by 6 % each time, without an order.
describe('a sock of half the loop size is nearer to a limit', () => {
  it.each(['throatToHeelMm', 'legLengthMm', 'heelTipGirthMm', 'heelDiagonalMm', 'footLengthMm'] as const)('%s moves by well under what it did', (name) => {
    expect(secondMove(name).ofFirst).toBeLessThan(0.65);
  });

  // Where the first move is next to nothing already, a share of it says little.
  it.each(['footGirthMm', 'toeLengthMm', 'legFootAngleDeg'] as const)('%s hardly moves', (name) => {
    expect(secondMove(name).ofSize).toBeLessThan(0.01);
  });
});
