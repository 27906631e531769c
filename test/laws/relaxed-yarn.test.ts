import { describe, expect, test } from 'vitest';
import { LOOP } from '../../src/machine/codes.ts';
import { TAIL_MM } from '../../src/measure/estimate-yarn.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { layYarn } from '../../src/yarn/lay-yarn.ts';
import { pieceLengths } from '../../src/yarn/measure-along.ts';
import { threadYarn } from '../../src/yarn/thread-yarn.ts';
import { PART, PIECE_POINTS } from '../../src/yarn/yarn-lay.ts';
import { yarnDiameterMm } from '../../src/yarn/yarn-size.ts';
import { loopLine } from '../yarn/lay-cloth.ts';
import { closeFar, crossingLinking, dot, minus, times, unit, type Vector } from '../yarn/linking.ts';
import { distance, lengthsOf, pointsOf } from '../yarn/walk-lengths.ts';

const SMALL: SockFile = { gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, counts: { stitches: 24, legPasses: 10, footPasses: 30 }, heel: { turnDownWidth: 4 } };

describe.each<[string, SockFile]>([
  ['a rib leg and a grafted decreased toe', { ...SMALL, toe: { kind: 'decreased', tipStitches: 4 } }],
  ['a tube leg and a grafted short-row toe', { ...SMALL, leg: { kind: 'tube' }, toe: { kind: 'short-row', tipStitches: 4 } }],
  ['32 stitches, a tube leg and a grafted short-row toe', { ...SMALL, counts: { stitches: 32, legPasses: 10, footPasses: 30 }, leg: { kind: 'tube' }, toe: { kind: 'short-row', tipStitches: 4 } }],
  ['a tube leg and a bound-off decreased toe', { ...SMALL, leg: { kind: 'tube' }, toe: { kind: 'decreased', tipStitches: 4, closing: 'bind-off' } }],
  ['a rib leg and a bound-off short-row toe', { ...SMALL, toe: { kind: 'short-row', tipStitches: 4, closing: 'bind-off' } }],
])('the yarn of a relaxed sock with %s', (_name, file) => {
  const { sock } = knitSock(file);
  if (sock === null) throw new Error('cannot be knitted');
  const { grid, fabric } = sock, thread = threadYarn(grid), diameterMm = Float64Array.from(sock.plan.yarns, ({ metresPer100g }) => yarnDiameterMm(metresPer100g));
  const { pose } = poseSock(sock, 'tube'), lay = layYarn({ fabric, grid, thread, diameterMm }, pose.positions), lengths = pieceLengths(lay);

  const parentsOf = (loop: number): number[] => [...grid.parents.subarray(grid.parentStart[loop], grid.parentStart[loop + 1])].filter((parent) => grid.kind[parent] <= LOOP.knit);

  test('nowhere leaps: control points beside each other along it are less than two stitches apart', () => {
    let most = 0, where = '';
    for (const [first, end] of lengthsOf(thread).map(pointsOf)) {
      for (let point = first; point + 1 < end; point++) {
        const apart = distance(lay, point, point + 1), piece = Math.floor(point / PIECE_POINTS);
        if (apart > most) [most, where] = [apart, `part ${thread.part[piece]}, loop ${thread.loop[piece]}, point ${point % PIECE_POINTS}`];
      }
    }
    expect(most / fabric.courseMm, where).toBeLessThan(2);
  });

  /** Munden's loop length at the gauge (FACTS: 13.5 mm at 30 x 42); the other bounds are ours: no loop is longer than half as much again or shorter than half, no stitch of a chain, which runs three times along the edge and through both sides, longer than two; no tail is drawn longer than a third of what is cut. */
  test('has loops, graft and chain of sound length, and tails that are drawn short', () => {
    const of = (part: number): number[] => [...thread.part.keys()].filter((piece) => thread.part[piece] === part).map((piece) => lengths[piece]);
    const loops = of(PART.loop).sort((a, b) => a - b), wrong = [...loops, ...of(PART.graft), ...of(PART.wrap)].filter((length) => length < 6.7 || length > 20.4);
    expect(Math.abs(loops[loops.length >> 1] / 13.54 - 1)).toBeLessThan(0.1);
    expect(wrong).toEqual([]);
    expect(of(PART.bindOff).filter((length) => length < 13.5 || length > 27)).toEqual([]);
    for (const tail of of(PART.tail)) expect(tail > 8 && tail < TAIL_MM / 3).toBe(true);
  });

  test('has its tails drawn in: the far half of each lies on the inside, behind the stitches', () => {
    for (const pieces of lengthsOf(thread)) {
      const [first, end] = pointsOf(pieces), half = PIECE_POINTS / 2, heightAt = (point: number): number => lay.ups[4 * point + 3] / 32;
      const inside = Array.from({ length: half }, (_, k) => [heightAt(first + k), heightAt(end - 1 - k)]).flat();
      expect(Math.max(...inside)).toBeLessThan(-1);
    }
  });

  /** Each leg of a loop links, once and the other way round, every loop that it was drawn through: see test/outside/yarn-topology. */
  test('has every loop drawn through all loops of its needle, from the right side', () => {
    const loops = [...grid.kind.keys()].filter((loop) => grid.kind[loop] === LOOP.knit), positions = pose.positions;
    const placeOf = (loop: number): Vector => [0, 1, 2].map((d) => positions[3 * fabric.loopVertex[loop] + d]) as unknown as Vector;
    const missed = loops.flatMap((loop) => parentsOf(loop).filter((parent) => {
      const up = unit(minus(placeOf(loop), placeOf(parent))), at = 4 * (PIECE_POINTS * thread.loopPiece[loop] + 1), out = [lay.ups[at], lay.ups[at + 1], lay.ups[at + 2]] as const;
      const from = times(unit(minus(out, times(up, dot(up, out)))), grid.isPurl[loop] === 1 ? 1 : -1), down = times(up, -1);
      const held = closeFar(loopLine({ lay }, parent), [down], [down]);
      const first = crossingLinking(held, closeFar(loopLine({ lay }, loop, 'first'), [up, from], [from])), second = crossingLinking(held, closeFar(loopLine({ lay }, loop, 'second'), [from], [up, from]));
      return Math.abs(first) !== 1 || first + second !== 0;
    }).map((parent) => `${loop} through ${parent}`));
    expect(loops.length).toBeGreaterThan(500);
    expect(missed).toEqual([]);
  });
});
