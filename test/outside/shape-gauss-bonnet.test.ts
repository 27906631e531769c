import { expect, it } from 'vitest';
import type { Fabric } from '../../src/fabric/fabric.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { relaxSock } from '../../src/shape/index.ts';
import type { FreePoseName } from '../../src/shape/index.ts';
import { knitSmallSock } from '../shape/small-sock.ts';

/** Sum over vertices of 2 pi (inner) or pi (on the boundary) less the angles that meet there, cells cut into fans. */
function totalCurvature(fabric: Fabric, x: Float64Array): { total: number; inner: number; largest: number } {
  const missing = new Float64Array(fabric.vertexCount).fill(2 * Math.PI);
  for (const vertex of fabric.boundaryVertices) missing[vertex] -= Math.PI;
  const subtractAngle = (at: number, a: number, b: number): void => {
    const p = [0, 1, 2].map((k) => x[3 * a + k] - x[3 * at + k]), q = [0, 1, 2].map((k) => x[3 * b + k] - x[3 * at + k]);
    const cross = Math.hypot(p[1] * q[2] - p[2] * q[1], p[2] * q[0] - p[0] * q[2], p[0] * q[1] - p[1] * q[0]);
    missing[at] -= Math.atan2(cross, p[0] * q[0] + p[1] * q[1] + p[2] * q[2]);
  };
  for (let c = 0; c + 1 < fabric.cellStart.length; c++) {
    const cell = fabric.cellVertices.subarray(fabric.cellStart[c], fabric.cellStart[c + 1]);
    for (let k = 1; k + 1 < cell.length; k++) {
      subtractAngle(cell[0], cell[k], cell[k + 1]);
      subtractAngle(cell[k], cell[k + 1], cell[0]);
      subtractAngle(cell[k + 1], cell[0], cell[k]);
    }
  }
  const boundary = new Set(fabric.boundaryVertices);
  let inner = 0, largest = 0;
  missing.forEach((value, vertex) => {
    if (boundary.has(vertex)) return;
    inner += value;
    largest = Math.max(largest, Math.abs(value));
  });
  return { total: missing.reduce((sum, value) => sum + value, 0), inner, largest };
}

// Gauss-Bonnet (any text on differential geometry): angle deficits plus boundary turning are 2 pi times the Euler
// number, 1 for a sock closed at the toe. A check of topology only: it says that the posed cells hang together
// as one disc, and holds for any places of the vertices.
it.each<readonly [FreePoseName, string, Partial<SockFile>]>([
  ['flat', 'plain', {}], ['tube', 'plain', {}],
  ['flat', 'heel on more than half, slanted toe', { heel: { stitches: 22 }, toe: { slantStitches: 4 } }], ['tube', 'heel on more than half, slanted toe', { heel: { stitches: 22 }, toe: { slantStitches: 4 } }],
])('%s, %s: angle deficits and boundary turning sum to 2 pi', (name, _, changes) => {
  const fabric = knitSmallSock(changes);
  const { total, inner, largest } = totalCurvature(fabric, relaxSock(fabric, name).positions);
  expect(total).toBeCloseTo(2 * Math.PI, 9);
  // Not for want of curvature: the sock is bent at single vertices, and closed at the toe.
  expect(largest).toBeGreaterThan(0.1);
  expect(inner).toBeGreaterThan(1);
});

it('would notice a cell that is missing', () => {
  const fabric = knitSmallSock();
  const torn = { ...fabric, cellStart: fabric.cellStart.slice(0, -1) };
  expect(Math.abs(totalCurvature(torn, relaxSock(fabric, 'tube', { maxIterations: 5 }).positions).total - 2 * Math.PI)).toBeGreaterThan(1);
});
