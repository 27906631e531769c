import { describe, expect, it } from 'vitest';
import { sumOf } from '../../src/base/whole-parts.ts';
import { estimateParts, estimateYarn, TAIL_MM, type YarnParts } from '../../src/measure/estimate-yarn.ts';
import { measureYarn } from '../../src/measure/measure-yarn.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { measureLaidYarn } from '../../src/pipeline/measure-laid-yarn.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import type { KnittedSock } from '../../src/pipeline/result.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { threadYarn } from '../../src/yarn/thread-yarn.ts';
import { PART, PIECE_POINTS, POINT_STRIDE, type YarnThread } from '../../src/yarn/yarn-lay.ts';

const FILE: SockFile = {
  gauge: { stitchesPer10cm: 10, rowsPer10cm: 14 }, leg: { lengthMm: 60 }, counts: { stitches: 24, footPasses: 24 },
  yarns: [{ name: 'leg and foot', metresPer100g: 420, from: 'leg' }, { name: 'toe', metresPer100g: 210, from: 'toe' }],
};

function knit(file: SockFile): KnittedSock {
  const { sock, problems } = knitSock(file);
  if (sock === null) throw new Error(JSON.stringify(problems));
  return sock;
}

/** Control points that run through all pieces one after the other, as `at` says; each length begins where the one before ends. */
function layAlong(thread: YarnThread, at: (point: number) => readonly [number, number, number]): { thread: YarnThread; points: Float32Array } {
  const points = new Float32Array(POINT_STRIDE * PIECE_POINTS * thread.pieceCount);
  for (let i = 0; i < thread.pieceCount * PIECE_POINTS; i++) points.set(at(i), POINT_STRIDE * i);
  return { thread, points };
}

const sock = knit(FILE), thread = threadYarn(sock.grid), lengths = thread.lengthStart.length - 1;
const partPieces = (...codes: number[]): number => [...thread.part].filter((code) => codes.includes(code)).length;
const partSum = (laid: ReturnType<typeof measureYarn>, part: keyof YarnParts): number => sumOf(laid.map(({ parts }) => parts[part]));

describe('yarn along centre lines', () => {
  // Closed form: control points of a uniform B-spline a step apart on a straight line make that line, a step a span (linear precision).
  it('on a straight line is a step for each span: the pieces of each kind times their spans', () => {
    const stepMm = 0.5, laid = measureYarn(sock.plan, sock.grid, layAlong(thread, (i) => [stepMm * i, 0, 0])), pieceMetres = stepMm * PIECE_POINTS / 1000;
    expect(partPieces(PART.seam)).toBeGreaterThan(5);
    for (const [part, pieces] of [['seam', partPieces(PART.seam)], ['wraps', partPieces(PART.wrap)], ['castOn', sock.plan.stitches], ['loops', sock.trace.loops - sock.plan.stitches]] as const) {
      expect(partSum(laid, part), part).toBeCloseTo(pieces * pieceMetres, 4);
    }
    expect(partSum(laid, 'closing')).toBeCloseTo(partPieces(PART.graft, PART.bindOff) * pieceMetres, 4);
  });

  it('counts tails as they are cut, not as they are drawn, and the lengths of each yarn', () => {
    const laid = measureYarn(sock.plan, sock.grid, layAlong(thread, (i) => [100 * i, 0, 0]));
    expect(sumOf(laid.map((yarn) => yarn.lengths))).toBe(lengths);
    for (const yarn of laid) expect(yarn.parts.tails).toBeCloseTo(yarn.lengths * 2 * TAIL_MM / 1000, 9);
  });

  /**
   * Closed form: control points at equal turns a on a circle make, to the fourth order, a circle whose radius is (2 + cos a) / 3 of theirs: at a
   * span's end the blend is (p0 + 4 p1 + p2) / 6. At 48 points a turn what is left is below 1 in 1e5 of its length 2 pi r. On a helix of pitch p
   * that becomes hypot(2 pi r, p) a turn.
   */
  it.each([[5, 0], [3, 2], [1.5, 9]])('on a helix of radius %d and pitch %d is its arc length within 1 in 1e4', (radius, pitch) => {
    const turnPoints = 48, a = (2 * Math.PI) / turnPoints, control = radius / ((2 + Math.cos(a)) / 3);
    const laid = measureYarn(sock.plan, sock.grid, layAlong(thread, (i) => [control * Math.cos(a * i), control * Math.sin(a * i), (pitch * i) / turnPoints]));
    const turns = ((sock.trace.loops - sock.plan.stitches) * PIECE_POINTS) / turnPoints, wanted = turns * Math.hypot(2 * Math.PI * radius, pitch) / 1000;
    expect(Math.abs(partSum(laid, 'loops') / wanted - 1)).toBeLessThan(1e-4);
  });

  it('is scaled with the sock: all but the tails, which are cut by hand', () => {
    // Twice as many stitches and rows in 10 cm, and the same counts; a yarn half as thick has four times the metres in 100 g (a rod's mass goes with the square of its thickness).
    const { stitches, legPasses, footPasses } = sock.plan, { positions } = poseSock(sock, 'tube').pose;
    const small = knit({ gauge: { stitchesPer10cm: 20, rowsPer10cm: 28 }, counts: { stitches, legPasses, footPasses }, yarns: FILE.yarns!.map((yarn) => ({ ...yarn, metresPer100g: yarn.metresPer100g! * 4 })) });
    expect(small.grid).toEqual(sock.grid);
    const twice = measureLaidYarn(sock, positions, 'tube'), once = measureLaidYarn(small, positions.map((mm) => mm / 2), 'tube');
    for (const part of ['loops', 'wraps', 'castOn'] as const) expect(partSum(twice, part) / partSum(once, part), part).toBeCloseTo(2, 2);
    expect(partSum(twice, 'tails')).toBe(partSum(once, 'tails'));
  });

  it('comes to its parts, and grams follow metres', () => {
    const laid = measureLaidYarn(sock, poseSock(sock, 'flat').pose.positions, 'flat');
    laid.forEach(({ name, metres, grams, parts }, at) => {
      expect(name).toBe(FILE.yarns![at].name);
      expect(metres).toBeCloseTo(sumOf(Object.values(parts)), 9);
      expect(grams).toBeCloseTo((100 * metres) / FILE.yarns![at].metresPer100g!, 9);
    });
  });
});

describe('the textbook\'s estimate by parts', () => {
  it('comes to the estimate', () => {
    const parts = estimateParts(sock.plan, sock.grid), use = estimateYarn(sock.plan, sock.grid);
    parts.forEach((yarn, at) => { expect(use[at].metres).toBeCloseTo(sumOf(Object.values(yarn)), 9); });
    // Common practice, no source: a graft takes four times its width, here the toe's tip at 10 stitches in 10 cm.
    expect(sumOf(parts.map(({ closing }) => closing))).toBeCloseTo(4 * sock.plan.toeTipStitches * 0.01, 9);
  });
});
