import { describe, expect, test } from 'vitest';
import { buildFabric, stitchSizeOf } from '../../src/fabric/build-fabric.ts';
import { LOOP } from '../../src/machine/codes.ts';
import type { Plan } from '../../src/plan/plan-types.ts';
import { makeStartShape } from '../../src/shape/start-shape.ts';
import { layYarn } from '../../src/yarn/lay-yarn.ts';
import { pieceLengths } from '../../src/yarn/measure-along.ts';
import { threadYarn } from '../../src/yarn/thread-yarn.ts';
import { PART, PIECE_POINTS, POINT_STRIDE } from '../../src/yarn/yarn-lay.ts';
import { yarnDiameterMm } from '../../src/yarn/yarn-size.ts';
import { distance, lengthsOf, pointsOf } from '../yarn/walk-lengths.ts';
import { knitPlan, randomPlans } from './random-sock.ts';

const THREADED = randomPlans(61, 160).map((plan) => {
  const { grid } = knitPlan(plan);
  return { plan, grid, thread: threadYarn(grid) };
});

const kindOf = ({ legKind, toeKind, closing }: Plan): string => `${legKind} ${toeKind} ${closing}`;

/** Laying a sock takes longer than threading it: three of every leg, toe and closing. */
const LAID = THREADED.filter(({ plan }, i) => THREADED.slice(0, i).filter((other) => kindOf(other.plan) === kindOf(plan)).length < 3).map(({ plan, grid, thread }) => {
  const fabric = buildFabric(grid, stitchSizeOf(plan)), diameterMm = Float64Array.from(plan.yarns, ({ metresPer100g }) => yarnDiameterMm(metresPer100g));
  const laid = { fabric, grid, thread, diameterMm }, positions = makeStartShape(fabric, 'round');
  return { plan, grid, thread, laid, positions, lay: layYarn(laid, positions) };
});

const PART_OF: Readonly<Record<number, number>> = { [LOOP.castOn]: PART.loop, [LOOP.knit]: PART.loop, [LOOP.wrap]: PART.wrap, [LOOP.graft]: PART.graft, [LOOP.bindOff]: PART.bindOff };

describe('the thread of every random sock', () => {
  test('is of every kind of sock', () => {
    expect(LAID.length).toBe(3 * 2 * 2 * 2);
  });

  test('has one piece for every loop that was formed, of its kind', () => {
    for (const { grid, thread } of THREADED) {
      const pieces = new Int32Array(grid.loopCount);
      for (let piece = 0; piece < thread.pieceCount; piece++) {
        const loop = thread.loop[piece], part = thread.part[piece];
        if (part === PART.tail || part === PART.seam) continue;
        pieces[loop]++;
        if (thread.loopPiece[loop] !== piece || part !== PART_OF[grid.kind[loop]]) throw new Error(`piece ${piece} of part ${part} is not loop ${loop}'s`);
      }
      expect(pieces.every((count) => count === 1)).toBe(true);
    }
  });

  test('is one unbroken path for each length of yarn, from its first tail through its loops in their order, and the seam, to its last', () => {
    for (const { grid, thread } of THREADED) {
      let seams = 0, loops = 0;
      for (const pieces of lengthsOf(thread)) {
        const parts = pieces.map((piece) => thread.part[piece]), formed = pieces.slice(1, -1).filter((piece) => thread.part[piece] !== PART.seam);
        expect([parts[0], parts.at(-1), parts.filter((part) => part === PART.tail).length]).toEqual([PART.tail, PART.tail, 2]);
        loops += formed.length;
        seams += pieces.length - 2 - formed.length;
        const path = formed.map((piece) => thread.loop[piece]);
        expect([grid.yarnBefore[path[0]], grid.yarnAfter[path.at(-1) as number]]).toEqual([-1, -1]);
        expect(path.slice(0, -1).filter((loop, i) => grid.yarnAfter[loop] !== path[i + 1] || grid.yarnBefore[path[i + 1]] !== loop)).toEqual([]);
        // Colour changes only where a length ends.
        expect(new Set(pieces.map((piece) => thread.yarn[piece])).size).toBe(1);
      }
      expect([loops, seams]).toEqual([grid.loopCount, grid.seamPairs.length / 2]);
    }
  });

  test('sews a leg from its last row down to the cast-on with the yarn that hangs there', () => {
    for (const { grid, thread } of THREADED) {
      const sewn = [...thread.part.keys()].filter((piece) => thread.part[piece] === PART.seam);
      sewn.forEach((piece, i) => {
        expect(piece).toBe(sewn[0] + i);
        expect([grid.pass[thread.loop[piece]], grid.pass[thread.mate[piece]]]).toEqual([sewn.length - 1 - i, sewn.length - 1 - i]);
      });
      if (sewn.length > 0) expect([thread.loop[sewn[0]], thread.mate[sewn[0]]]).toContain(grid.seamPairs.at(-2));
    }
  });

  test('is, up to a pass, the beginning of the whole one, length by length', () => {
    for (const { plan, grid, thread } of THREADED.slice(0, 60)) {
      const last = grid.pass.reduce((most, pass) => Math.max(most, pass), 0);
      for (const upToPass of [0, 1, Math.floor(last / 2), plan.legPasses, last]) {
        const part = threadYarn(grid, { upToPass }), whole = lengthsOf(thread);
        lengthsOf(part).forEach((pieces, k) => {
          const loops = pieces.slice(0, -1).map((piece) => [part.part[piece], part.loop[piece], part.yarn[piece]]);
          expect(loops).toEqual(whole[k].slice(0, loops.length).map((piece) => [thread.part[piece], thread.loop[piece], thread.yarn[piece]]));
          expect(part.part[pieces.at(-1) as number]).toBe(PART.tail);
        });
        const formed = [...grid.kind.keys()].filter((loop) => grid.pass[loop] <= upToPass && grid.kind[loop] <= LOOP.wrap);
        expect([...part.loopPiece.keys()].filter((loop) => part.loopPiece[loop] >= 0)).toEqual(formed);
      }
    }
  });
});

const END_POINTS = 3;

describe('the yarn of every random sock', () => {
  test('is laid in numbers, with ups of unit length', () => {
    for (const { lay: { points, ups } } of LAID) {
      expect(points.every((value) => Number.isFinite(value))).toBe(true);
      for (let i = 0; i < ups.length; i += 4) if (Math.abs(Math.sqrt(ups[i] ** 2 + ups[i + 1] ** 2 + ups[i + 2] ** 2) / 127 - 1) > 0.02) throw new Error(`up ${i / 4} has no unit length`);
    }
  });

  test('begins and ends in one point each: three control points', () => {
    for (const { lay, thread } of LAID) {
      const ends = lengthsOf(thread).map(pointsOf).flatMap(([first, end]) => [first, end - END_POINTS]);
      for (const end of ends) expect([1, 2].map((k) => distance(lay, end, end + k))).toEqual([0, 0]);
    }
  });

  test('grows along itself by what its pieces measure, from 0 at each length\'s end', () => {
    for (const { lay, thread, laid } of LAID.slice(0, 8)) {
      const lengths = pieceLengths(lay);
      for (const pieces of lengthsOf(thread)) {
        const along = (piece: number): number => lay.points[POINT_STRIDE * PIECE_POINTS * piece + 3], sum = pieces.slice(0, -1).reduce((total, piece) => total + lengths[piece], 0);
        expect(along(pieces[0])).toBe(0);
        // A piece's spans lie a control point or two further on than its points.
        expect(Math.abs(along(pieces.at(-1) as number) - sum)).toBeLessThan(4 * laid.fabric.courseMm);
        expect(pieces.slice(1).filter((piece) => along(piece) <= along(piece - 1))).toEqual([]);
      }
    }
  });

  test('is the same bytes when it is laid again', () => {
    for (const { lay, laid, positions, grid } of LAID.slice(0, 12)) {
      const again = layYarn({ ...laid, thread: threadYarn(grid) }, positions.slice());
      expect(Buffer.compare(Buffer.from(again.points.buffer), Buffer.from(lay.points.buffer))).toBe(0);
      expect(Buffer.compare(Buffer.from(again.ups.buffer), Buffer.from(lay.ups.buffer))).toBe(0);
    }
  });
});
