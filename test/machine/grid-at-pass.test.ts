import { describe, expect, it } from 'vitest';
import { buildFabric, stitchSizeOf } from '../../src/fabric/build-fabric.ts';
import { buildPartFabric } from '../../src/fabric/build-part-fabric.ts';
import { checkFabric, countEuler } from '../../src/fabric/check-fabric.ts';
import type { Fabric } from '../../src/fabric/fabric.ts';
import { checkGrid } from '../../src/machine/check-grid.ts';
import { LOOP, NEEDLE } from '../../src/machine/codes.ts';
import { gridAtPass } from '../../src/machine/grid-at-pass.ts';
import { knitProgram } from '../../src/machine/knit-program.ts';
import { buildProgram } from '../../src/plan/build-program.ts';
import { mirrorProgram } from '../../src/plan/mirror-program.ts';
import { planSock } from '../../src/plan/plan-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';

const SOCK: SockFile = {
  gauge: { stitchesPer10cm: 14, rowsPer10cm: 20 }, counts: { stitches: 24, legPasses: 7, footPasses: 8 }, heel: { turnDownWidth: 4 },
};

function knit(changes: Partial<SockFile>, isMirrored: boolean) {
  const { plan } = planSock({ ...SOCK, ...changes });
  const program = isMirrored ? mirrorProgram(buildProgram(plan!)) : buildProgram(plan!);
  const { grid, trace } = knitProgram(program);
  return { program, grid: grid!, trace: trace!, fabric: buildFabric(grid!, stitchSizeOf(plan!)), plan: plan! };
}

/** Each cell as its loops from the least on, in turning order. */
function cellsOf(fabric: Fabric): Set<string> {
  const cells = new Set<string>();
  for (let c = 0; c + 1 < fabric.cellStart.length; c++) {
    const loops = Array.from(fabric.cellVertices.subarray(fabric.cellStart[c], fabric.cellStart[c + 1]), (v) => fabric.vertexLoop[v]);
    const first = loops.indexOf(Math.min(...loops));
    cells.add([...loops.slice(first), ...loops.slice(0, first)].join(' '));
  }
  return cells;
}

describe.each([
  ['flat rib leg, decreased toe', {}, false],
  ['the same mirrored', {}, true],
  ['tube leg, fast toe', { leg: { kind: 'tube' as const }, counts: { ...SOCK.counts, legPasses: 8 }, toe: { passesPerDecrease: 2 } }, false],
  ['short-row toe, plateau', { toe: { kind: 'short-row' as const }, heel: { turnDownWidth: 6, plateauPasses: 4 } }, false],
  ['heel on 16 of 24', { heel: { stitches: 16, turnDownWidth: 6, plateauPasses: 2 } }, false],
  ['the same on a tube leg without an ankle, mirrored', { leg: { kind: 'tube' as const }, counts: { ...SOCK.counts, legPasses: 8, anklePasses: 0 }, heel: { stitches: 16, turnDownWidth: 6 } }, true],
  ['slanted toe with two rates', { toe: { slantStitches: 2, schedule: [{ passes: 4, times: 2 }, { passes: 2, times: 3 }] } }, false],
  ['gathered on the front, no wraps, bind-off', { leg: { gatherBed: 'front' as const }, heel: { turnDownWidth: 4, wraps: false }, toe: { closing: 'bind-off' as const } }, false],
])('%s', (_, changes, isMirrored) => {
  const whole = knit(changes, isMirrored), wholeCells = cellsOf(whole.fabric);

  it.each(whole.trace.passes.map((record) => record.pass))('after pass %i is a sound piece of the whole', (pass) => {
    const { grid, liveNeedles } = gridAtPass(whole.program, whole.grid, whole.trace, pass);
    const part = buildPartFabric(grid, whole.fabric);
    expect(checkGrid(grid)).toEqual([]);
    expect(part.vertexCount).toBe(grid.kind.filter((kind) => kind <= LOOP.knit).length);
    expect(checkFabric(part)).toEqual([]);
    expect(part.cellRestMm.every(Number.isFinite) && part.edgeRestMm.every(Number.isFinite)).toBe(true);
    // All but the newest loops stand in the cells of the whole, the same way round; the seam and the closing are not sewn yet.
    expect([...cellsOf(part)].filter((cell) => !wholeCells.has(cell))).toEqual([]);
    // One piece: a band with its edge open, or a ring once the two ends have met.
    expect(countEuler(part)).toBe(2 - (part.boundaryStart.length - 1));
    expect(part.vertexLoop).toEqual(whole.fabric.vertexLoop.slice(0, part.vertexCount));

    // A live stitch on each needle that carries any; two on one where the other bed has not knitted its decreases off yet.
    const { needlesPerBed, needleStates } = whole.trace;
    const states = needleStates.subarray(pass * 2 * needlesPerBed, (pass + 1) * 2 * needlesPerBed);
    const carrying = new Set<string>();
    states.forEach((state, k) => { if (state !== NEEDLE.empty) carrying.add(`${k < needlesPerBed ? 'front' : 'back'} ${k % needlesPerBed + 1}`); });
    const stitches = Array.from(grid.live.keys()).filter((k) => grid.kind[grid.live[k]] !== LOOP.wrap);
    expect(new Set(stitches.map((k) => `${liveNeedles[k]?.bed} ${liveNeedles[k]?.needle}`))).toEqual(carrying);
  });
});

it('refuses a pass that there is not', () => {
  const whole = knit({}, false);
  expect(() => gridAtPass(whole.program, whole.grid, whole.trace, whole.trace.passes.length)).toThrow(/no pass/);
});
