import { describe, expect, test } from 'vitest';
import { buildFabric, stitchSizeOf } from '../../src/fabric/build-fabric.ts';
import { checkFabric, countEuler } from '../../src/fabric/check-fabric.ts';
import { checkGrid } from '../../src/machine/check-grid.ts';
import type { FabricMarks } from '../../src/fabric/fabric.ts';
import { LOOP, SECTION } from '../../src/machine/codes.ts';
import type { StitchGrid } from '../../src/machine/grid.ts';
import { knitProgram } from '../../src/machine/knit-program.ts';
import { mirrorProgram } from '../../src/plan/mirror-program.ts';
import type { Plan } from '../../src/plan/plan-types.ts';
import { knitPlan, randomPlans } from './random-sock.ts';

const SOCKS = randomPlans(20, 240).map((plan) => {
  const { program, grid, trace } = knitPlan(plan);
  return { plan, program, grid, trace, fabric: buildFabric(grid, stitchSizeOf(plan)) };
});

/** Entries of `a` that differ from those of `b`. */
const countUnlike = (a: ArrayLike<number>, b: ArrayLike<number>): number =>
  Math.abs(a.length - b.length) + Array.from(a).filter((x, i) => x !== b[i]).length;

/** Sum of a + (a + 1) + ... + b. */
const sum = (a: number, b: number): number => ((a + b) * (b - a + 1)) / 2;

/** What DESIGN's counting rules say a plan must give; common practice, no source. */
function countByHand(plan: Plan) {
  const { stitches: n, bedStitches: b, heelStitches: h, turnDownWidth: w, toeTipStitches: t } = plan;
  const isFlat = plan.legKind === 'flat-rib';
  const isShortRowToe = plan.toeKind === 'short-row';
  const heel = sum(w, h - 1) + plan.plateauPasses * w + sum(w + 1, h);
  let [left, taken, toe] = [b, 0, isShortRowToe ? sum(t, b - 1) + sum(t + 1, b) : 0];
  for (const { ends, passes } of plan.toeSteps) {
    // One stitch of each bed at each end that is decreased.
    left -= ends === 'both' ? 2 : 1;
    taken += ends === 'both' ? 4 : 2;
    toe += passes * left;
  }
  return {
    passes: plan.legPasses + plan.plainPasses + plan.anklePasses + plan.heelPasses + plan.footPasses + plan.toePasses,
    // Stitches beside a wide heel are knitted once more before it and once less after it.
    loops: n + (plan.legPasses + plan.plainPasses) * (isFlat ? n : b) + plan.anklePasses * b + heel + plan.footPasses * b + toe,
    wraps: (plan.heelWraps ? h - w : 0) + (isShortRowToe ? b - t : 0),
    cornerWraps: 2,
    transfers: (isFlat ? n : 0) + 2 * (h - b) + 2 * taken + (plan.closing === 'bind-off' ? (isShortRowToe ? b : t) : 0),
    decreases: taken,
  };
}

describe('every random sock', () => {
  test('is of every kind', () => {
    const kinds = new Set(SOCKS.map(({ plan: p }) => `${p.legKind} ${p.toeKind} ${p.closing} ${p.heelBed}`));
    expect(kinds.size).toBe(12);
    // And enough of each shape that a law over them says something.
    const shapes: readonly ((plan: Plan) => boolean)[] = [
      (p) => p.heelStitches > p.bedStitches, (p) => p.heelStitches > p.bedStitches && p.plateauPasses > 0 && p.anklePasses === 4,
      (p) => p.toeSteps.some((step) => step.ends === 'outer'), (p) => new Set(p.toeSteps.slice(0, -1).map((step) => step.passes)).size > 1,
      (p) => p.heelStitches > p.bedStitches && p.toeSteps.some((step) => step.ends === 'outer'),
    ];
    for (const isOne of shapes) expect(SOCKS.filter(({ plan }) => isOne(plan)).length).toBeGreaterThan(10);
  });

  test('knits to the counts of its plan, with all laws of grid and cloth', () => {
    for (const { plan, grid, trace, fabric } of SOCKS) {
      const { passes, loops, wraps, cornerWraps, transfers, decreases } = countByHand(plan);
      expect({ ...trace, passes: trace.passes.length - 1 }).toMatchObject({ passes, loops, wraps, cornerWraps, transfers, decreases });
      expect(checkGrid(grid)).toEqual([]);
      expect(checkFabric(fabric)).toEqual([]);
      expect(countEuler(fabric)).toBe(1);
      expect([...fabric.boundaryVertices].sort((a, b) => a - b)).toEqual(Array.from({ length: plan.stitches }, (_, i) => i));
    }
  });

  test('has its carriage on the other side after every pass', () => {
    for (const { trace } of SOCKS) {
      trace.passes.slice(2).forEach((pass, i) => { expect(pass.from).not.toBe(trace.passes[i + 1].from); });
    }
  });

  test('mirrored, gives the mirrored grid exactly', () => {
    for (const { plan, program, grid } of SOCKS) {
      const mirrored = knitProgram(mirrorProgram(program)).grid as StitchGrid;
      const reversed = grid.parents.slice();
      // Loops closed off lie behind one another, not side by side.
      const stacked = [...grid.kind.keys()].filter((i) => grid.kind[i] === LOOP.knit);
      for (const i of stacked) reversed.subarray(grid.parentStart[i], grid.parentStart[i + 1]).reverse();
      const expected: StitchGrid = {
        ...grid,
        needle: grid.needle.map((n) => plan.needlesPerBed + 1 - n),
        lean: grid.lean.map((n) => -n),
        selvedge: grid.selvedge.map((s) => ((s & 1) << 1) | (s >> 1)),
        leftOf: grid.rightOf, rightOf: grid.leftOf, parents: reversed,
      };
      const unlike = Object.entries(expected).filter(([key, value]) =>
        typeof value !== 'number' && countUnlike(value as Int32Array, mirrored[key as keyof StitchGrid] as Int32Array) > 0);
      expect(unlike.map(([key]) => key)).toEqual([]);
    }
  });

  test('has lines that run from cell to cell', () => {
    for (const { fabric } of SOCKS) {
      const marks = fabric.marks as FabricMarks, cellsOf: Set<number>[] = Array.from({ length: fabric.vertexCount }, () => new Set());
      for (let c = 0; c + 1 < fabric.cellStart.length; c++) for (let i = fabric.cellStart[c]; i < fabric.cellStart[c + 1]; i++) cellsOf[fabric.cellVertices[i]].add(c);
      const isShared = (...vertices: number[]): boolean => [...cellsOf[vertices[0]]].some((cell) => vertices.every((v) => cellsOf[v].has(cell)));
      // The side lines step over a round, so that their points lie in cells of their own.
      for (const side of [marks.sideLeft, marks.sideRight]) side.a.forEach((a, i) => { if (!isShared(a, side.b[i])) throw new Error(`side: ${i}`); });
      const { mitreLeft, mitreRight, heelFirstRow, shortBase, heelDiagonal, footRounds, legRounds } = marks;
      for (const [k, path] of [mitreLeft, mitreRight, heelFirstRow, shortBase, heelDiagonal, ...footRounds, ...legRounds].entries()) {
        const broken = Array.from(path.a.keys()).slice(path.isClosed ? 0 : 1).filter((i) => !isShared(path.a[i], path.a.at(i - 1) as number));
        expect([k, broken]).toEqual([k, []]);
      }
    }
  });

  test('has its stitches round the tube in order: neighbours of a course are a stitch apart, and wales stay where they are but at a toe', () => {
    for (const { plan, grid, fabric } of SOCKS) {
      const apart = (v: number, w: number): number => {
        const turns = fabric.vertexAround[w] - fabric.vertexAround[v];
        return Math.abs(turns - Math.round(turns)) * plan.stitches;
      };
      let [across, along] = [0, 0];
      for (let v = 0; v < fabric.vertexCount; v++) {
        const loop = fabric.vertexLoop[v], right = fabric.loopVertex[grid.rightOf[loop]] ?? -1, child = fabric.loopVertex[grid.child[loop]] ?? -1;
        const isToe = (w: number): boolean => fabric.vertexSection[w] === SECTION.toe;
        if (right >= 0 && !isToe(v) && !isToe(right) && fabric.vertexSection[right] > SECTION.plain) across = Math.max(across, apart(v, right));
        if (child >= 0 && !isToe(child)) along = Math.max(along, apart(v, child));
      }
      expect(across).toBeLessThan(1 + 1e-6);
      expect(along).toBeLessThan(1e-6);
    }
  });

  test('has its rounds whole, a stitch a wale', () => {
    for (const { plan, fabric: { marks } } of SOCKS) {
      for (const round of [...marks?.footRounds ?? [], ...marks?.legRounds ?? []]) expect(round.a.length).toBe(plan.stitches);
      expect(marks?.footRounds.length).toBe(plan.footPasses / 2);
    }
  });

  test('at twice the gauge, has cells and edges of half the size', () => {
    for (const { plan, grid, fabric: coarse } of SOCKS.slice(0, 60)) {
      const fine = buildFabric(grid, stitchSizeOf({ ...plan, stitchesPerMm: 2 * plan.stitchesPerMm, rowsPerMm: 2 * plan.rowsPerMm }));
      const worst = (a: Float64Array, b: Float64Array): number => a.reduce((most, x, i) => Math.max(most, Math.abs(x - 2 * b[i])), 0);
      expect(worst(coarse.cellRestMm, fine.cellRestMm)).toBeLessThan(1e-9);
      expect(worst(coarse.edgeRestMm, fine.edgeRestMm)).toBeLessThan(1e-9);
    }
  });

  test('is its own mirror image within a row: left and right mitres wait as many loops', () => {
    for (const { plan, fabric: { marks } } of SOCKS) {
      expect(marks?.mitreLeft.a.length).toBe(marks?.mitreRight.a.length);
      expect(marks?.shortBase.a.length).toBe(plan.turnDownWidth);
    }
  });
});
