import { describe, expect, test } from 'vitest';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { beginPlace } from '../../src/sheet/knit-place.ts';
import { findYarnLeft, isLegKnitted } from '../../src/sheet/yarn-left.ts';

const SOCK: SockFile = { gauge: { stitchesPer10cm: 12, rowsPer10cm: 17 }, counts: { stitches: 32, legPasses: 20, footPasses: 36 }, heel: { turnDownWidth: 8 }, yarns: [{ name: 'Blue' }] };
const PLACE = beginPlace('x', SOCK);
const sumOf = (metres: readonly number[]): number => metres.reduce((sum, one) => sum + one, 0);

describe('yarn from a place on', () => {
  test('before the cast-on a pair, then less by each pass\'s stitches times the loop\'s length, at last none', () => {
    const { trace, yarn } = knitSock(SOCK).sock!, passes = trace.passes.length - 1;
    expect(findYarnLeft(PLACE)).toEqual([expect.closeTo(2 * yarn[0].metres, 9)]);
    expect(findYarnLeft({ ...PLACE, sock: 2 })).toEqual([expect.closeTo(yarn[0].metres, 9)]);
    // Stitch density times loop length squared is 23.1 (Munden 1959), lengths in cm.
    const loopMetres = Math.sqrt(23.1 / (1.2 * 1.7)) / 100;
    let checked = 0;
    for (let pass = 1; pass <= passes; pass += 7) {
      // Elsewhere there are wraps too.
      if (!['leg', 'foot'].includes(trace.passes[pass].section)) continue;
      const [here] = findYarnLeft({ ...PLACE, stop: pass }), [next] = findYarnLeft({ ...PLACE, stop: pass + 1 });
      expect(here - next).toBeCloseTo(trace.passes[pass].knitted * loopMetres, 9);
      checked++;
    }
    expect(checked).toBeGreaterThan(5);
    // The graft or seam is left when the last pass is knitted; the sock done, nothing.
    expect(sumOf(findYarnLeft({ ...PLACE, sock: 2, stop: passes + 1 }))).toBeGreaterThan(0);
    expect(findYarnLeft({ ...PLACE, sock: 2, stop: passes + 2 })).toEqual([0]);
    expect(findYarnLeft({ ...PLACE, sock: 1, stop: passes + 2 })[0]).toBeCloseTo(yarn[0].metres, 9);
  });

  test('a yarn that comes in twice is told once, and what is knitted of it is gone', () => {
    const file: SockFile = { ...SOCK, yarns: [{ name: 'Blue', colour: '#0000ff', from: 'leg' }, { name: 'Red', colour: '#ff0000', from: 'heel' }, { name: 'Blue', colour: '#0000ff', from: 'foot' }] };
    const { trace, yarn, grid } = knitSock(file).sock!, foot = trace.passes.find(({ section }) => section === 'foot')!.pass;
    const [blue, red, again] = findYarnLeft({ ...PLACE, file, sock: 2, stop: foot });
    expect([red, again]).toEqual([0, 0]);
    // The flat leg's seam is sewn at the end with the leg's yarn: four times its length (common practice, no source), 17 rows in 10 cm.
    const seamRows = grid.seamPairs.length / 2;
    expect(seamRows).toBeGreaterThan(19);
    expect(blue).toBeCloseTo(yarn[2].metres + 4 * seamRows / 170, 9);
  });

  test('a leg can grow until a pass after it is knitted', () => {
    // 20 passes of leg: after them the next is 21; when that is knitted, 22 is the next.
    expect([0, 20, 21, 22, 60].map((stop) => isLegKnitted({ legPasses: 20 }, { stop }))).toEqual([false, false, false, true, true]);
  });
});
