import { describe, expect, it } from 'vitest';
import { SECTION } from '../../src/machine/codes.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import type { KnittedSock, PosedSock } from '../../src/pipeline/result.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { SMALL_SOCK } from './small-sock.ts';

function knit(changes: Partial<SockFile>): KnittedSock {
  const { sock, problems } = knitSock({ ...SMALL_SOCK, ...changes });
  if (sock === null) throw new Error(JSON.stringify(problems));
  return sock;
}

function expectSound({ pose, measures }: PosedSock): void {
  expect(pose.status).toBe('converged');
  expect(pose.positions.every(Number.isFinite)).toBe(true);
  expect(Object.entries(measures).filter(([, value]) => value === null || !(value > 0))).toEqual([]);
}

const SOCKS: Record<string, Partial<SockFile>> = {
  'a heel on 22 of 36': { heel: { stitches: 22, turnDownWidth: 6 } },
  'a heel on 26 of 36 with a plateau, tube leg': { leg: { kind: 'tube' }, heel: { stitches: 26, turnDownWidth: 8, plateauPasses: 4 } },
  'a heel on 20 of 36, slanted toe of two rates': { heel: { stitches: 20 }, toe: { slantStitches: 4, schedule: [{ passes: 4, times: 3 }, { passes: 2, times: 5 }] } },
};

describe.each(Object.entries(SOCKS))('%s', (_, changes) => {
  const sock = knit(changes);

  it.each(['flat', 'tube'] as const)('comes to rest %s, with all its measures', (name) => {
    const posed = poseSock(sock, name);
    expectSound(posed);
    // Geometry: the foot's girth is its stitches, whatever the heel took of them; tolerances as for a plain sock.
    const girth = (sock.rest.footGirthMm ?? NaN);
    expect(Math.abs((posed.measures.footGirthMm ?? NaN) / girth - 1)).toBeLessThan(0.03);
  });

  it.each([['ankle', -1], ['heel-in', -1], ['heel-out', -2], ['foot', 0], ['foot', 1]] as const)('comes to rest on the beds while stitches change beds (%s, pass %d)', (section, at) => {
    const { pass } = sock.trace.passes.filter((record) => record.section === section).at(at) ?? { pass: -1 };
    expect(poseSock(sock, 'beds', { pass }).pose.status).toBe('converged');
  });
});

// Common practice, no source: more stitches in the heel make it deeper and longer over the instep.
it('a heel on more stitches is deeper and its lines are longer, at rest and on a tube', () => {
  const half = knit({ heel: { turnDownWidth: 6 } }), wide = knit({ heel: { turnDownWidth: 6, stitches: 24 } });
  const [posedHalf, posedWide] = [half, wide].map((sock) => poseSock(sock, 'tube').measures);
  for (const [a, b] of [[half.rest, wide.rest], [posedHalf, posedWide]]) {
    for (const key of ['heelDepthMm', 'heelDiagonalMm', 'heelTipGirthMm'] as const) expect(b[key] ?? NaN).toBeGreaterThan((a[key] ?? NaN) * 1.05);
  }
});

/** How far the last round lies to the left of the foot's middle, mm. Left is positive y (canonical frame). */
function leanOf(sock: KnittedSock, { pose }: PosedSock): number {
  const { vertexSection, vertexPass } = sock.fabric;
  const meanY = (isOne: (v: number) => boolean): number => {
    const at = Array.from(vertexSection.keys()).filter(isOne);
    return at.reduce((sum, v) => sum + pose.positions[3 * v + 1], 0) / at.length;
  };
  return meanY((v) => vertexPass[v] >= sock.trace.passes.length - 2) - meanY((v) => vertexSection[v] === SECTION.foot);
}

// Anatomy: the great toe of a right foot is on its left. A plain sock leans a little by itself: a tube is a helix.
it('a slanted toe leans to the great toe, and the left sock is the right one mirrored', () => {
  const tip = { tipStitches: 4 }, slanted = { ...tip, slantStitches: 6 };
  const [plain, right, left] = [{ toe: tip }, { toe: slanted }, { toe: slanted, foot: { side: 'left' as const } }].map((changes) => {
    const sock = knit(changes), posed = poseSock(sock, 'tube');
    expectSound(posed);
    return { lean: leanOf(sock, posed), measures: posed.measures };
  });
  expect(right.lean - plain.lean).toBeGreaterThan(15);
  expect(Math.abs(left.lean - plain.lean + right.lean - plain.lean)).toBeLessThan(3);
  for (const [key, value] of Object.entries(right.measures)) expect(Math.abs((left.measures[key as keyof typeof left.measures] ?? NaN) / (value ?? NaN) - 1), key).toBeLessThan(0.02);
});
