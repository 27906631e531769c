import { describe, expect, test } from 'vitest';
import { adviseInSteps, adviseSock, isDistinct } from '../../src/choose/advise-sock.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { checkSock } from '../../src/plan/check-sock.ts';
import { planSock } from '../../src/plan/plan-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';

/** Invented: a foot with a high instep (1.44 of the ball girth, where the survey's mean is 1.363). */
const HIGH: SockFile = { gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, foot: { lengthMm: 262, ballGirthMm: 246, heelDiagonalMm: 354 }, leg: { lengthMm: 60 } };

/** Invented, too: each asks for another branch of the search. */
const FILES: readonly (readonly [string, SockFile])[] = [
  ['a high instep', HIGH],
  ['a short-row toe', { ...HIGH, toe: { kind: 'short-row' } }],
  ['a tube leg, pointed toes, little ease', { ...HIGH, foot: { ...HIGH.foot, toes: 'pointed' }, leg: { kind: 'tube', lengthMm: 40 }, ease: { girthPercent: -5, lengthPercent: -3 } }],
  ['a shoe size and a girth', { gauge: HIGH.gauge, foot: { shoeSize: { system: 'uk', value: 7 }, ballGirthMm: 240 } }],
  ['a length alone, stitches by hand', { gauge: HIGH.gauge, foot: { lengthMm: 255 }, counts: { stitches: 68 } }],
  ['choices of the person\'s own', { ...HIGH, heel: { turnDownWidth: 20, plateauPasses: 12, wraps: false }, toe: { passesPerDecrease: 6, tipStitches: 20 }, name: 'Mine' }],
];

describe.each(FILES)('advice for %s', (_name, file) => {
  const { best, present, tried } = adviseSock(file);

  test('is three socks that can be knitted, the best first and no worse than the present one', () => {
    expect(best).toHaveLength(3);
    expect(tried).toBeGreaterThan(1000);
    for (let i = 1; i < best.length; i++) expect(best[i].score).toBeGreaterThanOrEqual(best[i - 1].score);
    if (present !== null) expect(best[0].score).toBeLessThanOrEqual(present.score);
    for (const { file: advised, plan } of best) {
      expect(checkSock(advised).problems).toEqual([]);
      expect(planSock(advised).plan).toEqual(plan);
    }
  });

  test('differs in what a person notices', () => {
    for (const [i, a] of best.entries()) for (const b of best.slice(0, i)) expect(isDistinct({ ...a.plan }, { ...b.plan })).toBe(true);
  });

  test('keeps all of the file but what it changes, and counts what that takes', () => {
    const [first] = best, { sock } = knitSock(first.file);
    for (const group of ['gauge', 'foot', 'leg', 'ease', 'name', 'yarns', 'machine'] as const) expect(first.file[group]).toEqual(file[group]);
    expect(first.file.heel?.wraps).toEqual(file.heel?.wraps);
    expect(first.file.toe?.kind).toEqual(file.toe?.kind);
    // What the simulated machine counts and weighs, to the last bit.
    expect(first.passes).toBe(sock!.trace.passes.length - 1);
    expect(first.metres).toBe(sock!.yarn.reduce((sum, { metres }) => sum + metres, 0));
    expect(first.grams).toBe(sock!.yarn.reduce((sum, { grams }) => sum + grams, 0));
    for (const { from, to } of first.changes) expect(from).not.toBe(to);
  });
});

describe('counts fixed by hand', () => {
  const fixed: SockFile = { ...HIGH, counts: { stitches: 76, footPasses: 110 } };

  test('stay', () => {
    for (const { plan, changes } of adviseSock(fixed).best) {
      expect([plan.stitches, plan.footPasses]).toEqual([76, 110]);
      expect(changes.map(({ field }) => field)).not.toContain('counts.stitches');
    }
    expect(adviseSock(fixed).best[0].reason).toContain('Stitches round and foot passes stay as they are fixed by hand.');
  });

  test('go where the person asks, to the sock that the bare foot gets', () => {
    const free = adviseSock(fixed, { keepsCounts: false }).best[0], bare = adviseSock(HIGH).best[0];
    expect(free.plan).toEqual(bare.plan);
    expect(free.score).toBe(bare.score);
    expect(free.changes.find(({ field }) => field === 'counts.stitches')).toEqual({ field: 'counts.stitches', from: 76, to: bare.plan.stitches });
  });

  test('a toe with rates of its own is left as it is', () => {
    const { plan } = planSock({ ...HIGH, toe: { passesPerDecrease: 2 } });
    const own: SockFile = { ...HIGH, counts: { stitches: plan?.stitches ?? 0 }, toe: { passesPerDecrease: 2, slantStitches: 0 } };
    for (const { plan: advised } of adviseSock(own).best) expect(advised.passesPerDecrease).toBe(2);
  });
});

describe('the machine', () => {
  /** A flat rib leg takes as many needles as stitches round: 68 would be nearest to the wanted girth. */
  test('bounds the stitches round', () => {
    for (const { plan } of adviseSock({ ...HIGH, machine: { needlesPerBed: 64 } }).best) expect(plan.stitches).toBeLessThanOrEqual(64);
  });

  test('too small for any such sock is a problem, and no advice', () => {
    const { best, present, problems } = adviseSock({ ...HIGH, machine: { needlesPerBed: 40 } });
    expect([best, present]).toEqual([[], null]);
    expect(problems[0].field).toBe('machine.needlesPerBed');
  });
});

describe('advice without a foot', () => {
  test('is a problem at the foot', () => {
    const { best, problems } = adviseSock({ gauge: HIGH.gauge, counts: { stitches: 72, footPasses: 100 } });
    expect(best).toEqual([]);
    expect(problems.map(({ field }) => field)).toEqual(['foot.lengthMm']);
  });

  test('and for no sock file, the file\'s own problems', () => {
    expect(adviseSock({ gauge: { stitchesPer10cm: 3, rowsPer10cm: 42 } }).problems.map(({ field }) => field)).toContain('gauge.stitchesPer10cm');
  });
});

describe('advice in steps', () => {
  test('tells how far it is, never less than before, and ends at 1', () => {
    const told = [...adviseInSteps(HIGH)];
    expect(told.length).toBeGreaterThan(5);
    for (let i = 1; i < told.length; i++) expect(told[i]).toBeGreaterThan(told[i - 1]);
    expect(told[0]).toBeGreaterThan(0);
    expect(told.at(-1)).toBeCloseTo(1, 12);
  });

  test('stops when told to, and a new search begins afresh', () => {
    const steps = adviseInSteps(HIGH);
    steps.next();
    expect(steps.return({ present: null, best: [], tried: 0, problems: [] }).done).toBe(true);
    expect(steps.next()).toEqual({ done: true, value: undefined });
    expect(adviseSock(HIGH)).toEqual(adviseSock(HIGH));
  });
});
