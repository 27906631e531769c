import { describe, expect, it } from 'vitest';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import type { KnittedSock, PosedSock } from '../../src/pipeline/result.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';

/** Invented, and just large enough to have a coarse sock as its guide. */
const BASE: SockFile = {
  gauge: { stitchesPer10cm: 20, rowsPer10cm: 28 }, heel: { turnDownWidth: 8 }, toe: { tipStitches: 8 },
  counts: { stitches: 48, legPasses: 24, footPasses: 60 },
};

function knit(file: SockFile): KnittedSock {
  const { sock, problems } = knitSock(file);
  if (sock === null) throw new Error(JSON.stringify(problems));
  return sock;
}

const EDITS: Record<string, Partial<SockFile>> = {
  'turn-down width by 2': { heel: { turnDownWidth: 10 } },
  'toe rate': { toe: { tipStitches: 8, passesPerDecrease: 2 } },
  'toe schedule': { toe: { schedule: [{ passes: 4, times: 3 }, { passes: 2, times: 5 }] } },
  'slanted toe': { toe: { tipStitches: 8, slantStitches: 4 } },
  'heel on more than half': { heel: { turnDownWidth: 8, stitches: 28 } },
  'stitches': { counts: { ...BASE.counts, stitches: 52 } },
};

function dimensions({ measures }: PosedSock): [string, number][] {
  return Object.entries(measures).filter((entry): entry is [string, number] => entry[1] !== null);
}

// A minimum is one wherever it was sought from. If these shapes differed, what the knitter sees would hang on what she looked at before.
describe.each(['flat', 'tube'] as const)('%s: a change seen from the old shape ends where it ends from scratch', (pose) => {
  const base = knit(BASE), near = { fabric: base.fabric, positions: poseSock(base, pose).pose.positions };

  it.each(Object.keys(EDITS))('%s', (name) => {
    const sock = knit({ ...BASE, ...EDITS[name] }), cold = poseSock(sock, pose), warm = poseSock(sock, pose, { near });
    expect([cold.pose.status, warm.pose.status]).toEqual(['converged', 'converged']);
    const wanted = new Map(dimensions(cold));
    for (const [key, value] of dimensions(warm)) expect(Math.abs(value / (wanted.get(key) ?? NaN) - 1), key).toBeLessThan(2e-3);
  });
});
