import { describe, expect, it } from 'vitest';
import { BED, LOOP, NEEDLE } from '../../src/machine/codes.ts';
import type { StitchGrid } from '../../src/machine/grid.ts';
import { knitProgram } from '../../src/machine/knit-program.ts';
import type { Trace } from '../../src/machine/trace.ts';
import { mirrorProgram } from '../../src/plan/mirror-program.ts';
import { writePassesCsv, writePassesJson } from '../../src/sheet/write-passes.ts';
import { knitPlan, randomPlans } from '../laws/random-sock.ts';
import type { SecondKnitting, SecondLoop } from './second-machine.ts';
import { knitAgain, readCsv, stopsOf } from './second-machine.ts';

const KINDS: Readonly<Record<SecondLoop['kind'], number>> = { 'cast-on': LOOP.castOn, knit: LOOP.knit, wrap: LOOP.wrap, join: LOOP.graft, 'bind-off': LOOP.bindOff };

/** Loops of a grid in the words of the second machine. */
function loopsOf(grid: StitchGrid): { kind: number; pass: number; needle: string; yarn: number; through: number[] }[] {
  return Array.from({ length: grid.loopCount }, (_, i) => ({
    kind: grid.kind[i], pass: grid.pass[i], needle: `${grid.bed[i] === BED.front ? 'F' : 'B'}${grid.needle[i]}`, yarn: grid.yarn[i] + 1,
    through: [...grid.parents.subarray(grid.parentStart[i], grid.parentStart[i + 1])].sort((a, b) => a - b),
  }));
}

function expectSameKnitting(again: SecondKnitting, grid: StitchGrid, trace: Trace): void {
  expect(again.loops.map((loop) => ({ ...loop, kind: KINDS[loop.kind], through: [...loop.through].sort((a, b) => a - b) }))).toEqual(loopsOf(grid));
  expect(again.states).toHaveLength(trace.passes.length);
  again.states.forEach(({ working, held }, pass) => {
    const seen = Array.from({ length: 2 * trace.needlesPerBed }, (_, i) => {
      const name = `${i < trace.needlesPerBed ? 'F' : 'B'}${i % trace.needlesPerBed + 1}`;
      return held.has(name) ? NEEDLE.held : working.has(name) ? NEEDLE.working : NEEDLE.empty;
    });
    expect(seen, `needles after pass ${pass}`).toEqual([...trace.needleStates.subarray(pass * 2 * trace.needlesPerBed, (pass + 1) * 2 * trace.needlesPerBed)]);
  });
  expect(again.live).toBe(0);
}

/** Outside check: a needle model of the tests' own, fed by a reader of the tests' own. */
describe('files of passes, knitted on a second machine', () => {
  const plans = randomPlans(20260, 40);

  it('as CSV they give the grid’s loops, the same needles after each pass, and nothing live', () => {
    for (const plan of plans) {
      const { program, grid, trace } = knitPlan(plan);
      expectSameKnitting(knitAgain(stopsOf(readCsv(writePassesCsv({ plan, program, trace })))), grid, trace);
    }
  });

  it('as JSON they say the same, and draw the needles as the second machine has them', () => {
    for (const plan of plans.slice(0, 12)) {
      const { program, grid, trace } = knitPlan(plan);
      const file = JSON.parse(writePassesJson({ plan, program, trace })) as { passes: number; stops: (Parameters<typeof knitAgain>[0][number] & { needles?: { front: string; back: string } })[] };
      const again = knitAgain(file.stops);
      expectSameKnitting(again, grid, trace);
      expect(file.passes).toBe(trace.passes.length - 1);
      again.states.forEach(({ working, held }, pass) => {
        const draw = (bed: string): string => Array.from({ length: program.needlesPerBed }, (_, i) => (held.has(bed + String(i + 1)) ? 'o' : working.has(bed + String(i + 1)) ? '|' : '.')).join('');
        expect(file.stops[pass].needles).toEqual({ front: draw('F'), back: draw('B') });
      });
    }
  });

  it('the other foot’s sock, its program mirrored, is knitted as well', () => {
    for (const plan of plans.slice(0, 12)) {
      const program = mirrorProgram(knitPlan(plan).program), { grid, trace, fault } = knitProgram(program);
      if (fault !== null) throw new Error(fault.reason);
      expectSameKnitting(knitAgain(stopsOf(readCsv(writePassesCsv({ plan, program, trace })))), grid, trace);
    }
  });

  it('the carriage changes sides with every pass, and counts stitches as the second machine does', () => {
    for (const plan of plans) {
      const { program, trace } = knitPlan(plan), stops = stopsOf(readCsv(writePassesCsv({ plan, program, trace })));
      const { loops } = knitAgain(stops);
      stops.forEach(({ kind, from, to, knitted, stop, yarn }, i) => {
        if (i > 0) expect(from).toBe(stops[i - 1].to);
        expect(to !== from).toBe(kind === 'pass');
        const made = loops.filter((loop) => loop.pass === stop && (loop.kind === 'knit' || loop.kind === 'cast-on'));
        expect(made).toHaveLength(knitted);
        expect(made.every((loop) => loop.yarn === yarn)).toBe(true);
      });
    }
  });

  it('a yarn’s name with commas, quotes and line ends comes back from the quoting', () => {
    const name = 'Oat, "soft"\r\ntwo-ply', plan = { ...plans[0], yarns: plans[0].yarns.map((yarn) => ({ ...yarn, name })) };
    const [heads, ...rows] = readCsv(writePassesCsv({ ...knitPlan(plans[0]), plan }));
    expect(new Set(rows.map((row) => row.length))).toEqual(new Set([heads.length]));
    expect(new Set(rows.map((row) => row[heads.indexOf('yarn name')]))).toEqual(new Set([name]));
  });
});
