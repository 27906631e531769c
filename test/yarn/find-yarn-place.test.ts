import { describe, expect, it } from 'vitest';
import { LOOP } from '../../src/machine/codes.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import { findYarnPlace } from '../../src/yarn/find-yarn-place.ts';
import { layYarn } from '../../src/yarn/lay-yarn.ts';
import { centreLine } from '../../src/yarn/spline.ts';
import { threadYarn } from '../../src/yarn/thread-yarn.ts';
import { PART } from '../../src/yarn/yarn-lay.ts';

const { sock } = knitSock({
  gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, counts: { stitches: 24, legPasses: 6, footPasses: 8 }, heel: { turnDownWidth: 6 },
  yarns: [{ from: 'leg' }, { from: 'heel' }, { from: 'foot' }],
});
const { fabric, grid } = sock!, thread = threadYarn(grid);

const { positions } = poseSock(sock!, 'tube').pose;
const lay = layYarn({ fabric, grid, thread, diameterMm: new Float64Array(3).fill(0.9) }, positions);

/** Of a polyline through points of the drawn line, 16 to each of its spans: shorter than the line by less than a thousandth. */
function chordMm(from: number, to: number): number {
  const line = centreLine(lay, from, to, 16);
  let sum = 0;
  for (let i = 3; i < line.length; i += 3) sum += Math.hypot(line[i] - line[i - 3], line[i + 1] - line[i - 2], line[i + 2] - line[i - 1]);
  return sum;
}

describe('the place of a loop along its yarn', () => {
  const { lengthStart } = thread;

  it('is as far from the cut end as the drawn line is long to there, and the whole length as long as it is drawn', () => {
    for (let length = 0; length + 1 < lengthStart.length; length++) {
      const first = lengthStart[length], end = lengthStart[length + 1], whole = chordMm(first, end);
      for (const share of [0.02, 0.31, 0.5, 0.77, 0.98]) {
        const piece = Math.max(first + 1, Math.min(end - 2, Math.round(first + share * (end - first))));
        if (thread.part[piece] !== PART.loop) continue;
        const place = findYarnPlace(lay, thread.loop[piece])!;
        expect([place.length, place.lengths]).toEqual([length, lengthStart.length - 1]);
        expect(place.fromEndMm / chordMm(first, piece)).toBeCloseTo(1, 2);
        expect(place.loopMm / chordMm(piece, piece + 1)).toBeCloseTo(1, 2);
        expect(place.lengthMm / whole).toBeCloseTo(1, 2);
      }
    }
  });

  it('follows on from loop to loop: each begins where the one before it ends', () => {
    for (let loop = 0; loop < grid.loopCount; loop++) {
      const after = grid.yarnAfter[loop];
      if (after < 0) continue;
      const here = findYarnPlace(lay, loop)!, next = findYarnPlace(lay, after)!;
      expect(next.length).toBe(here.length);
      expect(next.fromEndMm).toBeCloseTo(here.fromEndMm + here.loopMm, 6);
      if (grid.kind[loop] <= LOOP.knit) expect(here.loopMm).toBeGreaterThan(0);
    }
  });

  it('is known of every loop, wraps and closing too, and of none that is not there', () => {
    for (let loop = 0; loop < grid.loopCount; loop++) expect(findYarnPlace(lay, loop)).not.toBeNull();
    const started = { ...lay, thread: threadYarn(grid, { upToPass: 3 }) }, closing = grid.kind.indexOf(LOOP.graft);
    expect(closing).toBeGreaterThan(0);
    expect([findYarnPlace(started, closing), findYarnPlace(lay, grid.loopCount)]).toEqual([null, null]);
  });
});
