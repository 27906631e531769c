import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { LOOP, NEEDLE } from '../../src/machine/codes.ts';
import { findLoopStays } from '../../src/machine/loop-stays.ts';
import { findLoopLength } from '../../src/yarn/loop-length.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { formLoops, type Forming, momentOf, prepareForming, sideOfBed } from '../../src/yarn/form-loops.ts';
import { bedsOfPass, readFormNeedles, tellingNeedle, windowRound } from '../../src/yarn/form-needles.ts';
import { readFormScene } from '../../src/yarn/form-scene.ts';
import type { YarnLay } from '../../src/yarn/yarn-lay.ts';
import { packedDiameterMm } from '../../src/yarn/yarn-size.ts';

const { sock } = knitSock(JSON.parse(readFileSync(new URL('../../public/socks/plain.json', import.meta.url), 'utf8')));
if (sock === null) throw new Error('the example sock cannot be knitted');
const { plan, grid, trace, program } = sock, stays = findLoopStays(program, grid, trace);
const loopMm = findLoopLength(10 * plan.stitchesPerMm, 10 * plan.rowsPerMm), diameterMm = Float64Array.from(plan.yarns, ({ metresPer100g }) => packedDiameterMm(metresPer100g));

const needlesOf = (pass: number) => readFormNeedles({ grid, trace, stays, pass }, bedsOfPass({ grid, trace, pass }));
function formingOf(pass: number, at: number | null = null): Forming {
  const all = needlesOf(pass), needles = windowRound(all, at ?? tellingNeedle(all), 7);
  return prepareForming(readFormScene({ grid, trace, stays, pass, needles, pitchMm: plan.needlePitchMm, loopMm, diameterMm }));
}

/** Passes of the example: rib on both beds, tube on either bed, a wrap after the pass, a held loop that comes back with its wrap, two stitches on a needle. */
const passOf = (section: string, nth: number): number => trace.passes.filter((record) => record.section === section)[nth].pass;
const stacked = trace.passes.find(({ pass, section }) => section === 'toe' && needlesOf(pass).some(({ made, loops }) => made >= 0 && loops.length > 1))!.pass;
const PASSES = { rib: passOf('leg', 9), back: passOf('foot', 20), front: passOf('foot', 21), wrapped: passOf('heel-in', 5), returned: passOf('heel-out', 7), stacked };

type Point = readonly [number, number, number];

/** Piece of a lay from half way to the one before to half way to the one after, as a polygon, by Cox and de Boor's recursion on uniform knots (de Boor C., A Practical Guide to Splines, 1978): nothing of src/yarn/spline.ts. */
function polygonOf({ points, thread }: YarnLay, piece: number, steps = 8): Point[] {
  const last = 12 * thread.lengthStart.find((start) => start > piece)! - 1;
  const basis = (i: number, degree: number, t: number): number => {
    if (degree === 0) return t >= i && t < i + 1 ? 1 : 0;
    return ((t - i) / degree) * basis(i, degree - 1, t) + ((i + degree + 1 - t) / degree) * basis(i + 1, degree - 1, t);
  };
  const out: Point[] = [];
  for (let n = 0; n <= 12 * steps; n++) {
    // A span lies about the middle of its four points: the yarn is half way between points 11 and 0 a span and a half before the piece.
    const along = 12 * piece - 1.5 + n / steps, span = Math.floor(along), t = along - span, at: [number, number, number] = [0, 0, 0];
    for (let k = 0; k < 4; k++) {
      // The span lies between knots 3 and 4 of its four functions.
      const weight = basis(k, 3, 3 + t), from = 4 * Math.min(span + k, last);
      for (let d = 0; d < 3; d++) at[d] += weight * points[from + d];
    }
    out.push(at);
  }
  return out;
}

const minus = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const cross = (a: Point, b: Point): Point => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
const dot = (a: Point, b: Point): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const lengthOf = (line: readonly Point[]): number => line.slice(1).reduce((sum, at, i) => sum + Math.hypot(...minus(at, line[i])), 0);

/**
 * Gauss's linking number of two closed polygons, exactly: the solid angle that one segment sees of another, over 4 pi, summed
 * (Banchoff T., Indiana Univ. Math. J. 25 (1976) 1171; the form for segments: Klenin & Langowski, Biopolymers 54 (2000) 307).
 */
function linkingNumber(a: readonly Point[], b: readonly Point[]): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) {
    for (let k = 0; k < b.length; k++) sum += segmentAngle(a[i], a[(i + 1) % a.length], b[k], b[(k + 1) % b.length]);
  }
  return sum / (4 * Math.PI);
}
function segmentAngle(p1: Point, p2: Point, p3: Point, p4: Point): number {
  const r13 = minus(p3, p1), r14 = minus(p4, p1), r23 = minus(p3, p2), r24 = minus(p4, p2), r12 = minus(p2, p1), r34 = minus(p4, p3);
  const normals = [cross(r13, r14), cross(r14, r24), cross(r24, r23), cross(r23, r13)].map((n): Point => {
    const size = Math.hypot(...n) || 1;
    return [n[0] / size, n[1] / size, n[2] / size];
  });
  const angle = [0, 1, 2, 3].reduce((all, i) => all + Math.asin(Math.max(-1, Math.min(1, dot(normals[i], normals[(i + 1) % 4])))), 0);
  return angle * Math.sign(dot(cross(r34, r12), r13));
}

const FAR = 200;
/** Half of a stitch, from its foot to its head, closed far away: up, out into the gap, down, and back to the foot. */
function legOf(line: readonly Point[], isFirst: boolean, side: number): Point[] {
  const middle = line.length >> 1, half = isFirst ? line.slice(0, middle + 1) : line.slice(middle).reverse(), [head, foot] = [half[half.length - 1], half[0]];
  return [...half, [head[0], FAR, head[2]], [head[0], FAR, side * FAR], [foot[0], foot[1], side * FAR]];
}

/** How often both legs of a new stitch go through an old stitch, or a wrap, at t; each as a closed curve of its own. */
function linksAt(forming: Forming, t: number, column: number, old: number): number[] {
  const { lay } = formLoops(forming, t), { thread, source: { needles } } = forming.scene, { made, bed } = needles[column];
  const child = polygonOf(lay, thread.loopPiece[made], 6), parent = polygonOf(lay, thread.loopPiece[old], 6);
  return [true, false].map((isFirst) => linkingNumber(legOf(child, isFirst, sideOfBed(bed)), parent));
}

describe('what hangs on the needles', () => {
  it('before every pass is what the grid has its stitches drawn through', () => {
    for (const { pass, knitted } of trace.passes.slice(1)) {
      const needles = needlesOf(pass), knitting = needles.filter(({ made }) => made >= 0);
      expect(knitting.length).toBe(knitted);
      for (const { made, loops, wraps, state } of knitting) {
        expect(state).toBe(NEEDLE.working);
        expect([...loops, ...wraps].sort((a, b) => a - b)).toEqual([...grid.parents.slice(grid.parentStart[made], grid.parentStart[made + 1])].sort((a, b) => a - b));
        for (const wrap of wraps) expect(loops).toContain(grid.wrapHost[wrap]);
      }
      for (const { state, made } of needles) if (state === NEEDLE.held) expect(made).toBe(-1);
    }
  });

  it('counts every wrap: laid once, and knitted off once', () => {
    const wraps = [...grid.kind].filter((kind) => kind === LOOP.wrap).length, all = trace.passes.slice(1).flatMap(({ pass }) => needlesOf(pass));
    // A wrap round a needle of a bed that does not knit in that pass (a corner's) is laid out of the picture, and knitted off in it.
    const laid = all.reduce((sum, at) => sum + at.laid.length, 0), off = all.reduce((sum, at) => sum + (at.made >= 0 ? at.wraps.length : 0), 0);
    expect(off).toBe(wraps);
    expect(laid).toBe(wraps - trace.cornerWraps);
  });
});

describe.each(Object.entries(PASSES))('a pass from near: %s', (_, pass) => {
  const forming = formingOf(pass), { scene } = forming, { needles } = scene.source;

  it('moves without a jump', () => {
    // A jump is as large in the shorter time: its speed would be fourfold.
    const fastest = [60, 240].map((steps) => {
      let most = 0, before = formLoops(forming, 0);
      for (let i = 1; i <= steps; i++) {
        const now = formLoops(forming, i / steps);
        for (let k = 0; k < now.lay.points.length; k += 4) {
          const [a, b] = [now.lay.points, before.lay.points], way = Math.hypot(a[k] - b[k], a[k + 1] - b[k + 1], a[k + 2] - b[k + 2]);
          // Not a number stays one: the last check fails.
          if (!(way <= most)) most = way;
        }
        now.needles.forEach(({ reach, latch }, n) => { most = Math.max(most, Math.abs(reach - before.needles[n].reach), Math.abs(latch - before.needles[n].latch)); });
        before = now;
      }
      return most * steps;
    });
    expect(fastest[1]).toBeLessThan(1.8 * fastest[0]);
  });

  it('draws yarn from the feeder, and takes none back', () => {
    let most = 0;
    // Up to the wraps: there a hand carries the yarn round the hook, and some of it back.
    for (let i = 0; i <= 240; i++) {
      const { fedMm } = formLoops(forming, (forming.crossing * i) / 240);
      most = Math.max(most, fedMm);
      // A stitch that is pulled down beside one that is not yet drawn gives a little back: at most 4 % of a loop (measured).
      expect(most - fedMm).toBeLessThan(0.05 * loopMm);
    }
    expect(formLoops(forming, 0).fedMm).toBeCloseTo(0, 6);
  });

  it('ends each stitch with the yarn of a loop', () => {
    const { lay } = formLoops(forming, 1), made = needles.filter((at) => at.made >= 0);
    // Those at the ends lean on stitches that are not shown, or do not knit.
    for (const at of made.slice(1, -1)) {
      const neighbours = [-1, 1].map((step) => needles[needles.indexOf(at) + step]);
      if (neighbours.every((other) => other.made >= 0)) expect(Math.abs(lengthOf(polygonOf(lay, scene.thread.loopPiece[at.made])) / loopMm - 1)).toBeLessThan(0.04);
    }
  });

  it('is one yarn through all its stitches, in the grid\'s order', () => {
    const { thread } = scene, pieces = [...thread.loop].map((loop, piece) => ({ loop, piece })).filter(({ piece }) => thread.loopPiece[thread.loop[piece]] === piece);
    for (const { loop, piece } of pieces) {
      const after = grid.yarnAfter[loop];
      if (after >= 0 && thread.loopPiece[after] >= 0) expect(thread.loopPiece[after]).toBe(piece + 1);
    }
    const made = needles.flatMap((at) => (at.made >= 0 ? [thread.loopPiece[at.made]] : [])).sort((a, b) => a - b);
    expect(made).toEqual(made.map((_, i) => made[0] + i));
  });

  it('draws each new stitch through all that hung on its needle, and through none before', () => {
    needles.forEach(({ made, loops, wraps }, column) => {
      // The first one's yarn comes from outside the picture.
      if (made < 0 || scene.thread.loopPiece[made] === scene.firstMade) return;
      for (const old of [...loops, ...wraps]) {
        // Before the carriage comes, and while the yarn is only laid over the needle.
        for (const t of [0, momentOf(forming, column, 0.46)]) for (const links of linksAt(forming, t, column, old)) expect(links).toBeCloseTo(0, 6);
        // One leg goes through it one way, the other back.
        // A wrap, both whose ends lie to one side, is a closed curve only while the needle is in it.
        for (const t of [...(wraps.includes(old) ? [0.75] : [0.75, 0.8, 0.85, 0.9, 0.95]).map((own) => momentOf(forming, column, own)), ...(wraps.includes(old) ? [] : [1])]) {
          const [first, second] = linksAt(forming, t, column, old);
          expect(Math.abs(first)).toBeCloseTo(1, 6);
          expect(second).toBeCloseTo(first, 6);
        }
      }
    });
  });
});

describe('from pass to pass', () => {
  it('a needle\'s new stitch hangs where its old one hung', () => {
    const first = formingOf(PASSES.front, 12), next = formingOf(PASSES.front + 2, 12), [a, b] = [formLoops(first, 1).lay, formLoops(next, 0).lay];
    for (const { made } of first.scene.source.needles.slice(1, -1)) {
      const [before, after] = [polygonOf(a, first.scene.thread.loopPiece[made], 2), polygonOf(b, next.scene.thread.loopPiece[made], 2)];
      // The ends of neighbouring stitches meet a little otherwise while the next is not there.
      before.slice(4, -4).forEach((at, i) => { expect(Math.hypot(...minus(at, after[i + 4]))).toBeLessThan(0.3); });
    }
  });

  it('a wrap goes round its needle: under it one way, over it back', () => {
    const pass = PASSES.wrapped + 1, forming = formingOf(pass, needlesOf(pass).findIndex(({ wraps }) => wraps.length > 0)), { lay } = formLoops(forming, 0), { source: { needles }, columnX } = forming.scene;
    const column = needles.findIndex(({ wraps, state }) => wraps.length > 0 && state === NEEDLE.held);
    expect(column).toBeGreaterThanOrEqual(0);
    const side = sideOfBed(needles[column].bed), x = columnX[column], axis: Point[] = [[x, -FAR, -side * FAR], [x, FAR, side * FAR], [x, FAR, -side * FAR]];
    const wrap = polygonOf(lay, forming.scene.thread.loopPiece[needles[column].wraps[0]]);
    expect(Math.abs(linkingNumber(wrap, axis))).toBeCloseTo(1, 6);
  });

  it('held needles stay where they are', () => {
    const forming = formingOf(PASSES.wrapped), { needles } = forming.scene.source;
    needles.forEach(({ state }, column) => {
      if (state !== NEEDLE.held) return;
      const stands = [0, 0.3, 0.6, 1].map((t) => formLoops(forming, t).needles[column]);
      for (const stand of stands) expect([stand.reach, stand.latch]).toEqual([forming.scene.size.clear, Math.PI]);
    });
    expect(needles.some(({ state }) => state === NEEDLE.held)).toBe(true);
  });
});
