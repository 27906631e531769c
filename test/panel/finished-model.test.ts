import { expect, it } from 'vitest';
import { layFinished, loopsOfStop, nearestLoop } from '../../src/panel/finished-model.ts';
import { readPass } from '../../src/panel/pass-field.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import { listWork } from '../../src/sheet/list-work.ts';

const { sock } = knitSock({ gauge: { stitchesPer10cm: 12, rowsPer10cm: 17 }, leg: { lengthMm: 60 }, counts: { stitches: 32, footPasses: 30 } });
const { fabric, grid, trace, program } = sock!, { positions } = poseSock(sock!, 'flat').pose;
const laid = layFinished(fabric, grid, trace, positions), items = listWork(program, trace);

it('every cell of the finished sock is painted once, with the pass that completes it', () => {
  expect([...laid.cellOrder].sort((a, b) => a - b)).toEqual(Array.from({ length: fabric.cellStart.length - 1 }, (_, i) => i));
  for (let pass = 0; pass < trace.passes.length; pass++) {
    for (const cell of laid.cellOrder.slice(laid.passStart[pass], laid.passStart[pass + 1])) {
      const corners = fabric.cellVertices.slice(fabric.cellStart[cell], fabric.cellStart[cell + 1]);
      expect(Math.max(...[...corners].map((v) => grid.pass[fabric.vertexLoop[v]]))).toBe(pass);
    }
  }
});

it('its left layer is the left of the sock, away from the folds', () => {
  // Fabric.vertexAround: 0.25 the left side, 0.75 the right side.
  for (let v = 0; v < fabric.vertexCount; v++) {
    if (Math.abs(fabric.vertexAround[v] - 0.25) < 0.1) expect(laid.isLeft[v]).toBe(1);
    if (Math.abs(fabric.vertexAround[v] - 0.75) < 0.1) expect(laid.isLeft[v]).toBe(0);
  }
});

it('the stitches of all passes, lit one after another, are all of the fabric; a wrap lights the stitch that it holds', () => {
  const lit = items.filter(({ kind }) => kind !== 'closing').map((item) => loopsOfStop(laid, trace, item));
  expect(lit.flat().every((loop) => fabric.loopVertex[loop] >= 0)).toBe(true);
  expect(new Set(lit.flat()).size).toBe(fabric.vertexCount);
  // The heel of 16 turned down to its default, one wrap a pass.
  const down = items.find(({ section }) => section === 'heel-in')!;
  expect(lit[down.index].length).toBe(down.knitted + 1);
  const closing = loopsOfStop(laid, trace, items.at(-1)!);
  expect(closing.length).toBeGreaterThan(0);
  expect(closing.every((loop) => fabric.loopVertex[loop] >= 0)).toBe(true);
});

it('a place in the drawing is the nearest stitch of the layer in sight, and none far from the sock', () => {
  for (let v = 0; v < fabric.vertexCount; v += 17) {
    const side = laid.isLeft[v] === 1 ? 'left' : 'right', loop = nearestLoop(laid, side, laid.places[2 * v], laid.places[2 * v + 1], 5);
    const found = fabric.loopVertex[loop];
    expect([laid.places[2 * found], laid.places[2 * found + 1], laid.isLeft[found]]).toEqual([laid.places[2 * v], laid.places[2 * v + 1], laid.isLeft[v]]);
  }
  expect(nearestLoop(laid, 'left', laid.extent[0] - 50, laid.extent[1] - 50, 5)).toBe(-1);
});

it.each([['0', 0], ['57', 57], [' 9 ', 9], ['240', 240], ['241', null], ['', null], ['-1', null], ['1.5', null], ['1e2', null], ['heel', null], ['１', null]] as const)(
  'of what is typed, %j is pass %j of 240', (typed, pass) => { expect(readPass(typed, 240)).toBe(pass); });
