import { describe, expect, it } from 'vitest';
import { estimateYarn } from '../../src/measure/estimate-yarn.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { findLoopLength } from '../../src/yarn/loop-length.ts';

const FILE: SockFile = {
  gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 },
  counts: { stitches: 72, legPasses: 40, footPasses: 100 },
  yarns: [
    { name: 'leg and foot', metresPer100g: 420, colour: '#224466', from: 'leg' },
    { name: 'toe', metresPer100g: 210, colour: '#aa3322', from: 'toe' },
  ],
};

function yarnOf(file: SockFile): { metres: number[]; grams: number[]; loops: number } {
  const { sock, problems } = knitSock(file);
  if (sock === null) throw new Error(JSON.stringify(problems));
  const use = estimateYarn(sock.plan, sock.grid);
  return { metres: use.map((yarn) => yarn.metres), grams: use.map((yarn) => yarn.grams), loops: sock.trace.loops };
}

describe('yarn', () => {
  it('is nearly all in the loops, shared out by yarn', () => {
    const { metres, grams, loops } = yarnOf(FILE);
    const inLoops = (loops * findLoopLength(3, 4.2)) / 1000;
    const total = metres[0] + metres[1];
    expect(total).toBeGreaterThan(inLoops);
    expect(total / inLoops).toBeLessThan(1.05);
    expect(metres[1] / total).toBeGreaterThan(0.05);
    expect(metres[1] / total).toBeLessThan(0.25);
    expect(grams[0]).toBeCloseTo((100 * metres[0]) / 420, 10);
    expect(grams[1]).toBeCloseTo((100 * metres[1]) / 210, 10);
  });

  it('counts two tails for each length', () => {
    const twice = yarnOf({ ...FILE, yarns: [{ ...FILE.yarns![0], stripePasses: 4 }, { ...FILE.yarns![1], from: 'leg', stripePasses: 4 }] });
    const once = yarnOf(FILE);
    expect(twice.metres[0] + twice.metres[1]).toBeGreaterThan(once.metres[0] + once.metres[1]);
  });

  it('is spared by leaving wraps away, by half a loop each', () => {
    const metres = (wraps: boolean): number => yarnOf({ ...FILE, heel: { turnDownWidth: 12, wraps } }).metres[0];
    expect((metres(true) - metres(false)) * 1000).toBeCloseTo(24 * 0.5 * findLoopLength(3, 4.2), 6);
  });
});
