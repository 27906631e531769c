import { describe, expect, test } from 'vitest';
import { buildFabric } from '../../src/fabric/build-fabric.ts';
import { checkFabric, countEuler } from '../../src/fabric/check-fabric.ts';
import { checkGrid } from '../../src/machine/check-grid.ts';
import { BED, LOOP } from '../../src/machine/codes.ts';
import { knitProgram } from '../../src/machine/knit-program.ts';
import type { Bed } from '../../src/plan/sock-file.ts';
import type { NeedleRef, Side, Step } from '../../src/plan/step.ts';

const at = (bed: Bed, needle: number): NeedleRef => ({ bed, needle });
const row = (bed: Bed, first: number, last: number): NeedleRef[] =>
  Array.from({ length: Math.abs(last - first) + 1 }, (_, i) => at(bed, first + Math.sign(last - first) * i));
const knit = (from: Side, ...beds: Bed[]): Step => ({ do: 'knit', beds, from, section: 'leg' });
const castOn = (needles: NeedleRef[], isClosed = false): Step => ({
  do: 'cast-on', needles, isClosed, carriage: 'right', yarn: 0, section: 'cast-on',
});
const SIZE = { courseMm: 3, waleMm: 2, ribCourseMm: 2.4 };

const run = (steps: Step[], isUnfinished = false, needlesPerBed = 20) =>
  knitProgram({ needlesPerBed, yarnCount: 2, steps }, { isUnfinished });

function knitted(steps: Step[], isUnfinished = false) {
  const knitting = run(steps, isUnfinished);
  if (knitting.fault) throw new Error(JSON.stringify(knitting.fault));
  expect(checkGrid(knitting.grid)).toEqual([]);
  const fabric = buildFabric(knitting.grid, SIZE);
  expect(checkFabric(fabric)).toEqual([]);
  return { ...knitting, fabric };
}

describe('programs that no plan of ours makes', () => {
  test('a flat swatch, bound off: a disk whose boundary is its whole edge', () => {
    const { fabric, trace } = knitted([
      castOn(row('front', 1, 6)),
      knit('right', 'front'), knit('left', 'front'), knit('right', 'front'),
      { do: 'bind-off', needles: row('front', 1, 6), yarn: 0 },
    ]);
    expect(trace.loops).toBe(24);
    expect(countEuler(fabric)).toBe(1);
    expect(fabric.cellStart.length - 1).toBe(15);
    // 6 along each of two edges, 2 rows more up each side.
    expect([...fabric.boundaryStart]).toEqual([0, 16]);
    expect(fabric.marks).toBeNull();
  });

  test('an open tube on the needles: a cylinder with two boundaries', () => {
    const { fabric, grid } = knitted([
      castOn([...row('back', 5, 1), ...row('front', 1, 5)], true),
      knit('right', 'back'), knit('left', 'front'), knit('right', 'back'), knit('left', 'front'),
    ], true);
    expect(grid.live).toHaveLength(10);
    expect(countEuler(fabric)).toBe(0);
    expect(fabric.boundaryStart).toHaveLength(3);
  });

  /** Geometry of the beds: seen from outside the back bed's low needles lie to the right. */
  test('a stitch that came round the end of a tube leans as its new bed moves it', () => {
    const { grid } = knitted([
      castOn([...row('back', 5, 1), ...row('front', 1, 5)], true),
      knit('right', 'back'), knit('left', 'front'),
      { do: 'transfer', why: 'heel', moves: [{ from: at('front', 5), to: at('back', 6) }] },
      { do: 'transfer', why: 'decrease', moves: [{ from: at('back', 5), to: at('back', 4) }, { from: at('back', 6), to: at('back', 5) }] },
      knit('right', 'back'), knit('left', 'front'),
    ], true);
    const leaning = Array.from({ length: grid.loopCount }, (_, i) => i).filter((i) => grid.lean[i] !== 0);
    expect(leaning.map((i) => [grid.pass[i], grid.bed[i] === BED.back ? 'back' : 'front', grid.needle[i], grid.lean[i]])).toEqual([[1, 'back', 5, 1], [2, 'front', 5, 1]]);
  });

  test('a bag: a tube whose last round is grafted shut', () => {
    const { fabric } = knitted([
      castOn([...row('back', 5, 1), ...row('front', 1, 5)], true),
      knit('right', 'back'), knit('left', 'front'), knit('right', 'back'), knit('left', 'front'),
      { do: 'graft', pairs: [1, 2, 3, 4, 5].map((i) => [at('front', i), at('back', i)] as const), yarn: 1 },
    ]);
    expect(countEuler(fabric)).toBe(1);
    expect(fabric.boundaryVertices).toHaveLength(10);
  });

  test('a lace hole: a transfer onto a neighbour loses a loop and leaves an empty needle', () => {
    const { grid, trace } = knitted([
      castOn(row('front', 1, 5)), knit('right', 'front'),
      { do: 'transfer', why: 'other', moves: [{ from: at('front', 3), to: at('front', 4) }] },
      knit('left', 'front'),
      { do: 'bind-off', needles: row('front', 1, 5).filter((n) => n.needle !== 3), yarn: 0 },
    ]);
    expect(trace.loops).toBe(5 + 5 + 4);
    const stacked = [...grid.kind.keys()].filter((i) => grid.kind[i] === LOOP.knit && grid.parentStart[i + 1] - grid.parentStart[i] === 2);
    expect(stacked).toHaveLength(1);
  });

  test('short rows on a flat piece: a dart, still one disk', () => {
    const { fabric } = knitted([
      castOn(row('front', 6, 1).reverse()), knit('right', 'front'),
      { do: 'hold', at: at('front', 6) }, knit('left', 'front'), { do: 'wrap', at: at('front', 6) }, knit('right', 'front'),
      { do: 'hold', at: at('front', 5) }, knit('left', 'front'), { do: 'wrap', at: at('front', 5) }, knit('right', 'front'),
      { do: 'return', at: at('front', 5) }, { do: 'return', at: at('front', 6) },
      knit('left', 'front'), knit('right', 'front'),
      { do: 'take-off', needles: row('front', 1, 6) },
    ], true);
    expect(countEuler(fabric)).toBe(1);
    expect(fabric.boundaryStart).toHaveLength(2);
  });

  test('the purl side of a rib is told by the bed it is gathered on', () => {
    const rib = [1, 2, 3, 4].map((i) => at(i % 2 === 1 ? 'back' : 'front', i));
    const { grid } = knitted([
      castOn(rib), knit('right', 'front', 'back'),
      { do: 'transfer', why: 'gather', moves: [2, 4].map((i) => ({ from: at('front', i), to: at('back', i) })) },
      knit('left', 'back'), { do: 'bind-off', needles: row('back', 1, 4), yarn: 0 },
    ]);
    const isPurl = (needle: number, pass: number): number | undefined =>
      grid.isPurl[[...grid.needle.keys()].find((i) => grid.needle[i] === needle && grid.pass[i] === pass) ?? -1];
    expect([1, 2, 3, 4].map((n) => isPurl(n, 1))).toEqual([0, 1, 0, 1]);
    expect([1, 2, 3, 4].map((n) => isPurl(n, 2))).toEqual([0, 0, 0, 0]);
  });
});

describe('what a machine cannot do is refused, with its place', () => {
  const base: Step[] = [castOn(row('front', 1, 5)), knit('right', 'front')];
  const cases: readonly (readonly [string, Step[], { pass: number; bed: Bed | null; needle: number | null; reason: RegExp }])[] = [
    ['knitting from the side where the carriage is not', [...base, knit('right', 'front')], { pass: 1, bed: null, needle: null, reason: /carriage stands on the left/ }],
    ['knitting before a cast-on', [knit('right', 'front')], { pass: 0, bed: null, needle: null, reason: /no cast-on/ }],
    ['knitting a bed that is empty', [...base, knit('left', 'back')], { pass: 1, bed: 'back', needle: null, reason: /no needle of the bed works/ }],
    ['a transfer from an empty needle', [...base, { do: 'transfer', why: 'other', moves: [{ from: at('front', 9), to: at('front', 8) }] }], { pass: 1, bed: 'front', needle: 9, reason: /empty/ }],
    ['a transfer past the end of the bed', [...base, { do: 'transfer', why: 'other', moves: [{ from: at('front', 1), to: at('front', 0) }] }], { pass: 1, bed: 'front', needle: 0, reason: /needles 1 to 20/ }],
    ['a transfer onto itself', [...base, { do: 'transfer', why: 'other', moves: [{ from: at('front', 1), to: at('front', 1) }] }], { pass: 1, bed: 'front', needle: 1, reason: /there already/ }],
    ['more needles than the bed has', [castOn(row('front', 17, 22))], { pass: 0, bed: 'front', needle: 21, reason: /needles 1 to 20/ }],
    ['a needle between two needles', [castOn([at('front', 1.5)])], { pass: 0, bed: 'front', needle: 1.5, reason: /needles 1 to 20/ }],
    ['two loops cast on one needle', [castOn([at('front', 1), at('front', 1)])], { pass: 0, bed: 'front', needle: 1, reason: /carries a loop/ }],
    ['a hold that leaves no needle', [castOn([at('front', 3)]), { do: 'hold', at: at('front', 3) }], { pass: 0, bed: 'front', needle: 3, reason: /leave no needle/ }],
    ['holding an empty needle', [...base, { do: 'hold', at: at('back', 3) }], { pass: 1, bed: 'back', needle: 3, reason: /only a working needle/ }],
    ['returning a needle that works', [...base, { do: 'return', at: at('front', 3) }], { pass: 1, bed: 'front', needle: 3, reason: /not in hold/ }],
    ['a wrap far from the yarn', [...base, { do: 'hold', at: at('front', 5) }, { do: 'wrap', at: at('front', 5) }], { pass: 1, bed: 'front', needle: 5, reason: /on the left/ }],
    ['a wrap round a working needle', [...base, { do: 'wrap', at: at('front', 1) }], { pass: 1, bed: 'front', needle: 1, reason: /can be wrapped/ }],
    ['yarn that there is not', [...base, { do: 'yarn', yarn: 2 }], { pass: 1, bed: null, needle: null, reason: /no yarn number 2/ }],
    ['grafting an empty needle', [...base, { do: 'graft', pairs: [[at('front', 1), at('back', 1)]], yarn: 0 }], { pass: 1, bed: 'back', needle: 1, reason: /empty/ }],
    ['sewing where there is no edge', [...base, { do: 'seam', fromPass: 0, toPass: 7 }], { pass: 1, bed: null, needle: null, reason: /no pass 2/ }],
    ['loops left live at the end', base, { pass: 1, bed: 'front', needle: 1, reason: /left live/ }],
    ['loops taken off and forgotten', [...base, { do: 'take-off', needles: row('front', 1, 5) }], { pass: 1, bed: 'front', needle: 1, reason: /taken off/ }],
    ['a second cast-on', [...base, castOn(row('back', 1, 5))], { pass: 1, bed: null, needle: null, reason: /cast on already/ }],
  ];
  test.each(cases)('%s', (_name, steps, expected) => {
    const { fault } = run(steps);
    expect(fault).toMatchObject({ pass: expected.pass, bed: expected.bed, needle: expected.needle });
    expect(fault?.reason).toMatch(expected.reason);
  });
});
