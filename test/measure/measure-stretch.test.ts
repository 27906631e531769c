import { beforeAll, describe, expect, it } from 'vitest';
import { createRandom } from '../../src/base/random.ts';
import type { Fabric } from '../../src/fabric/fabric.ts';
import { measureStretch, measureVertexStretch } from '../../src/measure/measure-stretch.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { makeTube } from './make-tube.ts';

const SIZE = { gauge: { stitchesPer10cm: 20, rowsPer10cm: 28 }, counts: { stitches: 40, legPasses: 10, footPasses: 12 } };
const SOCKS: Readonly<Record<string, SockFile>> = {
  'a sock': SIZE,
  'one with a plateau and no wraps': { ...SIZE, heel: { plateauPasses: 8, wraps: false } },
  'one with a tube leg and a short-row toe': { ...SIZE, leg: { kind: 'tube' }, toe: { kind: 'short-row' } },
  'the smallest': { ...SIZE, counts: { stitches: 8, legPasses: 2, anklePasses: 0, footPasses: 2 }, leg: { kind: 'tube' }, toe: { kind: 'short-row', closing: 'bind-off' } },
};

function fabricOf(file: SockFile): Fabric {
  const { sock, problems } = knitSock(file);
  if (sock === null) throw new Error(JSON.stringify(problems));
  return sock.fabric;
}

/** Every cell cut loose, so that each can be stretched as one likes. */
function cutLoose(fabric: Fabric): Fabric {
  const count = fabric.cellVertices.length;
  return { ...fabric, vertexCount: count, cellVertices: Int32Array.from({ length: count }, (_, k) => k) };
}

/** The corners of every cell at F r + d: `columns` are F e_s and F e_t. */
function placeCorners(fabric: Fabric, columns: readonly [readonly number[], readonly number[]], shift = 0): Float64Array {
  const positions = new Float64Array(3 * fabric.cellVertices.length);
  for (let k = 0; k < fabric.cellVertices.length; k++) {
    for (let d = 0; d < 3; d++) {
      positions[3 * k + d] = columns[0][d] * fabric.cellRestMm[2 * k] + columns[1][d] * fabric.cellRestMm[2 * k + 1] + shift * (k + d);
    }
  }
  return positions;
}

const norm = (v: readonly number[]): number => Math.sqrt(v.reduce((sum, x) => sum + x * x, 0));

// Continuum mechanics, closed form: under the affine map r -> F r a line along e is stretched to |F e|.
describe.each(Object.entries(SOCKS))('%s, each cell under one affine map', (_, file) => {
  const fabric = cutLoose(fabricOf(file));

  it.each([
    ['as it rests', [1, 0, 0], [0, 1, 0]],
    ['12 % wider, 5 % shorter', [1.12, 0, 0], [0, 0.95, 0]],
    ['turned in space and sheared', [0.6, 0.5, -0.9], [-0.3, 0.8, 0.4]],
    ['folded to nothing across', [0, 0, 0], [0, 0, 1.3]],
  ])('%s: has that stretch in every cell', (_name, s, t) => {
    const { cellWidth, cellLength } = measureStretch(fabric, placeCorners(fabric, [s, t]));
    const off = Math.max(...cellWidth.map((w) => Math.abs(w - (norm(s) - 1))), ...cellLength.map((l) => Math.abs(l - (norm(t) - 1))));
    expect(cellWidth.length).toBeGreaterThan(10);
    expect(off).toBeLessThan(1e-9);
  });
});

// A round of n loops on a cylinder of radius R is a polygon of n chords 2 R sin(pi / n) (geometry).
describe.each([24, 72])('a tube of %i stitches', (stitches) => {
  const COURSE = 3, ROW = 2.4;

  it.each([1, 1.25, 0.8])('blown up to %d times its girth has that for hoop stretch', (ratio) => {
    const radius = (ratio * stitches * COURSE) / (2 * Math.PI);
    const { fabric, positions } = makeTube(stitches, 12, (turn, row) => [radius * Math.cos(2 * Math.PI * turn), radius * Math.sin(2 * Math.PI * turn), 1.1 * ROW * row]);
    const cellRestMm = Float64Array.from({ length: fabric.cellRestMm.length }, (_, i) => [0, 0, COURSE, 0, COURSE, ROW, 0, ROW][i % 8]);
    const { cellWidth, cellLength, vertexWidth, summary } = measureStretch({ ...fabric, cellRestMm }, positions);
    const chord = Math.hypot(2 * radius * Math.sin(Math.PI / stitches), (1.1 * ROW) / stitches);
    for (const w of cellWidth) expect(w).toBeCloseTo(chord / COURSE - 1, 9);
    for (const w of vertexWidth) expect(w).toBeCloseTo(chord / COURSE - 1, 9);
    for (const l of cellLength) expect(l).toBeCloseTo(0.1, 9);
    // The chords fall short of the circle by (pi / n) squared / 6.
    const slack = 100 * (ratio * (Math.PI / stitches) ** 2 / 6 + 1e-3);
    expect(Math.abs(summary.widthMedianPercent - 100 * (ratio - 1))).toBeLessThan(slack);
    expect(summary.length5Percent).toBeCloseTo(10, 7);
  });
});

/** Loose cells, each with its own corners at rest and in space. */
function makeCells(cells: readonly (readonly (readonly [s: number, t: number, x: number, y: number])[])[]): { fabric: Fabric; positions: Float64Array } {
  const corners = cells.flat();
  const cellStart = Int32Array.from({ length: cells.length + 1 }, (_, c) => cells.slice(0, c).flat().length);
  const fabric = cutLoose({
    ...makeTube(24, 3, () => [0, 0, 0]).fabric, cellStart,
    cellVertices: new Int32Array(corners.length), cellRestMm: Float64Array.from(corners.flatMap(([s, t]) => [s, t])),
  });
  return { fabric: { ...fabric, vertexCount: corners.length + 1 }, positions: Float64Array.from([...corners.flatMap(([, , x, y]) => [x, y, 0]), 0, 0, 0]) };
}

describe('cells that hardly are', () => {
  it('tell along their line, and count as unstretched across it', () => {
    const { fabric, positions } = makeCells([
      [[0, 0, 0, 0], [1, 0, 1.5, 0], [2, 0, 3, 0]],
      [[0, 0, 0, 0], [0, 1, 0, 0.8], [0, 2, 0, 1.6]],
    ]);
    const { cellWidth, cellLength, summary } = measureStretch(fabric, positions);
    expect(cellWidth[0]).toBeCloseTo(0.5, 12);
    expect(cellLength[0]).toBeCloseTo(0, 12);
    expect(cellWidth[1]).toBeCloseTo(0, 12);
    expect(cellLength[1]).toBeCloseTo(-0.2, 12);
    expect(Object.values(summary)).toEqual([0, 0, 0, 0, 0, 0]);
  });

  it('a point of a cell, or none, tells nothing', () => {
    const { fabric, positions } = makeCells([[[1, 1, 0, 0], [1, 1, 3, 0], [1, 1, 0, 3]]]);
    const { cellWidth, cellLength, vertexWidth } = measureStretch(fabric, positions);
    expect([...cellWidth, ...cellLength, ...vertexWidth]).toEqual([0, 0, 0, 0, 0, 0]);
  });

  it.each(Object.keys(SOCKS))('%s thrown about at random: every number is finite', (name) => {
    const fabric = fabricOf(SOCKS[name]), random = createRandom(7);
    const { summary, ...fields } = measureStretch(fabric, Float64Array.from({ length: 3 * fabric.vertexCount }, () => 100 * random()));
    for (const field of Object.values(fields)) expect(field.every(Number.isFinite)).toBe(true);
    expect(Object.values(summary).every(Number.isFinite)).toBe(true);
  });
});

describe('what is told of the whole cloth', () => {
  let sheet: ReturnType<typeof makeCells>;
  const square = (side: number, width: number): [number, number, number, number][] => [[0, 0, 0, 0], [side, 0, side * width, 0], [side, side, side * width, side], [0, side, 0, side]];
  // Areas: one cell of 9 drawn out by half, ten of 1 by a tenth, one of 1 gathered to 0.7.
  beforeAll(() => { sheet = makeCells([square(3, 1.5), ...Array.from({ length: 10 }, () => square(1, 1.1)), square(1, 0.7)]); });

  it('counts by area, not by cells', () => {
    const { summary } = measureStretch(sheet.fabric, sheet.positions);
    // Of 20 in all, 1 is at -30 %, 11 at most at 10 %, the rest at 50 %.
    expect(summary.width5Percent).toBeCloseTo(-30, 9);
    expect(summary.widthMedianPercent).toBeCloseTo(10, 9);
    expect(summary.width95Percent).toBeCloseTo(50, 9);
    expect(summary.lengthMedianPercent).toBeCloseTo(0, 9);
  });

  it('a vertex has its cells\' mean by area', () => {
    // The first cell and the last share a corner: (9 x 0.5 - 1 x 0.3) / 10.
    const cellVertices = sheet.fabric.cellVertices.slice();
    cellVertices[44] = 0;
    const { vertexWidth, vertexLength } = measureStretch({ ...sheet.fabric, cellVertices }, sheet.positions);
    expect(vertexWidth[0]).toBeCloseTo(0.42, 9);
    expect(measureVertexStretch({ ...sheet.fabric, cellVertices }, sheet.positions)).toEqual({ vertexWidth, vertexLength });
  });
});
