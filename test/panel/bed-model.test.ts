import { describe, expect, it } from 'vitest';
import { perInchToPer10cm } from '../../src/base/unit.ts';
import { BED, LOOP, NEEDLE } from '../../src/machine/codes.ts';
import { gridAtPass } from '../../src/machine/grid-at-pass.ts';
import { type BedScene, createBedBook } from '../../src/panel/bed-model.ts';
import { jumpBySection, markAt, markSections } from '../../src/panel/section-marks.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import type { NeedleRef, Step } from '../../src/plan/step.ts';
import { listWork } from '../../src/sheet/list-work.ts';
import { knitPlan, randomPlans } from '../laws/random-sock.ts';

const socks = randomPlans(20261126, 24).map((plan) => {
  const made = knitPlan(plan), items = listWork(made.program, made.trace);
  return { plan, ...made, items, book: createBedBook(made, items) };
});

/** States of a whole bed as the drawing has them; what it leaves out is to be empty. */
function statesDrawn({ needles }: BedScene, needlesPerBed: number): Uint8Array {
  const states = new Uint8Array(2 * needlesPerBed).fill(NEEDLE.empty);
  for (const { bed, needle, state } of needles) states[BED[bed] * needlesPerBed + needle - 1] = state;
  return states;
}

/** What lies between one knitted pass and the next, read off the program without the list of work. */
function stepsByPass(steps: readonly Step[]): { before: Step[]; after: Step[] }[] {
  const stops: { before: Step[]; after: Step[] }[] = [];
  let waiting: Step[] = [];
  for (const step of steps) {
    if (step.do === 'wrap') stops.at(-1)?.after.push(step);
    else if (step.do !== 'knit' && step.do !== 'cast-on') waiting.push(step);
    else {
      stops.push({ before: waiting, after: [] });
      waiting = [];
    }
  }
  return [...stops, { before: waiting, after: [] }];
}

const key = ({ bed, needle }: NeedleRef): string => `${bed} ${needle}`;
const sorted = (refs: readonly NeedleRef[]): string[] => refs.map(key).sort();

describe('the beds drawn, for random socks at every stop', () => {
  it('have the needle states of the trace, on a span that holds all that is used', () => {
    for (const { trace, book } of socks) {
      const width = 2 * trace.needlesPerBed;
      for (const { pass } of trace.passes) {
        const scene = book.sceneAt(pass);
        expect(statesDrawn(scene, trace.needlesPerBed)).toEqual(trace.needleStates.slice(pass * width, (pass + 1) * width));
        expect([...scene.course, ...scene.moves.flatMap(({ from, to }) => [from, to])].every(({ needle }) => needle >= scene.first && needle <= scene.last)).toBe(true);
      }
    }
  });

  it('show the program\'s transfers, holds, returns and wraps, each at its stop', () => {
    let moves = 0, wraps = 0;
    for (const { program, book, trace } of socks) {
      const told = stepsByPass(program.steps);
      expect(book.items.length).toBe(told.length);
      told.forEach(({ before, after }, stop) => {
        const scene = book.sceneAt(stop);
        expect(scene.moves).toEqual(before.flatMap((step) => (step.do === 'transfer' ? step.moves : [])));
        const refs = (what: Step['do'], steps: readonly Step[]): string[] => sorted(steps.flatMap((step) => (step.do === what && 'at' in step ? [step.at] : [])));
        expect(sorted(scene.needles.filter(({ isNowHeld }) => isNowHeld))).toEqual(refs('hold', before));
        expect(sorted(scene.needles.filter(({ isReturned }) => isReturned))).toEqual(refs('return', before));
        expect(sorted(scene.needles.filter(({ isWrapped }) => isWrapped))).toEqual(refs('wrap', after));
        moves += scene.moves.length;
        wraps += scene.needles.filter(({ isWrapped }) => isWrapped).length;
      });
      expect(told.flatMap((_, stop) => book.sceneAt(stop).moves).length).toBe(trace.transfers);
    }
    expect([moves > 0, wraps > 0]).toEqual([true, true]);
  });

  it('have on each needle the loops that the machine has there', () => {
    for (const { program, grid, trace, book } of socks.slice(0, 8)) {
      for (let pass = 0; pass < trace.passes.length; pass += 7) {
        const piece = gridAtPass(program, grid, trace, pass), on = new Map<string, { loops: number[]; wraps: number }>();
        piece.grid.live.forEach((loop, i) => {
          const at = piece.liveNeedles[i]!, here = on.get(key(at)) ?? { loops: [], wraps: 0 };
          if (piece.grid.kind[loop] === LOOP.wrap) here.wraps++;
          else here.loops.push(loop);
          on.set(key(at), here);
        });
        for (const needle of book.sceneAt(pass).needles) {
          const there = on.get(key(needle));
          expect([needle.stitches, needle.wraps]).toEqual([there?.loops.length ?? 0, there?.wraps ?? 0]);
          expect(there?.loops ?? [-1]).toContain(needle.loop);
        }
      }
    }
  });

  it('let the carriage cross from where it stands to the other side, pass by pass', () => {
    for (const { book, trace } of socks) {
      for (let stop = 1; stop < trace.passes.length; stop++) {
        const scene = book.sceneAt(stop);
        expect(scene.from).toBe(book.sceneAt(stop - 1).to);
        expect(scene.to).not.toBe(scene.from);
        expect(scene.needles.filter(({ isKnitted }) => isKnitted).length).toBe(trace.passes[stop].knitted);
      }
      const closing = book.sceneAt(trace.passes.length);
      expect(closing.grafts.length + closing.bindOff.length).toBeGreaterThan(0);
    }
  });
});

// Common practice, no source; counted by hand: 50 rib rows, 2 plain, 4 ankle, 22 in and 22 out, 98 foot, 42 toe.
it('jumps land where the common-practice sock begins each part', () => {
  const { sock } = knitSock({
    gauge: { stitchesPer10cm: perInchToPer10cm(8), rowsPer10cm: perInchToPer10cm(10) },
    counts: { stitches: 64, legPasses: 50, anklePasses: 4, footPasses: 98 },
    heel: { turnDownWidth: 10 }, toe: { tipStitches: 10, passesPerDecrease: 4 },
  });
  const marks = markSections(listWork(sock!.program, sock!.trace));
  expect(marks.map(({ part, stop, end }) => [part, stop, end])).toEqual([
    ['cast-on', 0, 0], ['leg', 1, 50], ['plain', 51, 52], ['turn', 53, 56], ['heel-in', 57, 78], ['heel-out', 79, 100],
    ['foot', 101, 198], ['toe', 199, 240], ['closing', 241, 241],
  ]);
  expect(markAt(marks, 57)?.part).toBe('heel-in');
  expect([jumpBySection(marks, 60, 1), jumpBySection(marks, 60, -1), jumpBySection(marks, 57, -1)]).toEqual([79, 57, 53]);
  expect([jumpBySection(marks, 241, 1), jumpBySection(marks, 0, -1)]).toEqual([241, 0]);
});

it('every sock\'s parts are its stops, each once', () => {
  for (const { items } of socks) {
    const marks = markSections(items);
    expect(marks.flatMap(({ stop, end }) => Array.from({ length: end - stop + 1 }, (_, i) => stop + i))).toEqual(items.map((_, i) => i));
    expect([marks[0].part, marks.at(-1)!.part]).toEqual(['cast-on', 'closing']);
  }
});
